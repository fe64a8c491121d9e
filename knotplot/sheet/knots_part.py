"""Knots used: how each is tied, frame by frame, its mark, and what goes wrong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from knotplot.drawing.chart_key import knots_used, used
from knotplot.drawing.how_to import frames
from knotplot.drawing.knot_figure import knot_mark_item
from knotplot.drawing.shapes import Anchor, Item
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.sheet.flow import Strip, led, tied
from knotplot.sheet.frame_rows import anchor_of, fault_strips, frame_row
from knotplot.sheet.paper import CAPTION, NOTE, SECTION
from knotplot.sheet.setting import line, lines_of, paragraph
from knotplot.sheet.subject import Part, SheetPart, Subject, Told, part
from knotplot.sheet.techniques_part import its_techniques
from knotplot.tying.names import capital
from knotplot.tying.piece import Piece

ROW = 4  # frames side by side
_MARK = 7.5


def knots(subject: Subject) -> Part:
    """Return the part on the knots of the piece, the most used first."""
    say = subject.say
    strips: list[Strip] = []
    for name, manner, charted in knots_used(subject.piece):
        count = in_piece(subject, name)
        space = 9.0 if strips else 0.0
        strips += knot_strips(subject, name, manner, space, count, charted=charted)
    if crossed(subject.piece):
        strips += crosses(subject)
    strips += its_techniques(subject)
    return part(subject, "knots", strips, say("knots lead"))


PARTS = (SheetPart(30, "knots", knots),)


def crossed(piece: Piece) -> bool:
    """Tell whether cords only change places anywhere in a piece."""
    return any(name == "cross" for name, _ in used(piece))


def in_piece(subject: Subject, name: str) -> str:
    """Return how many there are of a knot in the piece."""
    count = subject.say.count(subject.bill.knots.get(name, 0), "knot")
    return subject.say("in piece", count=count)


def crosses(told: Told) -> list[Strip]:
    """Return what a piece with crossed cords says of them: they are no knot."""
    return paragraph(told.say("crosses"), told.paper.measure, NOTE, 0.0, 7.0)


def knot_strips(
    told: Told, name: str, manner: Manner, space: float, count: str | None = None,
    facts: Sequence[Strip] = (), left_handed: bool = False, charted: bool = True,
) -> list[Strip]:  # fmt: skip
    """Return one knot: its name and mark, its facts, its frames in rows, and its fault.

    It may be parted between two rows of frames, nowhere else. `count` is what stands above the
    words on its mark; one that isn't `charted` is tied in the ends of a fringe only.
    """
    say, measure = told.say, told.paper.measure
    made = frames(name, manner, left_handed, say.language)
    across = ROW if len(made) in (4, 7, 8) else 3
    rows = [frame_row(made, first, across, measure) for first in range(0, len(made), across)]
    where = say("mark") if charted else say("in ends")
    texts = [text for text in (count, where) if text is not None]
    head = _head(told, name, manner if charted else None, space, texts, left_handed)
    above = [head, *led(facts), *rows[:-1]]
    below = [*rows[-1:], *fault_strips(told, knot(name).words[say.language].fault)]
    return [*(led(above) if len(rows) == 1 else tied(above)), *tied(below)]


def _head(
    told: Told, name: str, manner: Manner | None, space: float, texts: Sequence[str],
    left_handed: bool,
) -> Strip:  # fmt: skip
    """Return a knot's name, `texts` on it, and at the right its mark in the chart, if any."""
    measure = told.paper.measure
    title = capital(knot(name).words[told.say.language].one)
    items: list[Item] = [Anchor(anchor_of(name), -2.0, title, 1)]
    beside = measure
    if manner is not None:
        mark, wide = knot_mark_item(name, manner, _MARK, left_handed)
        items.append(replace(mark, dx=mark.dx + measure - wide))
        beside -= wide + 3.0
    y = 0.0
    for text in lines_of(title, 0.6 * measure, SECTION):
        items.append(line(text, SECTION, 0.0, y))
        y += SECTION.lead
    top = (_MARK - len(texts) * CAPTION.lead) / 2.0
    for i, text in enumerate(texts):
        items.append(line(text, CAPTION, beside, top + i * CAPTION.lead, "end"))
    return Strip(max(y, _MARK), tuple(items), space)
