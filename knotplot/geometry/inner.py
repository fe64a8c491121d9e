"""The free runs between the ties of one shape, kept clear of each other.

A run that hangs idle beside a tie bends round it like a taut string (GEOMETRY, rule 13); two runs
that would still cross where no strands cross are drawn straighter. A picot's loop crosses nothing:
it stands out over its neighbours and comes back.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate, pairwise
from typing import NamedTuple

from knotplot.curves.bezier import cubics, curve_length
from knotplot.geometry.runs import run, shown
from knotplot.tying.ports import Port
from knotplot.tying.shape import Shape, ShapeTie, passed, tie_ends

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
    """Return the runs between the ties of a shape, tie by tie as `passed`, in order of strands.

    Kept, since lengths and every drawing of a shape ask for them.
    """
    ways, curves, _ = _plain(shape, diameter)
    return tuple(
        InnerRun(
            way.who, shown(way.a, way.b, diameter) if way.b.loop else curve,
            curve_length(curve) + abs(way.b.loop),
        )
        for way, curve in zip(ways, curves, strict=True)
    )  # fmt: skip


@lru_cache(maxsize=512)
def _plain(shape: Shape, diameter: float) -> tuple[list[_Way], list[Curve], int]:
    """Return the runs, their curves without loops, and how many pairs of them still cross."""
    ways = _ways(shape, diameter)
    strands = [way.who for way in ways]
    curves = [_curve(way, diameter, STRAIGHTER[0]) for way in ways]
    crossings = false_crossings(strands, curves)
    for ease in STRAIGHTER[1:]:
        if not crossings:
            break
        for i in {i for pair in crossings for i in pair}:
            curves[i] = _curve(ways[i], diameter, ease)
        crossings = false_crossings(strands, curves)
    return ways, curves, len(crossings)


def false_crossings(strands: Sequence[int], curves: Sequence[Curve]) -> list[tuple[int, int]]:
    """Return the pairs of runs (by number) of two strands that cross; no free runs ever should.

    `strands` says whose each curve is.
    """
    lines = [_line(curve) for curve in curves]
    order = sorted(range(len(curves)), key=lambda i: lines[i].top)
    found = []
    for at, i in enumerate(order):
        for j in order[at + 1 :]:
            if lines[j].top > lines[i].bottom:
                break
            if lines[j].left > lines[i].right or lines[j].right < lines[i].left:
                continue
            if strands[i] != strands[j] and _cross(lines[i], lines[j]):
                found.append((i, j))
    return found


def crossing_runs(shape: Shape, diameter: float) -> int:
    """Return how many pairs of runs still cross in the drawing of a shape."""
    return _plain(shape, diameter)[2]


def _ways(shape: Shape, diameter: float) -> list[_Way]:
    left: dict[int, _Hung] = {}
    lanes = _Lanes(shape)
    ways = []
    for at, tie in passed(shape.ties):
        for who, enter, _ in tie_ends(tie):
            if who in left:
                hung = left[who]
                ways.append(_Way(who, hung.port, enter, _posts(shape, hung, at, enter, diameter)))
        if tie.carried is not None and tie.leader is not None:
            left[tie.leader] = _Hung(tie.leader, at, tie.carried[1], lanes)
            left |= {
                who: _Hung(who, at, port, lanes)
                for who, port in zip(tie.who, tie.leave, strict=True)
            }
            continue
        after = sorted(zip(tie.leave, tie.who, strict=True), key=lambda end: end[0].x)
        order = tie.who if len(set(tie.lanes)) < len(tie.lanes) else [who for _, who in after]
        ports = dict(zip(tie.who, tie.leave, strict=True))
        for lane, who in zip(tie.lanes, order, strict=True):
            left[who] = _Hung(who, at, ports[who], lanes, lane)
    return ways


class _Lanes:
    """In which lane a strand hangs once strands were added to a shape or ended."""

    def __init__(self, shape: Shape) -> None:
        self._at = [change.at for change in shape.changes]
        self._lane_of = [
            {who: lane for lane, who in enumerate(change.hanging)} for change in shape.changes
        ]

    def of(self, who: int, since: int, tie: int, lane: int | None) -> int | None:
        """Return the lane of a strand at a tie (by number) that left tie `since` in `lane`."""
        last = bisect_right(self._at, tie) - 1
        return self._lane_of[last].get(who) if last >= 0 and self._at[last] > since else lane


class _Hung(NamedTuple):
    """A strand that left a tie (by number) through a port; its lane, if it is known then."""

    who: int
    since: int
    port: Port
    lanes: _Lanes
    lane: int | None = None


def _posts(shape: Shape, hung: _Hung, at: int, b: Port, diameter: float) -> tuple[Port, ...]:
    """Return where a strand that hangs idle must pass ties worked beside it meanwhile."""
    a = hung.port
    posts: list[tuple[float, Port]] = []

    def pass_by(x: float, y: float, sign: float) -> None:
        """Note a place the strand must pass on its right (1) or left (-1), if it doesn't yet."""
        if min(y - a.y, b.y - y) < 0.5 * diameter:
            return
        straight = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x)
        x = sign * max(sign * straight, sign * x)
        if abs(x - straight) > 0.05 * diameter:
            posts.append((abs(x - straight), Port(x, y, 0.0, 1.0, "knot")))

    for number in range(hung.since + 1, at):
        tie = shape.ties[number]
        low, high = min(tie.lanes), max(tie.lanes)
        lane = hung.lanes.of(hung.who, hung.since, number, hung.lane)
        if lane is None or low <= lane <= high:
            continue
        ports = (*tie.enter, *tie.leave)
        sign = -1.0 if lane < low else 1.0
        # The outermost port, the upper of two: the same on either side of a knot.
        outer = min(ports, key=lambda port: (-sign * round(port.x, 6), port.y))
        # Strands further out make room for those between.
        between = max(low - lane, lane - high) - 1
        if tie.carried is not None and sign == tie.turn:
            between += 2 * len(_added_with(shape, tie, above=True)) + 1
        pass_by(outer.x + sign * (CLEAR + BESIDE * between) * diameter, outer.y, sign)
    mine = shape.ties[hung.since]
    if mine.carried is not None and hung.who != mine.leader:
        near, far = mine.leave[:: mine.turn]
        outer_one = int(hung.port == far)
        if outer_one:
            pass_by(near.x + mine.turn * BESIDE * diameter, near.y, mine.turn)
        for i, tie in enumerate(_added_with(shape, mine, above=False)):
            clear = (BESIDE * (2 * i + outer_one) + CLEAR) * diameter
            pass_by(tie.leave[0].x + mine.turn * clear, tie.y, mine.turn)
    posts.sort(key=lambda post: post[1].y)
    kept: list[tuple[float, Port]] = []
    for post in posts:
        if not kept or post[1].y - kept[-1][1].y > 1.5 * diameter:
            kept.append(post)
        elif post[0] > kept[-1][0]:  # of two close together, the one further out holds
            kept[-1] = post
    return tuple(post for _, post in kept)


