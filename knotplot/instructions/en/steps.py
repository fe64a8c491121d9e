"""Steps of a motif."""

from __future__ import annotations

from typing import assert_never

from knotplot.instructions.en.names import (
    count_cords,
    facing_knot,
    figure,
    from_to,
    many_knots,
    numbered,
    one_knot,
    times_more,
)
from knotplot.instructions.records import (
    AddCords,
    Bar,
    Bare,
    Cross,
    EndCords,
    Figure,
    PlacesKnot,
    Step,
    StepsAgain,
    Upright,
)
from knotplot.instructions.wording import Wording
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.tying.names import capital, listed
from knotplot.units import both


def figure_line(record: Figure) -> str:
    """Return the heading of a motif's steps."""
    return f"{capital(figure(record.name))}, worked on {count_cords(record.name.cords)}:"


def step_line(record: Step | StepsAgain) -> Wording:
    """Return the line of one step, or of steps worked again, with its number or theirs."""
    match record:
        case Step():
            return Wording(f"{capital(_step(record))}.", number=str(record.number))
        case StepsAgain():
            like = numbered("step", record.like)
            which = from_to((record.first, record.last))
            text = f"Work {like} again, {times_more(record.times)}, and count on."
            return Wording(text, number=which)
    assert_never(record)


def _step(record: Step) -> str:
    what = record.what
    match what:
        case Cross():
            return f"cross the cord in place {what.over} over the cord in place {what.under}"
        case Bar():
            return _bar(what)
        case Upright():
            side = "right" if what.to > what.start else "left"
            n = abs(what.to - what.start)
            on = f"one on each of the {n} cords it passes" if n > 1 else "on the cord it passes"
            name = many_knots(what.name) if n > 1 else one_knot(what.name)
            return (
                f"the cord in place {what.start} works to the {side}, to place {what.to}: {name}, "
                f"{on}"
            )
        case PlacesKnot():
            name = facing_knot(one_knot(what.name), what.facing, what.workers)
            if what.first == what.last:
                return f"{name} in place {what.first}"
            return f"{name} on places {what.first}–{what.last}{_fillers(what)}{_picot(what)}"
        case AddCords():
            return _added(what)
        case EndCords():
            return _ended(what)
        case Bare():
            return f"leave {both(what.length)} of every cord bare before the next step"
    assert_never(what)


def _bar(bar: Bar) -> str:
    side = "right" if bar.to > bar.start else "left"
    lie = "diagonal" if bar.angle is None else "horizontal" if bar.angle == 0 else (
        f"diagonal ({bar.angle:g}° below level)"
    )  # fmt: skip
    n = bar.hitches
    passed = f"the {n} cords it passes are hitched onto it one after another" if n > 1 else (
        "the cord it passes is hitched onto it"
    )  # fmt: skip
    row = f"a {lie} row of {many_knots(bar.name)}" if n > 1 else one_knot(bar.name)
    text = f"the cord in place {bar.start} leads to the {side}, to place {bar.to}: {row}; {passed}"
    if bar.times > 1:
        text += (
            f"; work this {bar.times} times in all, each time with the cord that then hangs in "
            f"place {bar.start}"
        )
    return text


def _picot(knot_step: PlacesKnot) -> str:
    if not knot_step.picot:
        return ""
    return (
        f"; leave a picot of {both(knot_step.picot)} at each side: so much more of each working "
        "cord stands out above the knot in a loop"
    )


def _fillers(knot_step: PlacesKnot) -> str:
    if knot(knot_step.name).as_one:
        return ", all cords taken as one"
    count = knot_step.last - knot_step.first + 1
    manner = Manner(count, knot_step.facing, knot_step.workers)
    roles = knot(knot_step.name).roles(manner)
    working, fillers = roles.count("working"), roles.count("filler")
    several = {2: "two", 4: "four", 6: "six"}.get(working, str(working))
    if not fillers:
        return ", both work" if working == 2 else f", all {several} work"
    rest = f"{count_cords(fillers)} {'is a filler' if fillers == 1 else 'are fillers'}"
    if working == 1:
        return f": the one at the {knot_step.facing} works, {rest}"
    return f": the {'outer' if roles[0] == 'working' else 'inner'} {several} work, {rest}"


def _added(added: AddCords) -> str:
    first, last = added.places
    side = "left" if added.left else "right"
    now = f"; it then hangs in place {last + 1}" if added.left else ""
    if added.cords == 1:
        return (
            f"loop a new cord, folded in half, by a {one_knot(added.name)} onto the cord in place "
            f"{added.place}: its 2 ends hang to the {side} of it, in places {first}–{last}{now}"
        )
    return (
        f"loop {added.cords} new cords, each folded in half, by {many_knots(added.name)} onto the "
        f"cord in place {added.place}, the uppermost furthest out: their {2 * added.cords} ends "
        f"hang to the {side} of it, in places {first}–{last}{now}"
    )


def _ended(ended: EndCords) -> str:
    left = f"with {both(ended.length)} left at the back"
    if len(ended.places) == 1:
        return (
            f"end the cord in place {ended.places[0]}, {left}, and count places without it from "
            "here on"
        )
    places = listed([str(place) for place in ended.places])
    return (
        f"end the cords in places {places}, each {left}, and count places without them from here on"
    )
