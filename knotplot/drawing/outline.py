"""The outline: the finished piece as it hangs, with its sections, and every size a maker needs."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from knotplot.drawing import metrics
from knotplot.drawing.bounds import Extent, bounds, meet
from knotplot.drawing.chart_scene import edge_line, stretches
from knotplot.drawing.dimensions import PEN, across, down, pen
from knotplot.drawing.labels import LINE, Spanned, bracketed, lines_of
from knotplot.drawing.shapes import (
    Disc,
    Drawing,
    Fill,
    Group,
    Item,
    Line,
    Stroke,
    Style,
    Text,
)
from knotplot.drawing.view_words import part_name, view_words
from knotplot.errors import UsageError
from knotplot.geometry.layout import Layout, stands_above
from knotplot.tying.piece import Piece
from knotplot.units import both, cm, inches

TEXT = 0.021  # of the width: 2.4 mm on a page 180 mm wide
PAGE = 1.35
MARGIN = 0.6  # font sizes
COLUMN = 12.0  # how wide a level's name may be, font sizes
FAMILIES = ("tint", "paper")


class Band(NamedTuple):
    """A section on the finished piece: its name, from where to where, and how often it stands so.

    `x0` and `x1`, `top` and `bottom` in mm.
    """

    name: str
    x0: float
    x1: float
    top: float
    bottom: float


def outline(layout: Layout, text_mm: float | None = None, language: str = "en") -> Drawing:
    """Return the finished piece's outline with dimensions, in mm of the piece.

    `text_mm` is the size of its text; without one it is legible where scaled to a page.
    """
    piece, words = layout.piece, view_words(language)
    gauge, edge = piece.gauge, piece.edge
    size = TEXT * max(gauge.width, edge.lowest() / PAGE) if text_mm is None else text_mm
    if not 0.0 < size < math.inf:
        raise UsageError(f"text_mm is {text_mm}: use a size above 0")
    bands = _bands(piece, language)
    items: list[Item] = [*_bodies(piece, bands)]
    # A pocket hides its rod; everything else is tied round the front of what it hangs on.
    items = [*_support(piece, size), *items] if piece.mounting.pocket else [
        *items, *_support(piece, size)
    ]  # fmt: skip
    items += [*_names(piece, bands, size), *_outlined(piece, size), *_loops(layout, size)]
    items += _sizes(piece, size, words)
    items += _levels(piece, bands, size, words)
    x0, y0, x1, y1 = bounds(items)
    margin = MARGIN * size
    group = Group(tuple(items), dx=margin - x0, dy=margin - y0)
    desc = words["outline desc"].format(both(gauge.width), both(edge.drop_mm), len(bands))
    return Drawing(
        x1 - x0 + 2.0 * margin, y1 - y0 + 2.0 * margin, (group,), words["outline"], desc, language
    )


# --- the piece -------------------------------------------------------------------------------


def _bands(piece: Piece, language: str) -> list[Band]:
    """Return the sections from top to bottom; the fringe reaches to the lower edge."""
    found = []
    for part, (top, bottom) in zip(piece.parts, stretches(piece, hung=True), strict=True):
        x0, x1 = part.sides(piece.gauge.width)
        if bottom - top > 1e-6:
            found.append(Band(part_name(part, language), x0, x1, top, bottom))
    return sorted(found, key=lambda band: (band.top, band.bottom, band.x0))


def _bodies(piece: Piece, bands: list[Band]) -> list[Item]:
    """Return the bands as panels, every other one shaded, cut off at the lower edge."""
    line = Style("line", 0.0012 * piece.gauge.width)
    panels: list[Item] = []
    for i, band in enumerate(bands):
        box = _under(piece, band)
        if len(box) >= 6:
            panels.append(Fill(Style(fill=FAMILIES[i % 2]), polygons=(box,)))
            panels.append(Stroke(line, lines=((*box, *box[:2]),)))
    return panels


def _under(piece: Piece, band: Band) -> Line:
    """Return a band's outline, its lower side never below the lower edge."""
    level = edge_line(piece)
    xs = sorted({band.x0, band.x1, *(x for x in level[::2] if band.x0 < x < band.x1)})
    low = [(x, min(band.bottom, piece.edge.y(x))) for x in xs]
    if all(y <= band.top + 1e-6 for _, y in low):
        return ()
    low = [(x, max(y, band.top)) for x, y in low]
    flat = [value for point in reversed(low) for value in point]
    return (band.x0, band.top, band.x1, band.top, *flat)


def _outlined(piece: Piece, size: float) -> list[Item]:
    """Return the outline itself, in a wide line."""
    edge = edge_line(piece)
    backwards = [v for i in range(len(edge) - 2, -1, -2) for v in edge[i : i + 2]]
    closed: Line = (0.0, 0.0, piece.gauge.width, 0.0, *backwards, 0.0, 0.0)
    return [Stroke(Style("ink", 2.0 * 0.06 * size), lines=(closed,))]


