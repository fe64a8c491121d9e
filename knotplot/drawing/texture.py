"""What a cord's construction shows on its surface: short lines along it, at even distances.

A cord laid of three plies shows the grooves between them, slanting across; a braided one two
columns of plaits; a single string its fibres, nearly straight. A texture is a cell of such lines,
in diameters along and across the cord; it runs on through every part a strand is drawn in.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from knotplot.drawing.shapes import Curve, Line

#: A short line on a cord: along and across its start, then its end, in diameters.
Groove = tuple[float, float, float, float]
Vector = tuple[float, float]

CHORDS = 6  # a cubic, when a curve is measured
BENT = 0.005  # mm or diameters off a straight line, from which a curve is one


class Texture(NamedTuple):
    """The lines of one `cell` (diameters along the cord), which repeats, and their thickness."""

    cell: float
    grooves: tuple[Groove, ...]
    pen: float


# A rope of three strands turns once in about three and a half diameters (a medium lay, common
# practice): a groove every third of that, each seen for less than half a turn.
TEXTURES = {
    "twisted": Texture(1.15, ((0.0, -0.40, 1.35, 0.40),), 0.085),
    "braided": Texture(0.95, ((0.0, -0.40, 0.55, -0.02), (0.475, 0.40, 1.025, 0.02)), 0.085),
    "single": Texture(
        3.6, ((0.0, -0.27, 2.3, -0.18), (1.2, 0.03, 3.5, 0.12), (2.5, 0.27, 4.4, 0.33)), 0.06
    ),
}


class _Straight(NamedTuple):
    """A straight curve: where it starts, its direction, its length. Most free runs are straight."""

    start: Vector
    way: Vector
    length: float

    def at(self, places: Iterable[Vector]) -> list[Vector]:
        """Return the points at places in order, each so far along the curve and aside of it."""
        (x, y), (dx, dy) = self.start, self.way
        return [(x + s * dx - u * dy, y + s * dy + u * dx) for s, u in places]


class _Measured(NamedTuple):
    """A curve in chords: how far along each of their ends lies, where, and the way across there."""

    along: tuple[float, ...]
    points: tuple[Vector, ...]
    across: tuple[Vector, ...]

    @property
    def length(self) -> float:
        """Return how long the curve is."""
        return self.along[-1]

    def at(self, places: Iterable[Vector]) -> list[Vector]:
        """Return the points at places in order, each so far along the curve and aside of it."""
        found, i, ahead = [], -1, -math.inf
        for s, u in places:
            if s > ahead:  # on to the chord that holds it
                while s > ahead and i < len(self.along) - 2:
                    i += 1
                    ahead = self.along[i + 1]
                chord = (ahead - self.along[i]) or 1.0
                (x, y), (x1, y1) = self.points[i], self.points[i + 1]
                (nx, ny), (nx1, ny1) = self.across[i], self.across[i + 1]
                dx, dy = (x1 - x) / chord, (y1 - y) / chord
                mx, my = (nx1 - nx) / chord, (ny1 - ny) / chord
            t = s - self.along[i]
            found.append((x + t * dx + u * (nx + t * mx), y + t * dy + u * (ny + t * my)))
        return found


def grooves(curve: Curve, diameter: float, texture: Texture, start: float = 0.0) -> list[Line]:
    """Return the lines (mm) on a cord of that diameter (mm) along `curve`.

    `start` (mm) is how far along its strand the curve begins, so that lines meet over a joint.
    """
    side = _straight(curve) or _measured(curve)
    first, length = start / diameter, side.length / diameter
    found: list[Line] = []
    for groove in texture.grooves:
        lowest = math.floor((first - groove[2]) / texture.cell)
        highest = math.ceil((first + length - groove[0]) / texture.cell)
        shifts = (cell * texture.cell - first for cell in range(lowest, highest))
        parts = [part for shift in shifts if (part := _within(groove, shift, length))]
        begins = side.at([(s0 * diameter, u0 * diameter) for s0, u0, _, _ in parts])
        ends = side.at([(s1 * diameter, u1 * diameter) for _, _, s1, u1 in parts])
        found += [(*begin, *end) for begin, end in zip(begins, ends, strict=True)]
    return found


def _within(groove: Groove, shift: float, length: float) -> Groove | None:
    """Return the part of a groove, moved along by `shift`, that lies on a cord so long."""
    s0, u0, s1, u1 = groove
    slope = (u1 - u0) / (s1 - s0)
    s0, s1 = s0 + shift, s1 + shift
    if s0 >= 0.0 and s1 <= length:
        return (s0, u0, s1, u1)
    low, high = max(s0, 0.0), min(s1, length)
    if high <= low:
        return None
    return (low, u0 + (low - s0) * slope, high, u0 + (high - s0) * slope)


def _straight(curve: Curve) -> _Straight | None:
    """Return a curve of one cubic as a straight line, if it is one; None for others."""
    if len(curve) != 8:
        return None
    x0, y0, ax, ay, bx, by, x1, y1 = curve
    dx, dy = x1 - x0, y1 - y0
    length = math.hypot(dx, dy)
    if not length:
        return None
    dx, dy = dx / length, dy / length
    off = max(abs((ax - x0) * dy - (ay - y0) * dx), abs((bx - x0) * dy - (by - y0) * dx))
    return None if off > BENT else _Straight((x0, y0), (dx, dy), length)


def _measured(curve: Curve) -> _Measured:
    along = [0.0]
    points: list[Vector] = []
    across: list[Vector] = []
    for k in range(0, len(curve) - 2, 6):
        x0, y0, ax, ay, bx, by, x1, y1 = curve[k : k + 8]
        for i in range(1 if k else 0, CHORDS + 1):
            t = i / CHORDS
            s = 1.0 - t
            p, q, r, w = s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t
            points.append((p * x0 + q * ax + r * bx + w * x1, p * y0 + q * ay + r * by + w * y1))
            dx = s * s * (ax - x0) + 2.0 * s * t * (bx - ax) + t * t * (x1 - bx)
            dy = s * s * (ay - y0) + 2.0 * s * t * (by - ay) + t * t * (y1 - by)
            size = math.hypot(dx, dy)
            across.append((-dy / size, dx / size) if size else across[-1] if across else (1.0, 0.0))
    for a, b in pairwise(points):
        along.append(along[-1] + math.dist(a, b))
    return _Measured(tuple(along), tuple(points), tuple(across))
