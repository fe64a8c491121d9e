"""The whole chart on pages that are laid over each other: drawn once, cut by windows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from knotplot.drawing.chart import chart
from knotplot.drawing.shapes import (
    Anchor,
    Disc,
    Drawing,
    Fill,
    Group,
    Item,
    Mark,
    Stroke,
    Symbol,
    Text,
)
from knotplot.drawing.tiles import tile, tile_count
from knotplot.sheet.figure import Fitted, figure, fitted
from knotplot.sheet.flow import Strip, compose
from knotplot.sheet.paper import CAPTION, SECTION
from knotplot.sheet.setting import heading, paragraph
from knotplot.sheet.subject import Subject, placed

LETTERS = 2.6  # mm, what a chart's lettering comes to on the page
TILE_LANE = 2.1  # mm a lane is wide
MOST_TILES = 16
_OVERLAP = 10.0
_FOOT = 9.0  # a tile's own foot
_LARGER = 1.4
_SMALLER = 0.76  # so that a lane is still wide enough to be told


def fitted_chart(subject: Subject, room: float) -> Fitted:
    """Return the whole chart fitted on a page with `room` mm of height."""
    paper, piece = subject.paper, subject.piece
    guess = 0.75 * min(paper.measure / piece.gauge.width, room / piece.edge.lowest())
    return fitted(
        lambda text: chart(subject.layout, text, subject.say.language),
        guess, paper.measure, room, LETTERS,
    )  # fmt: skip


def tiled(subject: Subject) -> Iterator[tuple[Item, ...]]:
    """Yield the pages of the whole chart at a scale at which it can be worked from."""
    say, paper, piece = subject.say, subject.paper, subject.piece
    scale = TILE_LANE / piece.gauge.pitch
    drawing = chart(subject.layout, LETTERS / scale, say.language)
    page = (paper.measure, paper.room - 16.0)
    scale *= _better(drawing, scale, page)
    size = (drawing.width * scale, drawing.height * scale)
    if tile_count(size, page, _OVERLAP, 0.0) > MOST_TILES:  # before any is cut
        yield from _small(subject)
        return
    lettering, rest = _parted(drawing.items)
    tall = Drawing(
        *size, (Group(lettering, scale=scale),),
        drawing.title, drawing.desc, drawing.language,
    )  # fmt: skip
    tiles = tile(tall, page, _OVERLAP, 0.0)
    # The picture is one symbol, drawn once in the document; each page shows its window of it.
    picture = Symbol("whole-chart", (Group(rest, scale=scale),))
    for i, each in enumerate(tiles):
        window, *foot = each.drawing.items
        assert isinstance(window, Group)
        behind = replace(window, items=(Mark(picture, ((0.0, 0.0),)),))
        head = compose(_tile_head(subject, len(tiles), i == 0), paper.room)[0]
        inside = Group((behind, window, *foot), dy=16.0)
        yield placed(paper, (*head, inside))


def _small(subject: Subject) -> Iterator[tuple[Item, ...]]:
    """Yield the page of a chart that is too large for paper: all of it, small."""
    say, paper = subject.say, subject.paper
    whole = fitted_chart(subject, paper.room - 20.0)
    strips = heading(say("whole"), paper.measure, SECTION, 0.0)
    strips += paragraph(say("too large"), paper.measure, CAPTION, 0.0, 1.0)
    strips.append(figure(whole, (0.0, 0.0, paper.measure, whole.height), 2.0))
    yield from (placed(paper, each) for each in compose(strips, paper.room))


def _better(drawing: Drawing, scale: float, page: tuple[float, float]) -> float:
    """Return how much larger or smaller a chart is drawn: on as few tiles, then as large."""
    sides = ((drawing.width, page[0]), (drawing.height, page[1] - _FOOT))
    choices = []
    for times in {most for size, side in sides for most in _edges(size * scale, side - _OVERLAP)}:
        by = min(times, _LARGER) - 1e-6
        counts = (
            max(1, math.ceil((size * scale * by - _OVERLAP) / (side - _OVERLAP)))
            for size, side in sides
        )
        choices.append((math.prod(counts), -by))
    return -min(choices)[1]


def _edges(size: float, step: float) -> list[float]:
    """Return the changes of scale, in bounds, at which a side just fills its tiles."""
    count = math.ceil((_LARGER * size - _OVERLAP) / step)
    fills = ((n * step + _OVERLAP) / size for n in range(1, count + 1))
    return [times for times in fills if times >= _SMALLER] or [_LARGER]


def _tile_head(subject: Subject, count: int, first: bool) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    title = say("tiles", count=count)
    strips = heading(title, paper.measure, SECTION, 0.0)
    if first:
        mark = Anchor("chart-whole", -2.0, title, 1)
        strips[0] = replace(strips[0], items=(mark, *strips[0].items))
    yield from strips
    yield from paragraph(say("tiles text"), paper.measure, CAPTION, 0.0, 0.4)


def _parted(items: Sequence[Item]) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """Return the lettering of a drawing and all else, each in the same groups."""
    letters: list[Item] = []
    rest: list[Item] = []
    for item in items:
        match item:
            case Text():
                letters.append(item)
            case Group():
                inside, others = _parted(item.items)
                letters += [replace(item, items=inside)] if inside else []
                rest += [replace(item, items=others)] if others else []
            case Stroke() | Fill() | Disc() | Mark():
                rest.append(item)
    return tuple(letters), tuple(rest)
