"""What stands above a row: rows of the same lanes, so that none is tied onto another.

Strands alone don't keep rows apart: a row may hang beside another that shares no strand with it,
and reach into it.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any, TypeAlias

from knotplot.tying.outline import Outline, aside, outline, pushed
from knotplot.tying.piece import Placement
from knotplot.tying.shape import Shape

FAR = 256  # rows looked at above a row: more than reach it
TRIES = 6  # places tried for a row until it goes below all of them


Placed: TypeAlias = Sequence[tuple[Shape, int, tuple[int, ...], Any]]  # shape, lane (from 0), …


@dataclass(slots=True)
class _Row:
    """A row that stands: its shapes, and how low any row so far reaches (mm).

    `out` is how far its shapes' ties reach to the left and right of their own left sides.
    """

    placements: Sequence[Placement]
    pitch: float
    reach: float
    out: tuple[float, float]
    lefts: list[float] = field(default_factory=list)

    def between(self, left: float, right: float) -> Iterator[tuple[float, Placement]]:
        """Yield the shapes that may have ties between two places across, with their left sides."""
        if not self.lefts:
            self.lefts = [each.lane * self.pitch for each in self.placements]
        for i in range(bisect_left(self.lefts, left - self.out[1]), len(self.lefts)):
            if self.lefts[i] + self.out[0] >= right:
                return
            yield self.lefts[i], self.placements[i]


@dataclass(slots=True)
class Above:
    """The rows above, nearest last; `before` are those that stood when this was begun.

    Parts that are worked side by side each go on from the same rows, and don't see each other's.
    """

    diameter: float
    before: Above | None = None
    rows: list[_Row] = field(default_factory=list)
    seen: int = 0

    def beside(self) -> Above:
        """Return what stands above one part of several, worked side by side from here on."""
        return Above(self.diameter, self, [], len(self.rows))

    @property
    def reach(self) -> float:
        """Return how far down (mm) any row reaches."""
        return next((row.reach for row in self._back()), -math.inf)

    def put(self, placements: Sequence[Placement], pitch: float) -> None:
        """Let a row stand, its lanes `pitch` (mm) apart."""
        outlines = self._outlines(placements)
        low = placements[0].y + max(each.bottom for each in outlines)
        out = min(each.left for each in outlines), max(each.right for each in outlines)
        self.rows.append(_Row(placements, pitch, max(low, self.reach), out))

    def clear(self, placed: Placed, pitch: float, y: float) -> float:
        """Return the least depth, from `y` (mm) down, at which a row lies on none above it."""
        top = min((each.top for each in self._outlines(placed)), default=math.inf)
        for _ in range(TRIES):
            if y + top >= self.reach:
                return y
            more = max(self._pushes(placed, pitch, y, top), default=0.0)
            if more <= 0.0:
                return y
            y += math.ceil(more * 1e3 - 1e-6) / 1e3  # alike in all rows, whatever rounding does
        return max(y, self.reach - top)

    def _pushes(self, placed: Placed, pitch: float, y: float, top: float) -> Iterator[float]:
        """Yield how far each shape must go down for each shape above it that it lies on."""
        for back, row in enumerate(self._back()):
            if row.reach <= y + top or back >= FAR:
                return
            for shape, lane, *_ in placed:
                mine, left = outline(shape, self.diameter), lane * pitch
                for at, other in row.between(left + mine.left, left + mine.right):
                    dx, dy = round(left - at, 6), round(y - other.y, 6)
                    yield pushed(other.shape, shape, dx, dy, self.diameter)

    def _back(self) -> Iterator[_Row]:
        """Yield the rows above, the nearest first."""
        here: Above | None = self
        count = len(self.rows)
        while here is not None:
            for i in range(count - 1, -1, -1):
                yield here.rows[i]
            count, here = here.seen, here.before

    def _outlines(self, placed: Iterable[tuple[Shape, Any, Any, Any] | Placement]) -> list[Outline]:
        """Return the outline of each different shape."""
        return [outline(shape, self.diameter) for shape in {each[0] for each in placed}]


def room(placements: Sequence[Placement], pitch: float, diameter: float) -> float:
    """Return how many times as wide a row must be for neighbours in it to clear each other.

    1 where they do; its lanes are `pitch` (mm) apart.
    """
    most, known = 1.0, set()
    for one, other in pairwise(placements):
        key = (one.shape, other.shape, other.lane - one.lane)
        if key not in known:
            known.add(key)
            dx = key[2] * pitch
            most = max(most, 1.0 + aside(one.shape, other.shape, dx, diameter) / dx)
    return most
