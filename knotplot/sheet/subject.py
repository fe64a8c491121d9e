"""What a sheet is about, and the parts it is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple, Protocol

from knotplot.drawing.shapes import Anchor, Fill, Group, Item, Stroke, Style
from knotplot.geometry.layout import Layout
from knotplot.instructions.records import Finishing
from knotplot.instructions.words import Heading, Line, Printed, words
from knotplot.materials.bill import Bill
from knotplot.materials.quote import Quote
from knotplot.materials.remaining import folds, remaining
from knotplot.notice import Notice
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count
from knotplot.sheet.flow import Strip, led
from knotplot.sheet.paper import PART, STANDFIRST, Paper
from knotplot.sheet.setting import paragraph
from knotplot.sheet.words import Words
from knotplot.tying.piece import Piece


class Told(Protocol):
    """What stands on paper in words: all that a page needs to know."""

    @property
    def paper(self) -> Paper:
        """Return the paper."""

    @property
    def say(self) -> Words:
        """Return the words it is told in."""


@dataclass(frozen=True)
class Subject:
    """A pattern with all that was found of it, the paper, and the words it is told in.

    `quote` is what a commission costs, where the sheet shall say so; `notices` are what the maker
    should know before cutting.
    """

    pattern: Pattern
    count: Count
    layout: Layout
    bill: Bill
    paper: Paper
    say: Words
    quote: Quote | None = None
    notices: tuple[Notice, ...] = ()

    @property
    def piece(self) -> Piece:
        """Return the piece as tied."""
        return self.layout.piece

    @property
    def work(self) -> Sequence[Line]:
        """Return the instructions up to the finishing."""
        return self._lines[: self._finishing]

    @property
    def finish(self) -> Sequence[Printed]:
        """Return the instructions for the finishing, without their heading."""
        return [each for each in self._lines[self._finishing :] if isinstance(each, Printed)]

    @cached_property
    def _lines(self) -> tuple[Line, ...]:
        lengths = self.bill.lengths
        left = remaining(self.layout, lengths)
        return words(self.piece, left, self.say.language, folds(lengths))

    @cached_property
    def _finishing(self) -> int:
        """Return the number of the line with which the finishing begins."""
        return next(
            i for i, each in enumerate(self._lines)
            if isinstance(each, Heading) and isinstance(each.of, Finishing)
        )  # fmt: skip


class Part(NamedTuple):
    """A part of the sheet: its anchor, its title, and what stands on its pages.

    `strips` are put on pages, and may begin below the part before, unless it stands `alone`: it
    is read, worked from or kept by itself. Of a `tall` one a picture takes most of a page, so that
    its first words would be parted from it below another. `more` are the items of pages of their
    own after them, on the page.
    """

    key: str
    title: str
    strips: tuple[Strip, ...]
    more: tuple[tuple[Item, ...], ...] = ()
    alone: bool = False
    tall: bool = False


class SheetPart(NamedTuple):
    """What a file of this package adds to every sheet, as its `PART`.

    Parts stand in the order of their numbers. `key`, letters and hyphens, is that of the title
    among the words of each language. `make` returns the part, or None where a sheet has none; for
    `alone` and `tall` see `Part`.
    """

    order: int
    key: str
    make: Callable[[Subject], Part | None]
    alone: bool = False
    tall: bool = False


def part(subject: Subject, key: str, strips: Iterable[Strip], lead: str | None = None) -> Part:
    """Return the part called `key` that those strips make, below its title and its first words."""
    title = subject.say(key)
    return Part(key, title, (*opening(subject, title, key, lead), *strips))


def opening(subject: Told, title: str, key: str, lead: str | None) -> list[Strip]:
    """Return a part's title over a row of hitches, and its first words."""
    measure = subject.paper.measure
    title_strips = led(paragraph(title, measure, PART))
    first = title_strips[0]
    anchor = Anchor(key, -4.0, title, 0)
    strips = [Strip(first.height, (anchor, *first.items), 0.0, True), *title_strips[1:]]
    strips.append(Strip(3.2, knotted_rule(measure, 1.2), 1.0, True))
    if lead:
        strips += led(paragraph(lead, 0.9 * measure, STANDFIRST, 0.0, 3.6))
    strips.append(Strip(5.0, tied=True))
    return strips


def knotted_rule(width: float, y: float) -> tuple[Item, ...]:
    """Return a thin line with a row of hitches on it at its left: a leader, from here."""
    end, half, lean = _HITCHED, 0.85, 0.35
    bar = (lean, y - half, end + lean, y - half, end - lean, y + half, -lean, y + half)
    cuts = [
        (x + 1.6 * lean, y - 1.6 * half, x - 1.6 * lean, y + 1.6 * half)
        for x in (1.5 * i for i in range(1, round(_HITCHED / 1.5)))
    ]
    return (
        Stroke(Style("line", 0.3), lines=((0.0, y, width, y),)),
        Fill(Style(fill="accent"), polygons=(bar,)),
        Stroke(Style("paper", 0.3), lines=cuts),
    )


_HITCHED = 24.0  # mm of the line


def placed(paper: Paper, items: Sequence[Item]) -> tuple[Item, ...]:
    """Return the items of a page where it is written on."""
    return (Group(items, dx=paper.left, dy=paper.top),)
