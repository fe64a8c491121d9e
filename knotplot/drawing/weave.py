"""Over and under, found from the curves: which part of a strand lies on which.

Strands are split midway between crossings where they change from over to under, and the parts are
put in the order in which to paint them, so that what lies on top is painted last.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from knotplot.curves.bezier import curve_length
from knotplot.curves.space import SpaceCurve, at, split

STEPS = 8  # chords a cubic when crossings are looked for
SLACK = 1e-6  # of a chord: a crossing at a joint must not slip between two chords
NEAR = 1e-3  # cubics: crossings of two strands nearer than this are one


class Crossing(NamedTuple):
    """Where one strand lies over another: their numbers, and how far along each (in cubics)."""

    over: int
    over_at: float
    under: int
    under_at: float


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a strand that is nowhere both over and under: painted in one go.

    `curve` is flat (x0, y0, then six numbers a cubic), in the unit of the strands; `height` its
    mean z; `start` how far along its strand it begins, as seen from the front; `first` and `last`
    tell whether it holds the strand's start and end.
    """

    strand: int
    curve: tuple[float, ...]
    height: float
    start: float
    first: bool
    last: bool


class _Chord(NamedTuple):
    strand: int
    start: float
    x0: float
    y0: float
    x1: float
    y1: float
    z0: float
    z1: float


def weave(strands: Sequence[SpaceCurve]) -> tuple[Arc, ...]:
    """Return the arcs of all strands in the order in which to paint them."""
    found = crossings(strands)
    spans: list[tuple[int, float, float]] = []
    owner: dict[tuple[int, float], int] = {}
    for strand, curve in enumerate(strands):
        events = sorted(
            [(c.over_at, True) for c in found if c.over == strand]
            + [(c.under_at, False) for c in found if c.under == strand]
        )
        cuts = [0.0]
        cuts += [
            (a + b) / 2.0 for (a, up), (b, down) in pairwise(events) if up != down and b - a > NEAR
        ]
        cuts.append(float(len(curve)))
        for low, high in pairwise(cuts):
            for where, _ in events:
                if low <= where <= high:
                    owner[strand, where] = len(spans)
            spans.append((strand, low, high))
    above: dict[int, set[int]] = {i: set() for i in range(len(spans))}
    for c in found:
        above[owner[c.under, c.under_at]].add(owner[c.over, c.over_at])
    arcs: list[Arc] = []
    for strand, low, high in spans:
        before = arcs[-1] if arcs and low > 0.0 else None
        start = 0.0 if before is None else before.start + curve_length(before.curve)
        arcs.append(_arc(strands[strand], (strand, low, high), start))
    return tuple(arcs[i] for i in _painted(arcs, above))


def crossings(strands: Sequence[SpaceCurve]) -> tuple[Crossing, ...]:
    """Return every place where two strands, or two parts of one, cross as seen from the front."""
    chords = [chord for i, strand in enumerate(strands) for chord in _chords(i, strand)]
    chords.sort(key=lambda chord: min(chord.x0, chord.x1))
    found = []
    for i, a in enumerate(chords):
        right = max(a.x0, a.x1)
        low, high = min(a.y0, a.y1), max(a.y0, a.y1)
        for b in chords[i + 1 :]:
            if min(b.x0, b.x1) > right:
                break
            if max(b.y0, b.y1) < low or min(b.y0, b.y1) > high:
                continue
            if a.strand == b.strand and abs(a.start - b.start) < 1.5 / STEPS:
                continue
            met = _meet(a, b)
            if met:
                found.append(met)
    return _once(found)


def _once(found: Sequence[Crossing]) -> tuple[Crossing, ...]:
    """Return the crossings, each once: one at a joint of two chords is met from both."""
    kept: list[Crossing] = []
    for c in sorted(found):
        if not any(
            (c.over, c.under) == (k.over, k.under)
            and abs(c.over_at - k.over_at) < NEAR
            and abs(c.under_at - k.under_at) < NEAR
            for k in kept[-4:]
        ):
            kept.append(c)
    return tuple(kept)


def _chords(number: int, curve: SpaceCurve) -> list[_Chord]:
    chords = []
    for k, cubic in enumerate(curve):
        points = [at(cubic, i / STEPS) for i in range(STEPS + 1)]
        for i, (p, q) in enumerate(pairwise(points)):
            chords.append(_Chord(number, k + i / STEPS, p[0], p[1], q[0], q[1], p[2], q[2]))
    return chords


def _meet(a: _Chord, b: _Chord) -> Crossing | None:
    ax, ay, bx, by = a.x1 - a.x0, a.y1 - a.y0, b.x1 - b.x0, b.y1 - b.y0
    turn = ax * by - ay * bx
    if abs(turn) < 1e-12:
        return None
    cx, cy = b.x0 - a.x0, b.y0 - a.y0
    s, t = (cx * by - cy * bx) / turn, (cx * ay - cy * ax) / turn
    if not (-SLACK <= s <= 1.0 + SLACK and -SLACK <= t <= 1.0 + SLACK):
        return None
    za, zb = a.z0 + s * (a.z1 - a.z0), b.z0 + t * (b.z1 - b.z0)
    at_a, at_b = a.start + s / STEPS, b.start + t / STEPS
    if za >= zb:
        return Crossing(a.strand, at_a, b.strand, at_b)
    return Crossing(b.strand, at_b, a.strand, at_a)


def _arc(curve: SpaceCurve, span: tuple[int, float, float], start: float) -> Arc:
    strand, low, high = span
    flat: list[float] = []
    heights = []
    for k in range(int(low), math.ceil(high)):
        t0, t1 = max(0.0, low - k), min(1.0, high - k)
        if t1 - t0 < 1e-9:
            continue
        part = split(curve[k], t0, t1)
        if not flat:
            flat += part[:2]
        flat += (part[3], part[4], part[6], part[7], part[9], part[10])
        heights.append(part[2] + part[5] + part[8] + part[11])
    height = sum(heights) / (4.0 * len(heights))
    return Arc(strand, tuple(flat), height, start, low == 0.0, high == float(len(curve)))


def _painted(arcs: Sequence[Arc], above: dict[int, set[int]]) -> list[int]:
    """Return an order in which each arc comes after those it lies on; lower ones first."""
    waiting = dict.fromkeys(range(len(arcs)), 0)
    for upper in above.values():
        for i in upper:
            waiting[i] += 1
    ready = [(arcs[i].height, i) for i, n in waiting.items() if n == 0]
    heapq.heapify(ready)
    order = []
    while ready:
        _, i = heapq.heappop(ready)
        order.append(i)
        for j in sorted(above[i]):
            waiting[j] -= 1
            if waiting[j] == 0:
                heapq.heappush(ready, (arcs[j].height, j))
    return order
