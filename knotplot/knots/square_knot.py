"""Square knot (flat knot): two half knots, the second the mirror of the first."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from knotplot.curves.space import DOWN, Point3, SpaceCurve, smooth
from knotplot.knots.base import WHOLE, CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.flat import (
    LOOSE_HEIGHT,
    LOOSE_OUT,
    Way,
    crossing,
    crossing_stages,
    flat_cord,
    flat_form,
    half_height,
    loose_crossing,
    loose_end,
    pulled_tight,
    strands,
    working_roles,
)


class SquareKnot(Knot):
    """Two crossings about the fillers; every strand leaves in the lane it came in."""

    name = "square_knot"
    faces = True
    by_name = True
    difficulty = Difficulty.EASY
    minutes = 0.5
    words = MappingProxyType(
        {
            "en": KnotWords(
                "square knot",
                "square knots",
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
        half = half_height(manner.workers)
        return flat_form(manner, lambda way, front: _there_and_back(way, half, front), 2)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: one crossing, and the same from the other side."""
        return (
            *crossing_stages(manner, 0, MIDDLE),
            *crossing_stages(manner, MIDDLE, WHOLE, home=True),
        )

    def tight_form(self, manner: Manner) -> Form:
        """Return how it looks pulled tight: as in a solved sennit on as many fillers, or on two."""
        return pulled_tight(self.form(manner), manner, "square_knot/{}/sennit")

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage: one of its halves half open."""
        if drawn := self.drawn_up(manner, stage):
            return drawn
        half, second = half_height(manner.workers), stage > 2
        bottom = LOOSE_HEIGHT - (0.0 if second else half)
        paths = strands(
            manner, lambda way, front: _half_open(way, half, front, second), -half, bottom
        )
        return replace(self.tied(manner), paths=paths)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        return flat_cord(self.name, manner, crossings=2)


def _there_and_back(way: Way, half: float, front: bool) -> SpaceCurve:
    """Return the curve of a strand that starts on the left: over (or behind), and back."""
    enter, leave, low = way
    there = crossing(enter, leave, -half, half, low, front)
    back: list[Point3] = [(-x, y, z) for x, y, z in crossing(leave, enter, 0.0, half, -low, front)]
    return smooth([*there[:-1], (leave, 0.0, 0.0), *back[1:], (-enter, half, 0.0)], DOWN, DOWN)


def _half_open(way: Way, half: float, front: bool, second: bool) -> SpaceCurve:
    """Return the same curve with its first or its second half open."""
    enter, leave, low = way
    if second:
        there = crossing(enter, leave, -half, half, low, front)
        back = [*loose_crossing(leave, enter, 0.0, -low, front), loose_end(enter, 0.0, -low)]
        home = [(-x, y, z) for x, y, z in back[1:]]
        points = [*there[:-1], (leave, 0.0, 0.0), *home]
        return smooth(points, DOWN, (-LOOSE_OUT[0], LOOSE_OUT[1], 0.0))
    bottom = LOOSE_HEIGHT - 2.0 * half
    there = loose_crossing(enter, leave, -half, low, front)
    back = [(-x, y, z) for x, y, z in crossing(leave, enter, bottom, half, -low, front)]
    middle = loose_end(leave, -half, low)
    return smooth([*there[:-1], middle, *back[1:], (-enter, bottom + half, 0.0)], DOWN, DOWN)


MIDDLE = 5  # cubics of a working strand in its first half

KNOTS = (SquareKnot(),)
