"""Finishing: hanging, the trim line as offsets from a string, fringe, tails and ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain, groupby

from knotplot.curves.lower_edge import Place, trim_places
from knotplot.drawing.shapes import Anchor
from knotplot.drawing.trim import trim
from knotplot.sheet.figure import figure, fitted
from knotplot.sheet.flow import Strip, led, tied
from knotplot.sheet.paper import BESIDE, BODY, CELL, SECTION
from knotplot.sheet.rows_part import told
from knotplot.sheet.setting import heading, in_two
from knotplot.sheet.subject import Part, SheetPart, Subject, part
from knotplot.sheet.table import Column, table
from knotplot.units import both

_STRONG = CELL._replace(weight="bold")
_LETTERS = 2.7
MOST_PLACES = 80
STEP = 50.0  # mm between places to trim
_SIDE_BY_SIDE = 2
_DEEPEST = 14  # rows of a table that isn't parted


def finishing(subject: Subject) -> Part:
    """Return the part on finishing."""
    lines = subject.finish
    strips: list[Strip] = []
    marked = any(each.sort == "mark" for each in lines)
    strips += _trim(subject) if marked else []
    tables = iter((_turns(subject), _between(subject)))
    for sort, run in groupby(lines, lambda each: each.sort):
        if sort == "mark":  # what it is for stays with it
            strips = [*strips[:-1], *led(strips[-1:]), *next(tables)]
        else:
            strips += [strip for each in run for strip in told(subject, each)]
    strips += _care(subject)
    return part(subject, "finishing", strips, subject.say("finishing lead"))


PARTS = (SheetPart(60, "finishing", finishing),)


def places(subject: Subject) -> tuple[Place, ...]:
    """Return the places to trim: turns, and every 5 cm, on a very wide piece every 10 or more."""
    edge = subject.piece.edge
    times = max(1, -int(-edge.width_mm // (STEP * MOST_PLACES)))
    return trim_places(edge, STEP * times)


def _turns(subject: Subject) -> Iterator[Strip]:
    """Yield the places where the trim line turns, each with what it is."""
    say = subject.say
    columns = (
        Column(say("turn"), 1.0), Column(say("from left"), 1.4, "end"),
        Column(say("up"), 1.4, "end", _STRONG),
    )  # fmt: skip
    rows = [
        (say(f"turn {place.what}"), both(place.x_mm), both(place.offset_mm))
        for place in subject.piece.edge.turns()
    ]
    yield from _columns(columns, rows, 1, subject)


def _between(subject: Subject) -> Iterator[Strip]:
    """Yield the other places to mark."""
    say = subject.say
    columns = (Column(say("from left"), 1.0, "end"), Column(say("up"), 1.0, "end", _STRONG))
    found = [place for place in places(subject) if place.what == "between"]
    rows = [(both(place.x_mm), both(place.offset_mm)) for place in found]
    yield from _columns(columns, rows, _SIDE_BY_SIDE, subject)


def _columns(
    columns: tuple[Column, ...], rows: Sequence[tuple[str, ...]], beside: int, subject: Subject
) -> Iterator[Strip]:
    """Yield a table that reads down, then across.

    One of many rows is parted into several that are read one after another, each in one piece.
    """
    most = beside * _DEEPEST
    for first in range(0, len(rows), most):
        mine = rows[first : first + most]
        deep = -(-len(mine) // beside)
        side = [mine[k * deep : (k + 1) * deep] for k in range(beside)]
        none = ("",) * len(columns)
        filled = [[*each, *[none] * (deep - len(each))] for each in side]
        cells = [tuple(chain(*across)) for across in zip(*filled, strict=True)]
        yield from tied(table(columns * beside, cells, subject.paper.main, BESIDE, 1.6))


def _trim(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    yield from heading(say("trim"), paper.measure, SECTION, 0.0)
    width = subject.piece.gauge.width
    made = fitted(
        lambda text: trim(subject.layout, text_mm=text, language=say.language),
        0.75 * paper.measure / width, paper.measure, 0.6 * paper.room, _LETTERS,
    )  # fmt: skip
    yield figure(made, (0.0, 0.0, paper.measure, made.height), 3.0)
    yield Strip(2.5)


def _care(subject: Subject) -> Iterator[Strip]:
    """Yield how to keep the piece."""
    say, paper = subject.say, subject.paper
    strips = heading(say("care"), paper.measure, SECTION, 9.0)
    anchor = Anchor("care", -3.0, say("care"), 1)
    yield replace(strips[0], items=(anchor, *strips[0].items))
    yield from strips[1:]
    yield from in_two(say.list("care"), paper.measure, BODY)
