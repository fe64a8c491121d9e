"""The knot sheet: a document by itself that teaches knots, and the techniques they are used in.

Those of a piece, or all there are.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import NamedTuple

from knotplot.drawing.chart_key import knots_used
from knotplot.drawing.shapes import Anchor, Group
from knotplot.knots import catalogue
from knotplot.knots.base import Manner
from knotplot.knots.usual import usual_manner
from knotplot.sheet.about import Entry, entry_line
from knotplot.sheet.document import Sheet
from knotplot.sheet.flow import Strip, carried
from knotplot.sheet.frame_rows import anchor_of
from knotplot.sheet.joining import Page, anchors, laid
from knotplot.sheet.knot_facts import USUAL_CORD, knot_facts
from knotplot.sheet.knots_part import crossed, crosses, in_piece, knot_strips
from knotplot.sheet.pages import furnished
from knotplot.sheet.paper import BESIDE, BODY, SECTION, STRONG, Paper
from knotplot.sheet.setting import beside, heading, paragraph
from knotplot.sheet.subject import Part, Subject, opening
from knotplot.sheet.techniques_part import (
    technique_facts,
    technique_name,
    technique_strips,
    techniques_heading,
)
from knotplot.sheet.words import Words, sheet_words
from knotplot.techniques import techniques
from knotplot.techniques.found import in_order, used_techniques
from knotplot.tying.names import capital

KEY = "knots"
_WAYS = "ways"  # where the techniques begin, the heading they share included
MOST_ENTRIES = 20  # of the contents in one column
_COLUMNS = 8.0  # mm between two
_APART = 11.0  # mm above a knot
_TOP = 5.0  # mm from a page's top, where a knot that begins there is at the most


class _Shown(NamedTuple):
    """A knot of the sheet: the manner it is shown in, and how many there are, in words.

    `manner` is None for a technique; a knot that isn't `charted` is tied in ends of a fringe only.
    """

    name: str
    manner: Manner | None
    often: str | None = None
    charted: bool = True


class _Job(NamedTuple):
    """What a knot sheet is made of; cord is `diameter` mm thick."""

    paper: Paper
    say: Words
    title: str
    shown: tuple[_Shown, ...]
    diameter: float
    left_handed: bool
    crossed: bool = False
    author: str = ""
    version: str | None = None


def all_knots(paper: tuple[float, float], left_handed: bool = False, language: str = "en") -> Sheet:
    """Return the sheet of every knot of the catalogue, on paper of that width and height (mm).

    From easy to hard, the quickest of a step first. Raises `Refusal` for a language there are no
    words in.
    """
    say = sheet_words(language)
    easy_first = sorted(
        catalogue().items(),
        key=lambda each: (each[1].difficulty, each[1].minutes, say.knot(each[0])),
    )
    shown = tuple(_Shown(name, usual_manner(knot)) for name, knot in easy_first)
    shown += _techniques(in_order(techniques()))
    return _made(_Job(Paper(*paper), say, say("all knots"), shown, USUAL_CORD, left_handed))


def its_knots(subject: Subject, left_handed: bool = False) -> Sheet:
    """Return the sheet of a piece's knots as they are tied in it, the most used first."""
    say, pattern = subject.say, subject.pattern
    shown = tuple(
        _Shown(name, manner, in_piece(subject, name), charted)
        for name, manner, charted in knots_used(subject.piece)
    )
    shown += _techniques(used_techniques(subject.piece))
    return _made(
        _Job(
            subject.paper, say, say("its knots", title=pattern.title), shown,
            subject.piece.gauge.diameter, left_handed, crossed(subject.piece),
            pattern.designer or "", pattern.version,
        )
    )  # fmt: skip


def _techniques(names: Iterable[str]) -> tuple[_Shown, ...]:
    return tuple(_Shown(name, None) for name in names)


def _made(job: _Job) -> Sheet:
    """Return the sheet; its contents are as long whatever numbers stand in them."""
    say = job.say
    title = say("hand left", title=job.title) if job.left_handed else job.title
    places = {
        name: number
        for number, page in enumerate(_pages(job, title, {}), start=1)
        for name, _ in anchors(page.items)
    }
    pages = tuple(furnished(job, title, job.version, _pages(job, title, places)))
    names = ", ".join(_called(say, each) for each in job.shown)
    about = say("knot sheet subject", knots=names)
    keywords = say("knot sheet keywords", knots=names)
    return Sheet(pages, title, job.author, about, keywords, say.language)


