"""All parts of the sheet in their order, as pages with heads and feet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from knotplot.drawing import metrics
from knotplot.drawing.shapes import Drawing, Item, Stroke, Style, Text
from knotplot.geometry.layout import Layout
from knotplot.instructions.records import Finishing
from knotplot.instructions.words import Heading, Line, Printed, words
from knotplot.materials.bill import Bill
from knotplot.materials.quote import Quote
from knotplot.materials.remaining import folds, remaining
from knotplot.notice import Notice
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count
from knotplot.sheet.about import about
from knotplot.sheet.back_parts import glossary, safety
from knotplot.sheet.chart_part import chart_pages
from knotplot.sheet.cover import cover
from knotplot.sheet.finishing_part import finishing
from knotplot.sheet.joining import Page, laid
from knotplot.sheet.knots_part import knots
from knotplot.sheet.materials_part import materials
from knotplot.sheet.paper import CAPTION, Paper
from knotplot.sheet.quote_part import quote_page
from knotplot.sheet.rows_part import rows
from knotplot.sheet.setting import shortened
from knotplot.sheet.sizing_part import sizes
from knotplot.sheet.subject import Subject, Told
from knotplot.sheet.words import sheet_words


def subject_of(
    pattern: Pattern, count: Count, layout: Layout, bill: Bill, paper: tuple[float, float],
    notices: tuple[Notice, ...] = (),
) -> Subject:  # fmt: skip
    """Return what a sheet is about; raise `Refusal` for a language there are no words in."""
    say = sheet_words(pattern.language)
    return Subject(pattern, count, layout, bill, Paper(*paper), say, notices)


def pages(subject: Subject, quote: Quote | None = None) -> tuple[Drawing, ...]:
    """Return the pages of a sheet, its quote last where there shall be one."""
    lengths = subject.bill.lengths
    left = remaining(subject.layout, lengths)
    work, finish = _parted(words(subject.piece, left, subject.say.language, folds(lengths)))
    inside = laid(
        subject.paper,
        [
            materials(subject),
            sizes(subject),
            knots(subject),
            chart_pages(subject),
            rows(subject, work),
            finishing(subject, finish),
            safety(subject),
            glossary(subject),
            *([] if quote is None else [quote_page(subject, quote)]),
        ],
    )
    front = [Page((subject.say("cover"),), (), cover(subject)), *_about(subject, inside)]
    title, version = subject.pattern.title, subject.pattern.version
    return tuple(furnished(subject, title, version, [*front, *inside]))


def _parted(lines: Sequence[Line]) -> tuple[list[Line], list[Printed]]:
    """Return the instructions up to the finishing, and those for it."""
    at = next(
        i for i, each in enumerate(lines)
        if isinstance(each, Heading) and isinstance(each.of, Finishing)
    )  # fmt: skip
    return list(lines[:at]), [each for each in lines[at:] if isinstance(each, Printed)]


def _about(subject: Subject, inside: Sequence[Page]) -> list[Page]:
    """Return the pages with the contents; how many they are moves the numbers in them."""
    taken = 1
    while True:
        entries = [
            (key, subject.say(key), number)
            for number, page in enumerate(inside, start=2 + taken)
            for key in page.begun
        ]
        found = laid(subject.paper, [about(subject, entries)])
        if len(found) == taken:
            return found
        taken = len(found)


def furnished(
    told: Told, title: str, version: str | None, inside: Sequence[Page]
) -> Iterator[Drawing]:
    """Yield every page with its head (the first has none) and foot."""
    say, paper = told.say, told.paper
    total = len(inside)
    for number, page in enumerate(inside, start=1):
        part = say("parts between").join(page.titles)
        head = () if number == 1 else tuple(_head(paper, title, part))
        desc = say("desc", title=title, page=number, pages=total, part=part)
        foot = _foot(told, version, number, total)
        items = (*head, *page.items, *foot)
        yield Drawing(paper.width, paper.height, items, title, desc, say.language)


def _head(paper: Paper, title: str, part: str) -> Iterator[Item]:
    room = paper.measure - metrics.width(part, CAPTION.size, "bold") - 8.0
    left = shortened(title, room, CAPTION)
    yield Text(paper.left, paper.head, left, CAPTION.size, ink="quiet")
    yield Text(paper.right, paper.head, part, CAPTION.size, "end", "bold", "quiet")


def _foot(told: Told, version: str | None, number: int, total: int) -> Iterator[Item]:
    say, paper = told.say, told.paper
    y = paper.foot
    yield Stroke(Style("faint", 0.25), lines=((paper.left, y - 4.2, paper.right, y - 4.2),))
    if version:
        text = shortened(say("version", version=version), 0.6 * paper.measure, CAPTION)
        yield Text(paper.left, y, text, CAPTION.size, ink="quiet")
    page = say("page", page=number, pages=total)
    yield Text(paper.right, y, page, CAPTION.size, "end", "regular", "quiet")
