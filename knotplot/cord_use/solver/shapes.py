"""Start shapes of knots that have no file of their own yet."""

from __future__ import annotations

import numpy as np

from knotplot.cord_use.solver.rope import Floats
from knotplot.cord_use.solver.starts import DEPTH
from knotplot.curves.space import Point3, sample, smooth


def larks_head_chain() -> Floats:
    """Return one vertical lark's head about a leader along y, and the way on to the next.

    The strand comes from the right under its own bar, before the leader to the left, back behind
    it, down as the bar, and the same again the other way: two half hitches that mirror each other.
    """
    half: list[Point3] = [
        (3.2, -3.2, 0.0),
        (2.8, -1.0, 0.3),
        (1.4, -0.5, 0.7),
        (0.0, -0.5, 1.1),
        (-1.2, -0.8, 0.0),
        (0.0, -1.3, -1.1),
        (1.2, -1.5, 0.0),
        (1.6, -1.1, 1.7),
    ]
    back = [(x, -y, z) for x, y, z in reversed(half)]
    curve = smooth([*half, (1.6, 0.0, 2.0), *back], (0.0, 1.0, 0.0), (0.0, 1.0, 0.0))
    return np.array(sample(curve, 16))


def josephine() -> tuple[Floats, Floats]:
    """Return the two strands of a Josephine knot, upright.

    The Turk's head of three leads and four bights (r = 2 + cos 4t/3, alternating: the knot 8_18,
    CHECK_VALUES 3), cut open at its top and bottom bights.
    """
    strands = []
    for first in (1.5, 4.5):
        t = np.linspace((first + 0.12) * np.pi, (first + 2.88) * np.pi, 160)
        r = 2.0 + np.cos(4.0 * t / 3.0)
        line = np.column_stack([r * np.cos(t), r * np.sin(t), DEPTH * 0.4 * np.sin(8.0 * t / 3.0)])
        strands.append(line if line[0, 1] < line[-1, 1] else line[::-1])
    return strands[0], strands[1]


def berry(
    lines: tuple[Floats, Floats], pitch: float, knots: int
) -> tuple[list[Floats], list[Floats]]:
    """Return a berry, upright: its two working strands and its two fillers.

    `lines` are the working strands of one square knot of a tight sennit on two fillers, `pitch` its
    height. So many of them; before them the fillers turn up again, go through between themselves
    above the first knot, and behind them down into a last square knot, which rolls the others up.
    """
    last = knots * pitch + 4.0
    places = [np.array([0.0, at, 0.0]) for at in (*(i * pitch for i in range(knots)), last)]
    working = [np.vstack([line + place for place in places]) for line in lines]
    far = float(np.abs(np.vstack(lines)[:, 2]).max()) + 1.1
    top, bottom = -0.5 * pitch - 2.0, (knots - 0.5) * pitch + 0.8
    way = (
        (1.7, top - 2.0, 0.0),
        (1.7, top + 0.3, 0.0),
        (0.52, top + 1.8, 0.0),
        (0.52, bottom, 0.0),
        (0.52, bottom + 0.8, 0.5 * far),
        (0.52, bottom, far),
        (0.52, top + 1.0, far),
        (0.52, top, 0.5 * far),
        (0.52, top, -0.5 * far),
        (0.52, top + 1.0, -far),
        (0.52, last - 0.5 * pitch - 2.0, -far),
        (0.52, last - 0.5 * pitch - 0.8, 0.0),
        (0.52, last + pitch, 0.0),
    )
    fillers = [np.array([(side * x, y, z) for x, y, z in way]) for side in (-1.0, 1.0)]
    return working, fillers
