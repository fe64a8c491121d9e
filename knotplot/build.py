"""From a pattern to everything made of it: the stages in their order.

pattern -> tying -> Piece -> geometry -> Layout -> materials, instructions, drawing -> sheet
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from os import PathLike
from pathlib import Path
from typing import Any

from knotplot import figures as numbers
from knotplot.discovery import Registry
from knotplot.drawing.alone import alone
from knotplot.drawing.shapes import Drawing
from knotplot.errors import Refusal, UsageError, shown
from knotplot.geometry.layout import Layout
from knotplot.materials.bill import Bill, bill, laid
from knotplot.materials.quote import Quote
from knotplot.materials.remaining import folds, remaining
from knotplot.notice import Notice
from knotplot.notices import in_file_words
from knotplot.pattern.load import verify
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count, strand_count
from knotplot.pattern.working import work
from knotplot.sheet.document import PAPERS, Sheet, make_sheet


def build(pattern: Pattern) -> Made:
    """Work a pattern: count its strands, tie it, lay it out and measure it.

    Raises `PatternError` with file, line and remedy where it can't be worked.
    """
    verify(pattern)
    try:
        count = strand_count(pattern)
        piece, noticed = work(pattern, count.count)
        layout = laid(pattern, piece)
        found = bill(pattern, layout)
        return Made(pattern, count, layout, found, (*noticed, *found.notices))
    except Refusal as refusal:
        raise pattern.fault(refusal) from None


@dataclass(frozen=True)
class Made:
    """A piece with all its numbers, and what can be drawn, said and printed of it.

    `notices` are what its maker should know before cutting.
    """

    pattern: Pattern
    count: Count
    layout: Layout
    bill: Bill
    notices: tuple[Notice, ...]

    @cached_property
    def warnings(self) -> tuple[str, ...]:
        """What its maker should know, each in a sentence that names what stands in the file."""
        return in_file_words(self.notices)

    def figures(self, rows: bool = False) -> dict[str, Any]:
        """Return every number of the piece, with its rows and ties if asked."""
        found = numbers.figures(self.pattern, self.count, self.layout, self.bill, self.warnings)
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
        return Document(make_sheet(*found, offer, self.notices))

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


@dataclass(frozen=True)
class Picture:
    """A drawing with its renderers."""

    drawing: Drawing

    @cached_property
    def _svg(self) -> str:
        from knotplot.renderers import svg

        return svg.checked(svg.render(self.drawing))

    def svg(self) -> str:
        """Return the drawing as SVG."""
        return self._svg

    def png(self, px_per_mm: float | None = None) -> bytes:
        """Return the drawing as PNG in so many pixels a millimetre; `px_per_mm` unless asked.

        Raises `UsageError` where the extra `png` is missing, and where that makes more than 64
        million pixels.
        """
        from knotplot.renderers import png

        return png.render(self._svg, px_per_mm)

    @property
    def px_per_mm(self) -> float:
        """The pixels a millimetre of its PNG: 4, or where that makes over 64 million, fewer."""
        from knotplot.renderers import png

        return png.usual_resolution(self._svg)

    def save(self, path: str | PathLike[str]) -> None:
        """Write the drawing to a .svg or .png file, whole or not at all."""
        from knotplot.renderers.files import write_whole

        write_whole(path, self.encoded(path))

    def encoded(self, path: str | PathLike[str]) -> bytes:
        """Return the bytes of a file of that name; raise `UsageError` if it is no picture's."""
        kind = Path(path).suffix.lower()
        if kind not in (".svg", ".png"):
            raise UsageError(f"{path}: no kind of picture; use a name that ends in .svg or .png")
        return self.png() if kind == ".png" else self._svg.encode()


@dataclass(frozen=True)
class Document:
    """A sheet with its renderer."""

    sheet: Sheet

    def pdf(self, path: str | PathLike[str] | None = None) -> bytes:
        """Return the sheet as PDF, and write it to `path` if given, whole or not at all."""
        from knotplot.renderers import pdf
        from knotplot.renderers.files import write_whole

        data = pdf.render(
            self.sheet.pages, self.sheet.title, self.sheet.author, self.sheet.subject,
            self.sheet.keywords, self.sheet.language,
        )  # fmt: skip
        if path is not None:
            write_whole(path, data)
        return data


def json_text(document: object) -> str:
    """Return a document as JSON text with a new line at its end."""
    return json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
