"""The free runs between the ties of one shape, kept clear of each other.

A run that hangs idle beside a tie bends round it like a taut string (GEOMETRY, rule 13); two runs
that would still cross where no strands cross are drawn straighter.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from knotplot.curves.bezier import length
from knotplot.geometry.runs import run
from knotplot.tying.ports import Port
from knotplot.tying.shape import Shape, ShapeTie

CLEAR = 1.0  # diameters between an idle strand and the outer port of the tie beside it
BESIDE = 0.7  # diameters between strands that pass a tie side by side
STRAIGHTER = (1.0, 0.4, 0.05)  # handles, in turn, until runs no longer cross
CHORDS = 16

Curve = tuple[float, ...]


class InnerRun(NamedTuple):
    """A strand's run inside a shape: a flat curve of one cubic or more (mm), and its length."""

    who: int
    curve: Curve
    length: float


class _Way(NamedTuple):
    """A run to be drawn: its ports, and places it must pass beside ties."""

    who: int
    a: Port
    b: Port
    posts: tuple[Port, ...]


@lru_cache(maxsize=512)
def inner_runs(shape: Shape, diameter: float) -> tuple[InnerRun, ...]:
    """Return the runs between the ties of a shape, each tie's in the order of its strands.

    Kept, since lengths, checks and every drawing of a shape ask for them.
    """
    ways = _ways(shape, diameter)
    strands = [way.who for way in ways]
    curves = [_curve(way, diameter, 1.0) for way in ways]
    for ease in STRAIGHTER[1:]:
        met = {i for pair in false_crossings(strands, curves) for i in pair}
        if not met:
            break
        curves = [
            _curve(way, diameter, ease) if i in met else curves[i] for i, way in enumerate(ways)
        ]
    return tuple(
        InnerRun(way.who, curve, _length(curve)) for way, curve in zip(ways, curves, strict=True)
    )


def false_crossings(strands: Sequence[int], curves: Sequence[Curve]) -> list[tuple[int, int]]:
    """Return the pairs of runs (by number) of two strands that cross; no free runs ever should.

    `strands` says whose each curve is.
    """
    lines = [_flat(curve) for curve in curves]
    boxes = [
        (min(x for x, _ in line), min(y for _, y in line),
         max(x for x, _ in line), max(y for _, y in line))
        for line in lines
    ]  # fmt: skip
    order = sorted(range(len(curves)), key=lambda i: boxes[i][1])
    found = []
    for at, i in enumerate(order):
        for j in order[at + 1 :]:
            if boxes[j][1] > boxes[i][3]:
                break
            if boxes[j][0] > boxes[i][2] or boxes[j][2] < boxes[i][0]:
                continue
            if strands[i] != strands[j] and _cross(lines[i], lines[j]):
                found.append((i, j))
    return found


def crossing_runs(shape: Shape, diameter: float) -> int:
    """Return how many pairs of runs still cross in the drawing of a shape."""
    runs = inner_runs(shape, diameter)
    return len(false_crossings([run.who for run in runs], [run.curve for run in runs]))


def _ways(shape: Shape, diameter: float) -> list[_Way]:
    left: dict[int, tuple[int, Port, int]] = {}  # strand -> (tie it left, port, lane)
    ways = []
    for at, tie in enumerate(shape.ties):
        for who, enter in zip(tie.who, tie.enter, strict=True):
            if who in left:
                since, port, hung = left[who]
                posts = _posts(shape.ties[since + 1 : at], hung, port, enter, diameter)
                ways.append(_Way(who, port, enter, posts))
        after = sorted(zip(tie.leave, tie.who, strict=True), key=lambda end: end[0].x)
        order = tie.who if len(set(tie.lanes)) < len(tie.lanes) else [who for _, who in after]
        ports = dict(zip(tie.who, tie.leave, strict=True))
        for lane, who in zip(tie.lanes, order, strict=True):
            left[who] = (at, ports[who], lane)
    return ways


def _posts(
    between: Sequence[ShapeTie], lane: int, a: Port, b: Port, diameter: float
) -> tuple[Port, ...]:
    """Return where a strand idle in `lane` must pass ties worked beside it meanwhile."""
    posts: list[tuple[float, Port]] = []
    for tie in between:
        low, high = min(tie.lanes), max(tie.lanes)
        if low <= lane <= high:
            continue
        ports = (*tie.enter, *tie.leave)
        outer = min(ports) if lane < low else max(ports)
        if min(outer.y - a.y, b.y - outer.y) < 0.5 * diameter:
            continue
        # Strands further out make room for those between.
        clear = (CLEAR + BESIDE * (max(low - lane, lane - high) - 1)) * diameter
        straight = a.x + (outer.y - a.y) / (b.y - a.y) * (b.x - a.x)
        x = min(straight, outer.x - clear) if lane < low else max(straight, outer.x + clear)
        if abs(x - straight) > 0.05 * diameter:
            posts.append((abs(x - straight), Port(x, outer.y, 0.0, 1.0, "knot")))
    posts.sort(key=lambda post: post[1].y)
    kept: list[tuple[float, Port]] = []
    for post in posts:
        if not kept or post[1].y - kept[-1][1].y > 1.5 * diameter:
            kept.append(post)
        elif post[0] > kept[-1][0]:  # of two close together, the one further out holds
            kept[-1] = post
    return tuple(post for _, post in kept)


def _curve(way: _Way, diameter: float, ease: float) -> Curve:
    """Return the run as cubics from port to post to port; it passes a post along the chords."""
    if not way.posts:
        return run(way.a, way.b, diameter, ease)
    stops = [way.a, *way.posts, way.b]
    for i in range(1, len(stops) - 1):
        dx, dy = stops[i + 1].x - stops[i - 1].x, stops[i + 1].y - stops[i - 1].y
        size = (dx * dx + dy * dy) ** 0.5
        stops[i] = stops[i]._replace(tx=dx / size, ty=dy / size)
    curve: list[float] = [way.a.x, way.a.y]
    for a, b in pairwise(stops):
        curve += run(a, b, diameter, ease)[2:]
    return tuple(curve)


def _length(curve: Curve) -> float:
    return sum(length(cubic) for cubic in cubics(curve))


def cubics(curve: Curve) -> list[tuple[float, float, float, float, float, float, float, float]]:
    """Return the cubics of a flat curve, eight numbers each."""
    return [
        (c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7])
        for c in (curve[i : i + 8] for i in range(0, len(curve) - 2, 6))
    ]


def _flat(curve: Curve) -> list[tuple[float, float]]:
    points = [(curve[0], curve[1])]
    for x0, y0, x1, y1, x2, y2, x3, y3 in cubics(curve):
        for i in range(1, CHORDS + 1):
            t = i / CHORDS
            s = 1.0 - t
            a, b, c, d = s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t
            points.append((a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3))
    return points


def _cross(p: Sequence[tuple[float, float]], q: Sequence[tuple[float, float]]) -> bool:
    for (ax, ay), (bx, by) in pairwise(p):
        for (cx, cy), (dx, dy) in pairwise(q):
            if max(ay, by) < min(cy, dy) or max(cy, dy) < min(ay, by):
                continue
            if max(ax, bx) < min(cx, dx) or max(cx, dx) < min(ax, bx):
                continue
            one = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
            two = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax)
            three = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx)
            four = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx)
            if one * two < -1e-9 and three * four < -1e-9:
                return True
    return False
