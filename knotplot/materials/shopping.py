"""What to buy: cord by kind and colour, in spools with their lower bound, its weight and cost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from knotplot.brief import Brief
from knotplot.errors import Path, Refusal
from knotplot.materials.cord_mass import LinearMass, linear_mass
from knotplot.materials.groups import SpoolCount
from knotplot.materials.lengths import Cutting
from knotplot.materials.spools import Spools, fill, fill_given


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


@dataclass(frozen=True, slots=True, repr=False)
class Buy(Brief):
    """What to buy of one kind and colour of cord: length (mm), spools, mass (g) and cost."""

    kind: str
    colour: str | None
    total: Fraction
    mass: LinearMass
    spools: Spools | None
    cost: Decimal | None
    currency: str | None


def shopping(cutting: Iterable[Cutting], goods: Mapping[str, CordGoods]) -> tuple[Buy, ...]:
    """Return what to buy for a cut list, a line for each kind of cord and colour of it."""
    lines: dict[tuple[str, str | None], list[Cutting]] = {}
    for line in cutting:
        lines.setdefault((line.kind, line.colour), []).append(line)
    kinds = list(dict.fromkeys(kind for kind, _ in lines))
    ordered = sorted(lines, key=lambda each: kinds.index(each[0]))
    return tuple(_buy(kind, colour, lines[kind, colour], goods[kind]) for kind, colour in ordered)


def spool_count(goods: Mapping[str, CordGoods]) -> SpoolCount:
    """Return the function that counts the spools some pieces of a kind of cord take.

    It returns None where no spool is given, or where the pieces don't come off those at hand.
    """

    def count(kind: str, pieces: Sequence[tuple[Fraction, int]]) -> int | None:
        here = goods[kind]
        labelled = [(str(i), length, many) for i, (length, many) in enumerate(pieces)]
        try:
            filled = _filled(here, _mass(here), labelled)
        except Refusal:
            return None
        return None if filled is None else len(filled.spools)

    return count


def _mass(goods: CordGoods) -> LinearMass:
    return linear_mass(goods.diameter, goods.fibre, goods.construction, goods.mass_g_per_m)


def _filled(
    goods: CordGoods, mass: LinearMass, pieces: Sequence[tuple[str, Fraction, int]]
) -> Spools | None:
    """Return how pieces come off the spools, None where none is given; raise `Refusal`."""
    sizes = [
        Fraction(mass.length_mm(float(amount))).limit_denominator(1000) if weighed else amount
        for amount, weighed in goods.spools
    ]
    if not sizes:
        return None
    return fill(pieces, sizes[0]) if goods.many else fill_given(pieces, sizes)


def _buy(kind: str, colour: str | None, lines: list[Cutting], goods: CordGoods) -> Buy:
    total = sum((line.length * len(line.cords) for line in lines), Fraction(0))
    mass, pieces = _mass(goods), [(line.label, line.length, len(line.cords)) for line in lines]
    try:
        spools = _filled(goods, mass, pieces)
    except Refusal as refusal:
        raise refusal.under(goods.path) from None
    cost = None
    if spools is not None and goods.price is not None:
        cost = goods.price * len(spools.spools)
    currency = goods.currency if cost is not None else None
    return Buy(kind, colour, total, mass, spools, cost, currency)
