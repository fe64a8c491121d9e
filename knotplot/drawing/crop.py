"""Leaving out what a window does not show, so that a page carries only its own share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import assert_never

from knotplot.drawing.bounds import Extent, meet, of_symbol, of_text, reach
from knotplot.drawing.shapes import Anchor, Disc, Fill, Group, Item, Link, Mark, Point, Stroke, Text


def crop(items: Iterable[Item], window: Extent) -> tuple[Item, ...]:
    """Return `items` without the paths, places and texts that lie wholly outside `window`.

    What crosses the edge stays whole: the page clips it. Paths are judged by their control
    points. Anchors are left out, which else would stand on several pages, and so are links to them.
    """
    symbols: dict[int, Extent | None] = {}
    return tuple(_cropped(items, window, symbols))


def _cropped(
    items: Iterable[Item], window: Extent, symbols: dict[int, Extent | None]
) -> Iterator[Item]:
    for item in items:
        kept = _keep(item, window, symbols)
        if kept is not None:
            yield kept


def _keep(item: Item, window: Extent, symbols: dict[int, Extent | None]) -> Item | None:
    match item:
        case Text():
            box = of_text(item)
            return item if box and meet(box, window) else None
        case Stroke(style, curves, lines):
            by = reach(style)
            curves, lines = _paths(curves, window, by), _paths(lines, window, by)
            return Stroke(style, curves, lines) if curves or lines else None
        case Fill(style, outlines, polygons):
            by = reach(style)
            outlines, polygons = _paths(outlines, window, by), _paths(polygons, window, by)
            return Fill(style, outlines, polygons) if outlines or polygons else None
        case Disc(style, at, radius):
            by = radius + reach(style)
            at = _places(at, (-by, -by, by, by), window)
            return Disc(style, at, radius) if at else None
        case Mark(symbol, at):
            hull = of_symbol(symbol, symbols)
            at = _places(at, hull, window) if hull else ()
            return Mark(symbol, at) if at else None
        case Group():
            return _group(item, window, symbols)
        case Link(box=(x, y, w, h)):
            inside = meet((x, y, x + w, y + h), window) and not item.target.startswith("#")
            return item if inside else None
        case Anchor():
            return None
        case _:
            assert_never(item)


def _paths(
    paths: Sequence[tuple[float, ...]], window: Extent, by: float
) -> tuple[tuple[float, ...], ...]:
    x0, y0, x1, y1 = window[0] - by, window[1] - by, window[2] + by, window[3] + by
    return tuple(
        path
        for path in paths
        if min(path[::2]) <= x1
        and max(path[::2]) >= x0
        and min(path[1::2]) <= y1
        and max(path[1::2]) >= y0
    )


def _places(at: Sequence[Point], hull: Extent, window: Extent) -> tuple[Point, ...]:
    left, right = window[0] - hull[2], window[2] - hull[0]
    top, bottom = window[1] - hull[3], window[3] - hull[1]
    return tuple((x, y) for x, y in at if left <= x <= right and top <= y <= bottom)


def _group(group: Group, window: Extent, symbols: dict[int, Extent | None]) -> Group | None:
    s, dx, dy = group.scale, group.dx, group.dy
    inner: Extent | None = (
        (window[0] - dx) / s,
        (window[1] - dy) / s,
        (window[2] - dx) / s,
        (window[3] - dy) / s,
    )
    if inner and group.clip:
        x, y, w, h = group.clip
        inner = meet(inner, (x, y, x + w, y + h))
    kept = tuple(_cropped(group.items, inner, symbols)) if inner else ()
    return replace(group, items=kept) if kept else None
