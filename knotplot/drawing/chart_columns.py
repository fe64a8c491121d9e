"""The names of columns above a chart, each over its bracket and on none of the other lettering."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from typing import NamedTuple

from knotplot.drawing import metrics
from knotplot.drawing.bounds import Extent, meet, of_text
from knotplot.drawing.labels import LINE, Wide, levels, lines_of
from knotplot.drawing.shapes import Item, Line, Stroke, Style, Text, TextAnchor

_FOOT = 0.8  # from a bracket's feet to the lowest name, font sizes
_TOP = 0.4  # how high a bracket is, font sizes
_ASIDE = 0.45  # from a pointer to the name that hangs on it, font sizes
_STEP = 0.5  # how far names are lifted at a time, lines
_MOST_STEPS = 200


class Column(NamedTuple):
    """A column: from where to where it reaches (mm), and the lines that name its sections."""

    x0: float
    x1: float
    lines: tuple[str, ...]

    @property
    def middle(self) -> float:
        """Return the middle of its bracket."""
        return (self.x0 + self.x1) / 2.0


class _Name(NamedTuple):
    """Where a column's name stands, and the pointer from its bracket, none where it is close."""

    items: tuple[Text, ...]
    pointer: Line | None

    @property
    def boxes(self) -> list[Extent]:
        return [box for box in map(of_text, self.items) if box is not None]


def column_names(
    columns: Sequence[Column], y: float, size: float, pen: Style, taken: Sequence[Extent]
) -> list[Item]:
    """Return brackets over the columns, their feet at `y`, and their names above (mm).

    Each name stands in the middle above its bracket, as low as the others let it. Where a pointer
    would cross a name, or a name one of the boxes `taken`, the names hang on their pointers like
    flags instead, the rightmost the highest: no pointer then crosses any, however many there are.
    """
    found = _level(columns, y, size)
    lift = 0
    while not _apart(found, taken) and lift < _MOST_STEPS:
        found = _flags(columns, y - lift * _STEP * LINE * size, y, size)
        lift += 1
    lines = [bracket(column.x0, column.x1, y, size) for column in columns]
    lines += [name.pointer for name in found if name.pointer is not None]
    strokes = [Stroke(pen, lines=tuple(lines))] if lines else []
    return [*strokes, *(item for name in found for item in name.items)]


def bracket(x0: float, x1: float, y: float, size: float) -> Line:
    """Return a bracket that opens down, over x0 to x1, its feet at `y`."""
    inset, rise = min(0.1 * size, (x1 - x0) / 8.0), _TOP * size
    a, b = x0 + inset, x1 - inset
    return (a, y, a, y - rise, b, y - rise, b, y)


def lifted(text: Text, taken: Sequence[Extent], size: float) -> Text:
    """Return a text moved up until it lies on none of the boxes `taken`."""
    for _ in range(_MOST_STEPS):
        box = of_text(text)
        if box is None or not any(meet(box, other) for other in taken):
            break
        text = replace(text, y=text.y - _STEP * LINE * size)
    return text


def _level(columns: Sequence[Column], y: float, size: float) -> list[_Name]:
    """Return names in the middle above their brackets, on as few levels as they need."""
    wide = [
        Wide(each.middle, max((metrics.width(line, size) for line in each.lines), default=0.0))
        for each in columns
    ]
    step = (max((len(each.lines) for each in columns), default=0) + 0.5) * LINE * size
    found = []
    for each, level in zip(columns, levels(wide, 0.5 * size), strict=True):
        base = y - _FOOT * size - level * step
        items = _texts(each.lines, each.middle, base, size, "middle")
        pointer = (each.middle, y - _TOP * size, each.middle, base) if level and items else None
        found.append(_Name(items, pointer))
    return found


def _flags(columns: Sequence[Column], low: float, y: float, size: float) -> list[_Name]:
    """Return names that end at their pointers, each above those of the columns left of it."""
    base = low - _FOOT * size
    found = []
    for each in columns:
        items = _texts(each.lines, each.middle - _ASIDE * size, base, size, "end")
        pointer = None
        if items:
            top = base - 0.5 * LINE * size
            pointer = (each.middle, y - _TOP * size, each.middle, top)
            base -= (len(each.lines) + 0.3) * LINE * size
        found.append(_Name(items, pointer))
    return found


def _texts(
    lines: Sequence[str], x: float, base: float, size: float, anchor: TextAnchor
) -> tuple[Text, ...]:
    height = len(lines) * LINE * size
    items = lines_of(lines, x, base - height / 2.0, size, anchor)
    return tuple(item for item in items if isinstance(item, Text))


def _apart(names: Sequence[_Name], taken: Sequence[Extent]) -> bool:
    """Say whether no name lies on another or on `taken`, and no pointer crosses a name."""
    for one, other in combinations(names, 2):
        if any(meet(a, b) for a in one.boxes for b in other.boxes):
            return False
    boxes = [box for name in names for box in name.boxes]
    if any(meet(box, other) for box in boxes for other in taken):
        return False
    pointers = [(name.pointer, name.boxes) for name in names if name.pointer is not None]
    return not any(
        meet((line[0], line[3], line[0], line[1]), box)
        for line, own in pointers
        for box in (*boxes, *taken)
        if box not in own
    )
