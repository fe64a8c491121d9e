"""Monotone cubic interpolation (PCHIP), for a lower edge drawn through a maker's own points.

Slopes inside after F. N. Fritsch and J. Butland, "A method for constructing local monotone
piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5 (1984); at the ends the three-point
formula, held back so that the curve keeps the shape of its points. The curve never leaves the
values of the two points it runs between.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise

from knotplot.curves.bezier import Cubic


class Pchip:
    """The monotone cubic through points (x, y), x rising; two or more of them, all finite."""

    __slots__ = ("slopes", "xs", "ys")

    def __init__(self, points: Sequence[Sequence[float]]) -> None:
        self.xs = tuple(float(x) for x, _ in points)
        self.ys = tuple(float(y) for _, y in points)
        if len(points) < 2 or not all(map(math.isfinite, self.xs + self.ys)):
            raise ValueError(f"a curve needs two or more finite points, not {points!r}")
        if any(b <= a for a, b in pairwise(self.xs)):
            raise ValueError(f"x must rise from point to point: {self.xs}")
        self.slopes = _slopes(self.xs, self.ys)

    def __call__(self, x: float) -> float:
        """Return y at `x`; beyond the ends, the end's value."""
        xs, ys = self.xs, self.ys
        if x <= xs[0]:
            return ys[0]
        if x >= xs[-1]:
            return ys[-1]
        i = bisect_right(xs, x) - 1
        wide = xs[i + 1] - xs[i]
        t = (x - xs[i]) / wide
        back = 1.0 - t
        start, end = self.slopes[i] * wide, self.slopes[i + 1] * wide
        # Hermite's form; written from the nearer end, so that it is exact at every point.
        return back * back * ((1 + 2 * t) * ys[i] + t * start) + t * t * (
            (3 - 2 * t) * ys[i + 1] - back * end
        )

    def cubics(self, x_scale: float, y_scale: float) -> tuple[Cubic, ...]:
        """Return the curve as Bézier cubics, one from each point to the next, scaled."""
        return tuple(
            (
                x0 * x_scale,
                y0 * y_scale,
                (2 * x0 + x1) / 3 * x_scale,
                (y0 + s0 * (x1 - x0) / 3) * y_scale,
                (x0 + 2 * x1) / 3 * x_scale,
                (y1 - s1 * (x1 - x0) / 3) * y_scale,
                x1 * x_scale,
                y1 * y_scale,
            )
            for x0, y0, s0, x1, y1, s1 in zip(
                self.xs,
                self.ys,
                self.slopes,
                self.xs[1:],
                self.ys[1:],
                self.slopes[1:],
                strict=False,
            )
        )


def _slopes(xs: tuple[float, ...], ys: tuple[float, ...]) -> tuple[float, ...]:
    """Return the slope of the curve at every point."""
    wide = [b - a for a, b in pairwise(xs)]
    steep = [(b - a) / h for a, b, h in zip(ys, ys[1:], wide, strict=False)]
    if len(xs) == 2:
        return (steep[0], steep[0])
    inner = (
        _between(h0, h1, d0, d1)
        for h0, h1, d0, d1 in zip(wide, wide[1:], steep, steep[1:], strict=False)
    )
    return (
        _at_end(wide[0], wide[1], steep[0], steep[1]),
        *inner,
        _at_end(wide[-1], wide[-2], steep[-1], steep[-2]),
    )


def _between(h0: float, h1: float, d0: float, d1: float) -> float:
    """Return the slope between two stretches: their weighted harmonic mean, level at a turn."""
    if d0 * d1 <= 0:
        return 0.0
    w0, w1 = 2 * h1 + h0, h1 + 2 * h0
    return (w0 + w1) / (w0 / d0 + w1 / d1)


def _at_end(h0: float, h1: float, d0: float, d1: float) -> float:
    """Return the slope at an end from its stretch and the next, counted inward."""
    slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
    if slope * d0 <= 0:
        return 0.0
    if d0 * d1 <= 0 and abs(slope) > 3 * abs(d0):
        return 3 * d0
    return slope
