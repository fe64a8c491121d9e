"""Overhand knot: all strands tied as one; their order is kept."""

from __future__ import annotations

import math
from types import MappingProxyType

from knotplot.curves.space import Point3, SpaceCurve, smooth
from knotplot.knots.base import SOFTNESS, CordUse, Form, Knot, KnotWords, Manner, along
from knotplot.knots.solved import excess

HEIGHT = 3.2  # of one pulled tight, in diameters of its bundle


class Overhand(Knot):
    """A strand (or a bundle of them) passed once through its own loop."""

    name = "overhand"
    as_one = True
    by_name = True
    least = 1
    most = 60
    words = MappingProxyType(
        {
            "en": KnotWords(
                "overhand knot",
                "overhand knots",
                (
                    "Take all its cords together as one and make a loop.",
                    "Pass the ends behind, and through the loop.",
                    "Slide the knot up to its place before you pull it tight.",
                ),
                "If knots of one row hang at different heights, slide each up before it is tight.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("working",) * manner.strands

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        bundle = bundle_diameter(manner.strands)
        pitch = 0.0 if manner.strands == 1 else (bundle - 1.0) / (manner.strands - 1.0)
        paths = tuple(
            _strand(bundle, (i - (manner.strands - 1) / 2.0) * pitch, 0.05 * i)
            for i in range(manner.strands)
        )
        return Form(paths, HEIGHT * bundle * SOFTNESS, 1.6 * bundle)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        bundle = bundle_diameter(manner.strands)
        usual = HEIGHT * SOFTNESS
        taken = excess("overhand/1", "working") + along(HEIGHT, usual, manner.tall)
        return CordUse({"working": taken * bundle})


def bundle_diameter(strands: int) -> float:
    """Return the diameter of a round bundle: equal areas, 0.8 of it cord for three and more."""
    packing = {1: 1.0, 2: 0.5, 3: 0.646}.get(strands, 0.74)  # circles in a circle, closed forms
    return math.sqrt(strands / packing)


def _strand(size: float, shift: float, lift: float) -> SpaceCurve:
    """Return one strand of the bundle: a twist of three crossings, a loop at the right."""
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
    points = [(size * x + shift, size * y, size * z + lift) for x, y, z in way]
    return smooth(points, (0.0, 1.0, 0.0), (0.0, 1.0, 0.0))


KNOTS = (Overhand(),)
