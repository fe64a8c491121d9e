"""Start shapes of what goes round something: hitches, mounts, wraps; and of knots in one strand."""

from __future__ import annotations

import numpy as np

from knotplot.cord_use.solver.flat import sennit
from knotplot.cord_use.solver.rope import Floats, Rod, Screw, Strand, System
from knotplot.cord_use.solver.shapes import berry
from knotplot.cord_use.solver.solve import Start
from knotplot.cord_use.solver.starts import (
    TAIL,
    cut_anew,
    extended,
    fillers,
    loosening,
    polyline,
    row,
    with_tails,
)
from knotplot.cord_use.solver.tighten import tighten
from knotplot.curves.space import DOWN, SpaceCurve, sample
from knotplot.knots import form, knot
from knotplot.knots.base import Manner

ALONG = (1.0, 0.0, 0.0)
LOOSE = 3.0  # times as long along a thick rod as drawn, to begin with
TURNS = {1: "half_hitch", 2: "double_half_hitch", 3: "triple_half_hitch"}


def hitch(
    turns: int, angle: float = 0.0, size: float = 1.0, beside: bool = False, free: bool = False,
    rows: bool = False, held: bool = False,
) -> Start:  # fmt: skip
    """Return a hitch on a leader through the middle, x along it at `angle` degrees below level.

    The knotting strand hangs: its ends are upright, and free to hang behind the leader, where its
    turns leave them; `held` in the leader's plane they lean, and take 1 to 6 % more. `beside`: a
    bar of them; `rows`: bars below bars, each strand going on from one to the next.
    """
    line = polyline(form(TURNS[turns], Manner(2, leader=0)).paths[1])
    wide = (size + 1.0) / 2.0
    line[:, 1:] *= wide
    if size > 1.0:  # loose along the rod: turns round a thick one need no more room about it
        line *= [LOOSE, 1.0, 1.0 / min(wide, 2.0)]
    scale = loosening([line])
    line = line * scale
    cos, sin = np.cos(np.radians(angle)), np.sin(np.radians(angle))
    axis = (float(cos), float(sin), 0.0)
    line = line @ np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]]).T
    half = float(np.abs(line[:, 1]).max()) + (0.3 if rows else TAIL)
    line = extended(line, -half, half)
    screw = None
    if rows or beside:
        screw = Screw(DOWN, 2.0 * half if rows else None, beside=axis, spacing=3.0 * scale)
    if rows:
        strand = Strand("knotting", line[:-1], then=0, stacked=True)
        rods = tuple(
            Rod((0.0, 0.0, 0.0), axis, size / 2.0, None if m else "spacing", m) for m in (-1, 0, 1)
        )
        return Start(System((strand,), rods, screw, reach=1), per_pitch=True)
    strands = [Strand("knotting", line, free_ends=(True, False, not held))]
    if free:
        reach = 6.0 * scale
        ends = np.array([[-reach, 0.0, 0.0], [reach, 0.0, 0.0]])
        strands.append(Strand("leader", ends, free_ends=(False, True, True)))
        return Start(System(tuple(strands)), 2.0 * half, straight_of={"leader": 2.0 * reach})
    rods = (Rod((0.0, 0.0, 0.0), axis, size / 2.0, "spacing" if beside else None),)
    return Start(System(tuple(strands), rods, screw), 2.0 * half)


def larks_head(knot: str, size: float) -> Start:
    """Return a folded cord on a rod along x; its two ends hang, free to move aside.

    The excess is of one strand over the straight way down from the rod's top.
    """
    shape = form(knot, Manner(2, reach=size / 2.0))
    left, right = (_sampled(path) for path in shape.paths)
    assert shape.rod is not None
    middle = shape.rod[0][1]
    line = np.vstack([left[::-1], right[1:]]) - np.array([0.0, middle, 0.0])
    line[:, 0] *= 2.0
    line *= max(loosening([line]), 1.6)
    bottom = float(line[:, 1].max()) + TAIL
    line = np.vstack([[line[0, 0], bottom, line[0, 2]], line, [line[-1, 0], bottom, line[-1, 2]]])
    strand = Strand("mount", line, free_ends=(True, False, True))
    rod = Rod((0.0, 0.0, 0.0), ALONG, size / 2.0)
    return Start(System((strand,), (rod,)), 2.0 * (bottom + size / 2.0), halves=True)


