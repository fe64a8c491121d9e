"""Where to fold cords cut to one length: both sides long enough, and as few places as will do.

A cord may be folded anywhere between the least its left side needs and what its right side leaves
of it. Cords whose stretches have a place in common are folded at one: going through the stretches
by their far ends and taking at each the cords it still reaches gives the fewest places there are.
Places are whole `grain`s, so that what is printed is what was reckoned with.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from knotplot.materials.cutting import steps_needed

_NOISE = 1e-6  # grains: so near a whole one it is that one


class Halves(NamedTuple):
    """What the left and right side of a cord need (mm), and the left's share of what is over."""

    left: float
    right: float
    share: float


def least_left(left: float, grain: Fraction) -> float:
    """Return what a left side takes up, its need (mm) rounded up to whole grains."""
    return float(steps_needed(left, grain) * grain)


def fold_points(cords: Sequence[Halves], cut: Fraction, grain: Fraction) -> list[float]:
    """Return how far from its left end (mm) each of some cords, all cut alike, is folded.

    Among the places that do, the one nearest the mean of what would be fair: each side its need
    and its share of what is over.

    >>> fold_points([Halves(600.0, 280.0, 0.5), Halves(655.0, 310.0, 0.5)], Fraction(1000),
    ...             Fraction(10))
    [670.0, 670.0]
    """
    spans = [_span(each, cut, grain) for each in cords]
    waiting = sorted(range(len(cords)), key=lambda i: (spans[i][1], spans[i][0], i))
    found = [0.0] * len(cords)
    while waiting:
        reach = spans[waiting[0]][1]
        mine = [i for i in waiting if spans[i][0] <= reach]
        waiting = [i for i in waiting if spans[i][0] > reach]
        fair = sum(_fair(cords[i], cut) for i in mine) / len(mine)
        place = min(max(round(fair / float(grain)), max(spans[i][0] for i in mine)), reach)
        for i in mine:
            found[i] = float(place * grain)
    return found


def _span(cord: Halves, cut: Fraction, grain: Fraction) -> tuple[int, int]:
    """Return the first and last place that do, in grains."""
    first = steps_needed(cord.left, grain)
    last = math.floor((float(cut) - cord.right) / float(grain) + _NOISE)
    return first, max(first, last)


def _fair(cord: Halves, cut: Fraction) -> float:
    return cord.left + (float(cut) - cord.left - cord.right) * cord.share
