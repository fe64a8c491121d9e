"""Switched square knot: workers and fillers change over, then a square knot is tied."""

from __future__ import annotations

from functools import cache
from types import MappingProxyType

from knotplot.curves.bezier import length_of
from knotplot.curves.space import DOWN, SpaceCurve, mapped, mirrored, sample, smooth
from knotplot.knots.base import WHOLE, CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.flat import flat_cord
from knotplot.knots.sizes import filler_places, outer_port
from knotplot.knots.square_knot import KNOTS as _SQUARE

CHANGE = 1.6  # height in which they change over: two diameters of cord that lean
OVER = 0.6
CUBICS = 2.0  # of a strand that changes over
SQUARE = _SQUARE[0]


class SwitchedSquareKnot(Knot):
    """The two inner strands come out before the outer ones and work; those are its fillers.

    Every strand leaves in the lane of its neighbour, so that in a sennit they take turns.
    """

    name = "switched_square_knot"
    faces = True
    by_name = True
    alone = "one working strand a side"
    difficulty = Difficulty.SOME
    least = 4
    most = 4
    minutes = 0.6
    words = MappingProxyType(
        {
            "en": KnotWords(
                "switched square knot",
                "switched square knots",
                "If one cord runs straight down an edge past two knots, or stands behind its "
                "neighbour where they cross, those two were not changed over before the knot.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("filler", "working", "working", "filler")

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands: they change over, above the curves of the knot."""
        knot = SQUARE.form(manner)
        half = (knot.height + CHANGE) / 2.0
        left, one, two, right = (
            mapped(path, lambda x, y, z: (x, y + CHANGE / 2.0, z)) for path in knot.paths
        )
        outer, inner = _ports()
        out, in_ = _change(inner, outer, OVER, -half), _change(outer, inner, -OVER, -half)
        paths = (in_ + one, out + left, mirrored(out) + right, mirrored(in_) + two)
        return Form(paths, 2.0 * half, knot.half_width)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: left, right, and a square knot."""
        left = Stage((1,), (WHOLE, CUBICS, 0.0, 0.0), ((-1.0, 0.6),))
        right = Stage((2,), (WHOLE, CUBICS, CUBICS, WHOLE), ((1.0, 0.6),))
        pulls = ((-1.0, 0.7), (1.0, 0.7))
        knot = Stage((1, 2), pull=pulls, held=(0, 3), tight=True, tied=(SQUARE.name, 1))
        return (left, right, knot)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role: a square knot's, solved, and the way across."""
        knot = flat_cord(SQUARE.name, manner, crossings=2)
        way = {role: way + CHANGE * manner.tall for role, way in knot.way.items()}
        more = _across() - CHANGE
        return CordUse(way, {role: knot.excess.get(role, 0.0) + more for role in way})


def _ports() -> tuple[float, float]:
    """Return how far from the middle the outer and the inner strands of a side are."""
    outer = outer_port(2)
    return outer, filler_places(2, 2.0 * outer - 2.0)[1]


def _change(enter: float, leave: float, z: float, top: float) -> SpaceCurve:
    """Return the way of a left strand from port to port as its side changes over."""
    middle = (-(enter + leave) / 2.0, top + CHANGE / 2.0, z)
    return smooth([(-enter, top, 0.0), middle, (-leave, top + CHANGE, 0.0)], DOWN, DOWN)


@cache
def _across() -> float:
    """Return the length of a strand that changes over, in diameters."""
    outer, inner = _ports()
    return length_of(sample(_change(inner, outer, OVER, 0.0), 12))


KNOTS = (SwitchedSquareKnot(),)
