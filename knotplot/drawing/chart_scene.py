"""What a chart shows, without its lettering: the piece as worked, in mm of the piece.

Strands are thin lines, shapes are marks, each made once. One pass over the record; per tie there
is a place and a few curves, nothing else.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from knotplot.drawing.marks import BAR, mark_symbol, strand_style
from knotplot.drawing.shapes import (
    Curve,
    Disc,
    Fill,
    Item,
    Line,
    Mark,
    Point,
    Stroke,
    Style,
    Symbol,
)
from knotplot.drawing.support import on_rod
from knotplot.geometry.layout import Layout, stands_above, stands_out
from knotplot.tying.piece import Piece, Row
from knotplot.tying.shape import Shape

STUB = 3.0  # how far a leader is shown to stand out at either side, diameters
TAIL = 1.6  # how far the short ends are shown below their last knot, diameters


class Place(NamedTuple):
    """A row as it stands in the chart: the middle of its first and of its last shape (mm)."""

    row: Row
    first: float
    last: float


class Stretch(NamedTuple):
    """From where to where something reaches down the chart (mm)."""

    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Scene:
    """A piece as worked: what to paint, how far it reaches, and where its rows and sections lie.

    `fold` and `line` are the heights of a rod pocket's fold and of the temporary line above it.
    """

    piece: Piece
    items: tuple[Item, ...]
    top: float
    bottom: float
    rows: tuple[Place, ...]
    sections: tuple[Stretch, ...]
    line: float | None
    fold: float | None

    @property
    def reach(self) -> float:
        """Return how far anything stands out beyond the sides of the piece."""
        diameter = self.piece.gauge.diameter
        return max((STUB + 0.5) * diameter, stands_out(self.piece) + diameter)


def scene(layout: Layout) -> Scene:
    """Return the chart's picture of a piece that was laid out."""
    piece = layout.piece
    pocket = piece.mounting.pocket
    line = pocket.join - pocket.band if pocket else None
    above = -stands_above(piece) if line is None else line
    top = min([above, *(p.y for row in piece.rows[:1] for p in row.placements)])
    body, tails = _runs(layout)
    items: list[Item] = [*_support(piece)]
    items += [Stroke(tail_style(piece.gauge.diameter), tails)] if tails else []
    items += [Stroke(strand_style(piece.gauge.diameter), body)]
    items += _leaders(piece)
    items += _marks(piece)
    items += _ended(layout)
    items.append(Stroke(edge_style(piece.gauge.diameter), lines=(edge_line(piece),)))
    places = tuple(_place(row) for row in piece.rows)
    fold = None if pocket is None else pocket.join - pocket.band / 2.0
    return Scene(
        piece, tuple(items), top, piece.edge.lowest(), places, stretches(piece), line, fold
    )  # fmt: skip


# --- strands and leaders ---------------------------------------------------------------------


def tail_style(diameter: float) -> Style:
    """Return the style of a short end: short dashes."""
    return Style("accent", 0.13 * diameter, dash=(0.9 * diameter, 0.6 * diameter))


def edge_style(diameter: float) -> Style:
    """Return the style of the lower edge: long dashes."""
    return Style("accent", 0.3 * diameter, dash=(3.0 * diameter, 1.2 * diameter))


def _runs(layout: Layout) -> tuple[list[Curve], list[Curve]]:
    """Return the free runs of the body and of the tails."""
    piece, short = layout.piece, layout.piece.tails
    last = len(piece.rows)
    body: list[Curve] = []
    tails: list[Curve] = []
    shown = TAIL * piece.gauge.diameter
    for strand, curve, _, below in layout.free_runs:
        if strand not in short:
            body.append(curve)
        elif below < last:
            tails.append(curve)
        else:
            x, y = curve[:2]
            y1 = min(curve[7], y + shown)
            tails.append((x, y, x, y + (y1 - y) / 3.0, x, y1 - (y1 - y) / 3.0, x, y1))
    if piece.mounting.support == "none" and piece.mounting.tail:
        for port in piece.mounting.starts:
            if port is not None:  # the top fringe, held on the board
                x, y = port.x, port.y
                body.append((x, 0.0, x, y / 3.0, x, y * 2.0 / 3.0, x, y))
    return body, tails


def _leaders(piece: Piece) -> list[Item]:
    """Return the separate leaders, each a line through its hitches and a little beyond."""
    gauge = piece.gauge
    kinds = {cord.id for cord in piece.cords if cord.role == "leader"}
    found: dict[str, list[Point]] = {}
    for row in piece.rows:
        if row.placements[0].cord in kinds:
            pitch = row.pitch(gauge)
            for shape, lane, _, top, cord in row.placements:
                x = lane * pitch + shape.ties[0].x
                found.setdefault(cord or "", []).append((x, top + shape.ties[0].y))
    stub = (STUB - 0.5) * gauge.diameter + gauge.pitch / 2.0
    lines: list[Line] = []
    for places in found.values():
        (x0, y0), (x1, y1) = min(places), max(places)
        lines.append((x0 - stub, y0, x1 + stub, y1))
    return [Stroke(Style("ink", 0.5 * BAR * gauge.diameter), lines=lines)] if lines else []


