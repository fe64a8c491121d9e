"""The centre lines of tight knots, as few cubics: what the drawings of tied knots are made from.

A strand is cut off where it hangs straight on both sides of the knot, and fitted by cubics that
join with one tangent (P. J. Schneider, "An algorithm for automatically fitting digitized curves",
Graphics Gems, 1990), halved where they are too far off.
"""

from __future__ import annotations

import numpy as np

from knotplot.cord_use.solver.contacts import carried
from knotplot.cord_use.solver.rope import Floats, System

# What drawings use; the rest of the table is numbers only.
DRAWN = (
    "half_knot/1/row",
    "half_knot/2/row",
    "square_knot/1/sennit",
    "square_knot/2/sennit",
    "overhand/1",
    "double_half_hitch/bar held",
)
OFF = 0.02  # how far a cubic may lie from its points, in diameters
PLUMB = 0.985  # of a strand's way downward: where it is more, it hangs straight
MARGIN = 0.1  # of straight strand kept at both ends
PLACES = 3  # decimals written


def centre_lines(system: System) -> tuple[list[list[float]], float]:
    """Return the strands of a tight knot as cubics about its middle, and how far off they are.

    A list a strand: x, y, z of its start, then nine numbers a cubic, in diameters, all rounded.
    The middle is that of what doesn't hang straight, in height; in x and z that of the system.
    """
    bodies = [_body(line) for line in _whole(system)]
    ends = [at for body in bodies for at in (body[0, 1], body[-1, 1])]
    middle = np.array([0.0, 0.5 * (min(ends) + max(ends)), 0.0])
    made, worst = [], 0.0
    for body in bodies:
        line = body - middle
        flat = np.round(_fitted(line), PLACES)
        worst = max(worst, _deviation(flat, line))
        made.append([float(value) for value in flat.ravel()])
    return made, worst


def _whole(system: System) -> list[Floats]:
    """Return the strands' points; of a stack, a period of them: from between knots on."""
    lines = [strand.points for strand in system.strands]
    if system.screw is None or system.screw.pitch is None:
        return lines
    return [np.vstack([line, carried(line[:1], system.screw, 1)]) for line in lines]


def _body(line: Floats) -> Floats:
    """Return what of a strand doesn't hang straight, with a little more at both ends."""
    way = line[2:] - line[:-2]
    bent = 1 + np.flatnonzero(way[:, 1] < PLUMB * np.linalg.norm(way, axis=1))
    keep = max(1, round(MARGIN / float(np.linalg.norm(line[1] - line[0]))))
    return line[max(bent[0] - keep, 0) : bent[-1] + keep + 1]


def _fitted(line: Floats) -> Floats:
    """Return cubics through a polyline's ends, as points: the first, then three a cubic."""
    way = np.gradient(line, axis=0)
    way /= np.linalg.norm(way, axis=1)[:, None]
    points = [line[:1]]
    spans = [(0, len(line) - 1)]
    while spans:
        first, last = spans.pop()
        part = line[first : last + 1]
        cubic, worst, where = _cubic(part, way[first], way[last])
        if worst > OFF and last - first > 4:
            cut = first + min(max(where, 2), last - first - 2)
            spans += [(cut, last), (first, cut)]
        else:
            points.append(cubic[1:])
    return np.vstack(points)


def _cubic(part: Floats, before: Floats, after: Floats) -> tuple[Floats, float, int]:
    """Return the cubic of two end tangents nearest to points, how far it is off, and where."""
    chord = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(part, axis=0), axis=1))])
    t = chord / chord[-1]
    for _ in range(6):
        b = _weights(t)
        still = np.outer(b[0] + b[1], part[0]) + np.outer(b[2] + b[3], part[-1])
        sides = np.column_stack([np.outer(b[1], before).ravel(), np.outer(b[2], -after).ravel()])
        (near, far), *_ = np.linalg.lstsq(sides, (part - still).ravel())
        near, far = (max(float(each), 0.05 * chord[-1]) for each in (near, far))
        cubic = np.array([part[0], part[0] + near * before, part[-1] - far * after, part[-1]])
        t = _nearer(cubic, part, t)
    off = np.linalg.norm(_weights(t).T @ cubic - part, axis=1)
    return cubic, float(off.max()), int(off.argmax())


def _weights(t: Floats) -> Floats:
    s = 1.0 - t
    made: Floats = np.array([s**3, 3.0 * s * s * t, 3.0 * s * t * t, t**3])
    return made


def _nearer(cubic: Floats, part: Floats, t: Floats) -> Floats:
    """Return parameters nearer to the points, by one step of Newton's method."""
    off = _weights(t).T @ cubic - part
    s = 1.0 - t
    first = np.array([s * s, 2.0 * s * t, t * t]).T @ (3.0 * np.diff(cubic, axis=0))
    second = np.array([s, t]).T @ (6.0 * np.diff(cubic, 2, axis=0))
    below = (first**2).sum(axis=1) + (off * second).sum(axis=1)
    step = (off * first).sum(axis=1) / np.where(below > 1e-9, below, 1.0)
    made: Floats = np.clip(t - np.where(below > 1e-9, step, 0.0), 0.0, 1.0)
    made[0], made[-1] = 0.0, 1.0
    return made


def _deviation(flat: Floats, line: Floats) -> float:
    """Return how far a polyline's points lie from the cubics at the most."""
    fine = _weights(np.linspace(0.0, 1.0, 200))
    dense = np.vstack([fine.T @ flat[3 * k : 3 * k + 4] for k in range(len(flat) // 3)])
    apart = np.linalg.norm(line[:, None] - dense[None], axis=2)
    return float(apart.min(axis=1).max())
