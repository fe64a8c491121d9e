"""From a pattern to everything made of it: the stages in their order.

pattern -> tying -> Piece -> geometry -> Layout -> materials, instructions, drawing -> sheet
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from knotplot import figures as numbers
from knotplot.discovery import Registry
from knotplot.drawing.alone import alone
from knotplot.drawing.shapes import Drawing
from knotplot.errors import Refusal, UsageError, shown
from knotplot.geometry.layout import Layout
from knotplot.materials.bill import Bill, bill, laid, warned
from knotplot.materials.quote import Quote
from knotplot.materials.remaining import folds, remaining
from knotplot.output import Document, Picture
from knotplot.pattern.load import verify
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count, strand_count
from knotplot.pattern.working import work
from knotplot.sheet.document import PAPERS, make_sheet


def build(pattern: Pattern) -> WorkedPiece:
    """Work a pattern: count its strands, tie it, lay it out and measure it.

    Raises `PatternError` with file, line and remedy where it can't be worked.
    """
    verify(pattern)
    try:
        count = strand_count(pattern)
        piece = work(pattern, count.count)
        layout = laid(pattern, piece)
        found = bill(pattern, layout)
        return WorkedPiece(pattern, count, warned(layout, found.warnings), found)
    except Refusal as refusal:
        raise pattern.fault(refusal) from None


@dataclass(frozen=True)
class WorkedPiece:
    """A piece with all its numbers, and what can be drawn, said and printed of it."""

    pattern: Pattern
    count: Count
    layout: Layout
    bill: Bill

    def figures(self, rows: bool = False) -> dict[str, Any]:
        """Return every number of the piece, with its rows and ties if asked."""
        found = numbers.figures(self.pattern, self.count, self.layout, self.bill)
        if rows:
            found["rows"] = numbers.rows(self.layout.piece)
        return found

    def draw(self, view: str, step: int | None = None, left_handed: bool = False) -> Picture:
        """Return a view of the piece; raise `UsageError` for one that there is not.

        A view of a knot shows how it is tied, or one `step` of it (from 1), for the right or the
        left hand. Raises `PatternError` for a piece of too many ties to be drawn one by one.
        """
        check_view(view, step, left_handed)
        if view.startswith(KNOT_VIEW):
            diameter = self.layout.piece.gauge.diameter
            return knot_picture(view.removeprefix(KNOT_VIEW), diameter, step, left_handed)
        try:
            return Picture(alone(VIEWS[view](self.layout), self._name))
        except Refusal as refusal:
            raise self.pattern.fault(refusal) from None

    @property
    def _name(self) -> str:
        """What the maker calls the piece; nothing where the pattern has no title."""
        return self.pattern.title if "title" in self.pattern.model_fields_set else ""

    def words(self) -> str:
        """Return the instructions as plain text."""
        from knotplot.instructions.text import plain_text

        left = remaining(self.layout, self.bill.lengths)
        where = folds(self.bill.lengths)
        return plain_text(self.layout.piece, self.pattern.title, left, folds=where)

    def quote(self) -> Quote:
        """Return what a commission costs; raise `PatternError` for a pattern without `work`."""
        if self.bill.quote is None:
            problem, remedy = "no hourly rate to quote by", "give work: {rate: 22 EUR}"
            raise self.pattern.fault(Refusal(problem, remedy, ("work",)))
        return self.bill.quote

    def quote_text(self) -> str:
        """Return the quote as plain text; raise `PatternError` for a pattern without `work`."""
        from knotplot.sheet.pages import subject_of
        from knotplot.sheet.quote_text import quote_text

        made = self.quote()
        subject = subject_of(self.pattern, self.count, self.layout, self.bill, PAPERS["a4"])
        return quote_text(subject, made)

    def sheet(self, paper: str = "a4", quote: bool = False) -> Document:
        """Return the sheet to print, on `a4` or `letter`, with its quote if asked.

        Raises `PatternError` where a quote is asked of a pattern without `work`.
        """
        offer = self.quote() if quote else None
        found = (self.pattern, self.count, self.layout, self.bill, _paper(paper))
        return Document(make_sheet(*found, offer))

    def knot_list(self) -> Picture:
        """Return the list of the piece's knots, drawn with their chart marks."""
        from knotplot.sheet.knot_list import knots_drawn

        return Picture(alone(knots_drawn(self.layout.piece), self._name))

    def knot_sheet(self, paper: str = "a4", left_handed: bool = False) -> Document:
        """Return a sheet that teaches the knots of the piece, on `a4` or `letter`.

        For the left hand all is mirrored, words too.
        """
        from knotplot.sheet.knot_sheet import its_knots
        from knotplot.sheet.pages import subject_of

        subject = subject_of(self.pattern, self.count, self.layout, self.bill, _paper(paper))
        return Document(its_knots(subject, left_handed))


def knot_list() -> Picture:
    """Return the list of every knot of the catalogue, drawn with their chart marks."""
    from knotplot.sheet.knot_list import knots_drawn

    return Picture(alone(knots_drawn()))


def knot_sheet(paper: str = "a4", left_handed: bool = False) -> Document:
    """Return a sheet that teaches every knot of the catalogue, on `a4` or `letter`.

    For the left hand all is mirrored, words too. Raises `UsageError` for other paper.
    """
    from knotplot.sheet.knot_sheet import all_knots

    return Document(all_knots(_paper(paper), left_handed))


def _paper(name: str) -> tuple[float, float]:
    """Return the width and height (mm) of paper; raise `UsageError` for another name."""
    if name not in PAPERS:
        raise UsageError(f"there is no paper {name!r}; use one of {', '.join(PAPERS)}")
    return PAPERS[name]


#: The views by name; a file of `drawing` names its own in `VIEW`, found when first asked.
VIEWS: Mapping[str, Callable[[Layout], Drawing]] = Registry(
    "knotplot.drawing", lambda module: [module.VIEW] if hasattr(module, "VIEW") else []
)
KNOT_VIEW = "knot:"


def check_view(view: str, step: int | None = None, left_handed: bool = False) -> None:
    """Raise `UsageError` for a view that there is not, nor a knot of that name or step."""
    if view.startswith(KNOT_VIEW) and view != KNOT_VIEW:
        knot_picture(view.removeprefix(KNOT_VIEW), 4.0, step, left_handed)
    elif view not in VIEWS:
        known = ", ".join(VIEWS)
        raise UsageError(f"there is no view {shown(view)}; use {known} or {KNOT_VIEW}NAME")
    elif step is not None or left_handed:
        what = "steps" if step is not None else "left-handed edition"
        raise UsageError(f"view {view} has no {what}; only a knot's has: use {KNOT_VIEW}NAME")


def knot_picture(
    name: str, diameter: float, step: int | None = None, left_handed: bool = False
) -> Picture:
    """Return how a knot is tied, in cord of that diameter (mm), or one step of it.

    Raises `UsageError` for an unknown knot or step.
    """
    from knotplot.drawing.knot_view import knot_view

    try:
        return Picture(alone(knot_view(name, diameter, step, left_handed)))
    except Refusal as refusal:
        raise UsageError(f"{KNOT_VIEW}{shown(name)}: {refusal}") from None