def _pages(job: _Job, title: str, places: dict[str, int]) -> list[Page]:
    """Return the pages, each headed by the knots on it; `places` tells where each begins."""
    strips = [*opening(job, title, KEY, job.say("knot sheet lead")), *_front(job, places)]
    for each in job.shown:
        strips += _knot(job, each, each.manner) if each.manner else []
    if job.crossed:
        strips += crosses(job)
    ways = [each.name for each in job.shown if each.manner is None]
    if ways:
        first, *others = techniques_heading(job)
        strips += [replace(first, items=(Anchor(_WAYS, 0.0), *first.items)), *others]
    for name in ways:
        facts = technique_facts(job, name)
        made = technique_strips(job, name, _APART, job.left_handed, facts=facts)
        strips += _carried(job, made, technique_name(name, job.say))
    found = laid(job.paper, [Part(KEY, title, tuple(strips))])
    return _headed(job, found)


def _front(job: _Job, places: dict[str, int]) -> list[Strip]:
    """Return which hand the sheet is for, where that is the left, and the contents."""
    say, measure = job.say, job.paper.measure
    strips = paragraph(say("left hand"), measure, STRONG) if job.left_handed else []
    strips += heading(say("contents"), measure, SECTION, 4.0)
    entries = []
    for each in job.shown:
        key = anchor_of(each.name)
        entries.append((key, capital(_called(say, each)), places.get(key, 0)))
    return strips + _contents(measure, entries)


def _contents(measure: float, entries: Sequence[Entry]) -> list[Strip]:
    """Return the lines of the contents; many in two columns, read down the first."""
    if len(entries) <= MOST_ENTRIES:
        return [entry_line(measure, *entry) for entry in entries]
    half, wide = (len(entries) + 1) // 2, (measure - _COLUMNS) / 2.0
    strips = []
    for row in zip_longest(entries[:half], entries[half:]):
        lines = [entry_line(BESIDE + wide, *entry) for entry in row if entry]
        items = tuple(
            Group(line.items, dx=k * (wide + _COLUMNS) - BESIDE) for k, line in enumerate(lines)
        )
        strips.append(Strip(lines[0].height, items))
    return strips


def _knot(job: _Job, shown: _Shown, manner: Manner) -> list[Strip]:
    """Return all that is told of one knot; where it goes on overleaf its name is said again."""
    say = job.say
    told = manner
    if job.left_handed and manner.facing:  # its mirror image faces the other way
        told = manner._replace(facing="right" if manner.facing == "left" else "left")
    facts: list[Strip] = []
    for label, text in knot_facts(shown.name, told, job.diameter, say):
        body = paragraph(text, job.paper.main, BODY, job.paper.measure - job.paper.main)
        facts += beside(label, body, 0.6)
    facts[0] = replace(facts[0], space=2.0)
    name, hand = shown.name, job.left_handed
    made = knot_strips(job, name, manner, _APART, shown.often, facts, hand, shown.charted)
    return _carried(job, made, say.knot(name))


def _carried(job: _Job, strips: Sequence[Strip], name: str) -> list[Strip]:
    """Return strips over which a name is said again where they go on overleaf."""
    again = job.say("continued", heading=capital(name))
    return [strips[0], *carried(strips[1:], heading(again, job.paper.measure, SECTION, 0.0))]


def _called(say: Words, shown: _Shown) -> str:
    return technique_name(shown.name, say) if shown.manner is None else say.knot(shown.name)


def _headed(job: _Job, pages: Sequence[Page]) -> list[Page]:
    """Return pages with the knots on each as its title, the one that goes on there first."""
    names = {anchor_of(each.name): _called(job.say, each) for each in job.shown}
    found, last = [], job.say("contents")
    for page in pages:
        here = [(name, y) for name, y in anchors(page.items) if name in names or name == _WAYS]
        titles = tuple(names[name] for name, _ in here if name in names)
        if not titles or here[0][1] > job.paper.top + _TOP:
            titles = (last, *titles)
        last = titles[-1]
        found.append(page._replace(titles=titles))
    return found
