"""English: what is noticed of sections, motifs, mount and lower edge."""

from __future__ import annotations

from fractions import Fraction

from knotplot.kinds import section_name
from knotplot.notices.en.terms import Section, Sentence, Terms, measure
from knotplot.tying.names import ranges, some_rows
from knotplot.units import both, cm


def rows_fit_nowhere(
    terms: Terms, section: Section, rows: tuple[int, ...], until: int, more: int
) -> str:
    """Say which rows of a band fit nowhere above the lower edge."""
    them, fit = ("it", "fits") if len(rows) + more == 1 else ("them", "fit")
    return (
        f"{terms.section(section)}: {some_rows(rows, until, more)} {fit} nowhere above the lower "
        f"edge, so nothing of {them} is worked"
    )


def rows_pushed_apart(terms: Terms, section: Section, gap: float) -> str:
    """Say how much cord (mm) is left bare so that rows don't lie on each other."""
    return (
        f"{terms.section(section)}: knots would lie on those of the rows above, so up to "
        f"{both(gap)} of cord is left bare above them"
    )


def led_twice(terms: Terms, section: Section, step: int, lane: int, before: int) -> str:
    """Say that a bar leads the strand that the bar before moved there."""
    lanes = terms.pick("lanes", "places")
    leads, led = (terms.pick(f"lane {n}", f"the cord in place {n}") for n in (lane, before))
    return (
        f"{terms.section(section)}: step {step} leads {leads} straight after a bar that led {led} "
        f"the same way: {lanes} are counted anew after every bar, so the next strand to lead hangs "
        f"in {terms.pick('lane', 'place')} {before} again"
    )


def more_alike(_: Terms, count: int) -> str:
    """Say how many notices like those before are left out."""
    return f"and {count} more like these"


def picots_unheld(
    terms: Terms, section: Section, motif: str, step: int, knot: str, lanes: tuple[int, ...],
    rows: tuple[int, ...],
) -> str:  # fmt: skip
    """Say which picots flop outwards, since no knot above holds them."""
    row = f"row{'s' * (len(rows) > 1)} {ranges([str(row) for row in rows])}"
    plain = terms.pick(
        f"before it: '- knot: {{kind: {knot}, lanes: {list(lanes)}}}'",
        "on the same cords before it",
    )
    return (
        f"{section_name(*section)}, {row}: step {step} of motif {motif} leaves picots above the "
        "first knot of its run, where no knot above holds them: they flop outwards like ears; tie "
        f"a plain knot {plain}"
    )


def fringes_unlike(
    terms: Terms, top: float, bottom: float, alike: Fraction, inches: bool, filled: bool
) -> str:
    """Say that a runner's two fringes are unlike, and how long (mm) both would be alike."""
    told = measure(alike, inches)
    length = "" if filled else f" and 'length: {told}' for the last fringe"
    return (
        f"the fringes at the two ends are unlike: {both(top)} at the top, {both(bottom)} at the "
        "bottom, which takes what the drop leaves; use "
        + terms.pick(f"'tail: {told}' under 'mount'{length}", f"{told} for both")
    )


def tails_short(terms: Terms, takes: float, tail: float, hangs: float) -> str:
    """Say that less than `hangs` (mm) of a pocket's tails is left below their knots."""
    return (
        f"{_mount(terms)}: the tails' knots take {cm(takes)} of {cm(tail)}, so that less than "
        f"{cm(hangs)} is left to hang; a tail of {cm(takes + hangs)} would do"
    )


def tail_overlong(terms: Terms, tail: Fraction) -> str:
    """Say that tails are longer than the piece."""
    return (
        f"{_mount(terms)}: a tail of {both(tail)} is longer than the whole piece, and every cord "
        "is cut so much longer; see that it is meant"
    )


def _mount(terms: Terms) -> str:
    return terms.pick("mount", "mounting")


def leader_overlong(_: Terms, section: Section, over: Fraction) -> str:
    """Say that a leader stands out further than the piece is wide."""
    return (
        f"{section_name(*section)}: its leader stands out {both(over)} at each side, more than the "
        "piece is wide; see that it is meant"
    )


def scallops_narrow(terms: Terms, count: int, strands: int, most: int) -> str:
    """Say that scallops are too narrow to be seen in the fringe."""
    return (
        f"{terms.pick('lower_edge', 'lower edge')}: {count} scallops on {strands} strands are "
        f"{strands / count:.1f} strands wide each, too narrow to be seen; use {most} or fewer"
    )


SENTENCES: tuple[Sentence, ...] = (
    rows_fit_nowhere, rows_pushed_apart, led_twice, more_alike, picots_unheld, fringes_unlike,
    tails_short, tail_overlong, leader_overlong, scallops_narrow,
)  # fmt: skip
