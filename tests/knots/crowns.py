"""What a crown in four strands is, built anew from its words alone, to compare curves with.

The strands hang in a ring, the outer two of a row at the front. Each is led out from the ring,
turned down, and laid straight across to the other side: over the strand before it (below it, that
is: over for one who looks at the ends), and between the two parts of the strand after it, which is
laid next. So every strand is treated alike, and the last goes through the loop of the first.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from itertools import pairwise

import closings
from diagrams import Loop
from invariants import Identity, identity

from knotplot.curves.space import Point3, line

RING = ((-1, 1), (-1, -1), (1, -1), (1, 1))  # x, z of each strand in the ring, in row order
ROOT = math.sqrt(2.0)
OPPOSITE = (2, 3, 0, 1)
HIGH = 7.0  # of one layer


def layer(facing: str | None, top: float) -> list[Loop]:
    """Return the four strands of one crown, from lanes to lanes; facing left, 1 goes over 2."""
    step = -1 if facing == "right" else 1
    return [_strand(k, RING[(k + step) % 4], top) for k in range(4)]


def _strand(k: int, following: tuple[int, int], top: float) -> Loop:
    """Return one strand, laid on the side of that which follows."""
    (x, z), (nx, nz) = RING[k], following

    def at(out: float, y: float, aside: float = 0.0) -> Point3:
        return ((out * x + aside * nx) / ROOT, top + y, (out * z + aside * nz) / ROOT)

    return [
        (k - 1.5, top, 0.0), at(0.7, 1.0), at(3.0, 1.5),
        at(3.0, 4.0, 0.6), at(0.6, 4.0, 0.6), at(-0.6, 3.0, 0.6), at(-3.0, 3.0, 0.6),
        at(-3.0, 5.0), at(-0.7, 6.0), (OPPOSITE[k] - 1.5, top + HIGH, 0.0),
    ]  # fmt: skip


@cache
def of_words(facings: tuple[str | None, ...]) -> Identity:
    """Return the invariants of crowns one below another, closed by lanes."""
    lines: list[Loop] = [[] for _ in range(4)]
    lane = list(range(4))
    for n, facing in enumerate(facings):
        made = layer(facing, n * HIGH)
        for k in range(4):
            lines[k] += made[lane[k]][1 if n else 0 :]
            lane[k] = OPPOSITE[lane[k]]
    return identity(by_lanes_of(lines, [lane.index(at) for at in range(4)]))


def by_lanes_of(lines: Sequence[Loop], order: Sequence[int]) -> list[Loop]:
    """Return polylines closed as `closings.by_lanes` closes curves."""
    curves = [sum((line(a, b) for a, b in pairwise(each)), ()) for each in lines]
    return closings.by_lanes(curves, order)
