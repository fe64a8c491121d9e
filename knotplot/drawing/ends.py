"""How a fringe's ends look: combed out, their fibres spread to the trim line, or knotted."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from knotplot.curves.bezier import cubics, point, straight
from knotplot.curves.space import split
from knotplot.drawing.shapes import Curve, Fill, Item, Point, Stroke, Style
from knotplot.drawing.stroke import EDGE, Surface, cord
from knotplot.drawing.weave import Arc
from knotplot.geometry.layout import Layout
from knotplot.tying.finish import (
    KNOT,
    LONGEST_TAIL,
    MANNER,
    SHORTEST_TAIL,
    finishes,
    knot_height,
)

KNOTTED = (KNOT, MANNER)
TAIL = (SHORTEST_TAIL + LONGEST_TAIL) / 2.0  # mm below a knot at the trim line, as drawn
SPREAD = 1.35  # diameters to each side that a combed end spreads at the trim line
LEFT = 0.08  # of the shortest end, left uncombed below its knot
FIBRES = 13
UNEVEN = 0.35  # diameters by which one fibre ends above the next
PEN = 0.11  # thickness of a fibre, diameters
BELLY = 0.55  # of that they have spread a third of the way down


class End(NamedTuple):
    """How an end is finished; a combed one for how many mm, and how steeply it is trimmed."""

    finish: str
    deep: float = 0.0
    slope: float = 0.0


CUT = End("cut")


def ends(layout: Layout) -> dict[int, End]:
    """Return how the strands that hang to the end are finished, by strand.

    A fringe is combed to one depth all along, as far up as its shortest end lets it.
    """
    piece, gauge = layout.piece, layout.piece.last_gauge
    found = {strand: CUT for strand, port in enumerate(layout.ends) if port is not None}
    at = {strand: gauge.x(lane) for lane, strand in enumerate(piece.lanes)}
    combed: dict[int, list[int]] = {}
    for strand, (finish, part) in finishes(piece).items():
        if finish == "knotted":
            found[strand] = End("knotted")
        elif finish == "combed":
            combed.setdefault(part, []).append(strand)
    for there in combed.values():
        deep = (1.0 - LEFT) * min(layout.hanging[strand] for strand in there)
        found |= {strand: End("combed", deep, _slope(layout, at[strand])) for strand in there}
    return found


def _slope(layout: Layout, x: float) -> float:
    """Return how steeply the trim line falls to the right at a place (mm a mm)."""
    edge, step = layout.piece.edge, 0.5 * layout.piece.gauge.pitch
    left, right = max(x - step, 0.0), min(x + step, layout.piece.gauge.width)
    return round((edge.y(right) - edge.y(left)) / (right - left), 2) + 0.0


def finished(curve: Curve, diameter: float, look: Surface, end: End) -> tuple[Item, ...]:
    """Return a run of one cubic (mm) drawn as cord, and how it ends, but for a knot in its end."""
    if end.finish == "combed":
        above, below = _parted(curve, end.deep)
        return (*_brush(below, diameter, look, end.slope), *cord(above, diameter, look))
    if end.finish == "cut":
        return (*cord(curve, diameter, look), across(curve, diameter, look))
    above, below = _about_knot(curve, diameter)
    closed = across(below, diameter, look)
    return (*cord(above, diameter, look), *cord(below, diameter, look), closed)


def _about_knot(curve: Curve, diameter: float) -> tuple[Curve, Curve]:
    """Return what of a run is above the knot in its end, and the tail below, past its end."""
    above, _ = _parted(curve, knot_height(diameter))
    x, y = curve[6:]
    return above, straight(x, y, x, y + TAIL)


def knot_place(curve: Curve, diameter: float) -> Point:
    """Return the middle of the knot in a run's end (mm)."""
    above, below = _about_knot(curve, diameter)
    return (above[6] + below[0]) / 2.0, (above[7] + below[1]) / 2.0


