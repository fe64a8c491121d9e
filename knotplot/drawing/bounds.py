"""The box that holds everything a drawing paints."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import chain
from typing import TypeAlias, assert_never

from knotplot.drawing import metrics
from knotplot.drawing.shapes import (
    Anchor,
    Disc,
    Fill,
    Group,
    Item,
    Link,
    Mark,
    Point,
    Stroke,
    Style,
    Symbol,
    Text,
)

#: x0, y0, x1, y1 with x0 ≤ x1 and y0 ≤ y1.
Extent: TypeAlias = tuple[float, float, float, float]

_MITER_LIMIT = 4.0  # the renderers' own; a mitred corner reaches no further than this × half width


def bounds(items: Iterable[Item]) -> Extent:
    """Return x0, y0, x1, y1 in mm around what `items` paint; (0, 0, 0, 0) where nothing is.

    An outer bound: curves count with their control points, text with its font's height, strokes
    with half their width (mitred ones with four times that), groups clipped. Links and anchors
    paint nothing.

    >>> bounds([Stroke(Style("ink", 2.0), lines=[(0.0, 0.0, 10.0, 0.0)])])
    (-1.0, -1.0, 11.0, 1.0)
    """
    return extent(items) or (0.0, 0.0, 0.0, 0.0)


def extent(items: Iterable[Item]) -> Extent | None:
    """Return the bounds of `items`, or None where they paint nothing."""
    symbols: dict[int, Extent | None] = {}
    return _union(_of_item(item, symbols) for item in items)


def reach(style: Style) -> float:
    """Return how far in mm a path of this style paints beyond its line."""
    if style.stroke is None:
        return 0.0
    return style.width / 2 * (_MITER_LIMIT if style.join == "miter" else 1.0)


def of_paths(paths: Sequence[Sequence[float]], by: float = 0.0) -> Extent | None:
    """Return the extent of paths (x, y alternating), grown by `by` on every side."""
    flat = list(chain.from_iterable(paths))
    if not flat:
        return None
    xs, ys = flat[::2], flat[1::2]
    return min(xs) - by, min(ys) - by, max(xs) + by, max(ys) + by


def of_text(text: Text, wider: float = 1.0) -> Extent | None:
    """Return the extent of a line of text, turned as it stands, in letters so much `wider`."""
    wide = wider * metrics.width(text.text, text.size, text.weight)
    if not wide:
        return None
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.anchor]
    top, bottom = -metrics.ASCENT * text.size, metrics.DESCENT * text.size
    cos, sin = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
    corners = [(x, y) for x in (left, left + wide) for y in (top, bottom)]
    return of_paths([(text.x + x * cos - y * sin, text.y + x * sin + y * cos) for x, y in corners])


def of_symbol(symbol: Symbol, known: dict[int, Extent | None]) -> Extent | None:
    """Return the extent of a symbol about its origin; `known` keeps those already measured."""
    if id(symbol) not in known:
        known[id(symbol)] = _union(_of_item(item, known) for item in symbol.items)
    return known[id(symbol)]


def _of_item(item: Item, symbols: dict[int, Extent | None]) -> Extent | None:
    match item:
        case Text():
            return of_text(item)
        case Stroke(style, curves, lines):
            return of_paths([*curves, *lines], reach(style))
        case Fill(style, outlines, polygons):
            return of_paths([*outlines, *polygons], reach(style))
        case Disc(style, at, radius):
            return of_paths(at, radius + reach(style))
        case Mark(symbol, at):
            return _swept(of_symbol(symbol, symbols), at)
        case Group():
            return _of_group(item, symbols)
        case Link() | Anchor():
            return None
        case _:
            assert_never(item)


def _swept(box: Extent | None, at: Sequence[Point]) -> Extent | None:
    """Return what a box covers that stands about each of the places."""
    places = of_paths(at)
    if box is None or places is None:
        return None
    return places[0] + box[0], places[1] + box[1], places[2] + box[2], places[3] + box[3]


def _of_group(group: Group, symbols: dict[int, Extent | None]) -> Extent | None:
    inner = _union(_of_item(item, symbols) for item in group.items)
    if inner is not None and group.clip is not None:
        x, y, w, h = group.clip
        inner = meet(inner, (x, y, x + w, y + h))
    if inner is None:
        return None
    s, dx, dy = group.scale, group.dx, group.dy
    return inner[0] * s + dx, inner[1] * s + dy, inner[2] * s + dx, inner[3] * s + dy


def meet(one: Extent, other: Extent) -> Extent | None:
    """Return what two boxes share, or None; boxes that only touch share a line."""
    x0, y0 = max(one[0], other[0]), max(one[1], other[1])
    x1, y1 = min(one[2], other[2]), min(one[3], other[3])
    return (x0, y0, x1, y1) if x0 <= x1 and y0 <= y1 else None


def _union(boxes: Iterable[Extent | None]) -> Extent | None:
    found = [box for box in boxes if box is not None]
    if not found:
        return None
    x0, y0, x1, y1 = zip(*found, strict=True)
    return min(x0), min(y0), max(x1), max(y1)
