"""One drawing cut into pages that are laid over each other and taped into the whole.

Each page shows its window of the drawing, the crosses at which it is laid over its neighbours (a
cross stands at the very same point of the drawing on both), the line along which one of the two
is cut, and a small map of the pages with this one filled.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from knotplot.drawing.bounds import Extent, bounds
from knotplot.drawing.crop import crop
from knotplot.drawing.shapes import Disc, Drawing, Fill, Group, Item, Line, Stroke, Style, Text

_CUT = Style("line", 0.15, dash=(2.0, 1.5))
_CROSS = Style("ink", 0.2)
_MAP = Style("line", 0.15, fill="paper")
_BETWEEN = Style("line", 0.15)
_HERE = Style("line", 0.15, fill="accent")
_CROSS_ARM = 2.5
_FOOT = 9.0  # the strip below the window in which the map and the page's name stand


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a cut drawing; `col` and `row` count from 0 at the upper left."""

    col: int
    row: int
    drawing: Drawing

    @property
    def name(self) -> str:
        """The name printed on the page: a letter a row, a number a column, as A1."""
        return tile_name(self.col, self.row)


@dataclass(frozen=True, slots=True)
class _Cut:
    """How a drawing is cut: its extent, the window a page shows, and the grid of pages."""

    whole: Extent
    page: tuple[float, float]
    margin: float
    overlap: float
    cols: int
    rows: int

    @property
    def window(self) -> tuple[float, float]:
        return self.page[0] - 2 * self.margin, self.page[1] - 2 * self.margin - _FOOT

    def shown(self, col: int, row: int) -> Extent:
        """Return the part of the drawing that page shows."""
        (w, h), o = self.window, self.overlap
        x, y = self.whole[0] + col * (w - o), self.whole[1] + row * (h - o)
        return x, y, x + w, y + h


def tile(
    source: Drawing | Sequence[Item],
    page: tuple[float, float],
    overlap: float = 10.0,
    margin: float = 10.0,
) -> tuple[Tile, ...]:
    """Cut a drawing into pages of `page` = (width, height) mm, row by row from the upper left.

    Neighbours share `overlap` mm; `margin` stays free on each edge of a page. Anchors and links
    to them are left out, for a place would else be on several pages. Raises ValueError where
    page, margin and overlap leave nothing to draw on.
    """
    drawing = source if isinstance(source, Drawing) else None
    items = source.items if isinstance(source, Drawing) else source
    whole = (0.0, 0.0, drawing.width, drawing.height) if drawing else bounds(items)
    cut = _cut(whole, page, overlap, margin)
    title = drawing.title if drawing else ""
    desc = drawing.desc if drawing else ""
    language = drawing.language if drawing else "en"
    return tuple(
        Tile(
            col,
            row,
            Drawing(
                *page,
                tuple(_page(items, cut, col, row)),
                f"{title} {tile_name(col, row)}".strip(),
                desc,
                language,
            ),
        )
        for row in range(cut.rows)
        for col in range(cut.cols)
    )


def tile_count(
    size: tuple[float, float],
    page: tuple[float, float],
    overlap: float = 10.0,
    margin: float = 10.0,
) -> int:
    """Return how many pages `tile` cuts a drawing of `size` = (width, height) mm into.

    Raises ValueError as `tile` does.

    >>> tile_count((300.0, 400.0), (210.0, 297.0))
    4
    """
    cut = _cut((0.0, 0.0, *size), page, overlap, margin)
    return cut.cols * cut.rows


def tile_name(col: int, row: int) -> str:
    """Return the name of a page: rows A … Z, AA …, columns from 1.

    >>> tile_name(0, 0), tile_name(11, 27)
    ('A1', 'AB12')
    """
    letters = ""
    row += 1
    while row:
        row, letter = divmod(row - 1, 26)
        letters = chr(65 + letter) + letters
    return f"{letters}{col + 1}"


def _cut(whole: Extent, page: tuple[float, float], overlap: float, margin: float) -> _Cut:
    steps = page[0] - 2 * margin - overlap, page[1] - 2 * margin - _FOOT - overlap
    if min(*steps, overlap, margin) < 0 or min(steps) <= overlap:
        raise ValueError(f"pages of {page} mm leave no room within margin {margin}, {overlap}")
    sizes = whole[2] - whole[0], whole[3] - whole[1]
    cols, rows = (
        max(1, math.ceil((size - overlap) / step - 1e-9))
        for size, step in zip(sizes, steps, strict=True)
    )
    return _Cut(whole, page, margin, overlap, cols, rows)


def _page(items: Sequence[Item], cut: _Cut, col: int, row: int) -> Iterator[Item]:
    x0, y0, x1, y1 = cut.shown(col, row)
    box = (x0, y0, x1 - x0, y1 - y0)
    inside = (*crop(items, (x0, y0, x1, y1)), *_seams(cut, col, row))
    yield Group(inside, cut.margin - x0, cut.margin - y0, clip=box)
    yield from _foot(cut, col, row)


def _seams(cut: _Cut, col: int, row: int) -> Iterator[Item]:
    """Yield cut lines and crosses, in the middle of each overlap, in the drawing's own frame."""
    x0, y0, x1, y1 = cut.shown(col, row)
    half = cut.overlap / 2
    across = [x for x, there in ((x0 + half, col > 0), (x1 - half, col < cut.cols - 1)) if there]
    down = [y for y, there in ((y0 + half, row > 0), (y1 - half, row < cut.rows - 1)) if there]
    lines: list[Line] = [(x, y0, x, y1) for x in across]
    lines += [(x0, y, x1, y) for y in down]
    quarters = [(x, y0 + (y1 - y0) * q) for x in across for q in (0.25, 0.75)]
    quarters += [(x0 + (x1 - x0) * q, y) for y in down for q in (0.25, 0.75)]
    if lines:
        yield Stroke(_CUT, lines=lines)
        yield Stroke(_CROSS, lines=[arm for x, y in quarters for arm in _cross(x, y)])
        yield Disc(_CROSS, quarters, _CROSS_ARM / 2)


def _cross(x: float, y: float) -> tuple[Line, Line]:
    a = _CROSS_ARM
    return (x - a, y, x + a, y), (x, y - a, x, y + a)


def _foot(cut: _Cut, col: int, row: int) -> Iterator[Item]:
    """Yield the page's name and the map of all pages, in the strip below the window."""
    top = cut.page[1] - cut.margin - _FOOT + 1.5
    cell = min((_FOOT - 1.5) / cut.rows, 5.0, (cut.page[0] / 3) / cut.cols)
    left = cut.page[0] - cut.margin - cell * cut.cols
    right, bottom = left + cell * cut.cols, top + cell * cut.rows
    yield Fill(_MAP, polygons=[(left, top, right, top, right, bottom, left, bottom)])
    # A line between neighbours, not a square a page: every page has the map of all.
    lines: list[Line] = [(x, top, x, bottom) for x in _steps(left, cell, cut.cols)]
    lines += [(left, y, right, y) for y in _steps(top, cell, cut.rows)]
    if lines:
        yield Stroke(_BETWEEN, lines=lines)
    yield Fill(_HERE, polygons=[_square(left + col * cell, top + row * cell, cell)])
    yield Text(left - 2.0, top + 3.0, tile_name(col, row), 4.0, "end", "bold")


def _steps(first: float, step: float, count: int) -> list[float]:
    """Return where `count` cells from `first` meet each other."""
    return [first + step * i for i in range(1, count)]


def _square(x: float, y: float, side: float) -> Line:
    return x, y, x + side, y, x + side, y + side, x, y + side
