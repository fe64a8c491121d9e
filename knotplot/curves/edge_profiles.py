"""The profiles a lower edge can have, as functions f(u): u from −1 at the left side to 1.

f is 0 at the sides and 1 in the middle for every profile but `scallops`, which repeats, and
`points`, which the maker draws. A profile knows its own length, in closed form where one exists,
so no tolerance is spent on it, and where it turns: at what places, and whether in a curve or in a
corner. `PROFILES` finds them by name.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import groupby
from typing import ClassVar, NamedTuple, Protocol

from knotplot.curves.bezier import Point, length_within
from knotplot.curves.pchip import Pchip


class Turn(NamedTuple):
    """A place between the sides where f rises no further (`top`) or falls no further.

    `sharp`: in a corner, not in a curve.
    """

    u: float
    top: bool
    sharp: bool


class Profile(Protocol):
    """A shape f(u), the length of its edge over a half width and a rise, and where it turns."""

    @property
    def straight(self) -> bool:
        """Tell whether straight lines join its turns and the sides."""

    @property
    def turns(self) -> tuple[Turn, ...]:
        """Return where it turns between the sides, from the left."""

    def f(self, u: float) -> float:
        """Return f at `u`, −1 ≤ u ≤ 1."""

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the length of the edge that is `half_mm` to each side and `rise_mm` deep."""


_CROWN = (Turn(0.0, top=True, sharp=False),)


@dataclass(frozen=True, slots=True)
class Straight:
    """No shape at all: the edge lies level at the drop."""

    straight: ClassVar[bool] = True
    turns: ClassVar[tuple[Turn, ...]] = ()

    def f(self, u: float) -> float:
        """Return 0: nothing rises."""
        return 0.0

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the width."""
        return 2 * half_mm


@dataclass(frozen=True, slots=True)
class Parabola:
    """f = 1 − u²."""

    straight: ClassVar[bool] = False
    turns: ClassVar[tuple[Turn, ...]] = _CROWN

    def f(self, u: float) -> float:
        """Return the parabola's height at `u`."""
        return (1 - u) * (1 + u)

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return √(a² + 4h²) + (a²/2h)·asinh(2h/a): Machinery's Handbook, 31st ed., p. 80."""
        return parabola_length(half_mm, rise_mm)


