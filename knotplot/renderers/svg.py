"""A drawing as SVG: one self-contained element that stands in a file or in a page.

svgwrite makes the shell (size, title, style, definitions); what repeats is written as text and
spliced in, for an object an element costs ten times the time (measured; DEVELOPERS.md). Colours
are literal attributes, which every reader understands; readers that know custom properties get
these on top, with a dark scheme. Every id, class and property begins with a prefix made from the
drawing's content, so several drawings can live in one page.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Sequence
from html import escape
from typing import assert_never

from knotplot.drawing.metrics import cleaned, covers, width
from knotplot.drawing.shapes import (
    Anchor,
    Disc,
    Drawing,
    Fill,
    Group,
    Item,
    Link,
    Mark,
    Stroke,
    Style,
    Symbol,
    Text,
)
from knotplot.drawing.theme import INKS, ink
from knotplot.errors import UsageError
from knotplot.renderers.marking import (
    PathForm,
    anchors,
    chunks,
    link_name,
    number,
    path_data,
    places,
    register,
)

_CURVE = PathForm("M%.2f %.2f", "c%.2f %.2f %.2f %.2f %.2f %.2f", afresh=True)
_LINE = PathForm("M%.2f %.2f", "L%.2f %.2f")
_OUTLINE = PathForm('<path d="M%.2f %.2f', "C%.2f %.2f %.2f %.2f %.2f %.2f", 'Z"/>\n')
_POLYGON = PathForm('<path d="M%.2f %.2f', "L%.2f %.2f", 'Z"/>\n')
_PATHS_AN_ELEMENT = 500  # some readers slow down on one path of a hundred thousand parts
_PREFIX = "\0"  # stands for the prefix until the content is known; no text can hold it
_ESCAPED = re.compile(r"[&<>]")
_IDS = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_FAMILY = "'Source Sans 3',sans-serif"  # in quotes, for in CSS no bare word may begin with a digit
_BODY, _SYMBOLS = "body-stands-here", "symbols-stand-here"
_ORDER = {name: i for i, name in enumerate(INKS)}


def checked(text: str) -> str:
    """Return SVG text as it is, once a parser has read it whole.

    Raises ValueError for what isn't well-formed XML, so that no broken file is ever written.
    """
    from lxml import etree

    try:
        etree.fromstring(text.encode(), etree.XMLParser(huge_tree=True, resolve_entities=False))
    except etree.XMLSyntaxError as error:
        raise ValueError(f"the drawing is no well-formed SVG: {error}") from error
    return text


def render(drawing: Drawing, ids: str = "") -> str:
    """Return the drawing as one `<svg>` element (UTF-8 when written, no XML declaration).

    `ids` begins every id, class and property in place of the prefix made from the content; give
    it where one drawing stands twice in a page, or to theme it by name (`--ids-ink`). A link to
    an anchor that is not in this drawing is left out. Raises ValueError for numbers that are
    not finite, unknown inks, and names or addresses that can't be; UsageError for `ids` that
    can't begin an id.
    """
    if ids and not _IDS.fullmatch(ids):
        raise UsageError(f"ids can't begin with {ids!r}: use a letter, then A-Z a-z 0-9 _ -")
    body = _Body(drawing)
    about = (drawing.title, drawing.desc, drawing.language, drawing.width, drawing.height)
    prefix = ids or _content_prefix(repr(about), *body.parts, *body.symbol_parts)
    shell = _shell(
        drawing, prefix, sorted(body.painted, key=lambda each: (_ORDER[each[1]], each[0]))
    )
    head, _, rest = shell.partition(f'<g id="{_SYMBOLS}" />')
    between, _, tail = rest.partition(f'<g id="{_BODY}" />')
    symbols = [part.replace(_PREFIX, prefix) for part in body.symbol_parts]
    parts = [part.replace(_PREFIX, prefix) for part in body.parts]
    return "".join([head, *symbols, between, *parts, tail])


def _content_prefix(*contents: str) -> str:
    digest = hashlib.sha256()
    for content in contents:
        digest.update(content.encode())
    return "k" + digest.hexdigest()[:9]


def _shell(drawing: Drawing, prefix: str, painted: Sequence[tuple[str, str]]) -> str:
    """Return the svg element with title, style and the places where text is spliced in."""
    import svgwrite

    width, height = number(drawing.width), number(drawing.height)
    dwg = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    title = svgwrite.base.Title(cleaned(drawing.title))
    desc = svgwrite.base.Desc(cleaned(drawing.desc))
    for place, (element, name) in enumerate(((title, "title"), (desc, "desc"))):
        element.xml.set("id", f"{prefix}-{name}")
        dwg.elements.insert(place, element)
    dwg["role"] = "img"
    dwg["aria-labelledby"] = f"{prefix}-title"
    dwg["aria-describedby"] = f"{prefix}-desc"
    dwg["xml:lang"] = cleaned(drawing.language)
    dwg["class"] = prefix
    dwg["font-family"] = _FAMILY
    dwg.defs.add(dwg.style(_css(prefix, painted)))
    dwg.defs.add(dwg.g(id=_SYMBOLS))
    dwg.add(dwg.g(id=_BODY))
    # svgwrite declares a namespace that nothing uses and the SVG 1.1 DTD does not know
    return str(dwg.tostring()).replace(' xmlns:ev="http://www.w3.org/2001/xml-events"', "", 1)


def _css(prefix: str, painted: Sequence[tuple[str, str]]) -> str:
    """Return the style sheet that lays custom properties and the dark scheme over the literals.

    A rule names one class and no ancestor: what a `use` shows stands below none that a rule could
    ask for, though it inherits. A property has no value of its own, so that one given by a page,
    on the drawing or anywhere above it, wins.
    """

    def rules(dark: bool) -> str:
        return "".join(
            f".{prefix}-{what[0]}-{name}{{{what}:var(--{prefix}-{name},{INKS[name][dark]})}}"
            for what, name in painted
        )

    return (
        f"@supports (fill:var(--a)){{{rules(False)}"
        f"@media screen and (prefers-color-scheme:dark){{{rules(True)}}}}}"
    )


class _Body:
    """The elements of a drawing as text, with the prefix still open, and the inks they use."""

    def __init__(self, drawing: Drawing) -> None:
        self.parts: list[str] = []
        self.symbol_parts: list[str] = []
        self.painted: set[tuple[str, str]] = set()  # fill or stroke, and an ink
        self._symbols: dict[str, Symbol] = {}
        self._paints: dict[int, str] = {}  # by identity: styles live as long as the drawing
        self._lettering: dict[tuple[object, ...], str] = {}
        self._clips = 0
        self._anchors = {anchor.name for anchor, _ in anchors(drawing.items)}
        paper = self._colour("paper")
        size = f'width="{number(drawing.width)}" height="{number(drawing.height)}"'
        self.parts.append(f"<rect {size}{paper}/>\n")
        self._write(drawing.items)

    def _write(self, items: Iterable[Item]) -> None:
        add = self.parts.append
        for item in items:
            match item:
                case Text():
                    add(self._text(item))
                case Stroke():
                    self._stroke(item)
                case Fill(style, outlines, polygons):
                    shapes = path_data(outlines, _OUTLINE) + path_data(polygons, _POLYGON)
                    add(f"<g{self._paint(style)}>\n{shapes}</g>\n")
                case Disc(style, at, radius):
                    circle = f'<circle cx="%.2f" cy="%.2f" r="{number(radius)}"/>\n'
                    add(f"<g{self._paint(style)}>\n{places(at, circle)}</g>\n")
                case Mark(symbol, at):
                    self._define(symbol)
                    use = f'<use xlink:href="#{_PREFIX}-{symbol.name}" x="%.2f" y="%.2f"/>\n'
                    add(places(at, use))
                case Group():
                    self._group(item)
                case Link():
                    self._link(item)
                case Anchor(name, y):
                    add(f'<g id="{_PREFIX}-to-{name}" transform="translate(0,{number(y)})"/>\n')
                case _:
                    assert_never(item)

    def _stroke(self, stroke: Stroke) -> None:
        style = stroke.style
        paint = self._paint(style, filled=False)
        most = _PATHS_AN_ELEMENT
        if style.opacity < 1:  # parts would show where they overlap
            most = max(1, len(stroke.curves), len(stroke.lines))
        for paths, form in ((stroke.curves, _CURVE), (stroke.lines, _LINE)):
            for part in chunks(paths, most):
                self.parts.append(f'<path{paint} d="{path_data(part, form)}"/>\n')

    def _text(self, text: Text) -> str:
        key = (text.size, text.anchor, text.weight, text.ink)
        lettering = self._lettering.get(key) or self._letter(key, text)
        x, y, words = number(text.x), number(text.y), text.text
        if not words.isprintable():
            words = cleaned(words)
        if words and covers(words):
            long = number(width(words, text.size, text.weight))
            lettering += f' textLength="{long}" lengthAdjust="spacingAndGlyphs"'
        if _ESCAPED.search(words):
            words = escape(words, quote=False)
        if text.turn:
            lettering = f'{lettering} transform="rotate({number(text.turn)} {x} {y})"'
        return f'<text x="{x}" y="{y}"{lettering}>{words}</text>\n'

    def _letter(self, key: tuple[object, ...], text: Text) -> str:
        written = f'{self._colour(text.ink)} font-size="{number(text.size)}"'
        if text.anchor != "start":
            written += f' text-anchor="{text.anchor}"'
        if text.weight != "regular":
            written += ' font-weight="700"' if text.weight == "bold" else ' font-style="italic"'
        self._lettering[key] = written
        return written

    def _define(self, symbol: Symbol) -> None:
        """Write a symbol into the definitions when it is first used."""
        if not register(symbol, self._symbols):
            return
        outer, self.parts = self.parts, []
        self._write(symbol.items)
        inner, self.parts = self.parts, outer
        self.symbol_parts += [f'<g id="{_PREFIX}-{symbol.name}">\n', *inner, "</g>\n"]

    def _group(self, group: Group) -> None:
        moves = []
        if group.dx or group.dy:
            moves.append(f"translate({number(group.dx)},{number(group.dy)})")
        if group.scale != 1:
            number(group.scale)
            moves.append(f"scale({group.scale:.5f})")
        head = f' transform="{" ".join(moves)}"' if moves else ""
        inside = (
            f"<title>{escape(cleaned(group.label), quote=False)}</title>" if group.label else ""
        )
        if group.clip is not None:
            self._clips += 1
            name = f"{_PREFIX}-clip{self._clips}"
            x, y, w, h = map(number, group.clip)
            inside += f'<clipPath id="{name}"><rect x="{x}" y="{y}" width="{w}" height="{h}"/>'
            inside += "</clipPath>"
            head += f' clip-path="url(#{name})"'
        self.parts.append(f"<g{head}>{inside}\n")
        self._write(group.items)
        self.parts.append("</g>\n")

    def _link(self, link: Link) -> None:
        name = link_name(link.target)
        if name is not None and name not in self._anchors:
            return
        target = escape(link.target) if name is None else f"#{_PREFIX}-to-{name}"
        x, y, w, h = map(number, link.box)
        box = f'<rect x="{x}" y="{y}" width="{w}" height="{h}" fill="none" pointer-events="all"/>'
        self.parts.append(f'<a xlink:href="{target}">{box}</a>\n')

    def _paint(self, style: Style, filled: bool = True) -> str:
        """Return the attributes of a style; strokes are not filled."""
        key = id(style) * 2 + filled
        known = self._paints.get(key)
        if known is None:
            known = self._paints[key] = self._painted(style, filled)
        return known

    def _painted(self, style: Style, filled: bool) -> str:
        fill = style.fill if filled else None
        if style.stroke is None:
            return self._colour(fill) + _opacity("fill", style)
        written = self._colour(fill, style.stroke)
        written += f' stroke-width="{number(style.width)}"'
        if style.join != "miter":
            written += f' stroke-linejoin="{style.join}"'
        if style.cap != "butt":
            written += f' stroke-linecap="{style.cap}"'
        if style.dash:
            written += f' stroke-dasharray="{" ".join(map(number, style.dash))}"'
        return written + _opacity("stroke", style) + (_opacity("fill", style) if fill else "")

    def _colour(self, fill: str | None, stroke: str | None = None) -> str:
        """Return fill and stroke as literal attributes, with the classes that theme them."""
        classes, written = [], ""
        for what, name in (("fill", fill), ("stroke", stroke)):
            if name is not None:
                written += f' {what}="{ink(name).light}"'
                if name in INKS:
                    self.painted.add((what, name))
                    classes.append(f"{_PREFIX}-{what[0]}-{name}")
            elif what == "fill":
                written += ' fill="none"'
        return f' class="{" ".join(classes)}"{written}' if classes else written


def _opacity(what: str, style: Style) -> str:
    share = number(style.opacity)
    return "" if style.opacity >= 1 else f' {what}-opacity="{share}"'