def ended_style(diameter: float) -> Style:
    """Return the style of the bar across a cord that ends in the work."""
    return Style("ink", 0.3 * diameter)


def _ended(layout: Layout) -> list[Item]:
    """Return a short bar across the end of every strand that ends in the work."""
    half = 0.6 * layout.piece.gauge.diameter
    ends = [layout.ends[strand] for strand in layout.piece.ended]
    lines = [(port.x - half, port.y, port.x + half, port.y) for port in ends if port is not None]
    style = ended_style(layout.piece.gauge.diameter)
    return [Stroke(style, lines=tuple(lines))] if lines else []


def edge_line(piece: Piece) -> Line:
    """Return the lower edge as a line from the left to the right."""
    width = piece.gauge.width
    steps = 1 if not piece.edge.rise_mm else 120 * piece.edge.count
    xs = [width * i / steps for i in range(steps + 1)]
    return tuple(value for x in xs for value in (x, piece.edge.y(x)))


# --- support ---------------------------------------------------------------------------------


def _support(piece: Piece) -> list[Item]:
    """Return what the strands hang on while they are tied."""
    gauge, mounting = piece.gauge, piece.mounting
    over, pen = (STUB + 0.4) * gauge.diameter, Style("line", 0.18 * gauge.diameter, "faint")
    if mounting.support == "ring":
        rim = Style("line", max(0.8 * gauge.diameter, 0.06 * mounting.rod))
        radius = mounting.rod / 2.0 - rim.width / 2.0
        return [Disc(rim, ((gauge.width / 2.0, mounting.rod / 2.0),), radius)]
    if on_rod(piece):
        x0, x1, y1 = -over, gauge.width + over, mounting.rod
        return [Fill(pen, polygons=((x0, 0.0, x1, 0.0, x1, y1, x0, y1),))]
    if mounting.pocket is None:
        return []
    line = mounting.pocket.join - mounting.pocket.band
    fold = line + mounting.pocket.band / 2.0
    d = gauge.diameter
    dashes = Style("accent2", 0.3 * d, dash=(2.4 * d, 0.9 * d, 0.5 * d, 0.9 * d))
    return [
        Stroke(Style("ink", 0.45 * d), lines=((-over, line, gauge.width + over, line),)),
        Stroke(dashes, lines=((-over, fold, gauge.width + over, fold),)),
    ]


# --- marks -----------------------------------------------------------------------------------


def _marks(piece: Piece) -> list[Item]:
    """Return every shape's mark with its places, the tails' after the body's."""
    places: dict[tuple[bool, int], list[Point]] = {}
    shapes: dict[int, Shape] = {}
    for row in piece.rows:
        tails, pitch = row.layer == "tails", row.pitch(piece.gauge)
        for shape, lane, _, top, _ in row.placements:
            key = tails, id(shape)
            at = places.get(key)
            if at is None:
                at = places[key] = []
                shapes.setdefault(id(shape), shape)
            at.append((lane * pitch, top))
    symbols = _symbols(list(shapes.values()), piece.gauge.diameter)
    return [
        Mark(symbols[key], tuple(at))
        for layer in (False, True)
        for (tails, key), at in places.items()
        if tails == layer
    ]


def _symbols(shapes: Sequence[Shape], diameter: float) -> dict[int, Symbol]:
    """Return a symbol for each shape by the shape's identity, named in the order worked."""
    return {
        id(shape): mark_symbol(shape, f"mark-{i}", diameter)
        for i, shape in enumerate(shapes, start=1)
    }


# --- rows and sections -----------------------------------------------------------------------


def _place(row: Row) -> Place:
    first, last = row.placements[0], row.placements[-1]
    return Place(row, first.y + first.shape.bottom / 2.0, last.y + last.shape.bottom / 2.0)


def stretches(piece: Piece, hung: bool = False) -> tuple[Stretch, ...]:
    """Return how far each section reaches: its rows, as worked or as they hang.

    A section without rows reaches as the record has it, a fringe to the lower edge.
    """
    tops = [math.inf] * len(piece.parts)
    bottoms = [-math.inf] * len(piece.parts)
    for row in piece.rows:
        by = row.shift if hung else 0.0
        first, last = row.placements[0], row.placements[-1]
        tops[row.section] = min(tops[row.section], first.y + by, last.y + by)
        deepest = max(placed.y + placed.shape.bottom for placed in (first, last))
        bottoms[row.section] = max(bottoms[row.section], deepest + by)
    found = []
    for part, top, bottom in zip(piece.parts, tops, bottoms, strict=True):
        if top > bottom:  # nothing is tied in it
            top, bottom = part.top, part.bottom
            if part.finish is not None:
                halves = range(2 * part.lane, 2 * (part.lane + part.strands) + 1)
                pitch = piece.gauge.over(part.among).pitch
                bottom = max(piece.edge.y(half * pitch / 2.0) for half in halves)
        found.append(Stretch(top, bottom))
    return tuple(found)
