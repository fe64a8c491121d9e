"""The lower edge of a piece: how far down it hangs at every place across, and where to trim.

x runs from the left edge, y down from the top of the support, both in millimetres. The edge hangs
at the drop and rises above it by the profile: an arch where `rise_mm` is positive (highest in the
middle), a point or swag where it is negative (highest at the sides).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal, NamedTuple, TypeAlias

from knotplot.brief import Brief
from knotplot.curves.bezier import Point
from knotplot.curves.edge_profiles import PROFILES, Profile, Straight, Turn


class Offset(NamedTuple):
    """A place to trim: `offset_mm` up from a string line stretched level at the drop."""

    x_mm: float
    y_mm: float
    offset_mm: float


#: What a place of the trim line is: a side, where the edge turns at its lowest (a sharp `tip` or a
#: round `dip`) or at its highest (a sharp `notch` or a round `crown`), or `between` those.
What: TypeAlias = Literal["side", "tip", "dip", "notch", "crown", "between"]


class Place(NamedTuple):
    """A place of the trim line: `offset_mm` up from the string, and what it is."""

    x_mm: float
    y_mm: float
    offset_mm: float
    what: What


@dataclass(frozen=True, slots=True, repr=False)
class LowerEdge(Brief):
    """A lower edge `width_mm` wide whose lowest place hangs at `drop_mm`.

    `profile` is a name of `PROFILES`; `count` is the number of scallops, `at` the points (x, f) of
    profile `points`. Without a rise, and for `straight`, the edge is level at the drop. Raises
    ValueError for a size that is not finite, a width that is not above 0, an unknown profile, an
    arc higher than half the width.

    >>> LowerEdge(920.0, 840.0, 90.0, "parabola").y(460.0)
    750.0
    """

    width_mm: float
    drop_mm: float
    rise_mm: float = 0.0
    profile: str = "straight"
    count: int = 1
    at: tuple[Point, ...] = ()
    shape: Profile = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not all(map(math.isfinite, (self.width_mm, self.drop_mm, self.rise_mm))):
            raise ValueError("the width, drop and rise of a lower edge must be finite")
        if self.width_mm <= 0:
            raise ValueError(f"a lower edge is wider than 0, not {self.width_mm} mm")
        if self.profile not in PROFILES:
            names = ", ".join(PROFILES)
            raise ValueError(f"there is no profile {self.profile!r}; there are {names}")
        steepness = abs(self.rise_mm) / (self.width_mm / 2)
        shape = PROFILES[self.profile].shaped(steepness, self.count, self.at)
        object.__setattr__(self, "shape", shape if self.rise_mm else Straight())

    def y(self, x_mm: float) -> float:
        """Return how far down the edge hangs at `x_mm`; beyond a side, as at that side.

        >>> LowerEdge(100.0, 80.0, -20.0, "vee").y(0.0)
        60.0
        """
        if not math.isfinite(x_mm):
            raise ValueError(f"a place on the lower edge must be finite, not {x_mm}")
        if isinstance(self.shape, Straight):
            return self.drop_mm
        f = self.shape.f(min(1.0, max(-1.0, 2 * x_mm / self.width_mm - 1)))
        f = min(1.0, max(0.0, f))  # rounding may carry it a last digit past
        return self.drop_mm - (self.rise_mm * f if self.rise_mm > 0 else -self.rise_mm * (1 - f))

    def highest(self) -> float:
        """Return the least y of the edge, millimetres."""
        return min(place.y_mm for place in self.turns())

    def lowest(self) -> float:
        """Return the greatest y of the edge, millimetres: the drop, if the profile reaches it."""
        return max(place.y_mm for place in self.turns())

    def turns(self) -> tuple[Place, ...]:
        """Return the sides and every place where the edge turns, from the left.

        >>> [(turn.x_mm, turn.what) for turn in LowerEdge(80.0, 90.0, 9.0, "vee").turns()]
        [(0.0, 'side'), (40.0, 'notch'), (80.0, 'side')]
        """
        inner = (
            self._place((turn.u + 1.0) * self.width_mm / 2.0, _called(turn, self.rise_mm > 0))
            for turn in self.shape.turns
        )
        return (self._place(0.0, "side"), *inner, self._place(self.width_mm, "side"))

    def _place(self, x_mm: float, what: What) -> Place:
        return Place(x_mm, y := self.y(x_mm), self.drop_mm - y, what)

    def length_mm(self, tolerance_mm: float = 0.01) -> float:
        """Return the length of the edge itself, to within `tolerance_mm`.

        Every profile but `points` has a closed form, and is right to the last digits whatever the
        tolerance.
        """
        if not 0 < tolerance_mm < math.inf:
            raise ValueError(f"a tolerance is above 0 and finite, not {tolerance_mm}")
        return self.shape.length_mm(self.width_mm / 2, abs(self.rise_mm), tolerance_mm)


def _called(turn: Turn, rises: bool) -> What:
    """Return what a turn is, on an edge that rises by its profile or is lowered by it."""
    if turn.top == rises:
        return "notch" if turn.sharp else "crown"
    return "tip" if turn.sharp else "dip"


def trim_places(edge: LowerEdge, step_mm: float = 50.0) -> tuple[Place, ...]:
    """Return the places to mark before trimming: every turn, and what is needed between them.

    In order from the left. Between turns that aren't joined straight: every `step_mm` from 0, save
    within a quarter of that from a turn, and halfway where nothing else would lie between.

    >>> [round(place.x_mm) for place in trim_places(LowerEdge(300.0, 400.0, 40.0, "scallops", 2))]
    [0, 50, 75, 100, 150, 200, 225, 250, 300]
    """
    if not 0 < step_mm < math.inf:
        raise ValueError(f"a step is above 0 and finite, not {step_mm}")
    turns = edge.turns()
    if edge.shape.straight:
        return turns
    found: list[Place] = [turns[0]]
    for a, b in pairwise(turns):
        near = step_mm / 4.0
        first, last = math.ceil((a.x_mm + near) / step_mm), math.floor((b.x_mm - near) / step_mm)
        between = [i * step_mm for i in range(first, last + 1)] or [(a.x_mm + b.x_mm) / 2.0]
        found += [*(edge._place(x, "between") for x in between), b]
    return tuple(found)


def trim_offsets(edge: LowerEdge, step_mm: float = 50.0) -> tuple[Offset, ...]:
    """Return the places to trim: every `step_mm` from 0, the middle, and the width.

    They stand in order from the left, none twice: two that fall within the same hundredth of a
    millimetre are one.

    >>> [offset.x_mm for offset in trim_offsets(LowerEdge(120.0, 200.0))]
    [0.0, 50.0, 60.0, 100.0, 120.0]
    """
    if not 0 < step_mm < math.inf:
        raise ValueError(f"a step is above 0 and finite, not {step_mm}")
    steps = (i * step_mm for i in range(math.floor(edge.width_mm / step_mm) + 1))
    places = {round(x, 2): x for x in (*steps, edge.width_mm / 2, edge.width_mm)}
    return tuple(Offset(x, y := edge.y(x), edge.drop_mm - y) for x in sorted(places.values()))


def circle_radius(chord: float, sagitta: float) -> float:
    """Return the radius of the circle through a chord and the top of its segment: c²/8s + s/2.

    Source: Machinery's Handbook, 31st ed. (2020), "segments of circles". Any one unit of length.

    >>> round(circle_radius(16, 6), 4)
    8.3333
    """
    if not (0 < chord < math.inf and 0 < sagitta < math.inf):
        raise ValueError(f"a chord and its sagitta are above 0, not {chord} and {sagitta}")
    return chord * chord / (8 * sagitta) + sagitta / 2
