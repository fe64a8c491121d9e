"""Half knot: two working strands crossed once about the fillers; repeated, it turns."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from knotplot.curves.space import DOWN, SpaceCurve, smooth
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


class HalfKnot(Knot):
    """The first crossing of a square knot; the working strands change sides."""

    name = "half_knot"
    faces = True
    by_name = True
    difficulty = Difficulty.EASY
    minutes = 0.25
    words = MappingProxyType(
        {
            "en": KnotWords(
                "half knot",
                "half knots",
                "If the twist stops and turns back, the first knot below that place was started "
                "from the other side.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return working_roles(manner.strands, manner.workers)

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        height = half_height(manner.workers)
        return flat_form(manner, lambda way, front: _way(way, height, front), 1)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied."""
        return crossing_stages(manner, 0, WHOLE)

    def tight_form(self, manner: Manner) -> Form:
        """Return how it looks pulled tight: solved on as many fillers, or on two."""
        return pulled_tight(self.form(manner), manner, "half_knot/{}/row")

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage."""
        if drawn := self.drawn_up(manner, stage):
            return drawn
        made = self.tied(manner)
        top = -made.height / 2.0
        paths = strands(
            manner, lambda way, front: _loose_way(way, top, front), top, top + LOOSE_HEIGHT
        )
        return replace(made, paths=paths)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        return flat_cord(self.name, manner, crossings=1)


def _way(way: Way, height: float, front: bool) -> SpaceCurve:
    """Return the curve of a strand that starts on the left: over, or behind."""
    enter, leave, low = way
    points = crossing(enter, leave, -height / 2.0, height, low, front)
    return smooth([*points, (leave, height / 2.0, 0.0)], DOWN, DOWN)


def _loose_way(way: Way, top: float, front: bool) -> SpaceCurve:
    enter, leave, low = way
    points = loose_crossing(enter, leave, top, low, front)
    return smooth([*points, loose_end(leave, top, low)], DOWN, LOOSE_OUT)


KNOTS = (HalfKnot(),)
