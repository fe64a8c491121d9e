"""The quote: a page that a maker hands to a customer, printed only when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from knotplot.drawing.shapes import Item, Stroke, Style
from knotplot.materials.quote import Quote
from knotplot.materials.shopping import Buy
from knotplot.sheet.dye import with_colour
from knotplot.sheet.flow import Strip, led, tied
from knotplot.sheet.materials_part import cord_text
from knotplot.sheet.measures import metres_line
from knotplot.sheet.paper import BESIDE, BODY, CAPTION, CELL, LABEL, SECTION, STRONG, Face
from knotplot.sheet.quote_text import Told, money, notes, sums, told
from knotplot.sheet.setting import beside, line, panel, paragraph
from knotplot.sheet.subject import Part, SheetPart, Subject, part
from knotplot.sheet.table import BETWEEN, Column, table
from knotplot.units import both

_SUM = CELL._replace(weight="bold")
_SHARES = (3.2, 3.7, 2.2)  # of the table's columns
_PAD = 1.2  # above and below a sum
_APART = 12.0  # between the two who sign
_WRITE = 13.0  # mm to write on


def quote_page(subject: Subject) -> Part | None:
    """Return the part with a quote, where the sheet shall have one."""
    made = subject.quote
    if made is None:
        return None
    strips = [
        *_piece(subject, made),
        *_table(subject, made),
        *_sums(subject, made),
        *_notes(subject, made),
        *_signed(subject),
    ]
    return part(subject, "quote", strips, subject.say("quote lead"))


PARTS = (SheetPart(90, "quote", quote_page, alone=True),)


def _piece(subject: Subject, made: Quote) -> Iterator[Strip]:
    """Yield what is quoted for: title, size, what it is made of, the work in it."""
    say, paper, pattern, bill = subject.say, subject.paper, subject.pattern, subject.bill

    def fact(label: str, text: str, face: Face = BODY) -> list[Strip]:
        return beside(say(label), paragraph(text, paper.main, face, BESIDE), 1.6, LABEL)

    yield from fact("quote piece", pattern.title, STRONG)
    yield from fact("quote size", f"{both(pattern.width)} × {both(pattern.drop)}")
    made_of = [
        say("quote cord all", cord=_cord(subject, buy), length=metres_line(buy.total, say))
        for buy in bill.shopping
    ]
    made_of += [
        say("quote hung on", support=told(subject, each).how)
        for each in made.lines
        if each.what == "support"
    ]
    yield from fact("quote made of", "\n".join(made_of))
    knots = say.count(sum(bill.knots.values()), "knot")
    yield from fact(
        "quote work", say("quote work value", knots=knots, hours=money(bill.time.hours))
    )


def _cord(subject: Subject, buy: Buy) -> str:
    """Return a cord that is bought in words, its colour last."""
    return with_colour(
        subject, cord_text(subject, subject.pattern.cord_types[buy.kind]), buy.colour
    )


def _table(subject: Subject, made: Quote) -> list[Strip]:
    say = subject.say
    columns = (
        Column(say("quote what"), _SHARES[0]),
        Column(say("quote how"), _SHARES[1]),
        Column(say("quote amount", currency=made.currency), _SHARES[2], "end", _SUM),
    )
    rows = [told(subject, each) for each in made.lines]
    return led(table(columns, rows, subject.paper.measure, 0.0, 7.0))


def _sums(subject: Subject, made: Quote) -> Iterator[Strip]:
    """Yield net price, tax and total, the total on a ground of its own."""
    measure, say = subject.paper.measure, subject.say
    rule = Stroke(Style("faint", 0.25), lines=((0.0, 0.0, measure, 0.0),))
    for i, each in enumerate(sums(subject, made)):
        strip = _sum(each, measure, _SUM)
        yield replace(strip, items=(rule, *strip.items)) if i else strip
    total = Told(say("quote total in", currency=made.currency), "", money(made.total))
    inner = _sum(total, measure - 4.0, SECTION, 5.0)
    yield panel([inner], measure, 1.2, 2.0)


def _sum(each: Told, right: float, face: Face, left: float = 0.0) -> Strip:
    """Return a line below the table, its words where the table's columns begin."""
    items: list[Item] = [
        line(each.what, face, left, _PAD),
        line(each.amount, face, right, _PAD, "end"),
    ]
    if each.how:
        second = _SHARES[0] / sum(_SHARES) * (right - 2.0 * BETWEEN) + BETWEEN
        items.append(line(each.how, CELL._replace(lead=face.lead), second, _PAD))
    return Strip(face.lead + 2.0 * _PAD, tuple(items), 0.0, True)


def _notes(subject: Subject, made: Quote) -> Iterator[Strip]:
    text = " ".join([*notes(subject, made), subject.say("quote own")])
    yield from paragraph(text, subject.paper.measure, CAPTION, 0.0, 3.0)


def _signed(subject: Subject) -> list[Strip]:
    """Return the lines on which maker and customer write their names and sign."""
    say, measure = subject.say, subject.paper.measure
    wide = (measure - _APART) / 2.0
    sides = (0.0, wide + _APART)
    heads = [
        line(say(who), STRONG, x)
        for who, x in zip(("quote maker", "quote customer"), sides, strict=True)
    ]
    strips = [Strip(STRONG.lead, tuple(heads), 12.0)]
    for what in ("quote name", "quote signature"):
        rules = Stroke(Style("line", 0.3), lines=[(x, _WRITE, x + wide, _WRITE) for x in sides])
        under = [line(say(what), CAPTION, x, _WRITE + 0.4) for x in sides]
        strips.append(Strip(_WRITE + CAPTION.lead + 1.0, (rules, *under)))
    return tied(strips)
