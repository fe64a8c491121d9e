"""Outlines of ties, and how far below one shape another clears it.

A knot is a box from port to port, as wide as its cords; a hitch leans with its leader, its turns
wide in the middle and its leader at the ends. Two outlines may press into each other a little,
since cord gives; a knot, aside, by as much as a section may crowd without a word.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from knotplot.knots import form
from knotplot.knots.hitch import ACROSS, girth
from knotplot.tying.shape import Shape, ShapeTie

GIVE = 0.15  # diameters by which each of two ties that touch gives way (an assumption)
SQUEEZE = 0.05  # of a knot's width, to either side: as `materials.cautions.CROWDED` allows
TRIES = 6  # places tried between another shape's ties, until it goes below them all

BOX = 4  # corners

Point = tuple[float, float]


class Hull(NamedTuple):
    """A tie's outline (mm): convex corners in turn, whole and as far as it doesn't give way.

    `left`, `top`, `right` and `bottom` are of what doesn't give way.
    """

    left: float
    top: float
    right: float
    bottom: float
    whole: tuple[Point, ...]
    firm: tuple[Point, ...]


class Outline(NamedTuple):
    """The outlines of a shape's ties by their tops, the sides of all, and the tallest's height."""

    hulls: tuple[Hull, ...]
    tops: tuple[float, ...]
    left: float
    top: float
    right: float
    bottom: float
    tallest: float


@lru_cache(maxsize=1024)
def outline(shape: Shape, diameter: float) -> Outline:
    """Return the outline of a shape's ties in the shape's frame (kept: rows ask again)."""
    hulls = tuple(_stacked((_hull(tie, diameter) for tie in shape.ties), diameter))
    if not hulls:
        return Outline((), (), 0.0, math.inf, 0.0, -math.inf, 0.0)
    return Outline(
        hulls, tuple(hull.top for hull in hulls),
        min(hull.left for hull in hulls), hulls[0].top,
        max(hull.right for hull in hulls), max(hull.bottom for hull in hulls),
        max(hull.bottom - hull.top for hull in hulls),
    )  # fmt: skip


def _stacked(hulls: Iterable[Hull], diameter: float) -> list[Hull]:
    """Return outlines by their tops, boxes that stand close one on another as one."""
    found: list[Hull] = []
    last: dict[tuple[float, float], int] = {}  # of the boxes so wide, the lowest
    for hull in sorted(hulls, key=lambda each: each.top):
        key = (round(hull.left, 3), round(hull.right, 3))
        at = last.get(key)
        if len(hull.firm) == BOX and at is not None:
            upper = found[at]
            if hull.top <= upper.bottom + (2.0 * GIVE + 1e-6) * diameter:
                found[at] = _joined(upper, hull)
                continue
        if len(hull.firm) == BOX:
            last[key] = len(found)
        found.append(hull)
    return found


def _joined(upper: Hull, lower: Hull) -> Hull:
    """Return two boxes as one."""
    low = max(upper, lower, key=lambda each: each.bottom)
    return upper._replace(
        bottom=low.bottom,
        whole=(*low.whole[:2], *upper.whole[2:]), firm=(*low.firm[:2], *upper.firm[2:]),
    )  # fmt: skip


def _hull(tie: ShapeTie, diameter: float) -> Hull:
    manner, made = tie.manner, form(tie.knot, tie.manner)
    wide, tall, way = made.half_width, made.height / 2.0, (1.0, 0.0)
    ends = squeezed = 1.0
    if tie.carried is not None:  # a lark's head, a quarter turned
        wide, tall = tall, wide
    elif manner.leader is None:
        squeezed = 1.0 - SQUEEZE
    elif tie.knot.startswith("vertical_"):
        wide = ACROSS / 2.0
    else:
        wide, tall, ends = manner.reach, ACROSS * girth(manner.rod) * manner.tall / 2.0, 0.5
        way = (-manner.cos if manner.leader == 1 else manner.cos, manner.sin)
    whole = _corners(tie, wide * diameter, tall * diameter, way, ends)
    soft = min(wide * squeezed, wide - GIVE), max(tall - GIVE, 0.0)
    firm = _corners(tie, max(soft[0], 0.0) * diameter, soft[1] * diameter, way, ends)
    xs, ys = [x for x, _ in firm], [y for _, y in firm]
    return Hull(min(xs), min(ys), max(xs), max(ys), whole, firm)


def _corners(tie: ShapeTie, wide: float, tall: float, way: Point, ends: float) -> tuple[Point, ...]:
    """Return the corners of a tie so wide and tall to either side, the width along `way`.

    At its two ends it is `ends` times as tall, from halfway along.
    """
    (ux, uy), low = way, ends * tall
    near = wide if ends == 1.0 else wide / 2.0
    corners = [(near, tall), (-near, tall), (-wide, low), (-wide, -low),
               (-near, -tall), (near, -tall), (wide, -low), (wide, low)]  # fmt: skip
    if ends == 1.0:
        corners = corners[:2] + corners[4:6]
    return tuple((tie.x + a * ux - b * uy, tie.y + a * uy + b * ux) for a, b in corners)


@lru_cache(maxsize=8192)
def pushed(above: Shape, below: Shape, dx: float, dy: float, diameter: float) -> float:
    """Return how far (mm) a shape must go down to clear another, 0 where it does already.

    It hangs `dx` to the right and `dy` below the other.
    """
    one, other, down = outline(above, diameter), outline(below, diameter), dy
    for _ in range(TRIES):
        lowest = max(_clear_of(one, other, dx, down), default=down)
        if lowest <= down:
            return down - dy
        down = lowest
    return max(down, one.bottom - other.top) - dy


def _clear_of(one: Outline, other: Outline, dx: float, dy: float) -> Iterator[float]:
    """Yield how far below the first shape the other clears each pair of ties that lie on others."""
    for a, b in _touching(one, other, dx, dy):
        met = _between(a.firm, b.firm, dx)
        if met is not None and met[0] + 1e-6 < dy < met[1] - 1e-6:
            whole = _between(a.whole, b.whole, dx)
            yield max(met[1], whole[1] if whole else 0.0)


def aside(left: Shape, right: Shape, dx: float, diameter: float) -> float:
    """Return how far (mm) ties of two shapes at one height lie on each other sideways."""
    most = 0.0
    for a, b in _touching(outline(left, diameter), outline(right, diameter), dx, 0.0):
        met = _between(a.firm, b.firm, dx)
        if met is not None and met[0] + 1e-6 < 0.0 < met[1] - 1e-6:
            ends = max(x for x, _ in a.whole), dx + min(x for x, _ in b.whole)
            most = max(most, ends[0] - ends[1])
    return most


def _touching(one: Outline, other: Outline, dx: float, dy: float) -> Iterator[tuple[Hull, Hull]]:
    """Yield the pairs of ties whose bounds meet."""
    for b in other.hulls:
        top, bottom = b.top + dy, b.bottom + dy
        if top >= one.bottom:
            return
        if bottom <= one.top or dx + b.left >= one.right or dx + b.right <= one.left:
            continue
        for i in range(bisect_left(one.tops, top - one.tallest), len(one.hulls)):
            a = one.hulls[i]
            if a.top >= bottom:
                break
            if a.bottom > top and a.left < dx + b.right and dx + b.left < a.right:
                yield a, b


def _between(p: tuple[Point, ...], q: tuple[Point, ...], dx: float) -> tuple[float, float] | None:
    """Return between which drops the second of two convex outlines lies on the first.

    It is moved `dx` to the right; None where they never meet.
    """
    xs = [x for x, _ in p], [x + dx for x, _ in q]
    left, right = max(map(min, xs)), min(map(max, xs))
    if right - left < 1e-9:
        return None
    low, high = math.inf, -math.inf
    for x in {left, right, *(x for each in xs for x in each if left < x < right)}:
        top, bottom = _span(p, x)
        other_top, other_bottom = _span(q, x - dx)
        low, high = min(low, top - other_bottom), max(high, bottom - other_top)
    return low, high


def _span(hull: tuple[Point, ...], x: float) -> tuple[float, float]:
    """Return the top and bottom of a convex outline at `x`."""
    top, bottom = math.inf, -math.inf
    for i, (bx, by) in enumerate(hull):
        ax, ay = hull[i - 1]
        if min(ax, bx) - 1e-9 <= x <= max(ax, bx) + 1e-9:
            flat = abs(bx - ax) < 1e-9
            share = 0.0 if flat else min(max((x - ax) / (bx - ax), 0.0), 1.0)
            for y in (ay, by) if flat else (ay + share * (by - ay),):
                top, bottom = min(top, y), max(bottom, y)
    return top, bottom
