"""Cubic Bézier curves: points, halves, flattening and length.

A plane cubic is a flat tuple of eight floats, start, two control points, end:
(x0, y0, c1x, c1y, c2x, c2y, x1, y1); a space cubic has twelve, three a point. Lengths come out in
the unit of the coordinates. Plain Python throughout: a piece has a curve for every free run, so
`length` is called some 100,000 times, and a numerical library would cost more to load than it
saves.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

Point = tuple[float, float]
Cubic = tuple[float, float, float, float, float, float, float, float]
Cubic3 = tuple[float, float, float, float, float, float, float, float, float, float, float, float]

# 8-point Gauss–Legendre, Abramowitz & Stegun, Handbook of Mathematical Functions (1964),
# table 25.4. The nodes come in pairs ± about the middle of the curve; half of each, as the curve's
# parameter runs over 1 and not over 2.
_S1 = 0.183434642495649805 / 2
_S2 = 0.525532409916328986 / 2
_S3 = 0.796666477413626740 / 2
_S4 = 0.960289856497536232 / 2
_Q1, _Q2, _Q3, _Q4 = _S1 * _S1, _S2 * _S2, _S3 * _S3, _S4 * _S4
# The speed is 3 × the quadratic below, and half of each weight counts: 3/2.
_W1 = 0.362683783378361983 * 1.5
_W2 = 0.313706645877887287 * 1.5
_W3 = 0.222381034453374471 * 1.5
_W4 = 0.101228536290376259 * 1.5


def point(curve: Cubic, t: float) -> Point:
    """Return the point of `curve` at parameter `t`, 0 at its start and 1 at its end.

    >>> point((0.0, 0.0, 1.0, 0.0, 2.0, 0.0, 3.0, 0.0), 0.5)
    (1.5, 0.0)
    """
    x0, y0, c1x, c1y, c2x, c2y, x1, y1 = curve
    back = 1.0 - t
    w0, w1, w2, w3 = back * back * back, 3 * back * back * t, 3 * back * t * t, t * t * t
    return (
        w0 * x0 + w1 * c1x + w2 * c2x + w3 * x1,
        w0 * y0 + w1 * c1y + w2 * c2y + w3 * y1,
    )


def length(curve: Cubic) -> float:
    """Return the length of a plane cubic by 8-point Gauss–Legendre.

    Measured: right to 2e-8 of itself for a bow that turns by 90°, to 2e-5 for one of 130° and for
    a run that leaves and arrives upright but goes four times as far across as down. Far worse at
    a cusp: see `length_within`.

    >>> length((0.0, 0.0, 1.0, 0.0, 2.0, 0.0, 3.0, 4.0)) > 5.0
    True
    """
    x0, y0, c1x, c1y, c2x, c2y, x1, y1 = curve
    # A third of the derivative is middle + slope·s + bend·s², s from −½ to ½.
    bx, by = x1 - c2x - c1x + x0, y1 - c2y - c1y + y0
    ax, ay = x1 - x0 + 3.0 * (c1x - c2x), y1 - y0 + 3.0 * (c1y - c2y)
    mx, my = 0.25 * (x1 - x0 + c2x - c1x), 0.25 * (y1 - y0 + c2y - c1y)
    hypot = math.hypot
    ex, ey, ox, oy = mx + ax * _Q1, my + ay * _Q1, bx * _S1, by * _S1
    total = _W1 * (hypot(ex + ox, ey + oy) + hypot(ex - ox, ey - oy))
    ex, ey, ox, oy = mx + ax * _Q2, my + ay * _Q2, bx * _S2, by * _S2
    total += _W2 * (hypot(ex + ox, ey + oy) + hypot(ex - ox, ey - oy))
    ex, ey, ox, oy = mx + ax * _Q3, my + ay * _Q3, bx * _S3, by * _S3
    total += _W3 * (hypot(ex + ox, ey + oy) + hypot(ex - ox, ey - oy))
    ex, ey, ox, oy = mx + ax * _Q4, my + ay * _Q4, bx * _S4, by * _S4
    return total + _W4 * (hypot(ex + ox, ey + oy) + hypot(ex - ox, ey - oy))


def straight(x0: float, y0: float, x1: float, y1: float) -> Cubic:
    """Return the straight line between two points, as a cubic.

    >>> straight(0.0, 0.0, 3.0, 6.0)
    (0.0, 0.0, 1.0, 2.0, 2.0, 4.0, 3.0, 6.0)
    """
    dx, dy = (x1 - x0) / 3.0, (y1 - y0) / 3.0
    return (x0, y0, x0 + dx, y0 + dy, x1 - dx, y1 - dy, x1, y1)


def cubics(curve: Sequence[float]) -> list[Cubic]:
    """Return the cubics of a curve that runs on: x0, y0, then six numbers each."""
    return [
        (c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7])
        for c in (curve[i : i + 8] for i in range(0, len(curve) - 2, 6))
    ]


def curve_length(curve: Sequence[float]) -> float:
    """Return the length of a curve that runs on.

    >>> bend = (0.0, 0.0, 1.0, 0.0, 2.0, 0.0, 3.0, 0.0, 3.0, 1.0, 3.0, 2.0, 3.0, 3.0)
    >>> round(curve_length(bend), 9)
    6.0
    """
    return sum(length(cubic) for cubic in cubics(curve))


def length3(curve: Cubic3) -> float:
    """Return the length of a space cubic of twelve floats, as near as `length` is.

    >>> round(length3((0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 2.0, 2.0, 2.0, 3.0, 3.0, 3.0)), 9)
    5.196152423
    """
    x0, y0, z0, c1x, c1y, c1z, c2x, c2y, c2z, x1, y1, z1 = curve
    bx, by, bz = x1 - c2x - c1x + x0, y1 - c2y - c1y + y0, z1 - c2z - c1z + z0
    ax = x1 - x0 + 3.0 * (c1x - c2x)
    ay = y1 - y0 + 3.0 * (c1y - c2y)
    az = z1 - z0 + 3.0 * (c1z - c2z)
    mx, my, mz = x1 - x0 + c2x - c1x, y1 - y0 + c2y - c1y, z1 - z0 + c2z - c1z
    hypot = math.hypot
    total = 0.0
    for s, q, weight in ((_S1, _Q1, _W1), (_S2, _Q2, _W2), (_S3, _Q3, _W3), (_S4, _Q4, _W4)):
        ex, ey, ez = 0.25 * mx + ax * q, 0.25 * my + ay * q, 0.25 * mz + az * q
        ox, oy, oz = bx * s, by * s, bz * s
        total += weight * (hypot(ex + ox, ey + oy, ez + oz) + hypot(ex - ox, ey - oy, ez - oz))
    return total


def halves(curve: Cubic) -> tuple[Cubic, Cubic]:
    """Cut `curve` at its middle parameter into two cubics (de Casteljau)."""
    x0, y0, c1x, c1y, c2x, c2y, x1, y1 = curve
    ax, ay, bx, by = (x0 + c1x) / 2, (y0 + c1y) / 2, (c1x + c2x) / 2, (c1y + c2y) / 2
    cx, cy = (c2x + x1) / 2, (c2y + y1) / 2
    abx, aby, bcx, bcy = (ax + bx) / 2, (ay + by) / 2, (bx + cx) / 2, (by + cy) / 2
    mx, my = (abx + bcx) / 2, (aby + bcy) / 2
    return (x0, y0, ax, ay, abx, aby, mx, my), (mx, my, bcx, bcy, cx, cy, x1, y1)


def length_within(curve: Cubic, tolerance: float, most_cuts: int = 24) -> float:
    """Return the length of `curve` to within `tolerance`, in the unit of its coordinates.

    Halves the curve until the two halves together agree with the whole; `most_cuts` halvings one
    inside the other at most, which a cusp needs no more than.
    """
    whole = length(curve)
    first, second = halves(curve)
    if abs(length(first) + length(second) - whole) <= tolerance or most_cuts == 0:
        return length(first) + length(second)
    return length_within(first, tolerance / 2, most_cuts - 1) + length_within(
        second, tolerance / 2, most_cuts - 1
    )


def flatten(curve: Cubic, n: int) -> tuple[Point, ...]:
    """Return n + 1 points along `curve`, at equal steps of its parameter, both ends exact.

    >>> flatten((0.0, 0.0, 1.0, 0.0, 2.0, 0.0, 3.0, 0.0), 2)
    ((0.0, 0.0), (1.5, 0.0), (3.0, 0.0))
    """
    if n < 1:
        raise ValueError(f"a curve is flattened into 1 stretch or more, not {n}")
    inner = tuple(point(curve, i / n) for i in range(1, n))
    return ((curve[0], curve[1]), *inner, (curve[6], curve[7]))


def length_of(points: Sequence[Sequence[float]]) -> float:
    """Return the length of the line through `points` (plane or space), 0 for fewer than two.

    >>> length_of([(0, 0), (3, 4), (3, 5)])
    6.0
    """
    return math.fsum(math.dist(a, b) for a, b in pairwise(points))
