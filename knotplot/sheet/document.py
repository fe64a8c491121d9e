"""The sheet as pages."""

from __future__ import annotations

from dataclasses import dataclass

from knotplot.brief import Brief
from knotplot.drawing.shapes import Drawing
from knotplot.geometry.layout import Layout
from knotplot.materials.bill import Bill
from knotplot.materials.quote import Quote
from knotplot.notice import Notice
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count

#: Paper by name: width and height in mm (ISO 216; US Letter 8.5 × 11 in).
PAPERS: dict[str, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


@dataclass(frozen=True, slots=True, repr=False)
class Sheet(Brief):
    """A sheet: its pages, and what stands in its metadata."""

    pages: tuple[Drawing, ...]
    title: str
    author: str
    subject: str
    keywords: str
    language: str


def make_sheet(
    pattern: Pattern, count: Count, layout: Layout, bill: Bill, paper: tuple[float, float],
    quote: Quote | None = None, notices: tuple[Notice, ...] = (),
) -> Sheet:  # fmt: skip
    """Return the sheet of a piece on paper of that width and height (mm).

    A `quote` is its last page; `notices` are what the maker should know before cutting.
    """
    from knotplot.sheet.pages import pages, subject_of
    from knotplot.units import both

    subject = subject_of(pattern, count, layout, bill, paper, quote, notices)
    say = subject.say
    told = say("subject", width=both(pattern.width), drop=both(pattern.drop))
    keywords = say("keywords", knots=", ".join(map(say.knot, bill.knots)))
    author = pattern.designer or ""
    return Sheet(pages(subject), pattern.title, author, told, keywords, pattern.language)
