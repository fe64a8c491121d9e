"""Gathering knot (wrapping knot): a bundle of strands wrapped with a cord of its own."""

from __future__ import annotations

import math
from types import MappingProxyType

from knotplot.curves.space import Point3, SpaceCurve, line, smooth
from knotplot.knots.base import CordUse, Form, Knot, KnotWords, Manner
from knotplot.knots.overhand import bundle_diameter

ENDS = 2  # the buried ends run once up and once down inside the wrap


class GatheringKnot(Knot):
    """All strands are fillers; `reach` is half the height of the wrap in diameters."""

    name = "gathering_knot"
    as_one = True
    least = 1
    most = 2000
    minutes = 4.0
    words = MappingProxyType(
        {
            "en": KnotWords(
                "gathering knot",
                "gathering knots",
                (
                    "Lay the wrapping cord along the bundle in a long loop that points down.",
                    "Wrap the other end round bundle and loop, from top to bottom, "
                    "turn beside turn.",
                    "Put the end through the loop and pull the top end until the loop is "
                    "inside the wrap; trim both ends.",
                ),
                "If the wrap slides, its turns were not pulled as tight as they go.",
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

    def cord(self, manner: Manner) -> CordUse:
        """Return fillers as high as the wrap; the wrap's turns touch and its ends are buried."""
        bundle, height = bundle_diameter(manner.strands), 2.0 * manner.reach
        turns = max(1.0, height)
        wrap = turns * math.hypot(math.pi * (bundle + 1.0), 1.0) + ENDS * height
        return CordUse({"filler": height, "wrap": wrap})


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


KNOTS = (GatheringKnot(),)
