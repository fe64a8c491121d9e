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
from knotplot.notice import Notice, Value
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import INCH_UNITS
from knotplot.stock import Size, Stock, material

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


def support_notices(pattern: Pattern, found: Support) -> Iterator[Notice]:
    """Yield what a maker should know before hanging it."""
    rod, thick = getattr(pattern.mount, "rod", None), Fraction(found.bent.size.diameter)
    if rod is not None and abs(thick - rod) > ALIKE * rod:
        place, unlike = ("support", "diameter"), {"support": thick, "mount": rod}
        yield Notice("support_unlike_mount", place, "warning", unlike)
    if pattern.mount.encloses_rod and found.span < found.width:
        place, inside = ("support", "span"), {"span": found.span, "width": found.width}
        yield Notice("brackets_inside_pocket", place, "warning", inside)
    if not found.bent.holds:
        yield Notice("support_too_weak", ("support",), "warning", _weakness(found))


def _weakness(found: Support) -> Mapping[str, Value]:
    """Return the figures of a rod that doesn't hold: what it does, and what would hold."""
    bent, stock = found.bent, found.stock
    middle = found.width <= found.span and found.spacing >= found.span / 2.0
    return {
        "called": found.called,
        "stock": stock.name,
        "diameter": bent.size.diameter,
        "sag": bent.sag_mm,
        "later": bent.later_mm,
        "limit": found.limit_mm,
        "creeps": bool(bent.creep),
        "gives_way": found.gives_way,
        "stress": bent.stress,
        "stress_limit": stock.stress,
        "smallest": None if found.smallest is None else found.smallest.size.diameter,
        "overhangs": found.width > found.span,
        "spacing": found.spacing,
        "middle_share": found.middle_share if middle else None,
        "all_g": 2.0 * found.bracket_g,
    }


def fine(mm: float) -> str:
    """Write a small length in mm and in hundredths of an inch.

    >>> fine(4.75)
    '4.8 mm (0.19 in)'
    """
    return f"{mm:.1f} mm ({mm / 25.4:.2f} in)"
