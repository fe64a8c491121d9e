"""Drawings as the pages of a PDF, through reportlab.

`pdf_content` writes what is on a page; reportlab makes the document round it: pages, fonts,
outline, links. Only here y turns up. Only the shipped fonts are used, embedded as subsets; the
colours are those of the light scheme, for paper. The same pages give the same bytes.
"""

from __future__ import annotations

import os
import sys
import threading
import zlib
from collections.abc import Sequence
from functools import lru_cache
from io import BytesIO
from typing import Any

from knotplot.discovery import read_data
from knotplot.drawing.bounds import bounds
from knotplot.drawing.metrics import cleaned, printable
from knotplot.drawing.shapes import Drawing, Symbol, Weight
from knotplot.renderers.marking import anchors, link_name, number
from knotplot.renderers.pdf_content import POINT, Content

_FONTS: dict[Weight, str] = {"regular": "Regular", "bold": "Bold", "italic": "It"}
_FASTER = 2  # zlib level: a seventh of the time of the usual 6, and a tenth more bytes
_DATE = "SOURCE_DATE_EPOCH"
_environment = threading.Lock()  # held while the environment is without it
_RIM = 0.1  # mm round a symbol's box, so that rounding clips nothing of it


def render(
    pages: Sequence[Drawing],
    title: str,
    author: str = "",
    subject: str = "",
    keywords: str = "",
    language: str = "en",
) -> bytes:
    """Return a PDF with a page a drawing, each of its drawing's size.

    Anchors with a title make the outline; links lead to anchors on any page. A character that
    the fonts have not is printed as `?`. Raises ValueError where there is no page, for numbers
    that are not finite, unknown inks, anchors of one name, and links that lead nowhere.
    """
    if not pages:
        raise ValueError("a PDF needs a page at least")
    canvas = _canvas(cleaned(language))
    canvas.setTitle(cleaned(title))
    canvas.setAuthor(cleaned(author))
    canvas.setSubject(cleaned(subject))
    canvas.setKeywords(cleaned(keywords))
    version = getattr(sys.modules["knotplot"], "__version__", "")
    canvas.setCreator(f"knotplot {version}".strip())
    canvas.setViewerPreference("DisplayDocTitle", "true")
    document = _Document(canvas, _destinations(pages))
    for page in pages:
        document.page(page)
    return bytes(canvas.getpdfdata())


def _canvas(language: str) -> Any:
    """Return an empty document that bears no date.

    Where SOURCE_DATE_EPOCH is set, reportlab takes the date from it even so, and fails where that
    is no number: it must not see it.
    """
    from reportlab.pdfgen.canvas import Canvas

    regular = _font("regular").fontName
    with _environment:
        date = os.environ.pop(_DATE, None)
        try:
            return Canvas(
                BytesIO(), pageCompression=1, invariant=1, initialFontName=regular, lang=language
            )
        finally:
            if date is not None:
                os.environ[_DATE] = date


def _destinations(pages: Sequence[Drawing]) -> frozenset[str]:
    """Return the names of all anchors; ValueError where two have one name."""
    names: set[str] = set()
    for page in pages:
        for anchor, _ in anchors(page.items):
            if anchor.name in names:
                raise ValueError(f"two anchors are called {anchor.name!r}")
            names.add(anchor.name)
    return frozenset(names)


@lru_cache(maxsize=8)
def _font(weight: Weight) -> Any:
    """Load and register a shipped font; its embedded subset is kept apart for each document."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    name = f"SourceSans3-{_FONTS[weight]}"
    file = BytesIO(read_data("knotplot.renderers", f"fonts/{name}.ttf"))
    pdfmetrics.registerFont(TTFont(name, file, shapable=False))
    return pdfmetrics.getFont(name)


class _Deflate:
    """The filter of our streams: quicker than reportlab's own, and no text coding on top."""

    pdfname = "FlateDecode"

    def encode(self, content: bytes) -> bytes:
        return zlib.compress(content, _FASTER)


