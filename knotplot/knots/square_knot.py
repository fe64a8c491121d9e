"""Square knot (flat knot): two half knots, the second the mirror of the first."""

from __future__ import annotations

from types import MappingProxyType

from knotplot.curves.space import Point3, SpaceCurve, mirrored, smooth
from knotplot.knots.base import CordUse, Form, Knot, KnotWords, Manner, outer_port
from knotplot.knots.half_knot import (
    DOWN,
    PAIR,
    crossing,
    fillers_between,
    flat_cord,
    half_height,
    sides,
    working_roles,
)


class SquareKnot(Knot):
    """Two crossings about the fillers; every strand leaves in the lane it came in."""

    name = "square_knot"
    faces = True
    by_name = True
    minutes = 0.5
    words = MappingProxyType(
        {
            "en": KnotWords(
                "square knot",
                "square knots",
                (
                    "Facing left: lay the left working cord over the fillers and under the "
                    "right one.",
                    "Take the right working cord behind the fillers and up through the left loop; "
                    "pull both even.",
                    "Now the other way: lay the working cord that hangs right over the fillers and "
                    "under the left one.",
                    "Take the left one behind the fillers and up through the right loop; "
                    "pull tight.",
                ),
                "If the knot twists instead of lying flat, the second half was started from the "
                "same side as the first (a granny).",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return working_roles(manner.strands, manner.workers)

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        workers = manner.workers
        fillers = manner.strands - 2 * workers
        half = half_height(workers)
        ways = sides(fillers, workers)
        from_left = [_there_and_back(way, half, manner.facing != "right") for way in ways]
        from_right = [
            mirrored(_there_and_back(way, half, manner.facing == "right")) for way in ways
        ]
        paths = (*from_left, *fillers_between(fillers, 2.0 * half), *reversed(from_right))
        return Form(paths, 2.0 * half, outer_port(fillers) + PAIR * (workers - 1) + 0.5)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        return flat_cord(self.name, manner, 2.0 * half_height(manner.workers))


def _there_and_back(way: tuple[float, float, float], half: float, front: bool) -> SpaceCurve:
    """Return the curve of a strand that starts on the left: over (or behind), and back."""
    enter, leave, low = way
    there = crossing(enter, leave, -half, half, low, front)
    back: list[Point3] = [(-x, y, z) for x, y, z in crossing(leave, enter, 0.0, half, -low, front)]
    return smooth([*there[:-1], (leave, 0.0, 0.0), *back[1:], (-enter, half, 0.0)], DOWN, DOWN)


KNOTS = (SquareKnot(),)
