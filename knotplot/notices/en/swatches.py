"""English: what is noticed of swatches, and of the maker's own figures."""

from __future__ import annotations

from fractions import Fraction

from knotplot.errors import Path, dotted
from knotplot.kinds import section_names
from knotplot.notices.en.terms import Section, Sentence, Terms
from knotplot.notices.en.terms import rows as _rows
from knotplot.tying.names import few
from knotplot.units import both

#: The model's figure for a net on two fillers (tested). Solved, pushed up as far as knots go (0.67
#: as high), a length of net takes 1.44 times the cord: `square_knot_net` in `solved.json`.
_PUSHED_UP = "pushed a quarter closer they take a third more cord"


def swatch_without_rows(terms: Terms, of: str | None, given: tuple[str, ...]) -> str:
    """Say that what a swatch gives can't be used without its rows."""
    add = terms.pick("add 'rows', the number", "add the number")
    return (
        f"{terms.swatch(of)}: {_given(terms, given)} can't be used without its rows; {add} of rows "
        "that were knotted"
    )


def swatch_of_nothing(terms: Terms, of: str | None, given: tuple[str, ...]) -> str:
    """Say that nothing in the piece is knotted as a swatch says it is."""
    return (
        f"{terms.swatch(of)}: {_given(terms, given)} can't be used, since the piece has no rows of "
        "knots called that; name a section that is knotted in rows"
    )


def _given(terms: Terms, given: tuple[str, ...]) -> str:
    words = {"cord_used": terms.pick("cord_used", "the cord your swatch took")}
    return " and ".join(words.get(each, each) for each in given)


def swatch_beyond_reach(
    terms: Terms, of: str, rows: int, height: float, tall: float, end: str | None,
    measured: float, bare_key: str | None,
) -> str:  # fmt: skip
    """Say that knots can't be so tall, or so low, as a swatch says, and what to look at."""
    unused = ", so that the height isn't used" if end else ""
    bare = terms.pick(f"the section's '{bare_key}'", "the bare cord between rows")
    come = "1 row comes" if rows == 1 else f"{rows} rows come"
    return (
        f"{terms.called(of)}: {come} to {both(height)} at the {end or 'nearest'} (knots {tall:.2f} "
        f"times their usual height), not to the swatch's {both(measured)}{unused}; check its rows "
        f"and height{f', {bare}' if bare_key else ''}, and the cord's diameter"
    )


def knots_too_tall(terms: Terms, section: Section, asked: float, taken: float) -> str:
    """Say that a motif can't be worked with knots as tall as the swatches have them."""
    return (
        f"{terms.section(section)}: strands of its motif would cross with knots {asked:.2f} times "
        f"their usual height, as the swatches have them; they are taken as {taken:.2f} times; give "
        "it a swatch of its own"
    )


def swatch_doubtful(terms: Terms, of: str | None, rows: int, ratio: float, used: bool) -> str:
    """Say that a swatch's cord is hardly that of one strand over its rows."""
    unused = "" if used else ", less than a straight cord past them, and isn't used"
    cord = terms.pick("'cord_used'", "the cord your swatch took")
    return (
        f"{terms.swatch(of)}: its cord over {_rows(rows)} is {ratio:.2f} times what such knots "
        f"take when pulled tight{unused}; check that {cord} is what one strand took in the mean, "
        "and over that many rows"
    )


def swatch_unsure(
    terms: Terms, of: str | None, rows: int, error: float, counted_on: float, rows_needed: int
) -> str:
    """Say that a swatch is too small for the allowance."""
    return (
        f"{terms.swatch(of)}: cord measured over {_rows(rows)} may be {100.0 * error:.1f} % off, "
        f"and the allowance counts on {100.0 * counted_on:.0f} %; knot {_rows(rows_needed)} or "
        "more and measure again, or cut a little longer"
    )


def swatches_of_one(terms: Terms, of: tuple[str | None, ...]) -> str:
    """Say that several swatches are of one section."""
    named = [terms.called(each) if each else "two that do not say what they are of" for each in of]
    return f"swatches: {few(named)}: given more than once; the first one counts"


def swatch_untimed(terms: Terms, swatches: tuple[Path, ...]) -> str:
    """Say that the minutes of some swatches can't be used."""
    one = len(swatches) == 1
    its = "its" if one else "their"
    several = "one of the swatches" if one else "several swatches"
    trade = "swatch" if swatches == (("swatch",),) else several
    named = terms.pick(few([dotted(each) for each in swatches]), trade)
    return (
        f"{named}: {its} minutes don't say how long a knot takes without {its} rows and strands; "
        "give both"
    )


def nets_unmeasured(terms: Terms, nets: tuple[Section, ...]) -> str:
    """Say that no swatch tells how close the rows of some nets lie."""
    name, kind = nets[0]
    of = kind if name == "mount" else name
    give = terms.pick(
        f"and give their height: 'swatch: {{of: {of}, rows: 4, hung_height: …}}'",
        "and measure how high they are",
    )
    return (
        f"{section_names(nets)}: no swatch says how close the rows lie, and {_PUSHED_UP}; knot "
        f"four rows, hang them, {give}"
    )


def cord_use_odd(terms: Terms, knot: str, role: str, given: Fraction, usual: float) -> str:
    """Say that a figure of the maker's own is far from the solved one."""
    return (
        f"{terms.pick('cord_use', 'your own figures for cord')}: {knot.replace('_', ' ')}, {role} "
        f"{float(given):g} diameters, where such a knot pulled tight takes {usual:.1f}; it is "
        "taken as given"
    )


SENTENCES: tuple[Sentence, ...] = (
    swatch_without_rows, swatch_of_nothing, swatch_beyond_reach, knots_too_tall, swatch_doubtful,
    swatch_unsure, swatches_of_one, swatch_untimed, nets_unmeasured, cord_use_odd,
)  # fmt: skip
