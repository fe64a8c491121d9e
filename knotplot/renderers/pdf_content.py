"""The operators of one PDF stream: a page's, or a symbol's, as text in millimetres with y down.

Written straight, for reportlab's drawing calls cost two to six times as much (measured;
DEVELOPERS.md). The graphics state is set once for a run of one style. What the stream needs from
the document, and what the document must make of it, goes through `Book` and plain attributes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Protocol, assert_never

from knotplot.drawing.metrics import cleaned, width
from knotplot.drawing.shapes import (
    Anchor,
    Box,
    Disc,
    Fill,
    Group,
    Item,
    Link,
    Mark,
    Point,
    Stroke,
    Style,
    Symbol,
    Text,
    Weight,
)
from knotplot.drawing.theme import ink
from knotplot.renderers.marking import PathForm, chunks, number, path_data, places, register

POINT = 72 / 25.4  # points in a millimetre

_CURVE = PathForm("%.2f %.2f m\n", "%.2f %.2f %.2f %.2f %.2f %.2f c\n")
_LINE = PathForm("%.2f %.2f m\n", "%.2f %.2f l\n")
_PATHS_A_STROKE = 500
_QUARTER = 0.5522847498  # handle of the cubic nearest to a quarter of a unit circle, 4/3·(√2 − 1)
_CIRCLE = ((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1), (1, 0))


class Book(Protocol):
    """What a stream asks of its document."""

    def form(self, symbol: Symbol) -> str:
        """Return the name by which a symbol's form is drawn."""

    def strings(self, text: str, weight: Weight) -> list[tuple[str, str]]:
        """Return the parts of a text: the font each is set in, and its escaped string."""


