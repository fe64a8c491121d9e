"""Finishing: hanging, the trim line as offsets from a string, fringe, tails and ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from knotplot.curves.lower_edge import Offset, trim_offsets
from knotplot.drawing.shapes import Anchor
from knotplot.drawing.trim import trim
from knotplot.instructions.words import Printed
from knotplot.sheet.figure import figure, fitted
from knotplot.sheet.flow import Strip, led
from knotplot.sheet.paper import BESIDE, BODY, CELL, SECTION
from knotplot.sheet.rows_part import told
from knotplot.sheet.setting import heading, in_two
from knotplot.sheet.subject import Part, Subject, part
from knotplot.sheet.table import Column, table
from knotplot.units import both

_STRONG = CELL._replace(weight="bold")
_LETTERS = 2.7
MOST_PLACES = 80
STEP = 50.0  # mm between places to trim
_SIDE_BY_SIDE = 2


def finishing(subject: Subject, lines: Sequence[Printed]) -> Part:
    """Return the part on finishing: `lines` are its instructions."""
    strips: list[Strip] = []
    marked = any(each.sort == "mark" for each in lines)
    strips += _trim(subject) if marked else []
    table_done = False
    for each in lines:
        if each.sort == "mark":
            if not table_done:  # what it is for stays with it
                strips = [*strips[:-1], *led(strips[-1:]), *_marks(subject)]
            table_done = True
        else:
            strips += told(subject, each)
    strips += _care(subject)
    return part(subject, "finishing", strips, subject.say("finishing lead"))


def places(subject: Subject) -> tuple[Offset, ...]:
    """Return the places to trim: every 5 cm, on a very wide piece every 10 or more."""
    edge = subject.piece.edge
    times = max(1, -int(-edge.width_mm // (STEP * MOST_PLACES)))
    return trim_offsets(edge, STEP * times)


def _marks(subject: Subject) -> Iterator[Strip]:
    """Yield the places and their offsets, in columns side by side."""
    say, paper = subject.say, subject.paper
    found = places(subject)
    half = -(-len(found) // _SIDE_BY_SIDE)
    columns = (Column(say("from left"), 1.0, "end"), Column(say("up"), 1.0, "end", _STRONG))
    rows = []
    for i in range(half):
        cells: list[str] = []
        for k in range(_SIDE_BY_SIDE):
            at = i + k * half
            mark = found[at] if at < len(found) else None
            cells += ["", ""] if mark is None else [both(mark.x_mm), both(mark.offset_mm)]
        rows.append(cells)
    yield from table(columns * _SIDE_BY_SIDE, rows, paper.main, BESIDE, 1.6)


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
