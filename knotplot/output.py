"""What comes out of a piece: a picture as SVG or PNG, a document as PDF, numbers as JSON."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cached_property
from os import PathLike
from pathlib import Path

from knotplot import notebook
from knotplot.brief import fit_line
from knotplot.drawing.shapes import Drawing
from knotplot.errors import UsageError, shown
from knotplot.sheet.document import PAPERS, Sheet
from knotplot.tying.names import counted
from knotplot.units import extent_text


@dataclass(frozen=True, repr=False)
class Picture:
    """A drawing, to be had as SVG or PNG.

    `drawing` is what it draws, in mm. `ids` begins every id and class name of its SVG; without it,
    they begin with a name made from the content.
    """

    drawing: Drawing
    ids: str = ""

    def __repr__(self) -> str:
        return fit_line(f"Picture({shown(self.title, 56)}, {extent_text(*self.size)})")

    @property
    def title(self) -> str:
        """Return what it shows, in a few words."""
        return self.drawing.title

    @property
    def size(self) -> tuple[float, float]:
        """Return its width and height in mm."""
        return self.drawing.width, self.drawing.height

    @cached_property
    def _svg(self) -> str:
        from knotplot.renderers import svg

        return svg.checked(svg.render(self.drawing, self.ids))

    def svg(self, *, ids: str | None = None) -> str:
        """Return the picture as SVG, one `<svg>` element.

        `ids` is the beginning of every id and class name in it, and of the colours that a page may
        set (`--ids-ink`); where it isn't given, the picture's own. Raises `UsageError` for one that
        isn't a letter followed by letters, digits, `_` and `-`.
        """
        return self._svg if ids is None or ids == self.ids else Picture(self.drawing, ids).svg()

    def png(self, px_per_mm: float | None = None) -> bytes:
        """Return the picture as PNG, with `px_per_mm` pixels a millimetre or, without it, `4`.

        A picture that would have more than 64 million pixels has fewer a millimetre
        (`Picture.px_per_mm`). Raises `UsageError` where the extra `png` is missing, and where the
        `px_per_mm` that is asked for makes more pixels than that.
        """
        from knotplot.renderers import png

        return png.render(self._svg, px_per_mm)

    @property
    def px_per_mm(self) -> float:
        """The pixels a millimetre of its PNG: 4, or where that makes over 64 million, fewer."""
        from knotplot.renderers import png

        return png.usual_resolution(self._svg)

    def _repr_svg_(self) -> str | None:
        """Return the SVG for a notebook; None where it is so large that a PNG does better."""
        return self._svg if notebook.fits(self._svg) else None

    def _repr_png_(self) -> bytes | None:
        """Return a PNG for a notebook where the SVG is too large; None without the extra `png`."""
        if notebook.fits(self._svg):
            return None
        try:
            return self.png(min(self.px_per_mm, notebook.screen_resolution(self.size)))
        except UsageError:
            return None

    def save(self, path: str | PathLike[str]) -> None:
        """Write the picture to a .svg or .png file, whole or not at all.

        Raises `UsageError` for another ending, `OutputError` for a place that can't be written.
        """
        from knotplot.renderers.files import write_whole

        write_whole(path, self.encoded(path))

    def encoded(self, path: str | PathLike[str]) -> bytes:
        """Return the bytes of a file of that name; raise `UsageError` if it is no picture's."""
        kind = Path(path).suffix.lower()
        if kind not in (".svg", ".png"):
            raise UsageError(f"{path}: no kind of picture; use a name that ends in .svg or .png")
        return self.png() if kind == ".png" else self._svg.encode()


@dataclass(frozen=True, repr=False)
class Document:
    """Pages to print, to be had as PDF; `len(document)` is how many there are."""

    sheet: Sheet

    def __repr__(self) -> str:
        paper = next((name for name, size in PAPERS.items() if size == self.size), "")
        on = f"{paper} paper" if paper else extent_text(*self.size)
        return fit_line(f"Document({shown(self.title, 56)}, {counted(len(self), 'page')}, {on})")

    def __len__(self) -> int:
        return len(self.sheet.pages)

    def _repr_html_(self) -> str:
        """Return what it is, and its first page, for a notebook."""
        width, height = self.size
        facts = [f"{counted(len(self), 'page')} of {extent_text(width, height)}"]
        return notebook.facts_html(self.title, facts, shown=_page_image(self.page(1)))

    @property
    def title(self) -> str:
        """Return its title, as a reader of PDFs shows it."""
        return self.sheet.title

    @property
    def page_count(self) -> int:
        """Return how many pages it has."""
        return len(self)

    @property
    def size(self) -> tuple[float, float]:
        """Return the width and height of a page in mm."""
        first = self.sheet.pages[0]
        return first.width, first.height

    def page(self, number: int) -> Picture:
        """Return one page, from 1, as a picture; raise `UsageError` for one that isn't there."""
        if isinstance(number, bool) or not isinstance(number, int) or not 1 <= number <= len(self):
            raise UsageError(f"page {shown(number)}: there is none; use 1 to {len(self)}")
        return Picture(self.sheet.pages[number - 1])

    def pdf(self, path: str | PathLike[str] | None = None) -> bytes:
        """Return the document as PDF, and write it to `path` if given, whole or not at all."""
        from knotplot.renderers import pdf
        from knotplot.renderers.files import write_whole

        data = pdf.render(
            self.sheet.pages, self.sheet.title, self.sheet.author, self.sheet.subject,
            self.sheet.keywords, self.sheet.language,
        )  # fmt: skip
        if path is not None:
            write_whole(path, data)
        return data

    def save(self, path: str | PathLike[str]) -> None:
        """Write the document to a .pdf file, whole or not at all.

        Raises `UsageError` for another ending, `OutputError` for a place that can't be written.
        """
        if Path(path).suffix.lower() != ".pdf":
            raise UsageError(f"{path}: no name of a document; use one that ends in .pdf")
        self.pdf(path)


def _page_image(page: Picture) -> str:
    """Return a page as HTML; nothing where it is large and there is no PNG of it."""
    svg, png = page._repr_svg_(), page._repr_png_()
    if svg is not None:
        return notebook.image_html(svg.encode(), "svg+xml", page.title)
    return "" if png is None else notebook.image_html(png, "png", page.title)


def json_text(document: object) -> str:
    """Return a document as JSON text with a new line at its end."""
    return json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
