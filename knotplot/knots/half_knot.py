"""Half knot: two working strands crossed once about the fillers; repeated, it turns."""

from __future__ import annotations

from types import MappingProxyType

from knotplot.curves.space import Point3, SpaceCurve, line, mirrored, smooth
from knotplot.knots.base import (
    SOFTNESS,
    CordUse,
    Form,
    Knot,
    KnotWords,
    Manner,
    along,
    filler_places,
    outer_port,
)
from knotplot.knots.solved import flat_excess

DOWN: Point3 = (0.0, 1.0, 0.0)
HEIGHT = 2.0 * SOFTNESS
PAIR = 0.95  # between two working strands that run side by side


def half_height(workers: int) -> float:
    """Return the height of a half knot with so many working strands a side, in diameters."""
    return HEIGHT + PAIR * (workers - 1)


def working_roles(strands: int, workers: int) -> tuple[str, ...]:
    """Return roles of a knot whose outermost strands work."""
    fillers = strands - 2 * workers
    return ("working",) * workers + ("filler",) * fillers + ("working",) * workers


def crossing(
    enter: float, leave: float, top: float, height: float, low: float, front: bool
) -> list[Point3]:
    """Return the way of a working strand from the left port to the right one, half a square knot.

    It enters at -`enter`, leaves at +`leave`; `low` drops its bar below that of its neighbour.
    The one in front passes over the fillers and under the other's standing part on the right;
    the one behind rises through the loop and lies over the other at both sides.
    """
    z = 1.0 if front else -1.0
    clasp = -0.55 if front else 0.55
    mid = top + 0.5 * height
    return [
        (-enter, top, 0.0),
        (-enter + 0.42, mid - 0.16 + 0.8 * low, clasp),
        (-0.45 * enter, mid + 0.2 + low, z),
        (0.35 * leave, mid + 0.14 + low, z),
        (leave - 0.48, mid - 0.02 + 0.8 * low, clasp),
        (leave, top + 0.82 * height, 0.5 * clasp),
    ]


def sides(fillers: int, workers: int) -> list[tuple[float, float, float]]:
    """Return (enter, leave, low) of each working strand of one side, outermost first.

    The outer one runs below the inner, so that a pair goes over side by side.
    """
    outer = outer_port(fillers) + PAIR * (workers - 1)
    return [
        (outer - PAIR * i, outer - PAIR * (workers - 1 - i), PAIR * ((workers - 1) / 2.0 - i))
        for i in range(workers)
    ]


def fillers_between(fillers: int, height: float) -> tuple[SpaceCurve, ...]:
    """Return the straight fillers of a flat knot of that height, about its middle."""
    width = 2.0 * outer_port(fillers) - 2.0
    return tuple(
        line((x, -height / 2.0, 0.0), (x, height / 2.0, 0.0)) for x in filler_places(fillers, width)
    )


class HalfKnot(Knot):
    """The first crossing of a square knot; the working strands change sides."""

    name = "half_knot"
    faces = True
    by_name = True
    minutes = 0.25
    words = MappingProxyType(
        {
            "en": KnotWords(
                "half knot",
                "half knots",
                (
                    "Facing left: lay the left working cord over the fillers and under the "
                    "right one.",
                    "Take the right working cord behind the fillers and up through the loop.",
                    "Pull both even. The two working cords have changed sides.",
                ),
                "If the twist changes direction, one knot was started from the other side.",
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
        height = half_height(workers)
        ways = sides(fillers, workers)
        from_left = [self._way(way, height, manner.facing != "right") for way in ways]
        from_right = [mirrored(self._way(way, height, manner.facing == "right")) for way in ways]
        paths = (*from_left, *fillers_between(fillers, height), *reversed(from_right))
        return Form(paths, height, outer_port(fillers) + PAIR * (workers - 1) + 0.5)

    def _way(self, way: tuple[float, float, float], height: float, front: bool) -> SpaceCurve:
        enter, leave, low = way
        points = crossing(enter, leave, -height / 2.0, height, low, front)
        return smooth([*points, (leave, height / 2.0, 0.0)], DOWN, DOWN)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        return flat_cord(self.name, manner, half_height(manner.workers))


def flat_cord(knot: str, manner: Manner, height: float) -> CordUse:
    """Return what a flat knot takes that is usually that high: solved, as flat as it is drawn."""
    fillers = manner.strands - 2 * manner.workers
    excess = flat_excess(knot, fillers, manner.workers, outer_port(fillers))
    return CordUse(
        {
            "working": excess + along(height / SOFTNESS, height, manner.tall),
            "filler": height * manner.tall,
        }
    )


KNOTS = (HalfKnot(),)
