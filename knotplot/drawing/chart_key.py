"""The key to a chart: every knot of a piece with its mark and its name in the trade."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from knotplot.drawing import metrics
from knotplot.drawing.bounds import bounds
from knotplot.drawing.chart_scene import edge_style, ended_style, tail_style
from knotplot.drawing.labels import LINE, lines_of
from knotplot.drawing.marks import knot_mark, strand_style
from knotplot.drawing.shapes import Drawing, Group, Item, Mark, Stroke, Style, Symbol
from knotplot.drawing.view_words import view_words
from knotplot.errors import UsageError
from knotplot.geometry.layout import Layout
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.tying.finish import KNOT, MANNER, knotted
from knotplot.tying.piece import Piece
from knotplot.tying.shape import Shape

BOX = (6.4, 3.4)  # room for a mark, font sizes
SCALE = 0.55  # a cord's diameter, font sizes
VARIANTS = 2  # a knot that faces or leads both ways is shown in both
NAME = 13.0  # how wide a name may be, font sizes


def chart_key(piece: Piece, text_mm: float = 3.0, language: str = "en") -> Drawing:
    """Return the key to a piece's chart: its knots, most used first, then its kinds of line.

    In mm of the page, not of the piece: `text_mm` is the size of its text.
    """
    if not 0.0 < text_mm < math.inf:
        raise UsageError(f"text_mm is {text_mm}: use a size above 0")
    words = view_words(language)
    entries = [
        (_name(name, words["cross"], language), _marks(name, manners, text_mm))
        for name, manners in used(piece)
    ]
    entries += _lines(piece, text_mm, words["cord"], words["tail"], words["edge"])
    if piece.ended:
        entries.insert(-1, (words["ended"], _end(text_mm)))
    items: list[Item] = []
    step, text = BOX[0] * text_mm, 0.8 * text_mm
    y = 0.0
    for name, marks in entries:
        lines = metrics.wrap(name, NAME * text_mm, text_mm)
        x0, y0, x1, y1 = bounds(marks)
        height = max(y1 - y0 + 0.9 * text_mm, (len(lines) + 0.4) * LINE * text_mm)
        middle = y + height / 2.0
        items.append(Group(tuple(marks), dx=step / 2 - (x0 + x1) / 2, dy=middle - (y0 + y1) / 2))
        items += lines_of(lines, step + text, middle, text_mm, ink="ink")
        y += height
    x0, _, x1, _ = bounds(items)
    left = 0.3 * text_mm - min(x0, 0.0)
    names = ", ".join(name for name, _ in entries)
    return Drawing(
        left + x1 + 0.3 * text_mm, y, (Group(tuple(items), dx=left),),
        words["key"], words["key desc"].format(names), language,
    )  # fmt: skip


def key_view(layout: Layout, text_mm: float = 3.0, language: str = "en") -> Drawing:
    """Return the key to the chart of a piece, as a view; like `chart_key`."""
    return chart_key(layout.piece, text_mm, language)


def used(piece: Piece) -> list[tuple[str, list[Manner]]]:
    """Return the knots in a piece's chart, and crosses, with the manners each is shown in.

    The most used knot comes first, crosses last; of a knot tied in several manners the most used
    of each facing, or of each side it leads to.
    """
    counts = _charted(piece)
    return [(name, _variants(counts[name])) for name in _most_used_first(counts)]


class KnotUsed(NamedTuple):
    """A knot of a piece, the manner to show it in, and whether the chart has its mark."""

    name: str
    manner: Manner
    charted: bool


def knots_used(piece: Piece) -> list[KnotUsed]:
    """Return the knots of a piece, the most used first; the one in the ends of a fringe too.

    The chart hasn't that one, since it is in no row. A cross is no knot.
    """
    in_chart, counts = _charted(piece), _charted(piece)
    ends = len(knotted(piece))
    if ends:
        counts.setdefault(KNOT, Counter())[MANNER] += ends
    return [
        KnotUsed(name, _variants(in_chart.get(name, counts[name]))[0], name in in_chart)
        for name in _most_used_first(counts)
        if name != "cross"
    ]


def _most_used_first(counts: Mapping[str, Counter[Manner]]) -> list[str]:
    return sorted(counts, key=lambda name: (name == "cross", -counts[name].total(), name))


def _charted(piece: Piece) -> dict[str, Counter[Manner]]:
    """Return how often each knot, and a cross, is tied in the rows in each manner."""
    times: Counter[int] = Counter()
    shapes: dict[int, Shape] = {}
    for row in piece.rows:
        for placement in row.placements:
            shapes.setdefault(id(placement.shape), placement.shape)
            times[id(placement.shape)] += 1
    counts: dict[str, Counter[Manner]] = {}
    for key, shape in shapes.items():
        for tie in shape.ties:
            counts.setdefault(tie.knot, Counter())[tie.manner] += times[key]
    return counts


def _variants(manners: Counter[Manner]) -> list[Manner]:
    """Return the most used manner of each facing or side led to, at most `VARIANTS`."""
    found: dict[tuple[str | None, int | None], Manner] = {}
    for manner, _ in sorted(manners.items(), key=lambda each: (-each[1], repr(each[0]))):
        found.setdefault((manner.facing, manner.leader), manner)
    shown = list(found.values())[:VARIANTS]
    return sorted(shown, key=lambda m: (m.facing or "", -9 if m.leader is None else m.leader))


def _name(name: str, cross: str, language: str) -> str:
    return cross if name == "cross" else knot(name).words[language].one


def _marks(name: str, manners: list[Manner], size: float) -> list[Item]:
    """Return a knot's marks side by side, no larger than fits the box."""
    symbols = [
        Symbol(f"key-{name.replace('_', '-')}-{i}", tuple(_symbol(name, manner, size)))
        for i, manner in enumerate(manners, start=1)
    ]
    items: list[Item] = []
    x = 0.0
    for symbol in symbols:
        x0, _, x1, _ = bounds(symbol.items)
        items.append(Mark(symbol, ((x - x0, 0.0),)))
        x += x1 - x0 + 0.7 * size
    x0, y0, x1, y1 = bounds(items)
    scale = min(1.0, BOX[0] * size / (x1 - x0), BOX[1] * size / (y1 - y0))
    return items if scale == 1.0 else [Group(tuple(items), scale=scale)]


def _symbol(name: str, manner: Manner, size: float) -> Iterator[Item]:
    diameter = SCALE * size
    for ink, pen, curves in knot_mark(name, manner):
        scaled = tuple(tuple(value * diameter for value in curve) for curve in curves)
        yield Stroke(Style(ink, pen * diameter), scaled)


def _end(size: float) -> list[Item]:
    """Return a cord that ends at a bar."""
    d = SCALE * size
    return [
        Stroke(strand_style(d), lines=((0.0, 0.0, 8.0 * d, 0.0),)),
        Stroke(ended_style(d), lines=((8.0 * d, -0.6 * d, 8.0 * d, 0.6 * d),)),
    ]


def _lines(
    piece: Piece, size: float, cord: str, tail: str, edge: str
) -> list[tuple[str, list[Item]]]:
    """Return what each kind of line is: a cord, a short end, the lower edge."""
    diameter = SCALE * size
    kinds = [(cord, strand_style(diameter)), (edge, edge_style(diameter))]
    if piece.mounting.pocket is not None:
        kinds.insert(1, (tail, tail_style(diameter)))
    across = (0.0, 0.0, 11.4 * diameter, 0.0)  # three dashes of the lower edge
    return [(name, [Stroke(style, lines=(across,))]) for name, style in kinds]


VIEW = ("key", key_view)
