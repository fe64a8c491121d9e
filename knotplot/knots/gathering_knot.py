"""Gathering knot (wrapping knot): a bundle of strands wrapped with a cord of its own."""

from __future__ import annotations

import math
from dataclasses import replace
from types import MappingProxyType

from knotplot.curves.space import DOWN, Point3, SpaceCurve, line, smooth
from knotplot.knots.base import WHOLE, CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.overhand import bundle_diameter

ENDS = 2  # the buried ends run once up and once down inside the wrap


class GatheringKnot(Knot):
    """All strands are fillers; `reach` is half the height of the wrap in diameters."""

    name = "gathering_knot"
    as_one = True
    least = 1
    most = 2000
    difficulty = Difficulty.SOME
    minutes = 4.0
    words = MappingProxyType(
        {
            "en": KnotWords(
                "gathering knot",
                "gathering knots",
                "If the wrap slides when you tug it, or light shows between its turns, they were "
                "not pulled tight one by one.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("filler",) * manner.strands

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        half, bundle = manner.reach, bundle_diameter(manner.strands)
        pitch = 0.0 if manner.strands == 1 else (bundle - 1.0) / (manner.strands - 1.0)
        places = [(i - (manner.strands - 1) / 2.0) * pitch for i in range(manner.strands)]
        paths = tuple(line((x, -half, 0.0), (x, half, 0.0)) for x in places)
        return Form(paths, 2.0 * half, bundle / 2.0 + 1.0, wrap=_wrap(half, bundle / 2.0 + 0.5))

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: a loop laid, turns round it, the end through."""
        wrap, bundle = manner.strands, tuple(range(manner.strands))
        whole = (WHOLE,) * manner.strands
        turns = AT_TOP + 4.0 * LOOSE_TURNS
        return (
            Stage((wrap,), (*whole, AT_TOP), ((-0.5, -1.0),), bundle),
            Stage((wrap,), (*whole, turns), ((-1.0, 0.4),), bundle),
            Stage((wrap,), (*whole, WHOLE), ((1.0, 0.4),), bundle),
            Stage((wrap,), pull=((0.0, -1.0),), held=bundle, tight=True),
        )

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage, on a longer stretch of the bundle.

        Unlike the knot as it is seen when it is done, they have the loop that is pulled into it.
        """
        made = self.form(manner._replace(reach=4.0))
        radius = bundle_diameter(manner.strands) / 2.0 + 0.5
        tight = self.stages(manner)[stage].tight
        return replace(made, wrap=_drawn_up(radius) if tight else _loose_wrap(radius))

    def cord(self, manner: Manner) -> CordUse:
        """Return fillers as high as the wrap; the wrap's turns touch and its ends are buried."""
        bundle, height = bundle_diameter(manner.strands), 2.0 * manner.reach
        turns = max(1.0, height)
        wrap = turns * math.hypot(math.pi * (bundle + 1.0), 1.0)
        return CordUse({"filler": height, "wrap": ENDS * height}, {"wrap": wrap})


def _wrap(half: float, radius: float) -> SpaceCurve:
    """Return the wrap: as many whole turns as fit, each in front from left to right, and down."""
    turns = max(1, int(2.0 * half))
    step = (2.0 * half - 1.0) / max(1, turns - 1) if turns > 1 else 0.0
    points: list[Point3] = []
    for i in range(turns):
        y = -half + 0.5 + i * step
        points += [(-radius, y - 0.15, 0.0), (0.0, y, radius + 1.0), (radius, y + 0.15, 0.0)]
        if i + 1 < turns:
            points.append((0.0, y + 0.5 * step, -radius - 1.0))
    return smooth(points, (0.0, 0.0, 1.0), (0.0, 0.0, -1.0))


AT_TOP = 6.0  # cubics of the loose wrap that are its loop
LOOSE_TURNS = 3


def _loose_wrap(radius: float) -> SpaceCurve:
    """Return the wrapping cord while it is tied: a loop along the bundle, turns, the end in it."""
    leg, top, pitch = 1.0, -2.6, 1.35
    points: list[Point3] = [
        (leg, -6.4, radius),
        (leg, -1.0, radius),
        (leg, 3.6, radius),
        (0.0, 4.7, radius),
        (-leg, 3.6, radius),
        (-leg, -1.0, radius),
        (-leg, top - 0.5, radius + 0.4),
    ]
    for i in range(LOOSE_TURNS):
        y = top + pitch * i
        points += [
            (0.0 if i else 0.3, y, radius + 1.2),
            (radius + 0.3, y + 0.3, 0.0),
            (0.0, y + 0.5 * pitch, -radius - 1.0),
            (-radius - 0.3, y + pitch - 0.3, 0.0),
        ]
    y = top + pitch * LOOSE_TURNS + 0.4
    points += [
        (-leg, y + 0.3, radius - 0.6),
        (0.0, y + 0.5, radius),
        (leg, y + 0.5, radius + 0.8),
        (radius + 1.2, y + 0.7, radius),
    ]
    return smooth(points, DOWN, (1.0, 0.2, 0.0))


def _drawn_up(radius: float) -> SpaceCurve:
    """Return the wrapping cord with its loop pulled into the turns, its top end still long."""
    half = 0.5 * LOOSE_TURNS
    hidden: list[Point3] = [(0.3, -6.4, 0.3), (0.3, -half + 0.8, 0.3)]
    turns = _wrap(half, radius)
    start = turns[0][:3]
    end = smooth([*hidden, (start[0], start[1], start[2])], DOWN, (0.0, 0.0, 1.0))
    return (*end, *turns)


KNOTS = (GatheringKnot(),)
