"""Ways to join a knot's loose ends outside it, so that it becomes closed loops."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from diagrams import Loop

from knotplot.curves.space import SpaceCurve, sample

STEPS = 10  # chords a cubic


def polyline(curve: SpaceCurve) -> Loop:
    """Return points along a curve."""
    return sample(curve, STEPS)


def backwards(curve: SpaceCurve) -> SpaceCurve:
    """Return a curve run from its end to its start."""
    return tuple(
        tuple(value for k in (9, 6, 3, 0) for value in cubic[k : k + 3])
        for cubic in reversed(curve)
    )


def by_lanes(paths: Sequence[SpaceCurve], order: Sequence[int], room: float = 2.0) -> list[Loop]:
    """Return the loops of vertical strands: who leaves in a lane is joined to who entered in it.

    `order` lists who leaves in each lane. The joins run nested round the right side, `room` away.
    """
    lines = [polyline(path) for path in paths]
    right = max(p[0] for line in lines for p in line) + room
    top = min(p[1] for line in lines for p in line) - room
    low = max(p[1] for line in lines for p in line) + room
    lanes = len(lines)
    after = {who: lane for lane, who in enumerate(order)}
    loops, seen = [], set()
    for start in range(lanes):
        loop: Loop = []
        strand = start
        while strand not in seen:
            seen.add(strand)
            lane = after[strand]
            out = float(lanes - lane)
            (x, _, _), (back, _, _) = lines[strand][-1], lines[lane][0]
            loop += lines[strand]
            loop += [(x, low + out, 0.0), (right + out, low + out, 0.0)]
            loop += [(right + out, top - out, 0.0), (back, top - out, 0.0)]
            strand = lane
        if loop:
            loops.append(loop)
    return loops


class Join(NamedTuple):
    """Two ends joined round the outside: (strand, 0 for its start or 1 for its end) each.

    Run from `a` clockwise as seen, or not; at `depth` towards the viewer, where it passes ends
    that are joined further out (those listed later).
    """

    a: tuple[int, int]
    b: tuple[int, int]
    clockwise: bool = True
    depth: float = 0.0


def ringed(paths: Sequence[SpaceCurve], joins: Sequence[Join]) -> list[Loop]:
    """Return the loops of strands whose ends, drawn out straight, are joined on rings outside."""
    lines = [polyline(path) for path in paths]
    reach = max(math.hypot(p[0], p[1]) for line in lines for p in line) + 2.0
    route: dict[tuple[int, int], tuple[tuple[int, int], Loop]] = {}
    for k, join in enumerate(joins):
        arc = _arc(lines, join, reach + 2.0 * k)
        route[join.a] = (join.b, arc)
        route[join.b] = (join.a, arc[::-1])
    loops, seen = [], set()
    for start in range(len(lines)):
        loop: Loop = []
        end = (start, 1)
        while end[0] not in seen:
            seen.add(end[0])
            loop += lines[end[0]] if end[1] else lines[end[0]][::-1]
            (strand, side), arc = route[end]
            loop += arc
            end = (strand, 1 - side)
        if loop:
            loops.append(loop)
    return loops


def _arc(lines: Sequence[Loop], join: Join, radius: float) -> Loop:
    """Return the way from end to end: out along the strand to the ring, round, and in again."""
    angles, feet = [], []
    for strand, side in (join.a, join.b):
        line = lines[strand]
        (x, y, _), (bx, by, _) = (line[-1], line[-2]) if side else (line[0], line[1])
        dx, dy = x - bx, y - by
        size = math.hypot(dx, dy)
        dx, dy = dx / size, dy / size
        along = x * dx + y * dy
        far = math.sqrt(along**2 + radius**2 - x * x - y * y) - along
        foot = (x + far * dx, y + far * dy)
        feet.append(foot)
        angles.append(math.atan2(foot[1], foot[0]))  # y down: grows clockwise as seen
    one, two = angles
    turn = (two - one) % math.tau if join.clockwise else -((one - two) % math.tau)
    round_: Loop = [
        (
            radius * math.cos(one + turn * i / 24.0),
            radius * math.sin(one + turn * i / 24.0),
            join.depth,
        )
        for i in range(25)
    ]
    return [(*feet[0], 0.0), *round_, (*feet[1], 0.0)]
