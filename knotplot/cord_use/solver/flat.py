"""Start shapes of square and half knots: one alone, and stacks of them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from knotplot.cord_use.solver.rope import Floats, Screw, Strand, System
from knotplot.cord_use.solver.solve import Start
from knotplot.cord_use.solver.starts import (
    cut_anew,
    extended,
    fillers,
    loosening,
    polyline,
    with_tails,
)
from knotplot.cord_use.solver.tighten import tighten
from knotplot.curves.space import DOWN
from knotplot.knots import form
from knotplot.knots.base import Manner

_SLACK = 0.3  # straight cord left between half knots to begin with, in diameters
Places = tuple[tuple[float, float], ...]


def flat(knot: str, manner: Manner, places: Places, free: bool = False) -> Start:
    """Return one knot between straight ends; fillers are rods, or strands where `free`."""
    lines, half = with_tails(_working(knot, manner)[0])
    strands = [Strand("working", line) for line in lines]
    if free:
        for x, z in places:
            ends = np.array([[x, -half, z], [x, half, z]])
            strands.append(Strand("filler", ends, free_ends=(True, False, True)))
    rods = () if free else fillers(places)
    return Start(System(tuple(strands), rods), 2.0 * half)


def _working(knot: str, manner: Manner) -> tuple[list[Floats], float]:
    """Return the working strands, loose, and the knot's height then."""
    shape = form(knot, manner)
    lines = [polyline(shape.paths[i]) for i in (0, -1)]
    scale = loosening(lines)
    return [line * scale for line in lines], shape.height * scale


def sennit(knot: str, manner: Manner, places: Places) -> Start:
    """Return one period of a stack of knots tied well apart; pulling pushes them together.

    A knot is pulled tight alone first; of that the period is cut, where its strands hang straight.
    """
    alone = tighten(
        cut_anew(flat(knot, manner, places).system, 0.25), mu=20.0, rounds=60, steps=100,
        tolerance=1e-4, overlap=5e-3,
    )  # fmt: skip
    lines = _closed_up([strand.points for strand in alone.system.strands])
    half = max(float(np.abs(line[1:-1][_off_plumb(line)][:, 1]).max()) for line in lines) + 0.2
    strands = [
        Strand("working", _between(line, half)[:-1], then=k, stacked=True)
        for k, line in enumerate(lines)
    ]
    screw = Screw(DOWN, 2.0 * half)
    return Start(System(tuple(strands), fillers(places, "pitch"), screw), per_pitch=True)


def _closed_up(lines: list[Floats]) -> list[Floats]:
    """Return the lines with the levels drawn together at which all of them hang straight.

    Half knots slide along taut fillers at no cost, so that a knot pulled alone may lie apart.
    """
    bent = np.sort(np.concatenate([line[1:-1][_off_plumb(line)][:, 1] for line in lines]))
    gaps = np.maximum(np.diff(bent) - _SLACK, 0.0)
    levels = np.concatenate([[bent[0]], bent[0] + np.cumsum(np.diff(bent) - gaps)])
    levels -= 0.5 * (levels[0] + levels[-1])
    made = []
    for line in lines:
        moved = line.copy()
        moved[:, 1] = np.interp(line[:, 1], bent, levels)
        above, below = line[:, 1] < bent[0], line[:, 1] > bent[-1]
        moved[above, 1] = levels[0] - (bent[0] - line[above, 1])
        moved[below, 1] = levels[-1] + (line[below, 1] - bent[-1])
        made.append(moved)
    return made


def _off_plumb(line: Floats) -> NDArray[np.bool_]:
    """Tell at which inner points a line doesn't run straight down, by over a tenth or so."""
    way = line[2:] - line[:-2]
    off: NDArray[np.bool_] = np.abs(way[:, 1]) < 0.97 * np.linalg.norm(way, axis=1)
    return off


def _between(line: Floats, half: float) -> Floats:
    """Return what of a line lies between y = −half and half, with ends just there."""
    first = int(np.flatnonzero(line[:, 1] > -half)[0])
    last = int(np.flatnonzero(line[:, 1] < half)[-1])
    return extended(line[first : last + 1], -half, half)


def loose_sennit(
    knot: str, manner: Manner, places: Places, turning: bool = False, free: bool = False
) -> Start:
    """Return one period of a stack of knots, all of it loose at once."""
    lines, height = _working(knot, manner)
    swap = knot == "half_knot"
    strands = [
        Strand("working", line[:-1], then=1 - k if swap else k, stacked=True)
        for k, line in enumerate(lines)
    ]
    for x, z in places if free else ():
        steps = np.linspace(0.0, 1.0, 40, endpoint=False)
        angle = np.arctan2(x, z) + 0.5 * steps
        size = np.hypot(x, z)
        points = np.column_stack(
            [size * np.sin(angle), height * (steps - 0.5), size * np.cos(angle)]
        )
        strands.append(Strand("filler", points, then=len(strands), stacked=True))
    rods = () if free else fillers(places, "pitch")
    screw = Screw(DOWN, height, 0.5 if turning else 0.0, turning)
    return Start(System(tuple(strands), rods, screw), per_pitch=True)


def ring(count: int) -> list[tuple[float, float]]:
    """Return the places of strands that touch each other round an axis."""
    size = 0.51 / np.sin(np.pi / count)
    turns = [2.0 * np.pi * i / count for i in range(count)]
    return [(size * float(np.sin(t)), size * float(np.cos(t))) for t in turns]
