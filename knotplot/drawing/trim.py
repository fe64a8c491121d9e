"""The trim line: how far above a string line stretched level at the drop to cut, place by place.

True to scale in both directions, so that the drawing can be laid beside the piece.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Literal, TypeAlias

from knotplot.curves.lower_edge import LowerEdge, Place, trim_places
from knotplot.drawing import metrics
from knotplot.drawing.bounds import bounds
from knotplot.drawing.labels import LINE
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
    Weight,
)
from knotplot.drawing.view_words import view_words
from knotplot.errors import UsageError
from knotplot.geometry.layout import Layout
from knotplot.tying.names import capital
from knotplot.units import cm, inches

TEXT = 0.0165  # of the width: 2.2 mm on a page 180 mm wide
STEP = 50.0  # between stations, mm
CLOSEST = 5.0  # what a ruler can mark
MARGIN = 0.6  # font sizes
#: Which ends are knotted at the trim line.
Knots: TypeAlias = Literal["none", "some", "all"]
EVERY = (1, 2, 3, 4, 5, 6, 10, 20, 40, 50, 100, 200, 400, 1000)


def trim(
    layout: Layout, text_mm: float | None = None, language: str = "en", every_mm: float = STEP
) -> Drawing:
    """Return the trim line of a piece's lower edge, in mm of the piece, with its stations.

    They stand `every_mm` apart; raises UsageError where that is less than 5 mm.
    """
    if every_mm < CLOSEST:
        raise UsageError(f"every_mm is {every_mm:g}: use {CLOSEST:g} or more")
    piece, tied = layout.piece, len(layout.tied_off)
    knots: Knots = "all" if tied == len(piece.lanes) else "some" if tied else "none"
    return trim_line(piece.edge, text_mm, every_mm, language, knots)


def trim_line(
    edge: LowerEdge, text_mm: float | None = None, step_mm: float = STEP, language: str = "en",
    knots: Knots = "none",
) -> Drawing:  # fmt: skip
    """Return the trim line of a lower edge, in mm of the piece; `knots` says which ends get one.

    A station at each side, wherever the edge turns and, between turns that no straight line joins,
    every `step_mm` from the left edge; all are ticked, and as many as leave room for each other
    are written.
    """
    words = view_words(language)
    size = TEXT * edge.width_mm if text_mm is None else text_mm
    if not 0.0 < size < math.inf:
        raise UsageError(f"text_mm is {text_mm}: use a size above 0")
    stations = trim_places(edge, step_mm)
    items: list[Item] = [*_cloth(edge, size), *_string(edge, size), *_ticks(edge, stations, size)]
    items += _table(edge, written(stations, size), size, words)
    items += _note(edge, size, words, knots)
    x0, y0, x1, y1 = bounds(items)
    margin = MARGIN * size
    group = Group(tuple(items), dx=margin - x0, dy=margin - y0)
    desc = words["trim desc"].format(len(stations))
    return Drawing(
        x1 - x0 + 2.0 * margin, y1 - y0 + 2.0 * margin, (group,), words["trim"], desc, language
    )


def _curve(edge: LowerEdge) -> list[tuple[float, float]]:
    steps = 1 if edge.shape.straight else 120 * edge.count
    even = (edge.width_mm * i / steps for i in range(steps + 1))
    return [(x, edge.y(x)) for x in sorted({*even, *(turn.x_mm for turn in edge.turns())})]


def _cloth(edge: LowerEdge, size: float) -> list[Item]:
    """Return the cut edge with a strip of the fringe above it."""
    curve = _curve(edge)
    top = edge.highest() - 3.0 * size
    flat = tuple(value for point in curve for value in point)
    strip = (*flat, edge.width_mm, top, 0.0, top)
    sides: list[Line] = [(0.0, top, *curve[0]), (edge.width_mm, top, *curve[-1])]
    return [
        Fill(Style(fill="tint"), polygons=(strip,)),
        Stroke(Style("line", 0.06 * size), lines=sides),
        Stroke(Style("accent", 0.16 * size), lines=(flat,)),
    ]


def _string(edge: LowerEdge, size: float) -> list[Item]:
    """Return the string, tied to a nail at either side."""
    out, y = 1.6 * size, edge.drop_mm
    nails = ((-out, y), (edge.width_mm + out, y))
    return [
        Stroke(Style("ink", 0.07 * size), lines=((-out, y, edge.width_mm + out, y),)),
        Disc(Style(fill="ink"), nails, 0.22 * size),
    ]


def _ticks(edge: LowerEdge, stations: Sequence[Place], size: float) -> list[Item]:
    """Return a line up to the edge at every station, and a tick below the string."""
    up = [(s.x_mm, s.y_mm, s.x_mm, edge.drop_mm) for s in stations if s.offset_mm > 1e-6]
    ticks = [(s.x_mm, edge.drop_mm, s.x_mm, edge.drop_mm + 0.5 * size) for s in stations]
    points = [(s.x_mm, s.y_mm) for s in stations]
    return [
        Stroke(Style("quiet", 0.05 * size), lines=up),
        Stroke(Style("ink", 0.06 * size), lines=ticks),
        Disc(Style(fill="accent"), points, 0.17 * size),
    ]


def _rows(station: Place) -> tuple[str, str, str]:
    """Return what is written at a station: from the left in cm, up in cm, up in inches."""
    return (
        cm(station.x_mm).removesuffix(" cm").removesuffix(".0"),
        cm(station.offset_mm).removesuffix(" cm"),
        inches(station.offset_mm).removesuffix(" in"),
    )


def written(stations: Sequence[Place], size: float) -> list[Place]:
    """Return the stations that are written: the sides, and of turns and of others every n-th.

    n is the least that leaves `size` between neighbours of text of that size (mm).
    """
    widths = {s: max(metrics.width(text, size, "bold") for text in _rows(s)) for s in stations}

    def clear(a: Place, b: Place) -> bool:
        return abs(a.x_mm - b.x_mm) >= (widths[a] + widths[b]) / 2.0 + size

    kept = [stations[0]]
    for what in ("side", "turn", "between"):
        mine = [s for s in stations if s not in kept and _sort(s) == what]
        every = next((n for n in EVERY if all(map(clear, mine[::n], mine[n::n]))), len(mine) or 1)
        kept += [s for s in mine[::every] if all(clear(s, k) for k in kept)]
    return sorted(kept)


def _sort(station: Place) -> str:
    return station.what if station.what in ("side", "between") else "turn"


def _table(
    edge: LowerEdge, shown: Sequence[Place], size: float, words: Mapping[str, str]
) -> list[Item]:
    """Return three lines of numbers below the string, with what they are at the left."""
    first, line = edge.drop_mm + 1.7 * size, LINE * 1.12 * size
    heads = (words["from left"], words["up cm"], words["up in"])
    left = min(shown[0].x_mm - 1.6 * size, -1.6 * size) - 0.8 * size
    items: list[Item] = []
    for i, head in enumerate(heads):
        ink = "quiet" if i == 0 else "ink"
        y = first + i * line
        items.append(Text(left, y, head, size, "end", ink="quiet"))
        for station in shown:
            weight: Weight = "bold" if i == 1 else "regular"
            items.append(Text(station.x_mm, y, _rows(station)[i], size, "middle", weight, ink))
    return items


def _note(edge: LowerEdge, size: float, words: Mapping[str, str], knots: Knots) -> list[Item]:
    """Return what the string is and how to cut, or knot, below the table."""
    said = words["trim knotted" if knots == "all" else f"trim {_manner(edge)}"]
    y = edge.drop_mm + 1.7 * size + 3.0 * LINE * 1.12 * size + 0.6 * size
    lines = [capital(words["string"]) + ".", said]
    lines += [words["trim some knotted"]] if knots == "some" else []
    room = max(edge.width_mm, 30.0 * size)
    broken = [part for text in lines for part in metrics.wrap(text, room, size)]
    return [Text(0.0, y + i * LINE * size, text, size) for i, text in enumerate(broken)]


def _manner(edge: LowerEdge) -> str:
    """Return how the edge is cut, by the key of its words."""
    if not edge.rise_mm:
        return "level"
    if edge.shape.straight:
        return "straight"
    return "corners" if any(turn.sharp for turn in edge.shape.turns) else "curved"


VIEW = ("trim", trim)