class Content:
    """One stream: `bytes()` of it, and the forms, opacities and links that it uses."""

    def __init__(self, book: Book, page_height: float | None = None) -> None:
        """Begin a page of that height in mm, or a symbol where it is None."""
        self.forms: dict[str, None] = {}
        self.alphas: dict[str, float] = {}
        self.links: list[tuple[Box, str]] = []  # boxes on the page, in mm
        self._book = book
        self._parts: list[str] = []
        self._symbols: dict[str, Symbol] = {}
        self._state = {"alpha": "/a100 gs\n"}  # what is set now; a symbol is drawn opaque
        self._frame = (1.0, 0.0, 0.0)  # scale, dx, dy from here to the page
        self._paints: dict[int, tuple[str, str, str]] = {}
        if page_height is not None:  # from here on millimetres, y down
            self._parts.append(f"{POINT:.6f} 0 0 {-POINT:.6f} 0 {page_height * POINT:.4f} cm\n")

    def __bytes__(self) -> bytes:
        return "".join(self._parts).encode("ascii") or b"\n"

    def write(self, items: Iterable[Item]) -> None:
        """Write the operators of `items`, in order."""
        for item in items:
            match item:
                case Text():
                    self._text(item)
                case Stroke():
                    self._stroke(item)
                case Fill(style, outlines, polygons):
                    self._closed(style, outlines, polygons)
                case Disc(style, at, radius):
                    self._closed(style, [_circle(x, y, radius) for x, y in at], ())
                case Mark(symbol, at):
                    self._mark(symbol, at)
                case Group():
                    self._group(item)
                case Link():
                    self._link(item)
                case Anchor():
                    pass  # known to the document already
                case _:
                    assert_never(item)

    def _set(self, what: str, operators: str) -> None:
        """Put the graphics state where it must be, if it isn't there already."""
        if self._state.get(what) != operators:
            self._state[what] = operators
            self._parts.append(operators)

    def _paint(self, style: Style, filled: bool) -> None:
        if id(style) not in self._paints:
            self._paints[id(style)] = _fill(style.fill), _pen(style), self._alpha(style.opacity)
        fill, pen, alpha = self._paints[id(style)]
        if filled and fill:
            self._set("fill", fill)
        if pen:
            self._set("pen", pen)
        self._set("alpha", alpha)

    def _alpha(self, opacity: float) -> str:
        name = f"a{round(100 * float(number(opacity)))}"
        self.alphas.setdefault(name, round(opacity, 2))
        return f"/{name} gs\n"

    def _stroke(self, stroke: Stroke) -> None:
        if stroke.style.stroke is None:
            return
        self._paint(stroke.style, filled=False)
        most = _PATHS_A_STROKE
        if stroke.style.opacity < 1:  # parts would show where they overlap
            most = max(1, len(stroke.curves), len(stroke.lines))
        for paths, form in ((stroke.curves, _CURVE), (stroke.lines, _LINE)):
            for part in chunks(paths, most):
                self._parts.append(f"{path_data(part, form)}S\n")

    def _closed(
        self,
        style: Style,
        outlines: Sequence[tuple[float, ...]],
        polygons: Sequence[tuple[float, ...]],
    ) -> None:
        if style.fill is None and style.stroke is None:
            return
        self._paint(style, filled=True)
        end = "h S\n" if style.fill is None else "f\n" if style.stroke is None else "b\n"
        for paths, form in ((outlines, _CURVE), (polygons, _LINE)):
            self._parts.append(path_data(paths, form._replace(end=end)))

    def _text(self, text: Text) -> None:
        self._set("fill", _fill(text.ink))
        self._set("alpha", self._alpha(1.0))
        turn = math.radians(text.turn)
        cos, sin = math.cos(turn), math.sin(turn)
        back = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
        if back:
            back *= width(text.text, text.size, text.weight)
        x, y = number(text.x - back * cos), number(text.y - back * sin)
        matrix = f"{cos:.5f} {sin:.5f} {sin:.5f} {-cos:.5f}" if text.turn else "1 0 0 -1"
        shown = "".join(
            f"{font} {number(text.size)} Tf ({part}) Tj "
            for font, part in self._book.strings(text.text, text.weight)
        )
        self._parts.append(f"BT {matrix} {x} {y} Tm {shown}ET\n")

    def _mark(self, symbol: Symbol, at: Sequence[Point]) -> None:
        register(symbol, self._symbols)
        name = self._book.form(symbol)
        self.forms[name] = None
        self._set("alpha", self._alpha(1.0))
        self._parts.append(places(at, f"q 1 0 0 1 %.2f %.2f cm /{name} Do Q\n"))

    def _group(self, group: Group) -> None:
        state, frame = dict(self._state), self._frame
        number(group.scale)
        self._frame = (
            frame[0] * group.scale,
            frame[1] + frame[0] * group.dx,
            frame[2] + frame[0] * group.dy,
        )
        label = "".join(c for c in cleaned(group.label or "") if c.isascii())
        self._parts.append(f"% {label}\nq\n" if label else "q\n")
        scale, dx, dy = f"{group.scale:.5f}", number(group.dx), number(group.dy)
        self._parts.append(f"{scale} 0 0 {scale} {dx} {dy} cm\n")
        if group.clip is not None:
            self._parts.append(f"{' '.join(map(number, group.clip))} re W n\n")
        self.write(group.items)
        self._parts.append("Q\n")
        self._state, self._frame = state, frame

    def _link(self, link: Link) -> None:
        (x, y, w, h), (scale, dx, dy) = link.box, self._frame
        self.links.append(((x * scale + dx, y * scale + dy, w * scale, h * scale), link.target))


@lru_cache(maxsize=256)
def _fill(name: str | None) -> str:
    return "" if name is None else f"{_rgb(name)} rg\n"


def _pen(style: Style) -> str:
    """Return the operators of a style's stroke; everything is set, nothing left from before."""
    if style.stroke is None:
        return ""
    cap = 1 if style.cap == "round" else 0
    join = 1 if style.join == "round" else 0
    dash = " ".join(map(number, style.dash))
    return f"{_rgb(style.stroke)} RG {number(style.width)} w {cap} J {join} j 4 M [{dash}] 0 d\n"


def _rgb(name: str) -> str:
    colour = ink(name).light
    return " ".join(f"{int(colour[i : i + 2], 16) / 255:.4f}" for i in (1, 3, 5))


def _circle(x: float, y: float, radius: float) -> tuple[float, ...]:
    """Return a circle as four cubics (off by 0.03 % of the radius at most)."""
    points = [(x + radius * u, y + radius * v) for u, v in _CIRCLE]
    path: list[float] = [*points[0]]
    for (x0, y0), (xc, yc), (x1, y1) in zip(points[:-2:2], points[1::2], points[2::2], strict=True):
        q = _QUARTER
        path += [x0 + (xc - x0) * q, y0 + (yc - y0) * q, x1 + (xc - x1) * q, y1 + (yc - y1) * q]
        path += [x1, y1]
    return tuple(path)
