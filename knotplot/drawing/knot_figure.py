"""A knot's mark as in the chart, to stand beside its name."""

from __future__ import annotations

from knotplot.drawing.bounds import bounds
from knotplot.drawing.marks import knot_mark
from knotplot.drawing.shapes import Curve, Group, Stroke, Style
from knotplot.knots.base import Manner

MARK = 1.6  # mm a cord is thick in a mark


def knot_mark_item(
    name: str, manner: Manner, height: float, left_handed: bool = False
) -> tuple[Group, float]:
    """Return a knot's mark as in the chart from (0, 0), at most `height` mm high, and its width.

    The left hand's is mirrored, as its knots are.
    """
    layers = knot_mark(name, manner)
    if left_handed:
        layers = tuple((ink, pen, tuple(map(_mirrored, curves))) for ink, pen, curves in layers)
    items = tuple(Stroke(Style(ink, pen), curves) for ink, pen, curves in layers)
    x0, y0, x1, y1 = bounds(items)
    scale = min(height / (y1 - y0), 2.2 * height / (x1 - x0), MARK)
    dy = (height - scale * (y0 + y1)) / 2.0
    return Group(items, dx=-scale * x0, dy=dy, scale=scale), scale * (x1 - x0)


def _mirrored(curve: Curve) -> Curve:
    return tuple(-value if i % 2 == 0 else value for i, value in enumerate(curve))
