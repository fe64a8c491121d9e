"""Overhand knot: all strands tied as one; their order is kept."""

from __future__ import annotations

import math
from dataclasses import replace
from types import MappingProxyType

from knotplot.curves.space import DOWN, Point3, SpaceCurve, mapped, smooth
from knotplot.knots.base import CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.shapes import led, softened
from knotplot.knots.sizes import SOFTNESS, lost_height
from knotplot.knots.solved import excess

HEIGHT = 3.2  # of one pulled tight, in diameters of its bundle
# Strands lie closer in the knot than at its ports: wider apart, the outer ones of a bundle would
# run through one another at its bends, and would not be parallel (tests/knots/test_identity.py).
DRAWN_IN = 0.55


class Overhand(Knot):
    """A strand (or a bundle of them) passed once through its own loop."""

    name = "overhand"
    as_one = True
    difficulty = Difficulty.EASY
    by_name = True
    loose = 3.2  # its three crossings well apart
    least = 1
    most = 60
    words = MappingProxyType(
        {
            "en": KnotWords(
                "overhand knot",
                "overhand knots",
                "If one knot of a row sits higher or lower than its neighbours (lay a ruler along "
                "them), it was pulled tight before it was slid into place.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("working",) * manner.strands

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        bundle, strands = bundle_diameter(manner.strands), manner.strands
        pitch = 0.0 if strands == 1 else (bundle - 1.0) / (strands - 1.0)
        lift = min(0.05, 0.1 * bundle / strands)
        places = [i - (strands - 1) / 2.0 for i in range(strands)]
        paths = tuple(_strand(bundle, pitch * place, lift * place) for place in places)
        return Form(paths, HEIGHT * bundle * SOFTNESS, 1.6 * bundle)

    def tight_form(self, manner: Manner) -> Form:
        """Return how it looks pulled tight; bundles aren't solved."""
        made = self.form(manner)
        if manner.strands > 1:
            return made
        (body,) = softened("overhand/1")
        middle = 0.5 * (body[0][0] + body[-1][9])
        return replace(
            made, paths=(led(mapped(body, lambda x, y, z: (x - middle, y, z)), made.paths[0]),)
        )

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: a loop, the end through it, pulled tight."""
        every = tuple(range(manner.strands))
        return (
            Stage(every, (10.6,) * manner.strands, ((-1.0, 0.1),)),
            Stage(every),
            Stage(every, tight=True),
        )

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        bundle = bundle_diameter(manner.strands)
        usual = HEIGHT * SOFTNESS
        taken = excess("overhand/1", "working") + lost_height(usual)
        return CordUse({"working": usual * bundle * manner.tall}, {"working": taken * bundle})


def bundle_diameter(strands: int) -> float:
    """Return the diameter of a round bundle: equal areas, 0.8 of it cord for three and more."""
    packing = {1: 1.0, 2: 0.5, 3: 0.646}.get(strands, 0.74)  # circles in a circle, closed forms
    return math.sqrt(strands / packing)


def _strand(size: float, shift: float, lift: float) -> SpaceCurve:
    """Return one strand of the bundle: a twist of three crossings, a loop at the right.

    It keeps to its side of the bundle all the way, `shift` from its middle at the ports.
    """
    h = 0.5 * HEIGHT * SOFTNESS
    way: list[Point3] = [
        (0.0, -h, 0.0),
        (0.12, -0.64, 0.5),
        (0.3, -0.3, 0.0),
        (0.0, 0.0, -0.5),
        (-0.3, 0.3, 0.0),
        (0.0, 0.64, 0.5),
        (0.5, 0.95, 0.0),
        (1.05, 0.5, 0.0),
        (1.05, -0.5, 0.0),
        (0.5, -0.95, 0.0),
        (0.0, -0.64, -0.5),
        (-0.3, -0.3, 0.0),
        (0.0, 0.0, 0.5),
        (0.3, 0.3, 0.0),
        (0.12, 0.64, -0.5),
        (0.0, h, 0.0),
    ]
    points: list[Point3] = [(shift, -size * h, lift)]
    for (ax, ay, _), (x, y, z), (bx, by, _) in zip(way, way[1:], way[2:], strict=False):
        aside = DRAWN_IN * shift / math.hypot(bx - ax, by - ay)
        points.append((size * x + aside * (by - ay), size * y - aside * (bx - ax), size * z + lift))
    points.append((shift, size * h, lift))
    return smooth(points, DOWN, DOWN)


KNOTS = (Overhand(),)
