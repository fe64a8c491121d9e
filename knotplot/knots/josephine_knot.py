"""Josephine knot (double coin): two strands, or two bundles of them, each looped into the other."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from types import MappingProxyType

from knotplot.curves.bezier import length_of
from knotplot.curves.space import DOWN, Point3, SpaceCurve, mapped, sample, smooth
from knotplot.knots.base import (
    WHOLE,
    CordUse,
    Difficulty,
    Form,
    Knot,
    KnotWords,
    Manner,
    Stage,
    loosened,
)
from knotplot.knots.solved import excess

SIZE = 1.2  # of the knot left open, for each strand of a bundle
PORT, TOP = 0.8, 3.2  # where a strand enters, in sizes from the middle
FIRST, LAST, STEPS = 1.7 * math.pi, 4.3 * math.pi, 26  # its way round the Turk's head
LIFT = 0.6
HALF = 14  # cubics of the second side that are woven first


class JosephineKnot(Knot):
    """Eight crossings, over and under in turn: a Turk's head cut at two bights, left open.

    Facing left, the left strands are laid in a loop first and the right ones woven into it.
    """

    name = "josephine_knot"
    faces = True
    by_name = True
    alone = "no working strands a side"
    most = 6
    difficulty = Difficulty.MUCH
    minutes = 2.0
    words = MappingProxyType(
        {
            "en": KnotWords(
                "Josephine knot",
                "Josephine knots",
                "If it falls apart as you draw it up, one crossing is wrong: along either cord, "
                "over and under must take turns.",
            )
        }
    )

    def fault(self, strands: int, workers: int) -> tuple[str, str] | None:
        """Say why it can't be tied on so many strands: two like bundles, and nothing else."""
        if workers == 1 and strands % 2:
            return (f"{self.name} takes an even number of lanes", "give it a lane more or less")
        return super().fault(strands, workers)

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("working",) * manner.strands

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        each = manner.strands // 2
        size, sign = SIZE * each, 1.0 if manner.facing == "right" else -1.0
        right = [
            mapped(_strand(size, i - (each - 1) / 2.0), lambda x, y, z: (x, y, sign * z))
            for i in range(each)
        ]
        # Turned over, the knot is itself: the left strands are the right ones seen from behind.
        left = [mapped(path, lambda x, y, z: (-x, y, -z)) for path in reversed(right)]
        return Form((*left, *right), 2.0 * TOP * size, 3.0 * size + 0.5 * each)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: a loop, the other side woven into it."""
        each = manner.strands // 2
        left, right = tuple(range(each)), tuple(range(each, manner.strands))
        first, second, ahead = (right, left, -1.0) if manner.facing == "right" else (left, right, 1)

        def laid(far: float) -> tuple[float, ...]:
            return tuple(WHOLE if i in first else far for i in range(manner.strands))

        return (
            Stage(first, laid(0.0), ((-0.4 * ahead, 1.0),)),
            Stage(second, laid(HALF), ((-0.5 * ahead, -1.0),)),
            Stage(second, laid(WHOLE), ((ahead, 0.3),)),
            Stage((*left, *right), tight=True),
        )

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage: wide open, the second side behind at first.

        The loop is laid before strands that still hang straight, so these begin behind it.
        """
        made = self.tied(manner)
        if self.stages(manner)[stage].tight:
            return made
        wide = loosened(made, 1.5)
        if stage:
            return wide
        moving = self.stages(manner)[1].moves
        paths = tuple(
            _from_behind(path) if i in moving else path for i, path in enumerate(wide.paths)
        )
        return replace(wide, paths=paths)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role: the length of its curves, as it is left open.

        Never less than pulled tight: solved for one strand a side, `each` times it for bundles.
        """
        each = manner.strands // 2
        usual = 2.0 * TOP * SIZE * each
        tight = each * excess("josephine/1", "working") + usual
        taken = max(tight, _longest(each))
        return CordUse({"working": usual * manner.tall}, {"working": taken - usual})


def _strand(size: float, shift: float) -> SpaceCurve:
    """Return a strand of the right bundle, `shift` to the right of its middle where it enters."""
    middle: list[Point3] = [(PORT * size, -TOP * size, 0.0)]
    for i in range(STEPS + 1):
        t = FIRST + (LAST - FIRST) * i / STEPS
        r = size * (2.0 + math.cos(4.0 * t / 3.0))
        middle.append((r * math.cos(t), r * math.sin(t), LIFT * math.sin(8.0 * t / 3.0)))
    middle.append((PORT * size, TOP * size, 0.0))
    ways: list[tuple[float, float]] = [(0.0, 1.0)]
    for (ax, ay, _), (bx, by, _) in zip(middle, middle[2:], strict=False):
        far = math.hypot(bx - ax, by - ay)
        ways.append(((bx - ax) / far, (by - ay) / far))
    ways.append((0.0, 1.0))
    points: list[Point3] = [
        (x + shift * dy, y - shift * dx, z)
        for (x, y, z), (dx, dy) in zip(middle, ways, strict=True)
    ]
    return smooth(points, DOWN, DOWN)


def _from_behind(path: SpaceCurve) -> SpaceCurve:
    """Return a curve that enters behind all others, where its strand hangs before it is woven."""
    x, y, _, cx, cy, _, *rest = path[0]
    return ((x, y, -4.0, cx, cy, -4.0, *rest), *path[1:])


@cache
def _longest(each: int) -> float:
    """Return the length of the longest strand of a bundle."""
    shifts = (i - (each - 1) / 2.0 for i in range(each))
    return max(length_of(sample(_strand(SIZE * each, shift), 12)) for shift in shifts)


KNOTS = (JosephineKnot(),)