class _Document:
    """What all pages share: fonts, symbols as forms, outline and links."""

    def __init__(self, canvas: Any, destinations: frozenset[str]) -> None:
        self.canvas = canvas
        self.destinations = destinations
        self._level = -1
        self._forms: dict[str, list[tuple[Symbol, str]]] = {}
        self._written: dict[tuple[str, Weight], list[tuple[str, str]]] = {}

    def page(self, drawing: Drawing) -> None:
        """Write a page and close it."""
        canvas = self.canvas
        self._outline(drawing)
        content = Content(self, drawing.height)
        content.write(drawing.items)
        for (x, y, w, h), target in content.links:
            left, bottom = _points(x), _points(drawing.height - y - h)
            self._link(target, (left, bottom, left + _points(w), bottom + _points(h)))
        canvas.setPageSize((_points(drawing.width), _points(drawing.height)))
        canvas.showPage()
        page = canvas._doc.Pages.pages[-1]
        page.Contents = _stream(content)
        page.XObjects, page.ExtGState = self._xobjects(content), _alphas(content)

    def _link(self, target: str, box: tuple[float, float, float, float]) -> None:
        name = link_name(target)
        if name is None:
            self.canvas.linkURL(target, box, relative=0)
        elif name in self.destinations:
            self.canvas.linkRect("", name, box, relative=0)
        else:
            raise ValueError(f"a link leads to {target!r}, and no anchor is called so")

    def _outline(self, drawing: Drawing) -> None:
        for anchor, y in anchors(drawing.items):
            top = _points(drawing.height - y)
            self.canvas.bookmarkHorizontalAbsolute(anchor.name, top)
            if anchor.title is not None:
                if self._level < 0:
                    self.canvas.showOutline()
                self._level = max(0, min(anchor.level, self._level + 1))  # no step may be left out
                self.canvas.addOutlineEntry(cleaned(anchor.title), anchor.name, self._level)

    def form(self, symbol: Symbol) -> str:
        """Return the name of the form that draws a symbol, made when it is first used."""
        from reportlab.pdfbase import pdfdoc

        known = self._forms.setdefault(symbol.name, [])
        for met, name in known:
            if met is symbol or met == symbol:
                return name
        internal = f"{symbol.name}.{len(known)}"
        name = str(self.canvas._doc.getXObjectName(internal))
        known.append((symbol, name))
        content = Content(self)
        content.write(symbol.items)
        x0, y0, x1, y1 = bounds(symbol.items)
        box = (x0 - _RIM, y0 - _RIM, x1 + _RIM, y1 + _RIM)
        form = pdfdoc.PDFFormXObject(*(float(number(side)) for side in box))
        form.Contents = _stream(content)
        form.Resources = pdfdoc.PDFResourceDictionary(
            XObject=self._xobjects(content) or {}, ExtGState=_alphas(content) or {}
        )
        form.Resources.basicFonts()
        self.canvas._doc.addForm(internal, form)
        return name

    def _xobjects(self, content: Content) -> Any:
        """Return the resource dictionary of the symbols that a stream draws, or None."""
        from reportlab.pdfbase import pdfdoc

        if not content.forms:
            return None
        return pdfdoc.PDFDictionary({n: pdfdoc.PDFObjectReference(n) for n in content.forms})

    def strings(self, text: str, weight: Weight) -> list[tuple[str, str]]:
        """Return the parts of a text: the subset font each is set in, and its PDF string."""
        key = text, weight
        if key not in self._written:
            font, doc = _font(weight), self.canvas._doc
            self._written[key] = [
                (font.getSubsetInternalName(subset, doc), self.canvas._escape(part))
                for subset, part in font.splitString(printable(text), doc)
            ]
        return self._written[key]


def _stream(content: Content) -> Any:
    from reportlab.pdfbase.pdfdoc import PDFStream

    return PDFStream(content=bytes(content), filters=[_Deflate()])


def _alphas(content: Content) -> Any:
    """Return the resource dictionary of the opacities that a stream sets, or None."""
    from reportlab.pdfbase.pdfdoc import PDFDictionary

    found = {name: PDFDictionary({"ca": a, "CA": a}) for name, a in content.alphas.items()}
    return PDFDictionary(found) if found else None


def _points(mm: float) -> float:
    """Return millimetres as points, refusing what is not finite."""
    number(mm)
    return round(mm * POINT, 4)
