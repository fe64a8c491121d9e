"""From a pattern to everything made of it: the stages in their order.

pattern -> tying -> Piece -> geometry -> Layout -> materials, instructions, drawing -> sheet
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from os import PathLike
from pathlib import Path
from typing import Any

from knotplot import figures as numbers
from knotplot.drawing.shapes import Drawing
from knotplot.errors import Refusal, UsageError
from knotplot.geometry.layout import Layout
from knotplot.materials.bill import Bill, bill, laid
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
        piece = work(pattern, count.count)
        layout = laid(pattern, piece)
        return Made(pattern, count, layout, bill(pattern, layout))
    except Refusal as refusal:
        raise pattern.fault(refusal) from None


@dataclass(frozen=True)
class Made:
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

    def draw(self, view: str) -> Picture:
        """Return a view of the piece; raise `UsageError` for one that there is not."""
        make = _views().get(view)
        if make is None:
            raise UsageError(f"there is no view {view!r}; use one of {', '.join(_views())}")
        return Picture(make(self.layout))

    def words(self) -> str:
        """Return the instructions as plain text."""
        from knotplot.instructions.text import plain_text

        return plain_text(self.layout.piece, self.pattern.title)

    def sheet(self, paper: str = "a4") -> Document:
        """Return the sheet to print, on `a4` or `letter`."""
        if paper not in PAPERS:
            raise UsageError(f"there is no paper {paper!r}; use one of {', '.join(PAPERS)}")
        return Document(make_sheet(self.pattern, self.count, self.layout, self.bill, PAPERS[paper]))


def _views() -> dict[str, Callable[[Layout], Drawing]]:
    """Return the views by name; each is loaded with all of drawing, on first use."""
    from knotplot.drawing.chart import chart
    from knotplot.drawing.cord_view import cord_view
    from knotplot.drawing.outline import outline
    from knotplot.drawing.trim import trim

    return {"chart": chart, "cord": cord_view, "outline": outline, "trim": trim}


@dataclass(frozen=True)
class Picture:
    """A drawing with its renderers."""

    drawing: Drawing

    @cached_property
    def _svg(self) -> str:
        from knotplot.renderers import svg

        return svg.render(self.drawing)

    def svg(self) -> str:
        """Return the drawing as SVG."""
        return self._svg

    def png(self, px_per_mm: float = 4.0) -> bytes:
        """Return the drawing as PNG; raise `UsageError` where the extra `png` is missing."""
        from knotplot.renderers import png

        return png.render(self._svg, px_per_mm)

    def save(self, path: str | PathLike[str]) -> None:
        """Write the drawing to a .svg or .png file, whole or not at all."""
        from knotplot.renderers.files import write_whole

        kind = Path(path).suffix.lower()
        if kind not in (".svg", ".png"):
            raise UsageError(f"{path}: no kind of picture; use a name that ends in .svg or .png")
        write_whole(path, self.png() if kind == ".png" else self._svg.encode())


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
