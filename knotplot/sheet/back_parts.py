"""The last parts: safety, glossary, licence."""

from __future__ import annotations

from collections.abc import Iterator

from knotplot.sheet.facts import largest_opening, longest_free_strand
from knotplot.sheet.flow import Strip
from knotplot.sheet.measures import mass
from knotplot.sheet.paper import BESIDE, BODY, CELL, LABEL, SECTION, STRONG
from knotplot.sheet.setting import beside, heading, labelled, panel, paragraph
from knotplot.sheet.subject import Part, SheetPart, Subject, part
from knotplot.sheet.table import Column, table
from knotplot.units import both

_STRONG = CELL._replace(weight="bold")


def safety(subject: Subject) -> Part:
    """Return the page on safety: general cautions and the facts of the piece; always there."""
    say, paper = subject.say, subject.paper
    strips = [
        strip for each in say.pairs("cautions") for strip in labelled(*each, paper.main, BODY, 2.0)
    ]
    strips += heading(say("facts"), paper.measure, SECTION, 8.0)
    for name, value, how in _facts(subject):
        body = [
            *paragraph(value, paper.main, STRONG, BESIDE),
            *paragraph(how, paper.main, BODY._replace(ink="quiet"), BESIDE),
        ]
        strips += beside(name, body, 2.0, LABEL)
    note = paragraph(say("no conformity"), paper.measure - 10.0, BODY, 5.0)
    strips.append(panel(note, paper.measure, 3.4, 8.0))
    return part(subject, "safety", strips, say("safety lead"))


def _facts(subject: Subject) -> Iterator[tuple[str, str, str]]:
    say = subject.say
    strand = both(longest_free_strand(subject.layout))
    yield say("fact strand"), strand, say("fact strand how")
    yield say("fact opening"), both(largest_opening(subject.piece)), say("fact opening how")
    grams = sum(buy.mass.mass_g(float(buy.total)) for buy in subject.bill.shopping)
    yield say("fact weight"), mass(grams, say), say("fact weight how")


def glossary(subject: Subject) -> Part:
    """Return the glossary, the licence at its end."""
    say, paper = subject.say, subject.paper
    columns = (
        Column(say("term"), 2.4, face=_STRONG),
        Column(say("also"), 2.6),
        Column(say("meaning"), 4.6),
    )
    strips: list[Strip] = list(table(columns, say.glossary, paper.measure, 0.0, 1.0))
    strips += heading(say("licence"), paper.measure, SECTION, 10.0)
    text = subject.pattern.licence or say("no licence")
    strips += paragraph(text, paper.main, BODY, BESIDE, 1.0)
    return part(subject, "glossary", strips, say("glossary lead"))


PARTS = (
    SheetPart(70, "safety", safety, alone=True),
    SheetPart(80, "glossary", glossary, alone=True),
)