def _added_with(shape: Shape, tie: ShapeTie, above: bool) -> list[ShapeTie]:
    """Return the cords added with another in one step, above it or below, the nearest first."""
    found = [
        each
        for each in shape.ties
        if each.carried is not None
        and (each.step, each.leader) == (tie.step, tie.leader)
        and (each.y < tie.y if above else each.y > tie.y)
    ]
    return sorted(found, key=lambda each: abs(each.y - tie.y))


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


class _Line(NamedTuple):
    """A curve as chords, with its box and two lists to find the chords at a height.

    `above[i]` is the lowest y that the chords up to number i reach, `below[i]` the highest that
    those from i on reach (y grows downwards). Neither list ever falls, whichever way a curve turns.
    """

    chords: list[tuple[tuple[float, float], tuple[float, float]]]
    above: list[float]
    below: list[float]
    left: float
    top: float
    right: float
    bottom: float


def _line(curve: Curve) -> _Line:
    points = _flat(curve)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    above = list(accumulate(map(max, pairwise(ys)), max))
    below = list(accumulate(map(min, pairwise(reversed(ys))), min))[::-1]
    chords = list(pairwise(points))
    return _Line(chords, above, below, min(xs), min(ys), max(xs), max(ys))


def _flat(curve: Curve) -> list[tuple[float, float]]:
    points = [(curve[0], curve[1])]
    for x0, y0, x1, y1, x2, y2, x3, y3 in cubics(curve):
        for i in range(1, CHORDS + 1):
            t = i / CHORDS
            s = 1.0 - t
            a, b, c, d = s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t
            points.append((a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3))
    return points


def _cross(p: _Line, q: _Line) -> bool:
    for (ax, ay), (bx, by) in p.chords:
        first = bisect_left(q.above, min(ay, by))
        for (cx, cy), (dx, dy) in q.chords[first : bisect_right(q.below, max(ay, by))]:
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