@dataclass(frozen=True, slots=True)
class Vee:
    """f = 1 − |u|."""

    straight: ClassVar[bool] = True
    turns: ClassVar[tuple[Turn, ...]] = (Turn(0.0, top=True, sharp=True),)

    def f(self, u: float) -> float:
        """Return the point's height at `u`."""
        return 1 - abs(u)

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the length of the two straight sides."""
        return 2 * math.hypot(half_mm, rise_mm)


@dataclass(frozen=True, slots=True)
class Arc:
    """A segment of a circle, `steepness` = sagitta ÷ half the width, from 0 to 1."""

    steepness: float
    straight: ClassVar[bool] = False
    turns: ClassVar[tuple[Turn, ...]] = _CROWN

    def __post_init__(self) -> None:
        # A hair over 1 is a half circle that float division has touched.
        if not 0 <= self.steepness <= 1 + 1e-9:
            raise ValueError("an arc rises by half its width at most")

    def f(self, u: float) -> float:
        """Return the segment's height at `u`; a form that holds from the flattest arc on."""
        q = min(self.steepness, 1.0)
        level = (1 - q * q) / 2
        return 1 - u * u / ((1 + q * q) / 2 + math.sqrt(level * level + q * q * (1 - u) * (1 + u)))

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the arc: radius × angle, the half angle being 2·atan(steepness)."""
        q = rise_mm / half_mm
        return 2 * half_mm * (1 + q * q) * (math.atan(q) / q if q > 0 else 1.0)


@dataclass(frozen=True, slots=True)
class Catenary:
    """A hanging chain whose half width is `bend` times its parameter (0: a parabola's limit)."""

    bend: float
    straight: ClassVar[bool] = False
    turns: ClassVar[tuple[Turn, ...]] = _CROWN

    def f(self, u: float) -> float:
        """Return 1 − (cosh(bend·u) − 1)/(cosh(bend) − 1), written so that nothing cancels."""
        if self.bend < 1e-8:
            return (1 - u) * (1 + u)
        return 1 - (math.sinh(self.bend * u / 2) / math.sinh(self.bend / 2)) ** 2

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return 2·a·sinh(half ÷ a) with a the chain's parameter."""
        return 2 * half_mm * (math.sinh(self.bend) / self.bend if self.bend > 0 else 1.0)


@dataclass(frozen=True, slots=True)
class Scallops:
    """`count` parabolas side by side."""

    count: int
    straight: ClassVar[bool] = False

    def __post_init__(self) -> None:
        if self.count < 1:
            raise ValueError(f"there is one scallop or more, not {self.count}")

    @property
    def turns(self) -> tuple[Turn, ...]:
        """Return the crown of each scallop, and the corner where it meets the next."""
        return tuple(
            Turn(i / self.count - 1.0, top=i % 2 == 1, sharp=i % 2 == 0)
            for i in range(1, 2 * self.count)
        )

    def f(self, u: float) -> float:
        """Return 1 − v² in the scallop that `u` falls in, v from −1 to 1 across it."""
        along = (u + 1) / 2 * self.count
        v = 2 * (along - min(math.floor(along), self.count - 1)) - 1
        return (1 - v) * (1 + v)

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the length of all the parabolas."""
        return self.count * parabola_length(half_mm / self.count, rise_mm)


@dataclass(frozen=True, slots=True)
class Points:
    """The maker's own points [x, f], x from 0 to 1, joined by a monotone cubic."""

    curve: Pchip

    def __post_init__(self) -> None:
        if (self.curve.xs[0], self.curve.xs[-1]) != (0.0, 1.0):
            raise ValueError("the points run from x = 0 to x = 1, both ends given")
        if not all(0 <= y <= 1 for y in self.curve.ys):
            raise ValueError("f lies from 0 to 1 at every point")

    @property
    def straight(self) -> bool:
        """Tell whether it is a single slope: two points alone are joined by a straight line."""
        return len(self.curve.xs) == 2

    @property
    def turns(self) -> tuple[Turn, ...]:
        """Return the points that stand higher, or lower, than what lies to both sides of them.

        Of a level part both ends. All are curves: the cubic has one slope at each point.
        """
        xs, ys = self.curve.xs, self.curve.ys
        last = len(xs) - 1
        levels = [list(same) for _, same in groupby(range(last + 1), lambda i: ys[i])]
        found = []
        for level in levels:
            beside = [ys[i] for i in (level[0] - 1, level[-1] + 1) if 0 <= i <= last]
            above = [ys[level[0]] > y for y in beside]
            if beside and len(set(above)) == 1:
                inner = sorted({level[0], level[-1]} - {0, last})
                found += [Turn(2.0 * xs[i] - 1.0, top=above[0], sharp=False) for i in inner]
        return tuple(found)

    def f(self, u: float) -> float:
        """Return the height of the curve at `u`."""
        return self.curve((u + 1) / 2)

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the length of the curve, to within `tolerance_mm`."""
        cubics = self.curve.cubics(2 * half_mm, rise_mm)
        return math.fsum(length_within(cubic, tolerance_mm / len(cubics)) for cubic in cubics)


def parabola_length(half: float, height: float) -> float:
    """Return the length of a parabola `half` to each side of its top and `height` tall."""
    q = 2 * height / half
    return half * (math.sqrt(1 + q * q) + (math.asinh(q) / q if q > 0 else 1.0))


def catenary_bend(sag_ratio: float) -> float:
    """Return half span ÷ parameter of the chain that sags `sag_ratio` half spans.

    Solves (cosh k − 1)/k = `sag_ratio` for k by bisection, to the last bit.
    """
    if sag_ratio < 1e-9:  # there k = 2·sag_ratio to the last bit
        return 2 * sag_ratio
    low, high = 0.0, 1.0
    while _sag_of(high) < sag_ratio:
        low, high = high, 2 * high
    while low < (middle := (low + high) / 2) < high:
        if _sag_of(middle) < sag_ratio:
            low = middle
        else:
            high = middle
    return high


def _sag_of(bend: float) -> float:
    """Return the sag, in half spans, of a chain of that bend."""
    return 2 * math.sinh(bend / 2) ** 2 / bend


# Every profile by name, made from |rise| ÷ half the width, the count of scallops and the points.
PROFILES: dict[str, Callable[[float, int, tuple[Point, ...]], Profile]] = {
    "arc": lambda steepness, _count, _at: Arc(steepness),
    "catenary": lambda steepness, _count, _at: Catenary(catenary_bend(steepness)),
    "parabola": lambda _steepness, _count, _at: Parabola(),
    "points": lambda _steepness, _count, at: Points(Pchip(at)),
    "scallops": lambda _steepness, count, _at: Scallops(count),
    "straight": lambda _steepness, _count, _at: Straight(),
    "vee": lambda _steepness, _count, _at: Vee(),
}
