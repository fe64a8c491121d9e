"""All parts of the sheet in their order, as pages with heads and feet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from knotplot.discovery import Registry
from knotplot.drawing import metrics
from knotplot.drawing.shapes import Drawing, Item, Stroke, Style, Text
from knotplot.geometry.layout import Layout
from knotplot.materials.bill import Bill
from knotplot.materials.quote import Quote
from knotplot.notice import Notice
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count
from knotplot.sheet.about import about
from knotplot.sheet.cover import cover
from knotplot.sheet.joining import Page, laid
from knotplot.sheet.paper import CAPTION, Paper
from knotplot.sheet.setting import shortened
from knotplot.sheet.subject import Part, SheetPart, Subject, Told
from knotplot.sheet.words import sheet_words


def subject_of(
    pattern: Pattern, count: Count, layout: Layout, bill: Bill, paper: tuple[float, float],
    quote: Quote | None = None, notices: tuple[Notice, ...] = (),
) -> Subject:  # fmt: skip
    """Return what a sheet is about; raise `Refusal` for a language there are no words in."""
    say = sheet_words(pattern.language)
    return Subject(pattern, count, layout, bill, Paper(*paper), say, quote, notices)


#: The parts between the pages at the front and the back, by the keys of their titles.
ALL_PARTS: Mapping[str, SheetPart] = Registry(
    "knotplot.sheet", lambda module: [(p.key, p) for p in getattr(module, "PARTS", ())]
)


def pages(subject: Subject) -> tuple[Drawing, ...]:
    """Return the pages of a sheet."""
    inside = laid(subject.paper, list(_parts(subject)))
    front = [Page((subject.say("cover"),), (), cover(subject)), *_about(subject, inside)]
    title, version = subject.pattern.title, subject.pattern.version
    return tuple(furnished(subject, title, version, [*front, *inside]))


def _parts(subject: Subject) -> Iterator[Part]:
    """Yield the parts that this sheet has, in their order."""
    for each in sorted(ALL_PARTS.values(), key=lambda part: part.order):
        made = each.make(subject)
        if made is not None:
            yield made._replace(alone=each.alone, tall=each.tall)


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
