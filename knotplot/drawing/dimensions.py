"""Dimension lines in the manner of ISO 129-1 (from memory): thin lines, arrows, extension lines.

A dimension is told in both systems of units, and stands where nothing else is written. Sizes of
arrows, gaps and overshoots are in font sizes.
"""

from __future__ import annotations

from knotplot.drawing import metrics
from knotplot.drawing.shapes import Fill, Item, Line, Stroke, Style, Text
from knotplot.units import both

PEN = 0.06  # a thin line
ARROW = 0.75  # an arrow's length; its width is a third of that
GAP = 0.3  # between the object and an extension line
OVER = 0.4  # an extension line runs on past the dimension line


def pen(size: float) -> Style:
    """Return the style of thin lines beside text of that size (mm)."""
    return Style("quiet", PEN * size)


def arrow(x: float, y: float, dx: int, dy: int, size: float) -> Fill:
    """Return an arrowhead whose point is at (x, y) and which points along (dx, dy)."""
    length, half = ARROW * size, ARROW * size / 6.0
    bx, by = x - dx * length, y - dy * length
    points = (x, y, bx - dy * half, by + dx * half, bx + dy * half, by - dx * half)
    return Fill(Style(fill="quiet"), polygons=(points,))


def across(
    x0: float, x1: float, y: float, start: float, size: float, text: str | None = None
) -> list[Item]:
    """Return the dimension from x0 to x1 on a line at `y`, its extension lines from `start`.

    The text stands above the line; where it is wider than the dimension, the arrows point inward.
    """
    words = both(x1 - x0) if text is None else text
    inside = x1 - x0 > 3.0 * ARROW * size
    sign = -1.0 if y < start else 1.0
    near, far = start + sign * GAP * size, y + sign * OVER * size
    lines: list[Line] = [(x0, near, x0, far), (x1, near, x1, far)]
    out = 0.0 if inside else 2.0 * ARROW * size
    lines.append((x0 - out, y, x1 + out, y))
    tips = [arrow(x0, y, -1 if inside else 1, 0, size), arrow(x1, y, 1 if inside else -1, 0, size)]
    label = Text((x0 + x1) / 2.0, y - 0.35 * size, words, size, "middle")
    return [Stroke(pen(size), lines=lines), *tips, label]


def down(
    x: float,
    y0: float,
    y1: float,
    starts: tuple[float, float],
    size: float,
    text: str | None = None,
) -> list[Item]:
    """Return the dimension from y0 to y1 on a line at `x`; extension lines start at `starts`.

    The text is turned to be read from the right and stands left of the line, beyond the lower end
    where the dimension has no room for it.
    """
    words = both(y1 - y0) if text is None else text
    inside = y1 - y0 > 3.0 * ARROW * size
    lines: list[Line] = []
    for y, start in zip((y0, y1), starts, strict=True):
        sign = -1.0 if x < start else 1.0
        if abs(x - start) > GAP * size:
            lines.append((start + sign * GAP * size, y, x + sign * OVER * size, y))
    out = 0.0 if inside else 2.0 * ARROW * size
    lines.append((x, y0 - out, x, y1 + out))
    tips = [arrow(x, y0, 0, -1 if inside else 1, size), arrow(x, y1, 0, 1 if inside else -1, size)]
    drawn: list[Item] = [Stroke(pen(size), lines=lines), *tips]
    if not words:
        return drawn
    wide = metrics.width(words, size)
    middle = (y0 + y1) / 2.0
    if wide > y1 - y0 - 2.2 * ARROW * size:
        middle = y1 + out + 0.4 * size + wide / 2.0
    return [*drawn, Text(x - 0.35 * size, middle, words, size, "middle", turn=-90.0)]
