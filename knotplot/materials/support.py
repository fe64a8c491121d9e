"""What a piece asks of what it hangs on: sag, bending stress, the stock that would do.

The piece's weight is spread evenly over its width, in the middle between two supports that the
rod lies on; where the piece is wider than they stand apart, its ends reach out past them. The rod
bends under its own weight too. A still load on a straight, sound rod: nobody pulls, nothing swings.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from knotplot.brief import Brief
from knotplot.materials.beams import (
    GRAVITY,
    Load,
    deflection,
    largest_moment,
    longest_span,
    sag,
    section,
    weight,
)
from knotplot.materials.cord_mass import LinearMass
from knotplot.materials.lengths import CordLength
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import INCH_UNITS
from knotplot.stock import Size, Stock, material
from knotplot.units import both

ROD_OVER = 100.0  # mm a rod is longer than what it carries and spans, common practice
SAG_SHARE = 1.0 / 200.0  # of the span: about where a rod is seen to bend, common practice
ALIKE = 0.1  # how far, as a share, a support's thickness may lie from the mount's rod


@dataclass(frozen=True, slots=True, repr=False)
class Bent(Brief):
    """A rod of one size under a piece: deflections (mm), stress (MPa), and whether it holds.

    `creep` is what its sag grows by in time, as a share.
    """

    size: Size
    rod_g: float
    middle_mm: float
    edge_mm: float
    stress: float
    holds: bool
    creep: float

    @property
    def sag_mm(self) -> float:
        """Return how far it goes from straight at once, in the middle or at the edges (mm)."""
        return max(abs(self.middle_mm), abs(self.edge_mm))

    @property
    def later_mm(self) -> float:
        """Return how far it has gone when it sags no further (mm): wood goes on for years."""
        return self.sag_mm * (1.0 + self.creep)


@dataclass(frozen=True, slots=True, repr=False)
class Support(Brief):
    """A piece on its rod: `load_g` the piece alone, lengths in mm.

    `bent` is the rod given, `smallest` the thinnest usual stock of its material that holds, None
    where none does; `spacing` how far apart brackets may stand under the rod given.
    """

    stock: Stock
    called: str
    span: float
    width: float
    rod_length: float
    load_g: float
    estimated: bool
    bent: Bent
    smallest: Bent | None
    spacing: float

    @property
    def limit_mm(self) -> float:
        """Return how far the rod may sag at the most, in time: span/200."""
        return self.span * SAG_SHARE

    @property
    def gives_way(self) -> bool:
        """Tell whether it bends so far, over a tenth of the span, that no figure tells how far."""
        return self.bent.later_mm > self.span / 10.0

    @property
    def bracket_g(self) -> float:
        """Return what each of two brackets carries, piece and rod, in g."""
        return (self.load_g + self.bent.rod_g) / 2.0

    @property
    def middle_share(self) -> float:
        """Return what share of all a third bracket in the middle would carry.

        48EI·v/L³, v the deflection it takes away: 5/8 of an even load that fills the span, more of
        a narrower one.
        """
        newtons = 48.0 * _rigidity(self.stock, self.bent.size) * self.bent.middle_mm / self.span**3
        return newtons / (2.0 * self.bracket_n)

    @property
    def bracket_n(self) -> float:
        """Return the same as a force, in N."""
        return self.bracket_g / 1000.0 * GRAVITY

    def down(self, s: float) -> float:
        """Return how far down (mm) the rod hangs in time at `s` mm from the middle, and the piece.

        As far as it sags when it sags no further.
        """
        return sum(
            deflection(load, self.span, _rigidity_later(self.stock, self.bent.size), s)
            for load in _loads(self, self.bent.rod_g)
        )


def rod_length(width: float, span: float = 0.0) -> float:
    """Return how long a rod is cut (mm): over the piece and its brackets, and 5 cm at each end."""
    return max(width, span) + ROD_OVER


def piece_mass(lengths: Iterable[CordLength], masses: Mapping[str, LinearMass]) -> float:
    """Return what a piece weighs (g): what its cords use, by the mass of their kind."""
    return sum(masses[each.cord.kind].mass_g(each.used) for each in lengths)


def support(pattern: Pattern, load_g: float, estimated: bool) -> Support | None:
    """Return how the pattern's support bears a piece of `load_g` grams; None where none is given.

    `estimated` tells that the weight was.
    """
    given = pattern.support
    if given is None:
        return None
    stock = material(given.material)
    wall = stock.wall(float(given.diameter)) if given.wall is None else float(given.wall)
    size = Size(float(given.diameter), wall)
    span, width = float(given.span), float(pattern.width)
    length = rod_length(width, span)
    sizes = stock.inch_sizes if pattern.units in INCH_UNITS else stock.sizes
    tried = (_bent(stock, each, span, width, length, load_g) for each in sizes)
    bent = _bent(stock, size, span, width, length, load_g)
    per_mm = weight(load_g) / width + weight(bent.rod_g) / length
    bending = stock.stress * section(*size).modulus
    return Support(
        stock, given.material, span, width, length, load_g, estimated, bent,
        next((each for each in tried if each.holds), None),
        longest_span(per_mm, _rigidity_later(stock, size), bending, SAG_SHARE),
    )  # fmt: skip


def _bent(
    stock: Stock, size: Size, span: float, width: float, length: float, load_g: float
) -> Bent:
    round_ = section(*size)
    rod_g = round_.area * length * stock.density * 1e-6  # kg/m³ = 10⁻⁶ g/mm³
    loads = (Load(weight(load_g), width), Load(weight(rod_g), length))
    middle, edge = sag(loads, span, _rigidity(stock, size), max(span, width) / 2.0)
    stress = largest_moment(loads, span) / round_.modulus
    bent = Bent(size, rod_g, middle, edge, stress, True, stock.creep)
    holds = bent.later_mm <= SAG_SHARE * span and stress <= stock.stress
    return replace(bent, holds=holds)


def _loads(of: Support, rod_g: float) -> tuple[Load, Load]:
    return Load(weight(of.load_g), of.width), Load(weight(rod_g), of.rod_length)


def _rigidity(stock: Stock, size: Size) -> float:
    return stock.modulus * section(*size).inertia


def _rigidity_later(stock: Stock, size: Size) -> float:
    """Return the rigidity by which a load that stays bends it in the end."""
    return _rigidity(stock, size) / (1.0 + stock.creep)


# --- what to tell the maker ------------------------------------------------------------------


def support_warnings(pattern: Pattern, found: Support) -> Iterator[str]:
    """Yield what a maker should know before hanging it."""
    rod, thick = getattr(pattern.mount, "rod", None), Fraction(found.bent.size.diameter)
    if rod is not None and abs(thick - rod) > ALIKE * rod:
        yield (
            f"support: {both(thick)} thick, but the cords are mounted on {both(rod)}; give "
            "mount.rod and support.diameter alike, since what is tied on the rod depends on it"
        )
    if pattern.mount.encloses_rod and found.span < found.width:
        yield (
            f"support: brackets {both(found.span)} apart would stand inside the rod pocket, which "
            f"is {both(found.width)} wide; set them further apart than that"
        )
    if not found.bent.holds:
        yield _too_weak(found)


def _too_weak(found: Support) -> str:
    """Say what is wrong with a rod that doesn't hold, and what would."""
    bent, stock = found.bent, found.stock
    faults = []
    if bent.later_mm > found.limit_mm:
        by = "more than a tenth of the span" if found.gives_way else fine(bent.later_mm)
        if bent.creep and not found.gives_way:
            by = f"{fine(bent.sag_mm)} at once and {by} in the course of years"
        faults.append(f"sags {by}, where a 200th of the span is {fine(found.limit_mm)}")
    if bent.stress > stock.stress:
        faults.append(
            f"is bent to {bent.stress:.0f} MPa, where no more than {stock.stress:g} should be "
            "counted on"
        )
    what = f"support: {found.called}, {both(bent.size.diameter)} thick, {' and '.join(faults)}"
    if found.smallest is not None:
        return f"{what}; use {both(found.smallest.size.diameter)} or thicker"
    middle = found.width <= found.span and found.spacing >= found.span / 2.0
    where = "a bracket in the middle too" if middle else "more brackets"
    if found.width > found.span:
        where = "brackets out to the edges of the piece"
    carries = ""
    if middle:
        share, whole = found.middle_share, 2.0 * found.bracket_g / 1000.0
        carries = (
            f" (the one in the middle then carries {100.0 * share:.0f} % of it all, "
            f"{share * whole:.1f} of {whole:.1f} kg)"
        )
    return (
        f"{what}; no usual {stock.name} holds it: set {where}, so that they stand "
        f"{both(found.spacing)} apart or closer{carries}, or use a stiffer material"
    )


def fine(mm: float) -> str:
    """Write a small length in mm and in hundredths of an inch.

    >>> fine(4.75)
    '4.8 mm (0.19 in)'
    """
    return f"{mm:.1f} mm ({mm / 25.4:.2f} in)"
