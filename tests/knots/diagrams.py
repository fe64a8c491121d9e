"""From curves in space to planar diagrams.

Loops are closed polylines (x right, y down, z towards the viewer, as in `knotplot.knots`). They
are seen from a generic direction, their crossings found with heights, and written as a planar
diagram ("PD code") for spherogram. A right-handed trefoil has positive crossings.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from knotplot.curves.space import Point3

Loop = list[Point3]
Code = tuple[tuple[int, int, int, int], ...]

# Tilts (about the vertical, about the horizontal, then in the plane of sight; radians) that are
# tried one after another; small, so that a diagram keeps the few crossings its maker sees.
TILTS = ((0.031, 0.023, 0.2), (-0.047, 0.037, 0.3), (0.019, -0.053, 0.7), (-0.083, -0.061, 1.1))
MIN_SINE = 1e-3  # of the angle between two strands that cross: else nearly a tangency
MIN_APART = 1e-5  # between two crossings: else nearly a triple point
MIN_HEIGHT = 1e-2  # between over and under, in cord diameters: else strands run into each other


class NotGenericError(Exception):
    """Seen from this direction, a tangency or a triple point makes the diagram doubtful."""


class Diagram(NamedTuple):
    """A planar diagram: its code, how many loops it has, and their linking numbers.

    `free` counts loops that cross nothing: no code tells of them.
    """

    code: Code
    loops: int
    linking: tuple[tuple[int, ...], ...]
    free: int


def diagrams(loops: Sequence[Loop]) -> tuple[Diagram, Diagram]:
    """Return the diagrams seen from the first two of `TILTS` that are generic."""
    seen, faults = [], []
    clean = [_distinct(loop) for loop in loops]
    for tilt in TILTS:
        try:
            seen.append(diagram([_tilted(loop, *tilt) for loop in clean]))
        except NotGenericError as fault:
            faults.append(str(fault))
            continue
        if len(seen) == 2:
            return seen[0], seen[1]
    raise NotGenericError("; ".join(faults))


def _distinct(loop: Loop) -> Loop:
    """Return the loop without points that are the same as the one before."""
    return [q for p, q in pairwise([loop[-1], *loop]) if math.dist(p, q) > 1e-9]


def _tilted(loop: Loop, about_y: float, about_x: float, plane: float) -> Loop:
    """Return the loop turned, with y upwards: knots' axes (y down) are a left-handed system."""
    cy, sy, cx, sx = math.cos(about_y), math.sin(about_y), math.cos(about_x), math.sin(about_x)
    cp, sp = math.cos(plane), math.sin(plane)
    turned = []
    for x, y_down, z in loop:
        y = -y_down
        x, z = cy * x + sy * z, cy * z - sy * x
        y, z = cx * y - sx * z, cx * z + sx * y
        turned.append((cp * x - sp * y, sp * x + cp * y, z))
    return turned


class _Chord(NamedTuple):
    left: float
    right: float
    low: float
    high: float
    loop: int
    number: int
    start: Point3
    end: Point3


class _Crossing(NamedTuple):
    over: tuple[int, float]  # loop, and how far along it in chords
    under: tuple[int, float]
    sign: int
    x: float
    y: float


def _chords(loops: Sequence[Loop]) -> list[_Chord]:
    chords = [
        _chord(p, q, i, k)
        for i, loop in enumerate(loops)
        for k, (p, q) in enumerate(pairwise([*loop, loop[0]]))
    ]
    return sorted(chords)


def _chord(p: Point3, q: Point3, loop: int, number: int) -> _Chord:
    left, right = min(p[0], q[0]), max(p[0], q[0])
    low, high = min(p[1], q[1]), max(p[1], q[1])
    return _Chord(left, right, low, high, loop, number, p, q)


