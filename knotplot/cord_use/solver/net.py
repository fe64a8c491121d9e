"""Start shape of a net: rows of square knots, each joining two strands of both its neighbours."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from knotplot.cord_use.solver.rope import Floats, Rod, Screw, Strand, System
from knotplot.cord_use.solver.solve import Start
from knotplot.cord_use.solver.starts import cut_anew
from knotplot.cord_use.solver.tighten import tighten
from knotplot.curves.space import DOWN, sample
from knotplot.knots.shapes import centre_lines

ASIDE = (1.0, 0.0, 0.0)
TIGHT = "square_knot/2/sennit"  # a knot of this stack stands in every place of the net
HALF = 1.6  # of its height: there its fillers leave it
FILLER = 0.51  # from the middle to each
SPACING = 6.2  # from knot to knot of a row to begin with: they don't touch
ROWS = 5.0  # from row to row to begin with
PUSH = 6  # how many strands' pull pushes rows up, until they lie in each other's gaps
OUT_OF_REACH = 500.0
# A period is two rows of one knot on two fillers. Each strand goes through both: as which strand of
# the knot, left to right, in the first row, as which in the second, and to which side of the first.
THROUGH = ((0, 2, -1), (1, 3, -1), (2, 0, 1), (3, 1, 1))


def net(pushed: bool = False) -> Start:
    """Return one period of a net: two rows, four strands, all of them pulled alike.

    Pitch and spacing are found. Rows stand apart to begin with, and close up until knots meet;
    `pushed` begins with rows that were pushed up further, and are let go again.
    """
    system = _apart()
    if pushed:
        # Rods that ride on the pitch pull it shorter; nothing ever touches these.
        rods = (Rod((OUT_OF_REACH, 0.0, 0.0), DOWN, 0.5, "pitch"),) * PUSH
        loose = cut_anew(replace(system, rods=rods), 0.25)
        tight = tighten(loose, mu=20.0, rounds=60, steps=100, tolerance=1e-4, overlap=5e-3)
        system = replace(tight.system, rods=())
    return Start(system, per_pitch=True)


def _apart() -> System:
    """Return one period of a net whose rows stand apart."""
    left, right = (np.array(sample(curve, 8)) for curve in centre_lines(TIGHT))
    inner = [np.array([[x, -HALF, 0.0], [x, HALF, 0.0]]) for x in (-FILLER, FILLER)]
    lines: list[Floats] = [left, *inner, right]
    strands = []
    for k, (first, second, side) in enumerate(THROUGH):
        below: Floats = lines[second] + [side * SPACING / 2.0, ROWS, 0.0]
        path = np.vstack([lines[first], below])
        strands.append(Strand("strand", path, then=k, stacked=True))
    screw = Screw(DOWN, 2.0 * ROWS, beside=ASIDE, spacing=SPACING)
    return System(tuple(strands), (), screw, reach=1)
