"""Tables: columns of wrapped text under heads that are said again on the next page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple, TypeAlias

from knotplot.drawing.shapes import Item, Stroke, Style, TextAnchor
from knotplot.sheet.dye import DISC, Dyed, disc
from knotplot.sheet.flow import Strip, carried, tied
from knotplot.sheet.paper import CELL, HEAD, Face
from knotplot.sheet.setting import line, lines_of

_RULE = Style("faint", 0.25)
_HEAVY = Style("line", 0.35)
_PAD = 1.1  # above and below the text of a row
BETWEEN = 6.0  # mm between columns
SHORT = 6  # a table of no more rows stays together, if it is not high either
_LOW = 80.0  # mm


class Column(NamedTuple):
    """A column: its head, its share of the width, and where its text stands."""

    head: str
    share: float
    anchor: TextAnchor = "start"
    face: Face = CELL


Cell: TypeAlias = str | Dyed


def table(
    columns: Sequence[Column], rows: Sequence[Sequence[Cell]], width: float, x: float = 0.0,
    space: float = 0.0,
) -> list[Strip]:  # fmt: skip
    """Return a table from `x`, `width` mm wide: every row a few strips that stay together.

    A row taller than a page is parted between its lines. The last row is not left alone.
    """
    places = _places(columns, width, x)
    heads = _row([column.head for column in columns], columns, places, HEAD)
    rule = Strip(0.0, (_line(x, width, _HEAVY),))
    head = [replace(strip, tied=True) for strip in (*heads, rule)]
    head[0] = replace(head[0], space=space)
    body: list[Strip] = []
    for cells in rows:
        strips = _row(cells, columns, places, None)
        strips[-1] = replace(strips[-1], items=(*strips[-1].items, _under(strips[-1], x, width)))
        if len(body) > 1 and cells is rows[-1]:
            body[-1] = replace(body[-1], tied=True)
        body += strips
    if len(rows) <= SHORT and sum(strip.height for strip in body) <= _LOW:
        body = tied(body)
    return [*head, *carried(body, [replace(strip, space=0.0) for strip in head])]


def _places(columns: Sequence[Column], width: float, x: float) -> list[tuple[float, float]]:
    """Return each column's left side and width."""
    room = width - BETWEEN * (len(columns) - 1)
    total = sum(column.share for column in columns)
    found = []
    for column in columns:
        wide = room * column.share / total
        found.append((x, wide))
        x += wide + BETWEEN
    return found


def _row(
    cells: Sequence[Cell],
    columns: Sequence[Column],
    places: Sequence[tuple[float, float]],
    face: Face | None,
) -> list[Strip]:
    faces = [face or column.face for column in columns]
    inks = [cell.ink if isinstance(cell, Dyed) else None for cell in cells]
    texts = [
        _wrapped(cell.text if isinstance(cell, Dyed) else cell, wide - DISC * bool(ink), each)
        for cell, ink, (_, wide), each in zip(cells, inks, places, faces, strict=True)
    ]
    count = max(map(len, texts))
    lead = max(each.lead for each in faces)
    strips = []
    for i in range(count):
        top = _PAD if i == 0 else 0.0
        items: list[Item] = []
        for lines, ink, (left, wide), each, column in zip(
            texts, inks, places, faces, columns, strict=True
        ):
            if ink and i == 0:
                items.append(disc(ink, left, top, each._replace(lead=lead)))
            if i < len(lines) and lines[i]:
                at = (
                    left
                    + DISC * bool(ink)
                    + {"start": 0.0, "middle": wide / 2.0, "end": wide}[column.anchor]
                )
                items.append(line(lines[i], each._replace(lead=lead), at, top, column.anchor))
        height = lead + top + (_PAD if i == count - 1 else 0.0)
        tied = i < count - 1 and (count <= 8 or i in (0, count - 2))
        strips.append(Strip(height, tuple(items), 0.0, tied))
    return strips


def _wrapped(text: str, wide: float, face: Face) -> list[str]:
    """Return the lines of a cell; an empty one has one."""
    parts = text.splitlines() or [""]
    return [words for part in parts for words in (lines_of(part, wide, face) or [""])]


def _under(strip: Strip, x: float, width: float) -> Item:
    return Stroke(_RULE, lines=((x, strip.height, x + width, strip.height),))


def _line(x: float, width: float, style: Style) -> Item:
    return Stroke(style, lines=((x, 0.0, x + width, 0.0),))
