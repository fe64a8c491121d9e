"""Knots used: each as it looks, its mark, how it is tied, and what goes wrong."""

from __future__ import annotations

from dataclasses import replace

from knotplot.drawing.chart_key import used
from knotplot.drawing.knot_figure import knot_mark_item, knot_picture
from knotplot.drawing.shapes import Anchor, Fill, Item, Style
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.sheet.flow import Strip
from knotplot.sheet.paper import BODY, CAPTION, LABEL, NOTE, SECTION
from knotplot.sheet.setting import line, lines_of, moved, numbered, paragraph
from knotplot.sheet.subject import Part, Subject, part

PICTURE = 46.0
TALL = 50.0
_GAP = 8.0
_MARK = 7.5


def knots(subject: Subject) -> Part:
    """Return the part on the knots of the piece, the most used first."""
    say = subject.say
    found = used(subject.piece)
    strips = [
        _knot(subject, name, manners[0], 7.0 if i else 0.0)
        for i, (name, manners) in enumerate(each for each in found if each[0] != "cross")
    ]
    if any(name == "cross" for name, _ in found):
        strips += paragraph(say("crosses"), subject.paper.measure, NOTE, 0.0, 7.0)
    return part(subject, "knots", strips, say("knots lead"))


def _knot(subject: Subject, name: str, manner: Manner, space: float) -> Strip:
    """Return one knot: picture at the left, words beside it; never parted."""
    say, paper = subject.say, subject.paper
    words = knot(name).words[say.language]
    x = PICTURE + _GAP
    width = paper.measure - x
    title = words.one[:1].upper() + words.one[1:]
    items: list[Item] = [Anchor(f"knot-{name.replace('_', '-')}", -2.0, title, 1)]
    y = 0.0
    for text in lines_of(title, width, SECTION):
        items.append(line(text, SECTION, x, y))
        y += SECTION.lead
    mark, wide = knot_mark_item(name, manner, _MARK)
    items.append(replace(mark, dx=mark.dx + x, dy=mark.dy + y + 1.6))
    count = say("in piece", count=say.count(subject.bill.knots.get(name, 0), "knot"))
    beside = x + wide + 4.0
    items.append(line(count, CAPTION, beside, y + 1.6 + _MARK / 2.0 - CAPTION.lead))
    items.append(line(say("mark"), CAPTION, beside, y + 1.6 + _MARK / 2.0))
    y += _MARK + 4.6
    steps = [
        strip
        for i, text in enumerate(words.how, start=1)
        for strip in numbered(f"{i}.", text, width, x, 1.2, BODY, 7.0)
    ]
    wrong = paragraph(say("fault"), width, LABEL, x, 3.0)
    for strip in (*steps, *wrong, *paragraph(words.fault, width, NOTE, x)):
        y += strip.space
        items += moved(strip.items, y)
        y += strip.height
    height = max(TALL, y)
    ground = (0.0, 0.0, PICTURE, 0.0, PICTURE, TALL, 0.0, TALL)
    pad = 4.5
    picture = knot_picture(name, manner, PICTURE - 2 * pad, TALL - 2 * pad)
    shown = replace(picture, dx=picture.dx + pad, dy=picture.dy + pad)
    return Strip(height, (Fill(Style(fill="tint"), polygons=(ground,)), shown, *items), space)
