"""Cord as it is painted: an outline, a shaded side and a lit middle, by three strokes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from knotplot.drawing.shapes import Curve, Stroke, Style

EDGE = 0.09  # outline, diameters
OVERLAP = 0.16  # how far the inner strokes run on over a joint, diameters, so that no seam shows


def cord(curves: Sequence[Curve], diameter: float) -> tuple[Stroke, ...]:
    """Return strokes that paint cords of `diameter` (mm) along `curves`, all in one layer."""
    edge, side, lit = styles(diameter)
    longer = [stretched(curve, OVERLAP * diameter, OVERLAP * diameter) for curve in curves]
    return (Stroke(edge, tuple(curves)), Stroke(side, tuple(longer)), Stroke(lit, tuple(longer)))


def styles(diameter: float) -> tuple[Style, Style, Style]:
    """Return the styles of a cord's outline, its shaded body and its lit middle."""
    return (
        Style(stroke="cord-edge", width=diameter),
        Style(stroke="cord-shade", width=diameter * (1.0 - 2.0 * EDGE)),
        Style(stroke="cord", width=diameter * 0.56),
    )


def stretched(curve: Curve, start: float, end: float) -> Curve:
    """Return `curve` run on straight by `start` and `end` (mm) beyond its two ends."""
    x0, y0, x1, y1 = curve[:4]
    before = _on(x1, y1, x0, y0, start)
    x2, y2, x3, y3 = curve[-4:]
    after = _on(x2, y2, x3, y3, end)
    first = (*before, *_thirds(before, (x0, y0)))
    return (*first, *curve[2:], *_thirds((x3, y3), after))


def _on(x0: float, y0: float, x1: float, y1: float, by: float) -> tuple[float, float]:
    size = math.hypot(x1 - x0, y1 - y0)
    if size < 1e-9:
        return x1, y1
    return x1 + (x1 - x0) * by / size, y1 + (y1 - y0) * by / size


def _thirds(a: tuple[float, float], b: tuple[float, float]) -> tuple[float, ...]:
    dx, dy = (b[0] - a[0]) / 3.0, (b[1] - a[1]) / 3.0
    return (a[0] + dx, a[1] + dy, b[0] - dx, b[1] - dy, b[0], b[1])
