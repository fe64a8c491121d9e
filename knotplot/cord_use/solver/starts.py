"""Start shapes: a knot's own curves, loosened until nothing touches, as a system to pull tight."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
from scipy.spatial import cKDTree

from knotplot.cord_use.solver.contacts import carried
from knotplot.cord_use.solver.rope import Floats, Rod, System, resampled
from knotplot.curves.space import DOWN, SpaceCurve, sample

DEPTH = 2.5  # a drawing is flat: strands are drawn apart in depth before they are scaled up
CLEAR = 1.03  # how far apart strands are to begin with
PER_CUBIC = 16
TAIL = 3.0  # straight cord beyond the loose knot at both ends, in diameters


def polyline(curve: SpaceCurve) -> Floats:
    """Return a curve as points (n × 3), deepened."""
    points: Floats = np.array(sample(curve, PER_CUBIC)) * np.array([1.0, 1.0, DEPTH])
    return points


def loosening(lines: Sequence[Floats]) -> float:
    """Return the factor by which the lines are scaled up so that none touches another."""
    least = np.inf
    fine = [_fine(line) for line in lines]
    for i, line in enumerate(fine):
        for other in fine[i + 1 :]:
            least = min(least, float(cKDTree(line).query(other)[0].min()))
        along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
        far = np.abs(along[:, None] - along[None]) > 1.6
        apart = np.linalg.norm(line[:, None] - line[None], axis=2)
        least = min(least, float(apart[far].min(initial=np.inf)))
    return max(1.0, CLEAR / max(least, 0.02))


def _fine(line: Floats) -> Floats:
    length = float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum())
    return resampled(line, max(8, int(length / 0.05)))


def extended(line: Floats, top: float, bottom: float) -> Floats:
    """Return a line with straight ends added, up to y = `top` and down to y = `bottom`."""
    first, last = line[0].copy(), line[-1].copy()
    first[1], last[1] = top, bottom
    return np.vstack([first, line, last])


def with_tails(lines: Sequence[Floats]) -> tuple[list[Floats], float]:
    """Return lines with straight ends, all from y = −half to half, and that half."""
    half = max(float(np.abs(line[:, 1]).max()) for line in lines) + TAIL
    return [extended(line, -half, half) for line in lines], half


def cut_anew(system: System, edge: float, least: int = 12) -> System:
    """Return the system with all strands cut into edges of about that length."""
    strands = []
    for strand in system.strands:
        line = strand.points
        if strand.then is not None:  # up to where it goes on
            onward = system.strands[strand.then].points[:1]
            if strand.stacked and system.screw is not None:
                onward = carried(onward, system.screw, 1)
            line = np.vstack([line, onward])
        length = float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum())
        count = max(least, round(length / edge))
        points = resampled(line, count)
        strands.append(replace(strand, points=points if strand.then is None else points[:-1]))
    return replace(system, strands=tuple(strands))


def row(count: int) -> list[tuple[float, float]]:
    """Return where fillers stand side by side: (x, z) of each."""
    return [(i - (count - 1) / 2.0, 0.0) for i in range(count)]


def bundle(count: int) -> list[tuple[float, float]]:
    """Return where fillers stand in a bundle: those of a triangular lattice nearest its middle.

    The middle is the one of a few (a point, an edge, a triangle) that keeps them closest together.
    """
    lattice = [(i + 0.5 * j, j * np.sqrt(3.0) / 2.0) for i in range(-6, 7) for j in range(-6, 7)]
    middles = [(0.0, 0.0), (0.5, 0.0), (0.5, np.sqrt(3.0) / 6.0)]
    best: tuple[float, list[tuple[float, float]]] | None = None
    for x0, z0 in middles:
        near = sorted(
            lattice, key=lambda p: (round(np.hypot(p[0] - x0, p[1] - z0), 6), -p[0], p[1])
        )
        taken = np.array(near[:count])
        centre = taken.mean(axis=0)
        spread = float(((taken - centre) ** 2).sum())
        if best is None or spread < best[0] - 1e-9:
            best = spread, [(float(x), float(z)) for x, z in taken - centre]
    assert best is not None
    return best[1]


def fillers(places: Iterable[tuple[float, float]], rides: str | None = None) -> tuple[Rod, ...]:
    """Return taut fillers (rods of a cord's thickness) along y at those places."""
    return tuple(Rod((x, 0.0, z), DOWN, 0.5, rides) for x, z in places)
