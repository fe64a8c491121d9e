"""The chart: its key, one repeat with both edges, and the whole, on tiles where it is large."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from knotplot.drawing.chart import chart_key, chart_repeat, repeat_lanes, repeat_rows
from knotplot.drawing.limits import MOST_TIES
from knotplot.drawing.marks import SMALLEST
from knotplot.drawing.shapes import Anchor, Item, Link
from knotplot.sheet.chart_tiles import LETTERS, fitted_chart, tiled
from knotplot.sheet.figure import Fitted, figure, fit, fitted
from knotplot.sheet.flow import Strip
from knotplot.sheet.paper import CAPTION, SECTION, STANDFIRST
from knotplot.sheet.setting import heading, moved, paragraph
from knotplot.sheet.subject import Part, SheetPart, Subject, opening
from knotplot.tying.piece import Piece

LEAST = 2.2  # mm, the smallest lettering that can be read
LANE = 1.3  # mm a lane is wide at the least, to be read
LARGE = 2.2  # mm a lane is wide where no repeat need be shown larger
REPEAT_LANE = 3.2  # mm a lane is wide where one repeat is shown
LOW = 60.0  # mm, the least height a drawing is given
SHARE = 0.8  # of the width of a page, that is left beside the lettering at the most
_KEY = 2.7


def chart_pages(subject: Subject) -> Part:
    """Return the part with the chart."""
    say, paper = subject.say, subject.paper
    strips = [*opening(subject, say("chart"), "chart", None), _key(subject)]
    if subject.piece.tie_count > MOST_TIES:
        strips += paragraph(say("far too large"), paper.measure, CAPTION, 0.0, 3.0)
        return Part("chart", say("chart"), tuple(strips))
    whole = _whole(subject)
    repeat = None
    if whole is None or whole.scale * subject.piece.gauge.pitch < LARGE:
        repeat = _repeat(subject, _left(subject, strips))
    if repeat is not None:
        strips += _titled(subject, "repeat", repeat, "chart-repeat")
    elif whole is None:  # it comes on tiles; here it shows how they lie
        over = fitted_chart(subject, max(_left(subject, strips), LOW))
        strips += _titled(subject, "over", over, "chart-over")
    elif (smaller := _beside_key(subject, strips)) is not None:
        whole = smaller
    if whole is not None:
        strips += _titled(subject, "whole", whole, "chart-whole")
    tiles = () if whole is not None else tuple(tiled(subject))
    return Part("chart", say("chart"), tuple(strips), tiles)


PARTS = (SheetPart(40, "chart", chart_pages, tall=True),)


def _beside_key(subject: Subject, strips: Sequence[Strip]) -> Fitted | None:
    """Return the whole chart fitted below those strips, None where it is not legible then."""
    made = fitted_chart(subject, max(_left(subject, strips), LOW))
    return made if _legible(subject, made) else None


def _left(subject: Subject, strips: Sequence[Strip]) -> float:
    """Return the room left on the first page below those strips and a heading."""
    return subject.paper.room - sum(strip.height + strip.space for strip in strips) - 16.0


def _titled(subject: Subject, key: str, made: Fitted, anchor: str) -> list[Strip]:
    title = subject.say(key)
    strips = heading(title, subject.paper.measure, SECTION, 5.0)
    mark = Anchor(anchor, -2.0, title, 1)
    strips[0] = replace(strips[0], items=(mark, *strips[0].items))
    return [*strips, figure(made, (0.0, 0.0, subject.paper.measure, made.height), 2.0)]


def _key(subject: Subject) -> Strip:
    """Return the key, no larger than its lettering asks, beside how to read the chart."""
    say, paper = subject.say, subject.paper
    key = chart_key(subject.piece, _KEY, say.language)
    made = fit(key, 0.45 * paper.measure, 0.5 * paper.room, 1.0)
    x = paper.measure - made.width
    lead = paragraph(say("chart lead", rows=say("rows")), x - 12.0, STANDFIRST)
    items: list[Item] = [made.at(x, 0.0)]
    y = 0.0
    for strip in lead:
        items += moved(strip.items, y)
        y += strip.height
    items.append(Link((0.0, 0.0, x - 12.0, y), "#rows"))
    return Strip(max(y, made.height), tuple(items))


def _repeat(subject: Subject, room: float) -> Fitted | None:
    """Return one repeat fitted into the room left: as many of its rows as can be read there.

    None where the piece would be shown from edge to edge, since too little of it repeats.
    """
    paper, piece, language = subject.paper, subject.piece, subject.say.language
    lanes, pitch, room = repeat_lanes(piece), piece.gauge.pitch, max(room, LOW)
    last = repeat_rows(piece)
    if lanes is None or last is None:
        return None
    wanted = min(REPEAT_LANE / pitch, 0.55 * paper.measure / (3 * lanes * pitch))

    def made(rows: tuple[int, int] | None, guess: float) -> Fitted:
        return fitted(
            lambda text: chart_repeat(subject.layout, rows, text, language),
            guess, paper.measure, room, LETTERS,
        )  # fmt: skip

    tried = fit(chart_repeat(subject.layout, None, LETTERS / wanted, language), paper.measure, room)
    if tried.scale >= 0.7 * wanted:
        return made(None, tried.scale)
    rows = min(last, _rows_within(piece, (room - 20.0) / wanted))
    return made((1, rows), 0.95 * wanted)


def _rows_within(piece: Piece, height: float) -> int:
    """Return how many rows from the first are worked within `height` mm, two at the least."""
    pocket = piece.mounting.pocket
    top = 0.0 if pocket is None else pocket.join - pocket.band
    within = [row.placements[0].y + row.placements[0].shape.bottom - top for row in piece.rows]
    count = next((i for i, low in enumerate(within) if low > height), len(within))
    return min(len(within), max(2, count))


def _whole(subject: Subject) -> Fitted | None:
    """Return the whole chart fitted on one page, None where it can't be read there."""
    paper, piece = subject.paper, subject.piece
    room = paper.room - 14.0
    most = min(SHARE * paper.measure / piece.gauge.width, room / piece.edge.lowest())
    if piece.gauge.pitch * most < LANE:  # not worth drawing
        return None
    made = fitted_chart(subject, room)
    return made if _legible(subject, made) else None


def _legible(subject: Subject, made: Fitted) -> bool:
    gauge = subject.piece.gauge
    large = gauge.pitch * made.scale >= LANE and gauge.diameter * made.scale >= SMALLEST
    return large and made.text >= LEAST
