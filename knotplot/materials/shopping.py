"""What to buy: cord by kind, in spools with their lower bound, its weight and cost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from knotplot.errors import Path, Refusal
from knotplot.knots import knot
from knotplot.materials.cord_mass import LinearMass, linear_mass
from knotplot.materials.lengths import Cutting
from knotplot.materials.spools import Spools, fill, fill_given
from knotplot.tying.piece import Piece

MOUNT_MINUTES = 0.5  # measuring and cutting one cord, common practice


@dataclass(frozen=True, slots=True)
class CordGoods:
    """A cord as it is sold: diameter (mm), fibre, mass if known, and spools (mm or g) and price."""

    diameter: float
    construction: str
    fibre: str
    mass_g_per_m: float | None
    spools: tuple[tuple[Fraction, bool], ...]  # (amount, whether it is a mass in g)
    many: bool  # one size, as many as needed
    price: Decimal | None
    currency: str | None
    path: Path


@dataclass(frozen=True, slots=True)
class Buy:
    """What to buy of one kind of cord: length (mm), spools, mass (g) and cost."""

    kind: str
    total: Fraction
    mass: LinearMass
    spools: Spools | None
    cost: Decimal | None
    currency: str | None


def shopping(cutting: Iterable[Cutting], goods: Mapping[str, CordGoods]) -> tuple[Buy, ...]:
    """Return what to buy for a cut list, a line for each kind of cord."""
    lines = tuple(cutting)
    return tuple(
        _buy(kind, [line for line in lines if line.kind == kind], goods[kind])
        for kind in dict.fromkeys(line.kind for line in lines)
    )


def _buy(kind: str, lines: list[Cutting], goods: CordGoods) -> Buy:
    total = sum((line.length * len(line.cords) for line in lines), Fraction(0))
    mass = linear_mass(goods.diameter, goods.fibre, goods.construction, goods.mass_g_per_m)
    pieces = [(line.label, line.length, len(line.cords)) for line in lines]
    sizes = [
        Fraction(mass.length_mm(float(amount))).limit_denominator(1000) if weighed else amount
        for amount, weighed in goods.spools
    ]
    spools = None
    if sizes:
        try:
            spools = fill(pieces, sizes[0]) if goods.many else fill_given(pieces, sizes)
        except Refusal as refusal:
            raise refusal.under(goods.path) from None
    cost = None
    if spools is not None and goods.price is not None:
        cost = goods.price * len(spools.spools)
    return Buy(kind, total, mass, spools, cost, goods.currency if cost is not None else None)


def hours(piece: Piece, cords: int, minutes_of: Mapping[str, float] | None = None) -> float:
    """Return the hours of work: every tie by its knot's minutes, and the cutting of every cord.

    `minutes_of` replaces a knot's usual minutes (common practice) by the maker's own.
    """
    own = minutes_of or {}
    minutes = MOUNT_MINUTES * cords
    for name, count in knot_counts(piece).items():
        minutes += count * own.get(name, knot(name).minutes)
    return minutes / 60.0


def knot_counts(piece: Piece) -> dict[str, int]:
    """Return how many ties there are of every kind of knot, mounts included, by name."""
    counts: dict[str, int] = {}
    inside: dict[int, dict[str, int]] = {}
    for row in piece.rows:
        for placement in row.placements:
            shape = placement.shape
            if id(shape) not in inside:
                one: dict[str, int] = {}
                for tie in shape.ties:
                    if tie.knot != "cross":
                        one[tie.knot] = one.get(tie.knot, 0) + 1
                inside[id(shape)] = one
            for name, count in inside[id(shape)].items():
                counts[name] = counts.get(name, 0) + count
    return dict(sorted(counts.items()))
