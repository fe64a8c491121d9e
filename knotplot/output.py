"""What comes out of a piece: a picture as SVG or PNG, a document as PDF, numbers as JSON."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cached_property
from os import PathLike
from pathlib import Path

from knotplot.drawing.shapes import Drawing
from knotplot.errors import UsageError
from knotplot.sheet.document import Sheet


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
