"""A start shape that is put together: a berry, of tight square knots and loose fillers."""

from __future__ import annotations

import numpy as np

from knotplot.cord_use.solver.rope import Floats


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
