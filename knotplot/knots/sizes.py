"""Sizes of knots as hands tie them: how soft cord gives, and how far apart flat knots leave.

In cord diameters. What one knot takes is solved (`solved.py`); these rules hold for many.
"""

from __future__ import annotations

from itertools import pairwise

# Solved sizes are of a rope pulled ideally tight. Knots pulled by hand are a little shorter, since
# cotton gives: 0.85 to 0.9 of the solved height (GEOMETRY, rule 3), to be fixed by a swatch.
SOFTNESS = 0.875


def lost_height(usual: float) -> float:
    """Return the cord (diameters) by which a hand-tied knot's excess is more than a solved one's.

    A knot `usual` high as tied is that much lower than the solved one, since the cord gives, and
    its strands are no shorter for that. Measured: one worker takes 34 in for 7 in of square knots
    (a knot bar in 550 cord), 4.86 to 1; solved 4.25, and 4.25 / 0.875 = 4.86.
    """
    return usual / SOFTNESS - usual


def outer_port(fillers: int) -> float:
    """Return how far from the middle a flat knot's working strands enter and leave, in diameters.

    For 0 to 8 fillers in a bundle (GEOMETRY, rule 3), straight lines between and on: in height and
    here cord gives, so that on two fillers this is 0.875 of the 2.3 where strands pass from knot to
    knot of a solved stack. The knot itself is wider (`solved.flat_width`).
    """
    solved = ((0, 1.0), (1, 1.6), (2, 2.0), (3, 2.25), (4, 2.5), (6, 3.0), (8, 3.9))
    for (a, at_a), (b, at_b) in pairwise(solved):
        if fillers <= b:
            return at_a + (at_b - at_a) * (fillers - a) / (b - a)
    return 3.9 + 0.45 * (fillers - 8)


def filler_places(count: int, width: float) -> tuple[float, ...]:
    """Return where `count` fillers stand in a row across `width`, a diameter apart at most."""
    pitch = min(1.0, width / count) if count else 0.0
    return tuple((i - (count - 1) / 2.0) * pitch for i in range(count))
