"""Curves in space through given points: how a knot's strand runs, in cord diameters.

A space curve is a tuple of cubics of 12 numbers (four points of x, y, z). x runs to the right,
y down, z towards the one who looks.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

Point3 = tuple[float, float, float]
Cubic3 = tuple[float, ...]
SpaceCurve = tuple[Cubic3, ...]

DOWN: Point3 = (0.0, 1.0, 0.0)  # as every strand enters and leaves a knot


def smooth(points: Sequence[Point3], start: Point3, end: Point3) -> SpaceCurve:
    """Return the curve through `points` that leaves along `start` and arrives along `end`.

    Inner tangents are Catmull–Rom's, weighted by the chords (Catmull & Rom 1974, in the
    form for uneven spacing), so that short and long chords meet without a bump. `start` and
    `end` are directions; their lengths don't matter.
    """
    chords = [math.dist(a, b) for a, b in pairwise(points)]
    tangents = [_scaled(start, 1.0)]
    for i in range(1, len(points) - 1):
        before, after = chords[i - 1], chords[i]
        slope = tuple(
            (after * (q - p) / before + before * (r - q) / after) / (before + after)
            for p, q, r in zip(points[i - 1], points[i], points[i + 1], strict=True)
        )
        tangents.append((slope[0], slope[1], slope[2]))
    tangents.append(_scaled(end, 1.0))
    return tuple(
        _hermite(points[i], points[i + 1], tangents[i], tangents[i + 1], chords[i] / 3.0)
        for i in range(len(chords))
    )


def line(a: Point3, b: Point3) -> SpaceCurve:
    """Return the straight curve from `a` to `b`, as one cubic."""
    towards = tuple((q - p) / 3.0 for p, q in zip(a, b, strict=True))
    c = tuple(p + t for p, t in zip(a, towards, strict=True))
    d = tuple(p + 2.0 * t for p, t in zip(a, towards, strict=True))
    return ((*a, *c, *d, *b),)


def sample(curve: SpaceCurve, steps: int) -> list[Point3]:
    """Return points along `curve`, `steps` a cubic, first and last included."""
    points: list[Point3] = [(curve[0][0], curve[0][1], curve[0][2])]
    points += [at(cubic, i / steps) for cubic in curve for i in range(1, steps + 1)]
    return points


def at(cubic: Cubic3, t: float) -> Point3:
    """Return the point of `cubic` at `t` from 0 to 1."""
    s = 1.0 - t
    a, b, c, d = s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t
    x, y, z = (
        a * cubic[k] + b * cubic[3 + k] + c * cubic[6 + k] + d * cubic[9 + k] for k in range(3)
    )
    return (x, y, z)


def split(cubic: Cubic3, t0: float, t1: float) -> Cubic3:
    """Return the part of `cubic` from `t0` to `t1`, by blossoming."""

    def blossom(a: float, b: float, c: float, k: int) -> float:
        p0, p1, p2, p3 = cubic[k], cubic[3 + k], cubic[6 + k], cubic[9 + k]
        q0, q1, q2 = p0 + (p1 - p0) * a, p1 + (p2 - p1) * a, p2 + (p3 - p2) * a
        r0, r1 = q0 + (q1 - q0) * b, q1 + (q2 - q1) * b
        return r0 + (r1 - r0) * c

    corners = ((t0, t0, t0), (t0, t0, t1), (t0, t1, t1), (t1, t1, t1))
    return tuple(blossom(*corner, k) for corner in corners for k in range(3))


def turned(curve: SpaceCurve, cos: float, sin: float) -> SpaceCurve:
    """Return `curve` turned in the plane by the angle of that cosine and sine (clockwise seen)."""
    return mapped(curve, lambda x, y, z: (cos * x - sin * y, sin * x + cos * y, z))


def mirrored(curve: SpaceCurve) -> SpaceCurve:
    """Return `curve` with left and right changed over."""
    return mapped(curve, lambda x, y, z: (-x, y, z))


def mapped(curve: SpaceCurve, move: Callable[[float, float, float], Point3]) -> SpaceCurve:
    """Return `curve` with every control point moved by `move(x, y, z)`, an affine map."""
    return tuple(
        tuple(
            value for k in range(0, 12, 3) for value in move(cubic[k], cubic[k + 1], cubic[k + 2])
        )
        for cubic in curve
    )


def _scaled(vector: Iterable[float], length: float) -> Point3:
    x, y, z = vector
    size = math.sqrt(x * x + y * y + z * z)
    return (x * length / size, y * length / size, z * length / size)


def _hermite(a: Point3, b: Point3, at_a: Point3, at_b: Point3, third: float) -> Cubic3:
    c = tuple(p + third * t for p, t in zip(a, at_a, strict=True))
    d = tuple(p - third * t for p, t in zip(b, at_b, strict=True))
    return (*a, *c, *d, *b)
