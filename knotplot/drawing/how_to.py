"""How a knot is tied, in pictures: one a stage, its cords half open, the moving one picked out.

What the plates of 1890 do well (Dillmont, ch. "Macramé") is kept: light from one side, one
thickness of cord throughout, the knot half open, the moving end clear. The cord in the hand is
blue with a light line along it that ends in an arrow, so that grey print tells it too; a dark bar
lies across cords that are held.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from knotplot.curves.space import SpaceCurve, at, line
from knotplot.drawing.bounds import Extent, bounds
from knotplot.drawing.how_to_steps import Scene, scenes, shown
from knotplot.drawing.shapes import Curve, Fill, Group, Item, Line, Stroke, Style
from knotplot.drawing.stroke import OVERLAP, Surface, cord, stretched, surface
from knotplot.drawing.support import wooden
from knotplot.drawing.texture import TEXTURES
from knotplot.drawing.theme import HAND
from knotplot.drawing.weave import Arc, weave
from knotplot.instructions.how_to import sentence
from knotplot.knots import knot
from knotplot.knots.base import Manner, Point2

STILL = surface("twisted")
MOVING = Surface(HAND, TEXTURES["twisted"])
LINE = Style("hand-edge", 0.17)  # along the moving cord
HEAD = (0.1, 1.75, 0.85)  # of an arrow: where it begins and ends beyond the cord, half its width
APART = 2.0  # ends nearer than this have one arrow together
RIM = 0.12  # of paper round a sign, so that it stands out on cord in either scheme
HELD = Style("ink", 0.42, cap="round")
HELD_RIM = Style("paper", 0.42 + RIM, cap="round")


class Frame(NamedTuple):
    """A stage drawn about the knot's middle, in cord diameters, and its sentence."""

    items: tuple[Item, ...]
    text: str


@lru_cache(maxsize=256)
def frames(
    name: str, manner: Manner, left_handed: bool = False, language: str = "en"
) -> tuple[Frame, ...]:
    """Return the stages of a knot as pictures and sentences; mirrored for the left hand."""
    rod = _rod_radius(name, shown(name, manner))
    return tuple(
        Frame(tuple(_items(scene, rod)), sentence(scene.step, language))
        for scene in scenes(name, manner, left_handed)
    )


def extent(made: tuple[Frame, ...]) -> Extent:
    """Return the box that holds each of the frames, in cord diameters."""
    return bounds([item for frame in made for item in frame.items])


def in_box(frame: Frame, box: Extent, scale: float, x: float, y: float) -> Group:
    """Return a frame as an item with the upper left corner of `box` at (x, y) mm."""
    return Group(frame.items, x - scale * box[0], y - scale * box[1], scale, label=frame.text)


def _rod_radius(name: str, manner: Manner) -> float:
    """Return the radius of what the knot is tied on where that is no cord, in diameters."""
    return manner.reach if "mount" in knot(name).roles(manner) else manner.rod / 2.0


def _items(scene: Scene, radius: float) -> Iterator[Item]:
    """Yield a scene: what lies behind its rod, the rod, what lies before it, and the signs."""
    curves: list[SpaceCurve] = [strand.curve for strand in scene.strands]
    if scene.rod is not None:
        wide = max(abs(cubic[0]) for curve in curves for cubic in curve) + 1.5
        curves.append(line((-wide, scene.rod, 0.0), (wide, scene.rod, 0.0)))
    arcs = [arc for arc in weave(curves) if arc.strand < len(scene.strands)]
    behind = [arc for arc in arcs if scene.rod is not None and arc.height < 0.0]
    for arc in behind:
        yield from _part(arc, scene)
    if scene.rod is not None:
        yield from wooden(-wide, wide, scene.rod - radius, 2.0 * radius, 0.09)
    for arc in arcs:
        if arc not in behind:
            yield from _part(arc, scene)
    bars = [_bar(strand.curve) for strand in scene.strands if strand.held]
    if bars:
        yield Stroke(HELD_RIM, lines=bars)
        yield Stroke(HELD, lines=bars)
    yield from _arrows(scene)


def _part(arc: Arc, scene: Scene) -> Iterator[Item]:
    moving = scene.strands[arc.strand].end is not None
    return painted(arc.curve, moving, arc.start, (not arc.first, not arc.last))


def painted(
    curve: Curve, moving: bool, start: float = 0.0, joined: tuple[bool, bool] = (False, False)
) -> Iterator[Item]:
    """Yield a part of a cord, in diameters; a moving one in its own colours, with its line.

    `start` and `joined` are as `stroke.cord` has them.
    """
    yield from cord(curve, 1.0, MOVING if moving else STILL, start, True, joined)
    if moving:
        yield Stroke(LINE, (stretched(curve, OVERLAP * joined[0], OVERLAP * joined[1]),))


def _arrows(scene: Scene) -> Iterator[Item]:
    """Yield an arrow at every end that moves; one for those close together."""
    ends = [strand.end for strand in scene.strands if strand.end is not None]
    if scene.step.bight:
        yield head(ends[0][0], (0.0, 1.0))
        return
    yield from heads(ends)


def heads(ends: list[tuple[Point2, Point2]]) -> Iterator[Item]:
    """Yield an arrow for each end (point and direction), one for those close together."""
    left = list(ends)
    while left:
        (x, y), way = left.pop(0)
        near = [end for end in left if math.dist(end[0], (x, y)) < APART]
        left = [end for end in left if end not in near]
        places = [(x, y), *(point for point, _ in near)]
        middle = (sum(p[0] for p in places) / len(places), sum(p[1] for p in places) / len(places))
        yield head(middle, way)


def head(point: Point2, way: Point2) -> Fill:
    """Return the head of an arrow that begins at a point."""
    (x, y), (dx, dy) = point, way
    base, tip, half = HEAD
    corners = ((tip, 0.0), (base, half), (base, -half))
    flat = tuple(value for a, b in corners for value in (x + a * dx - b * dy, y + a * dy + b * dx))
    return Fill(Style("paper", RIM, "arrow"), polygons=(flat,))


def _bar(curve: SpaceCurve) -> Line:
    """Return a line across a cord near its end: it is held there."""
    (x0, y0, _), (x, y, _) = at(curve[-1], 0.0), at(curve[-1], 1.0)
    size = math.hypot(x - x0, y - y0) or 1.0
    dx, dy = (x - x0) / size, (y - y0) / size
    x, y = x - 0.8 * dx, y - 0.8 * dy
    return x - 0.62 * dy, y + 0.62 * dx, x + 0.62 * dy, y - 0.62 * dx
