"""Half knot: two working strands crossed once about the fillers; repeated, it turns."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from knotplot.curves.space import Point3, SpaceCurve, line, mirrored, smooth
from knotplot.knots.base import WHOLE, CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.shapes import led, moved, softened
from knotplot.knots.sizes import SOFTNESS, along, filler_places, outer_port
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
    the one behind rises through the loop and lies over the other at both sides. Where more than
    one work a side, bars rise so steeply that each passes every one of the other side. Bars keep
    before or behind the fillers to the outermost of those, 1.5 diameters inside the ports.
    """
    more = (height - HEIGHT) / PAIR  # working strands beside the first
    inner = (enter + leave - PAIR * more) / 2.0
    near, far, deep = (0.35, 0.2, 0.9) if more else (0.45, 0.35, 0.55)
    z = 1.0 if front else -1.0
    clasp = -deep if front else deep
    mid = top + 0.5 * height
    return [
        (-enter, top, 0.0),
        (-enter + 0.42, mid - 0.16, clasp),
        (-max(near * inner, inner - 1.5), mid + 0.2 + 0.45 * more + low, z),
        (max(far * inner, inner - 1.6), mid + 0.14 - 0.45 * more + low, z),
        (leave - 0.48 + 0.05 * more, mid - 0.02 - 0.25 * more + 0.8 * low, clasp),
        (leave, top + 0.82 * height, 0.5 * clasp),
    ]


