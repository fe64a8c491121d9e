"""What flat knots share: working strands of both sides that cross about straight fillers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from knotplot.curves.space import Point3, SpaceCurve, line, mirrored
from knotplot.knots.base import WHOLE, CordUse, Form, Manner, Stage
from knotplot.knots.shapes import led, moved, softened
from knotplot.knots.sizes import SOFTNESS, filler_places, lost_height, outer_port
from knotplot.knots.solved import flat_excess, flat_width

HEIGHT = 2.0 * SOFTNESS
PAIR = 0.95  # between two working strands that run side by side
LOOSE_OUT: Point3 = (1.0, 0.4, 0.0)
LOOSE_HEIGHT = 6.4  # of a crossing that is half open

Way = tuple[float, float, float]  # of a working strand: enter, leave, low (see `crossing`)


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


def strands(
    manner: Manner, made: Callable[[Way, bool], SpaceCurve], top: float, bottom: float
) -> tuple[SpaceCurve, ...]:
    """Return the curves of a flat knot, left to right, straight fillers from `top` to `bottom`.

    `made` gives a working strand that enters at the left, by its way and whether it is in front;
    at the right it is mirrored. The outer one of a side runs below the inner, so that a pair goes
    over side by side.
    """
    fillers, more = manner.strands - 2 * manner.workers, manner.workers - 1
    outer = _outer(manner)
    ways = [
        (outer - PAIR * i, outer - PAIR * (more - i), PAIR * (more / 2.0 - i))
        for i in range(manner.workers)
    ]
    right = manner.facing == "right"
    from_left = [made(way, not right) for way in ways]
    from_right = [mirrored(made(way, right)) for way in ways]
    places = filler_places(fillers, 2.0 * outer_port(fillers) - 2.0)
    straight = [line((x, top, 0.0), (x, bottom, 0.0)) for x in places]
    return (*from_left, *straight, *reversed(from_right))


def flat_form(manner: Manner, made: Callable[[Way, bool], SpaceCurve], crossings: int) -> Form:
    """Return a flat knot of so many crossings, its working strands `made` as in `strands`."""
    height = crossings * half_height(manner.workers)
    paths = strands(manner, made, -height / 2.0, height / 2.0)
    fillers, more = manner.strands - 2 * manner.workers, PAIR * (manner.workers - 1)
    wide = flat_width("half_knot" if crossings == 1 else "square_knot", fillers) / 2.0 + more
    return Form(paths, height, max(wide, _outer(manner) + 0.5))


def _outer(manner: Manner) -> float:
    """Return how far from the middle the outermost working strands enter and leave."""
    return outer_port(manner.strands - 2 * manner.workers) + PAIR * (manner.workers - 1)


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


def pulled_tight(made: Form, manner: Manner, pattern: str) -> Form:
    """Return a flat knot as solved (an entry for 1 and 2 fillers), between the ports of its form.

    Its turns are the same on any fillers: they are moved to where the form has its sides, and the
    bars between them are as long as that leaves. So a knot is drawn a little narrower than it is
    (`flat_width`): its sides would have to lean out from the ports, and into each other. Knots with
    more working strands aren't solved.
    """
    fillers = manner.strands - 2 * manner.workers
    if manner.workers > 1 or fillers < 1:
        return made
    lines = softened(pattern.format(min(fillers, 2)))
    if manner.facing == "right":
        lines = tuple(mirrored(curve) for curve in reversed(lines))
    outermost = max(abs(cubic[9]) for curve in lines for cubic in curve)
    aside = _outer(manner) - outermost
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
    way = height * manner.tall
    return CordUse({"working": way, "filler": way}, {"working": excess + lost_height(height)})
