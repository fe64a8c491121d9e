"""The profiles a lower edge can have, as functions f(u): u from −1 at the left side to 1.

f is 0 at the sides and 1 in the middle for every profile but `scallops`, which repeats, and
`points`, which the maker draws. A profile knows its own length, in closed form where one exists,
so no tolerance is spent on it, and where it turns: at what places, and whether in a curve or in a
corner. `PROFILES` finds them by name, those in other files of this package too; the docstring of
each tells the maker what it is, with an example.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from types import ModuleType
from typing import ClassVar, NamedTuple, Protocol

from knotplot.curves.bezier import Point, length_within
from knotplot.curves.pchip import Pchip
from knotplot.discovery import Registry


class Turn(NamedTuple):
    """A place between the sides where f rises no further (`top`) or falls no further.

    `sharp`: in a corner, not in a curve.
    """

    u: float
    top: bool
    sharp: bool


class Profile(Protocol):
    """A shape f(u), the length of its edge over a half width and a rise, and where it turns.

    `name` is what a pattern calls it.
    """

    name: ClassVar[str]

    @classmethod
    def shaped(cls, steepness: float, count: int, at: tuple[Point, ...], /) -> Profile:
        """Make it from |rise| ÷ half the width, the count of scallops and the points."""

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
    """A level line.

    Example: `{profile: straight}`.
    """

    name: ClassVar[str] = "straight"
    straight: ClassVar[bool] = True
    turns: ClassVar[tuple[Turn, ...]] = ()

    @classmethod
    def shaped(cls, *_: object) -> Straight:
        """Return it, which is always the same."""
        return cls()

    def f(self, u: float) -> float:
        """Return 0: nothing rises."""
        return 0.0

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the width."""
        return 2 * half_mm


@dataclass(frozen=True, slots=True)
class Parabola:
    """A parabola: an even curve, steepest at the sides (f = 1 − u²).

    Example: `{profile: parabola, rise: 5 cm}`.
    """

    name: ClassVar[str] = "parabola"
    straight: ClassVar[bool] = False
    turns: ClassVar[tuple[Turn, ...]] = _CROWN

    @classmethod
    def shaped(cls, *_: object) -> Parabola:
        """Return it, which is always the same."""
        return cls()

    def f(self, u: float) -> float:
        """Return the parabola's height at `u`."""
        return (1 - u) * (1 + u)

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return √(a² + 4h²) + (a²/2h)·asinh(2h/a): Machinery's Handbook, 31st ed., p. 80."""
        return parabola_length(half_mm, rise_mm)


@dataclass(frozen=True, slots=True)
class Vee:
    """Two straight lines that meet in the middle (f = 1 − |u|).

    Example: `{profile: vee, rise: -5 cm}`.
    """

    name: ClassVar[str] = "vee"
    straight: ClassVar[bool] = True
    turns: ClassVar[tuple[Turn, ...]] = (Turn(0.0, top=True, sharp=True),)

    @classmethod
    def shaped(cls, *_: object) -> Vee:
        """Return it, which is always the same."""
        return cls()

    def f(self, u: float) -> float:
        """Return the point's height at `u`."""
        return 1 - abs(u)

    def length_mm(self, half_mm: float, rise_mm: float, tolerance_mm: float) -> float:
        """Return the length of the two straight sides."""
        return 2 * math.hypot(half_mm, rise_mm)


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a circle; it rises by half the width at the most.

    Example: `{profile: arc, rise: 5 cm}`.
    """

    steepness: float
    """Its height ÷ half the width, from 0 to 1."""
    name: ClassVar[str] = "arc"
    straight: ClassVar[bool] = False
    turns: ClassVar[tuple[Turn, ...]] = _CROWN

    @classmethod
    def shaped(cls, steepness: float, *_: object) -> Arc:
        """Return it of that steepness."""
        return cls(steepness)

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
    """The line of a hanging chain.

    Example: `{profile: catenary, rise: -5 cm}`.
    """

    bend: float
    """Half the width ÷ the chain's parameter; 0 is the parabola that it nears when flat."""
    name: ClassVar[str] = "catenary"
    straight: ClassVar[bool] = False
    turns: ClassVar[tuple[Turn, ...]] = _CROWN

    @classmethod
    def shaped(cls, steepness: float, *_: object) -> Catenary:
        """Return it of that steepness."""
        return cls(catenary_bend(steepness))

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
    """Parabolas side by side, `count` of them.

    Example: `{profile: scallops, count: 3, rise: 3 cm}`.
    """

    count: int
    name: ClassVar[str] = "scallops"
    straight: ClassVar[bool] = False

    @classmethod
    def shaped(cls, _steepness: float, count: int, *_: object) -> Scallops:
        """Return it with that count."""
        return cls(count)

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
    """A smooth line through places of your own, `at`: [x, f], both from 0 to 1.

    A monotone cubic joins them, so that it rises nowhere beyond them.

    Example: `{profile: points, rise: 5 cm, at: [[0, 0], [0.3, 1], [1, 0.4]]}`.
    """

    curve: Pchip
    name: ClassVar[str] = "points"

    @classmethod
    def shaped(cls, _steepness: float, _count: int, at: tuple[Point, ...]) -> Points:
        """Return it through those points."""
        return cls(Pchip(at))

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


def _named(module: ModuleType) -> Iterator[tuple[str, type[Profile]]]:
    """Yield the profiles that a module makes, by name."""
    for thing in vars(module).values():
        if isinstance(thing, type) and thing.__module__ == module.__name__:
            name = getattr(thing, "name", None)
            if isinstance(name, str) and hasattr(thing, "shaped"):
                yield name, thing


#: Every profile by name.
PROFILES: Registry[type[Profile]] = Registry("knotplot.curves", _named)