def _sampled(path: SpaceCurve) -> Floats:
    return np.array(sample(path, 16))


def coil(size: float) -> Start:
    """Return one turn of a cord coiled round a straight core."""
    angle = np.linspace(0.0, 2.0 * np.pi, 80, endpoint=False)
    far = size / 2.0 + 0.8
    points = np.column_stack(
        [far * np.cos(angle), 1.4 * angle / (2.0 * np.pi), far * np.sin(angle)]
    )
    strand = Strand("wrap", points, then=0, stacked=True)
    core = Rod((0.0, 0.0, 0.0), DOWN, size / 2.0)
    return Start(System((strand,), (core,), Screw(DOWN, 1.4)))


def _larks_head_beside() -> Floats:
    """Return the working strand of a vertical lark's head about a leader along y, loose."""
    leader, worker = form("vertical_larks_head", Manner(2, "right")).paths
    line = polyline(worker) - np.array([leader[0][0], 0.0, 0.0])
    loose: Floats = line * loosening([line])
    return loose


def chain() -> Start:
    """Return one period of vertical lark's heads on a leader along y."""
    line = _larks_head_beside()
    height = float(line[-1, 1] - line[0, 1])
    strand = Strand("working", line[:-1], then=0, stacked=True)
    return Start(
        System((strand,), fillers([(0.0, 0.0)], "pitch"), Screw(DOWN, height)), per_pitch=True
    )


def capsized() -> Start:
    """Return a lark's head of one strand about another that is pulled straight."""
    (line,), half = with_tails([_larks_head_beside()])
    ends = np.array([[0.0, -half, 0.0], [0.0, half, 0.0]])
    return Start(System((Strand("working", line), Strand("straight", ends))), 2.0 * half)


def crowns(manners: tuple[Manner, ...]) -> Start:
    """Return one period of crown knots one below another: its strands go on from loop to loop.

    Between knots they don't come back to a row, as in a drawing of one.
    """
    lines: list[list[Floats]] = [[] for _ in range(4)]
    lane, low = list(range(4)), 0.0
    for manner in manners:
        paths, order = form("crown_knot", manner).paths, knot("crown_knot").order(manner)
        for line, at in zip(lines, lane, strict=True):
            line.append(_sampled(paths[at][1:-1]) * [1.0, 3.0, 1.0] + [0.0, low, 0.0])
        lane = [order.index(at) for at in lane]
        low += 3.6
    own = [np.vstack(line) for line in lines]
    scale = loosening([np.vstack([own[i], own[lane[i]] + [0.0, low, 0.0]]) for i in range(4)])
    strands = tuple(
        Strand("working", line * scale, then=lane[i], stacked=True) for i, line in enumerate(own)
    )
    turns = manners[0] == manners[-1]  # of one hand, they turn the strands that way too
    return Start(System(strands, (), Screw(DOWN, low * scale, 0.0, turns)), per_pitch=True)


def berry_tight(knots: int) -> Start:
    """Return a berry of so many square knots between straight ends.

    It is put together from a tight sennit; only its fillers are loose.
    """
    start = sennit("square_knot", Manner(4, "left"), tuple(row(2)))
    tight = tighten(
        cut_anew(start.system, 0.25), mu=20.0, rounds=120, steps=100, tolerance=1e-5, overlap=2e-3
    )
    assert tight.system.screw is not None
    assert tight.system.screw.pitch is not None
    pitch = tight.system.screw.pitch
    first, second = (strand.points for strand in tight.system.strands)
    middle = np.array([0.0, 0.5 * (first[0, 1] + first[-1, 1]), 0.0])
    working, turned = berry((first - middle, second - middle), pitch, knots)
    lines, half = with_tails([*working, *turned])
    strands = tuple(
        Strand(role, line, free_ends=(True, False, role == "filler"))
        for role, line in zip(("working", "working", "filler", "filler"), lines, strict=True)
    )
    return Start(System(strands), 2.0 * half)