def end_knot(arcs: Sequence[Arc], diameter: float, look: Surface) -> tuple[Item, ...]:
    """Return the knot that is tied in an end, about its middle (mm)."""
    items: list[Item] = []
    for arc in arcs:
        curve = tuple(value * diameter for value in arc.curve)
        items += cord(curve, diameter, look, arc.start * diameter, True, (True, True))
    return tuple(items)


def across(curve: Curve, diameter: float, look: Surface) -> Stroke:
    """Return the line that closes a cord where it is cut, at the end of a curve."""
    (ax, ay), (x, y) = curve[-4:-2], curve[-2:]
    size = math.hypot(x - ax, y - ay) or 1.0
    dx, dy = (x - ax) / size, (y - ay) / size
    half, pen = 0.5 * diameter, EDGE * diameter
    x, y = x - 0.5 * pen * dx, y - 0.5 * pen * dy
    line = (x - half * dy, y + half * dx, x + half * dy, y - half * dx)
    return Stroke(Style(look.inks.edge, pen), lines=(line,))


def _parted(curve: Curve, deep: float) -> tuple[Curve, Curve]:
    """Return a run of one cubic above and below the place `deep` mm above its end."""
    at = _where(curve, curve[7] - deep)
    spatial = tuple(value for k in range(0, 8, 2) for value in (curve[k], curve[k + 1], 0.0))
    return _flat(split(spatial, 0.0, at)), _flat(split(spatial, at, 1.0))


def _brush(curve: Curve, diameter: float, look: Surface, slope: float) -> Iterator[Item]:
    """Return the fibres about a curve, darker ones first, and the ground they lie on."""
    inks = look.inks
    pens = {inks.groove: 0.8, inks.shade: 1.0, inks.body: 1.2, inks.glint: 0.7}
    order = (inks.groove, inks.body, inks.shade, inks.glint, inks.body)
    layers: dict[str, list[Curve]] = {ink: [] for ink in pens}
    for i in range(FIBRES):
        aside = 2.0 * i / (FIBRES - 1) - 1.0
        layers[order[i * 2 % 5]].append(_fibre(curve, diameter, aside, i, slope))
    left, right = (_fibre(curve, diameter, aside, n, slope) for aside, n in ((-0.96, 1), (0.96, 3)))
    ground = (*left, *straight(*left[-2:], *right[-2:])[2:], *_back(right))
    yield Fill(Style(fill=inks.shade), outlines=(ground,))
    yield Stroke(Style(inks.edge, 0.4 * PEN * diameter), (left, right))
    for ink, curves in layers.items():
        yield Stroke(Style(ink, PEN * pens[ink] * diameter, cap="round"), tuple(curves))


def _fibre(curve: Curve, diameter: float, aside: float, number: int, slope: float) -> Curve:
    """Return one fibre, `aside` from -1 to 1 across; each ends a little above or below others."""
    x0, y0, ax, ay, bx, by, x1, y1 = curve
    narrow, wide = 0.40 * aside * diameter, SPREAD * aside * diameter
    sway = 0.22 * diameter * math.sin(2.4 * number + 0.7)
    up = UNEVEN * diameter * (0.5 + 0.5 * math.sin(5.1 * number + 1.3)) - slope * wide
    half = narrow + BELLY * (wide - narrow)
    return (x0 + narrow, y0, ax + half, ay, bx + wide + sway, by - up, x1 + wide, y1 - up)


def _where(curve: Curve, y: float) -> float:
    """Return where a run that falls all the way passes a height, from 0 to 1."""
    (cubic,) = cubics(curve)
    low, high = 0.0, 1.0
    for _ in range(30):
        t = (low + high) / 2.0
        low, high = (t, high) if point(cubic, t)[1] < y else (low, t)
    return low


def _flat(cubic: tuple[float, ...]) -> Curve:
    return tuple(value for i, value in enumerate(cubic) if i % 3 != 2)


def _back(curve: Curve) -> Curve:
    """Return the cubic the other way round, without its first point."""
    x0, y0, ax, ay, bx, by, _, _ = curve
    return (bx, by, ax, ay, x0, y0)
