"""English: what is noticed of cords as they are bought."""

from __future__ import annotations

from knotplot.errors import Path
from knotplot.notices.en.terms import Sentence, Terms

_OR_ITS_MASS = (
    ", or its mass wrong; wind ten turns of it round a pencil, touching, take a tenth of their "
    "width as its thickness, weigh 10 m of it, and correct the one that is wrong"
)


def cord_overfull(terms: Terms, cord: Path, mass: float, fibre: str, thick: float) -> str:
    """Say that more fibre is in a cord than its thickness has room for."""
    return (
        f"{_mass(terms, cord, mass, fibre)} don't fit into a cord {thick:g} mm thick: its "
        f"thickness is too small{_OR_ITS_MASS}"
    )


def cord_mostly_air(terms: Terms, cord: Path, mass: float, fibre: str, thick: float) -> str:
    """Say that hardly any fibre is in a cord of its thickness."""
    return (
        f"{_mass(terms, cord, mass, fibre)} leave a cord {thick:g} mm thick nearly all air: its "
        f"thickness is too large{_OR_ITS_MASS}"
    )


def cord_light(
    terms: Terms, cord: Path, mass: float, fibre: str, thick: float, tight: float
) -> str:
    """Say that a cord is soft, and comes out thinner in its knots."""
    return (
        f"{_mass(terms, cord, mass, fibre)} is light for a cord {thick:g} mm thick: pulled tight "
        f"it is about {tight:.1f} mm; knots come out smaller and take less cord than reckoned; "
        "knot a swatch and measure the cord it takes"
    )


def _mass(terms: Terms, cord: Path, mass: float, fibre: str) -> str:
    plain = f"{mass:.9f}".rstrip("0").rstrip(".")
    return f"{terms.cord(cord)}: {plain} g/m of {fibre}"


def spools_of_no_colour(terms: Terms, cord: Path, colours: int) -> str:
    """Say that spools at hand serve several colours: which is of which isn't told."""
    give = terms.pick(", or give 'spool', what one holds", "")
    return (
        f"{terms.cord(cord)}: its spools don't say of which colour they are, so each of the "
        f"{colours} colours is counted as having them all; see that they suffice{give}"
    )


def cord_left_out_of_quote(terms: Terms, kind: str, cord: Path, missing: str) -> str:
    """Say which cord a quote leaves out, since its price or what a spool holds isn't known."""
    priced = missing != "price_per_spool"
    known = "what a spool of it holds" if priced else "its price"
    trade = "what a spool holds" if priced else "the price of a spool"
    give = terms.pick(f"{terms.cord(cord)}.{missing}", trade)
    return f"quote: the {kind} cord is left out of it, since {known} isn't known; give {give}"


SENTENCES: tuple[Sentence, ...] = (
    cord_overfull, cord_mostly_air, cord_light, spools_of_no_colour, cord_left_out_of_quote,
)  # fmt: skip
