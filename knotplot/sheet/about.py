"""The second page: what is where, about the pattern, how to use the sheet."""

from __future__ import annotations

from collections.abc import Sequence

from knotplot.drawing.shapes import Item, Link, Stroke, Style
from knotplot.sheet.cover import summary_on_cover
from knotplot.sheet.flow import Strip
from knotplot.sheet.paper import BESIDE, BODY, SECTION, STRONG
from knotplot.sheet.setting import beside, heading, line, paragraph
from knotplot.sheet.subject import Part, Subject, part

#: A part's anchor, title and page.
Entry = tuple[str, str, int]
_LINE = 6.6


def about(subject: Subject, entries: Sequence[Entry]) -> Part:
    """Return contents, summary and what else the pattern says of itself."""
    say, pattern, paper = subject.say, subject.pattern, subject.paper
    strips: list[Strip] = []
    if pattern.summary and not summary_on_cover(subject):
        strips += paragraph(pattern.summary, paper.main, BODY, BESIDE)
    if pattern.made_for:
        text = paragraph(pattern.made_for, paper.main, BODY, BESIDE)
        strips += beside(say("made for"), text, 2.0)
    changes = pattern.changes or ()
    told = (changes,) if isinstance(changes, str) else changes
    body = [strip for each in told for strip in paragraph(each, paper.main, BODY, BESIDE, 1.5)]
    strips += beside(say("changes"), body, 2.0) if body else []
    strips += heading(say("contents"), paper.measure, SECTION, 7.0)
    strips.append(Strip(1.5, tied=True))
    strips += [entry_line(subject.paper.measure, *entry) for entry in entries]
    strips += heading(say("how to use"), paper.measure, SECTION, 8.0)
    use = say("how to use text", sizes=say("sizes"))
    strips += paragraph(use, paper.main, BODY, BESIDE, 1.5)
    return part(subject, "about", strips)


def entry_line(measure: float, key: str, title: str, page: int) -> Strip:
    """Return a line of the contents: title and page, both leading there."""
    items: tuple[Item, ...] = (
        Stroke(Style("faint", 0.25), lines=((BESIDE, _LINE, measure, _LINE),)),
        line(title, STRONG._replace(lead=_LINE), BESIDE),
        line(str(page), BODY._replace(lead=_LINE), measure, anchor="end"),
        Link((BESIDE, 0.0, measure - BESIDE, _LINE), f"#{key}"),
    )
    return Strip(_LINE, items)