def _support(piece: Piece, size: float) -> list[Item]:
    """Return the rod, branch or ring it hangs on."""
    mounting, width = piece.mounting, piece.gauge.width
    style = Style("line", 0.06 * size, "faint")
    if mounting.support == "ring":
        rim = Style("line", 0.15 * mounting.rod)
        return [Disc(rim, ((width / 2.0, mounting.rod / 2.0),), 0.425 * mounting.rod)]
    if not mounting.rod:
        return []
    over, top = 1.6 * size, 0.0
    if mounting.pocket is not None:  # the rod lies inside the fold, a cord's thickness down
        top = piece.gauge.diameter / 2.0
    x0, x1, y1 = -over, width + over, top + mounting.rod
    return [Fill(style, polygons=((x0, top, x1, top, x1, y1, x0, y1),))]


def _loops(layout: Layout, size: float) -> list[Item]:
    """Return the loops that cords leave standing above the support."""
    if not layout.piece.mounting.loop:
        return []
    curves = [each.curve for each in layout.free_runs if each.above < 0]
    return [Stroke(Style("line", 0.12 * size), curves)]


def _names(piece: Piece, bands: list[Band], size: float) -> list[Item]:
    """Return the sections' names inside their bands, where they fit and meet no other.

    A name stands in the middle, or where a shaped lower edge leaves it room further left.
    """
    items: list[Item] = []
    taken: list[Extent] = []
    for band in bands:
        room = band.x1 - band.x0 - size
        lines = metrics.wrap(band.name, room, size)
        if any(metrics.width(word, size) > room for word in band.name.split()):
            continue
        half = max(metrics.width(line, size) for line in lines) / 2.0
        for share in (0.5, 0.25, 0.12):
            x = max(band.x0 + half, band.x0 + share * (band.x1 - band.x0))
            low = min(band.bottom, *(piece.edge.y(at) for at in (x - half, x, x + half)))
            if len(lines) * LINE * size > low - band.top - 0.3 * size:
                continue
            name = lines_of(lines, x, (band.top + low) / 2.0, size, "middle")
            box = bounds(name)
            if not any(meet(box, other) for other in taken):
                taken.append(box)
                items += name
                break
    return items


# --- sizes -----------------------------------------------------------------------------------


def _sizes(piece: Piece, size: float, words: Mapping[str, str]) -> list[Item]:
    """Return the dimensions of width, drop and rise."""
    width, edge = piece.gauge.width, piece.edge
    out = -(1.6 if piece.mounting.rod else 0.0) * size
    top = -stands_above(piece)
    items = across(0.0, width, top - 2.0 * size, top - 0.2 * size, size)
    x = out - 1.6 * size
    side = edge.y(0.0)
    if edge.rise_mm < 0.0 and edge.drop_mm - side > 1e-6:
        low = _reached(piece, edge.drop_mm)
        items += down(x, side, edge.drop_mm, (0.0, low), size, _said(words["rise"], -edge.rise_mm))
        x -= 2.2 * size
    items += down(
        x, 0.0, edge.drop_mm, (out, _reached(piece, edge.drop_mm)), size,
        _said(words["drop"], edge.drop_mm),
    )  # fmt: skip
    return items + (_arch(piece, size, words) if edge.rise_mm > 0.0 else [])


def _said(what: str, length: float) -> str:
    return f"{what} {both(length)}"


def _reached(piece: Piece, y: float) -> float:
    """Return the place nearest to the left where the lower edge comes down (or up) to `y`."""
    line = edge_line(piece)
    return min(zip(line[::2], line[1::2], strict=True), key=lambda at: (abs(at[1] - y), at[0]))[0]


def _arch(piece: Piece, size: float, words: Mapping[str, str]) -> list[Item]:
    """Return the rise of an edge that is highest between its sides, told below the drop."""
    edge = piece.edge
    top, low = edge.highest(), edge.drop_mm
    x = _reached(piece, top)
    dashes = Style("quiet", PEN * size, dash=(0.9 * size, 0.5 * size))
    text = _said(words["rise"], low - top)
    return [
        Stroke(dashes, lines=((0.0, low, piece.gauge.width, low),)),
        *down(x, top, low, (x, x), size, ""),
        Text(x, low + 2.4 * size, text, size, "middle"),
    ]


def _levels(piece: Piece, bands: list[Band], size: float, words: Mapping[str, str]) -> list[Item]:
    """Return from where to where each section reaches, in both units, right of the piece."""
    out = (1.6 if piece.mounting.rod else 0.0) * size
    spans = []
    high = stands_above(piece)
    if high:
        spans.append(Spanned(-high, 0.0, words["loops"], (words["loops"], cm(high), inches(high))))
    for name, top, bottom in _merged(bands):
        lines = metrics.wrap(name, COLUMN * size, size)
        metric = f"{cm(top).removesuffix(' cm')}–{cm(bottom)}"
        imperial = f"{inches(top).removesuffix(' in')}–{inches(bottom)}"
        spans.append(Spanned(top, bottom, name, (*lines, metric, imperial)))
    return bracketed(spans, piece.gauge.width + out + 0.5 * size, 1, size, pen(size))


def _merged(bands: list[Band]) -> list[tuple[str, float, float]]:
    """Return name, top and bottom of the bands; those of one name side by side are one."""
    found: list[tuple[str, float, float]] = []
    for band in bands:
        for i, (name, top, bottom) in enumerate(found):
            if name == band.name and band.top < bottom - 1.0:
                found[i] = (name, min(top, band.top), max(bottom, band.bottom))
                break
        else:
            found.append((band.name, band.top, band.bottom))
    return found


VIEW = ("outline", outline)
