"""English: what is noticed of sections wider or narrower than the piece, and what would suit."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from knotplot.errors import Path
from knotplot.kinds import kind_words, section_names
from knotplot.notices.en.terms import LANGUAGE, Section, Sentence, Terms
from knotplot.units import both


def sections_crowded(
    terms: Terms, sections: tuple[Section, ...], widest: Section, wide: tuple[float, ...],
    takes: float, has: float, skips_cords: bool, tightens: bool, strands: int | None, cord: Path,
    thick: float | None, of: str, width: Fraction, inches: bool,
) -> str:  # fmt: skip
    """Say which sections are wider than their room where nothing pulls, and what would suit.

    `takes` and `has` (mm) are those of the `widest`, `wide` what each takes.
    """
    name, kind = widest
    words = kind_words(kind, LANGUAGE)
    one = len(sections) == 1 and (name != kind or words.one != words.many)
    several = len({both(each) for each in wide}) > 1
    are, have, they = ("is", "has", "it") if one else ("are", "have", "they")
    easy = _easy(len(sections) == 1, skips_cords, tightens)
    fewer = terms.pick(f"'count: {strands}' under 'strands'", f"{strands} strands")
    ways = [fewer] if strands else []
    ways += [] if thick is None else [terms.thickness(thick, cord)]
    ways.append(terms.width(width, inches, of))
    use = "use " + (", ".join(ways[:-1]) + " or " if ways[1:] else "") + ways[-1]
    return (
        f"{section_names(sections)} {are} {'up to ' * several}{both(takes)} wide where nothing "
        f"pulls, and {have} {both(has)}: {they} may flare; {'; or '.join([*easy, use])}"
    )


def _easy(one: bool, skips_cords: bool, tightens: bool) -> Iterator[str]:
    """Yield what brings sections to their room without a change of the piece's figures."""
    if skips_cords:
        them, each = ("it", "it") if one else ("them", "each")
        yield (
            f"leave {them} out, or hitch only one cord of every two onto {each} and let the other "
            "pass behind"
        )
    if tightens:
        yield "pull the hitches tightly together"


def hitches_gape(_: Terms, sections: tuple[Section, ...], takes: float, has: float) -> str:
    """Say which lines of hitches don't fill their width."""
    return (
        f"{section_names(sections)} {'fills' if len(sections) == 1 else 'fill'} only {both(takes)} "
        f"of {both(has)} when the hitches touch: the leader shows between them; use thicker cord "
        "or more strands to close them"
    )


def work_narrow(
    terms: Terms, takes: float, has: float, cord: Path, thick: float | None, of: str,
    width: Fraction, inches: bool,
) -> str:  # fmt: skip
    """Say how wide the work comes out where nothing holds it as wide as the piece is to be."""
    ways = [terms.width(width, inches, of)]
    ways += [] if thick is None else [terms.thickness(thick, cord)]
    return (
        f"the work comes out {both(takes)} wide, and the piece is to be {both(has)}: nothing in it "
        f"is wider; use {' or '.join(ways)}, or more strands"
    )


SENTENCES: tuple[Sentence, ...] = (sections_crowded, hitches_gape, work_narrow)