def loose_crossing(enter: float, leave: float, top: float, low: float, front: bool) -> list[Point3]:
    """Return the same way, point for point, half open as it lies before it is pulled tight."""
    z = 1.0 if front else -1.0
    clasp = -0.55 if front else 0.55
    return [
        (-enter, top, 0.0),
        (-enter - 0.7, top + 2.9 + 0.5 * low, clasp),
        (-0.5 * enter - 0.3, top + 4.5 + low, z),
        (0.4 * leave, top + 3.1 + low, z),
        (leave + 0.7, top + 2.0 + low, clasp),
        (leave + 2.2, top + 2.4 + low, 0.5 * clasp),
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


def fillers_between(fillers: int, top: float, bottom: float) -> tuple[SpaceCurve, ...]:
    """Return the straight fillers of a flat knot, from `top` to `bottom`."""
    width = 2.0 * outer_port(fillers) - 2.0
    return tuple(line((x, top, 0.0), (x, bottom, 0.0)) for x in filler_places(fillers, width))


def groups(manner: Manner) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    """Return the working strands that pass in front first, those behind, and the fillers."""
    count, workers = manner.strands, manner.workers
    left, right = tuple(range(workers)), tuple(range(count - workers, count))
    first, second = (right, left) if manner.facing == "right" else (left, right)
    return first, second, tuple(range(workers, count - workers))


def laid(manner: Manner, first: float, second: float) -> tuple[float, ...]:
    """Return how much of each strand is in place: so much of those in front and behind."""
    front, behind, _ = groups(manner)
    return tuple(
        first if i in front else second if i in behind else WHOLE for i in range(manner.strands)
    )


def crossing_stages(
    manner: Manner, first: int, last: float, home: bool = False
) -> tuple[Stage, Stage, Stage]:
    """Return the stages of one crossing: front strands, those behind, and pulled tight.

    `first` and `last` say how far the working strands are in place before and after it; `home`
    whether the front ones come back, from the other side.
    """
    front, behind, fillers = groups(manner)
    side = 1.0 if (manner.facing == "right") == home else -1.0
    both = tuple(sorted((*front, *behind)))
    on_left = behind if side > 0.0 else front  # where they hang once both are laid
    pulls = tuple((-1.0 if i in on_left else 1.0, 0.7) for i in both)
    return (
        Stage(front, laid(manner, last, first + 1.0), ((side, 0.4),), fillers),
        Stage(behind, laid(manner, last, last), ((-side, 0.4),), fillers),
        Stage(both, laid(manner, last, last), pulls, fillers, tight=True),
    )


def loose_end(leave: float, top: float, low: float) -> Point3:
    """Return where a strand's end lies in the hand after a crossing that is half open."""
    return (leave + 3.4, top + 3.0 + low, 0.0)


LOOSE_OUT: Point3 = (1.0, 0.4, 0.0)
LOOSE_HEIGHT = 6.4  # of a crossing that is half open


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
        workers = manner.workers
        fillers = manner.strands - 2 * workers
        height = half_height(workers)
        ways = sides(fillers, workers)
        from_left = [self._way(way, height, manner.facing != "right") for way in ways]
        from_right = [mirrored(self._way(way, height, manner.facing == "right")) for way in ways]
        paths = (
            *from_left,
            *fillers_between(fillers, -height / 2.0, height / 2.0),
            *reversed(from_right),
        )
        return Form(paths, height, outer_port(fillers) + PAIR * (workers - 1) + 0.5)

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
        fillers = manner.strands - 2 * manner.workers
        ways = sides(fillers, manner.workers)
        right = manner.facing == "right"
        from_left = [_loose_way(way, top, not right) for way in ways]
        from_right = [mirrored(_loose_way(way, top, right)) for way in ways]
        straight = fillers_between(fillers, top, top + LOOSE_HEIGHT)
        return replace(made, paths=(*from_left, *straight, *reversed(from_right)))

    def _way(self, way: tuple[float, float, float], height: float, front: bool) -> SpaceCurve:
        enter, leave, low = way
        points = crossing(enter, leave, -height / 2.0, height, low, front)
        return smooth([*points, (leave, height / 2.0, 0.0)], DOWN, DOWN)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        return flat_cord(self.name, manner, crossings=1)


def _loose_way(way: tuple[float, float, float], top: float, front: bool) -> SpaceCurve:
    enter, leave, low = way
    points = loose_crossing(enter, leave, top, low, front)
    return smooth([*points, loose_end(leave, top, low)], DOWN, LOOSE_OUT)


def pulled_tight(made: Form, manner: Manner, pattern: str) -> Form:
    """Return a flat knot as solved (an entry for 1 and 2 fillers), between the ports of its form.

    Its turns are the same on any fillers: they are moved to where the form has its sides, and the
    bars between them are as long as that leaves. Knots with more working strands aren't solved.
    """
    fillers = manner.strands - 2 * manner.workers
    if manner.workers > 1 or fillers < 1:
        return made
    lines = softened(pattern.format(min(fillers, 2)))
    if manner.facing == "right":
        lines = tuple(mirrored(curve) for curve in reversed(lines))
    outermost = max(abs(cubic[9]) for curve in lines for cubic in curve)
    aside = made.half_width - 0.5 - outermost
    bar = 0.5 if fillers == 1 else 0.9  # half of what lies between the turns

    def place(at: Point3) -> Point3:
        x, y, z = at
        return (x + aside * min(max(x / bar, -1.0), 1.0), y, z)

    sides = (made.paths[0], made.paths[-1])
    left, right = (led(moved(c, place), form) for c, form in zip(lines, sides, strict=True))
    return replace(made, paths=(left, *made.paths[1:-1], right))


def flat_cord(knot: str, manner: Manner, crossings: int) -> CordUse:
    """Return what a flat knot takes: solved, as flat as it is drawn.

    In each of its `crossings` the working strands change sides: it is so many half knots high.
    """
    height = crossings * half_height(manner.workers)
    fillers = manner.strands - 2 * manner.workers
    excess = flat_excess(knot, fillers, manner.workers, outer_port(fillers), crossings)
    return CordUse(
        {
            "working": excess + along(height / SOFTNESS, height, manner.tall),
            "filler": height * manner.tall,
        }
    )


KNOTS = (HalfKnot(),)