def _crossings(loops: Sequence[Loop]) -> list[_Crossing]:
    """Return every crossing as seen along z; raise `NotGenericError` where one is doubtful."""
    found: list[_Crossing] = []
    active: list[_Chord] = []
    for b in _chords(loops):
        active = [a for a in active if a.right >= b.left]
        for a in active:
            if a.high < b.low or a.low > b.high:
                continue
            if a.loop == b.loop and abs(a.number - b.number) in (0, 1, len(loops[a.loop]) - 1):
                continue
            met = _met(a, b)
            if met:
                found.append(met)
        active.append(b)
    spots = sorted((c.x, c.y) for c in found)
    for i, (x, y) in enumerate(spots):
        for x2, y2 in spots[i + 1 :]:
            if x2 - x > MIN_APART:
                break
            if abs(y2 - y) < MIN_APART:
                raise NotGenericError("three strands cross in one point")
    return found


def _met(a: _Chord, b: _Chord) -> _Crossing | None:
    (ax, ay, az), (bx, by, bz) = a.start, b.start
    ux, uy, uz = a.end[0] - ax, a.end[1] - ay, a.end[2] - az
    vx, vy, vz = b.end[0] - bx, b.end[1] - by, b.end[2] - bz
    turn = ux * vy - uy * vx
    size = math.hypot(ux, uy) * math.hypot(vx, vy)
    if abs(turn) < 1e-12 * size:
        return None
    s = ((bx - ax) * vy - (by - ay) * vx) / turn
    t = ((bx - ax) * uy - (by - ay) * ux) / turn
    edge = 1e-9
    if not (-edge < s < 1.0 + edge and -edge < t < 1.0 + edge):
        return None
    if not (edge < s < 1.0 - edge and edge < t < 1.0 - edge):
        raise NotGenericError("a crossing at the joint of two chords")
    if abs(turn) < MIN_SINE * size:
        raise NotGenericError("nearly a tangency")
    above = (az + s * uz) - (bz + t * vz)
    if abs(above) < MIN_HEIGHT:
        raise NotGenericError(f"strands {a.loop} and {b.loop} run into each other")
    one, two = (a.loop, a.number + s), (b.loop, b.number + t)
    x, y = ax + s * ux, ay + s * uy
    sign = 1 if (turn > 0.0) == (above > 0.0) else -1  # over x under, seen with y upwards
    return _Crossing(one, two, sign, x, y) if above > 0.0 else _Crossing(two, one, sign, x, y)


def diagram(loops: Sequence[Loop]) -> Diagram:
    """Return the diagram of closed polylines (y upwards here) as seen along z."""
    found = _crossings(loops)
    passes = sorted([c.over for c in found] + [c.under for c in found])
    arcs: dict[tuple[int, float], tuple[int, int]] = {}  # a pass: the arcs before and after it
    for loop in range(len(loops)):
        mine = [p for p in passes if p[0] == loop]
        first = len(arcs)
        for k, p in enumerate(mine):
            arcs[p] = (first + k, first + (k + 1) % len(mine))
    code = []
    link = [[0] * len(loops) for _ in loops]
    for c in found:
        (under_in, under_out), (over_in, over_out) = arcs[c.under], arcs[c.over]
        # Counter-clockwise from where the lower strand comes in (spherogram, KnotTheory's X).
        sides = (over_out, over_in) if c.sign > 0 else (over_in, over_out)
        code.append((under_in, sides[0], under_out, sides[1]))
        i, j = c.over[0], c.under[0]
        if i != j:
            link[i][j] += c.sign
            link[j][i] += c.sign
    assert all(value % 2 == 0 for row in link for value in row)
    linking = tuple(tuple(value // 2 for value in row) for row in link)
    free = len(loops) - len({loop for loop, _ in passes})
    return Diagram(tuple(code), len(loops), linking, free)


def passes(one: Loop, two: Loop) -> tuple[bool, ...]:
    """Return whether an open `one` lies over `two`, where they cross as seen from the front.

    The front is tilted a little: strands may lie exactly one before another.
    """
    tilted = [_tilted(line, *TILTS[0]) for line in (one, two)]
    found = [_met(a, b) for a in _open(tilted[0], 0) for b in _open(tilted[1], 1)]
    return tuple(crossing.over[0] == 0 for crossing in found if crossing)


def _open(line: Loop, number: int) -> list[_Chord]:
    return [_chord(p, q, number, k) for k, (p, q) in enumerate(pairwise(line))]
