"""The sheet as pages."""

from __future__ import annotations

from dataclasses import dataclass

from knotplot.drawing.shapes import Drawing

#: Paper by name: width and height in mm (ISO 216; US Letter 8.5 × 11 in).
PAPERS: dict[str, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet: its pages, and what stands in its metadata."""

    pages: tuple[Drawing, ...]
    title: str
    author: str
    subject: str
    keywords: str
    language: str
