"""Crown knot: each of four strands laid over the next, the last through the loop of the first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from types import MappingProxyType

from knotplot.curves.space import DOWN, Point3, SpaceCurve, mirrored, smooth
from knotplot.knots.base import (
    WHOLE,
    CordUse,
    Difficulty,
    Form,
    Knot,
    KnotWords,
    Manner,
    Point2,
    Stage,
)
from knotplot.knots.sizes import SOFTNESS, lost_height
from knotplot.knots.solved import excess

# Two of a stack that turns about at every knot: 1.87 diameters high each. In one that goes on one
# way each is 1.78 high, with the same cord beside its height (crown_knot/4/round).
ENTRY = "crown_knot/4/square"
HALF = 3.7472 / 2.0 * SOFTNESS / 2.0  # half of what one takes of it (solved)
OUT, ASIDE = 1.75, 0.55  # of a loop from the middle, and of a strand from its own plane
# The strands in a ring, seen from above: the outer two come to the front. (x, z) of each.
RING: tuple[Point2, ...] = tuple(
    (math.sqrt(0.5) * x, math.sqrt(0.5) * z) for x, z in ((-1, 1), (-1, -1), (1, -1), (1, 1))
)
LAID = 7.0  # cubics of a strand that is laid over the next; and of those that wait for it
SPREAD = (LAID, 2.6, 2.4, 0.0)
# Facing left, as the maker sees it who looks at the ends: the face of the knot, half open, what
# the strands come from behind it and above.
OPEN: tuple[tuple[Point3, ...], ...] = (
    (
        (-2.4, -7.0, -2.0), (-2.4, -1.4, -2.0), (-3.1, -0.2, -2.0), (-5.6, -2.0, -1.2),
        (-6.0, -1.3, 0.2), (-4.4, 0.0, 1.0), (0.0, 3.4, -1.0), (1.2, 4.6, -0.6),
        (1.3, 6.0, 0.0), (1.0, 7.0, 0.0),
    ),
    (
        (-0.8, -7.0, -2.0), (-0.8, -1.0, -2.0), (-1.3, 0.8, -2.0), (-2.9, 4.2, -1.2),
        (-2.2, 4.9, 0.2), (0.0, 3.4, 1.0), (4.4, 0.0, -1.0), (4.7, -1.3, -0.8),
        (8.2, 3.4, 0.0), (4.0, 7.0, 0.0),
    ),
    (
        (0.8, -7.0, -2.0), (0.8, -1.0, -2.0), (1.6, 0.6, -2.0), (6.5, 2.2, -1.2),
        (7.0, 1.3, 0.2), (4.4, 0.0, 1.0), (0.0, -3.4, -1.0), (0.0, -4.8, 0.0),
        (-9.0, 1.0, 1.0), (-2.8, 7.0, 0.0),
    ),
    (
        (6.5, -7.0, -2.0), (6.4, -6.4, -1.5), (5.7, -5.8, -1.0), (4.4, -5.3, -0.5),
        (2.2, -4.5, 0.6), (0.0, -3.4, 1.0), (-4.4, 0.0, -1.0), (-6.0, 1.3, -0.6),
        (-3.0, 5.7, 1.0), (-1.0, 7.0, 0.0),
    ),
)  # fmt: skip


class CrownKnot(Knot):
    """Four strands in a ring, each laid over the next; facing left, the left one is laid first.

    Every strand leaves opposite where it came from. It couldn't leave elsewhere: the four are
    alike, so that all go as many places on, and as many back in the mirror image.
    """

    name = "crown_knot"
    faces = True
    by_name = True
    alone = "no working strands a side"
    least = 4
    most = 4
    difficulty = Difficulty.SOME
    minutes = 0.75
    words = MappingProxyType(
        {
            "en": KnotWords(
                "crown knot",
                "crown knots",
                "If one cord slips out as you draw it up, the last one missed the loop of the "
                "first: from below, each cord must be held down by the next, all the way round.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("working",) * manner.strands

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        return Form(_handed([_way(k) for k in range(4)], manner), 2.0 * HALF, 2.4)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: strand by strand, then drawn up."""
        ways: tuple[Point2, ...] = ((0.15, 1.0), (0.0, -1.0), (0.0, -1.0), (-1.0, 0.6))
        made = [
            Stage((k,), tuple(LAID if i <= k else SPREAD[i] for i in range(4)), (ways[k],))
            for k in range(4)
        ]
        ends = ((0.4, 1.0), (1.0, 0.7), (-1.0, 0.7), (-0.4, 1.0))
        made.append(Stage((0, 1, 2, 3), (WHOLE,) * 4, ends, tight=True))
        if manner.facing == "right":
            made = [_turned(stage) for stage in made]
        return tuple(made)

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage: its face half open, or drawn up."""
        made = self.tied(manner)
        if self.stages(manner)[stage].tight:
            return made
        return replace(made, paths=_handed(OPEN, manner))

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role, as in a stack: one alone, pulled hard, capsizes."""
        usual = 2.0 * HALF
        taken = excess(ENTRY, "working") / 2.0 + lost_height(usual)
        return CordUse({"working": usual * manner.tall}, {"working": taken})


def _way(k: int) -> tuple[Point3, ...]:
    """Return the way of a strand drawn up: out, down in a loop, and through to the other side.

    It goes below the strand before it, and above that which comes after it, within its loop.
    """
    (dx, dz), (nx, nz) = RING[k], RING[(k + 1) % 4]

    def at(out: float, aside: float, y: float) -> Point3:
        return (out * dx + aside * nx, y, out * dz + aside * nz)

    h = HALF
    return (
        (k - 1.5, -h, 0.0),
        at(1.3, 0.0, -0.8 * h),
        at(OUT, 0.0, -0.6 * h),
        at(OUT + 0.3, 0.4 * ASIDE, -0.1 * h),
        at(OUT + 0.1, ASIDE, 0.3 * h),
        at(0.6, ASIDE, 0.55 * h),
        at(-0.6, ASIDE, -0.45 * h),
        at(-OUT, ASIDE, -0.2 * h),
        at(-OUT + 0.15, 0.2, 0.4 * h),
        ((k + 2) % 4 - 1.5, h, 0.0),
    )


def _handed(ways: Sequence[Sequence[Point3]], manner: Manner) -> tuple[SpaceCurve, ...]:
    """Return the curves along these ways, mirrored for the right hand."""
    paths = tuple(smooth(way, DOWN, DOWN) for way in ways)
    if manner.facing == "right":
        return tuple(mirrored(path) for path in reversed(paths))
    return paths


def _turned(stage: Stage) -> Stage:
    """Return a stage in the mirror."""
    moves = tuple(3 - i for i in stage.moves)
    pull = tuple((-x, y) for x, y in stage.pull)
    return replace(stage, moves=moves, laid=stage.laid[::-1], pull=pull)


KNOTS = (CrownKnot(),)
