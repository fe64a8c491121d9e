"""English: what is done in a frame of a technique, in a sentence or two."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import assert_never

from knotplot.instructions.how_to import Way
from knotplot.instructions.techniques import (
    Add,
    Cross,
    End,
    Hitch,
    Lay,
    More,
    Push,
    Step,
    Tie,
    Upright,
    WorkIn,
)
from knotplot.knots import knot
from knotplot.tying.names import capital
from knotplot.units import both

_WAYS: dict[Way, str] = {
    "left": "level to the left", "right": "level to the right",
    "down left": "down to the left", "down right": "down to the right",
}  # fmt: skip
_NUMBERS = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}


def sentence(steps: tuple[Step, ...]) -> str:
    """Return what is done in a frame."""
    ties = [step for step in steps if isinstance(step, Tie) and not step.bare]
    if len(ties) > 1 and len(ties) == len(steps) and len({step.name for step in ties}) == 1:
        told = [_several(ties)]
    else:
        told = [_one(step) for step in steps]
    return " ".join(f"{capital(text)}." for text in told)


def cords(numbers: Sequence[int]) -> str:
    """Return cords by number, three and more that follow each other, up or down, as a range.

    >>> cords((1, 2, 3, 4)), cords((7, 6, 5)), cords((2,)), cords((1, 2, 5, 4))
    ('cords 1 to 4', 'cords 7 to 5', 'cord 2', 'cords 1, 2, 5 and 4')
    """
    if len(numbers) == 1:
        return f"cord {numbers[0]}"
    if len(numbers) > 2 and {b - a for a, b in pairwise(numbers)} in ({1}, {-1}):
        return f"cords {numbers[0]} to {numbers[-1]}"
    *before, last = map(str, numbers)
    return f"cords {', '.join(before)} and {last}"


def _one(step: Step) -> str:
    match step:
        case Lay():
            return _lay(step)
        case Hitch():
            return _hitch(step)
        case Upright():
            return _upright(step)
        case Tie():
            return _tie(step)
        case More():
            return _more(step)
        case Push():
            if step.again:
                return f"hold {cords(step.held)} straight and push it up in the same way"
            return (
                f"hold {cords(step.held)} straight and push the {_name(step.name)} up against the "
                f"one above: the bare cord of {cords(step.cords)} stands out in a picot at each "
                "side"
            )
        case Add():
            bar = "in front" if step.front else "at the back"
            return (
                f"fold a new cord in half and loop it onto {cords((step.on,))} by a "
                f"{_name(step.name)}, its bar {bar}: its ends, {cords(step.ends)}, hang to the "
                f"{step.side}"
            )
        case Cross():
            return f"lay cord {step.over} over cord {step.under}, so that they change places"
        case End():
            return f"let {cords(step.cords)} end: leave {both(step.length)} of it at the back"
        case WorkIn():
            return (
                f"turn the work over, draw the end of {cords(step.cords)} upwards under the back "
                f"of the {_name(step.name)} above, pull it snug and trim it"
            )
    assert_never(step)


def _several(ties: Sequence[Tie]) -> str:
    """Return knots of one kind side by side."""
    first, *rest = ties
    others = " and one on ".join(cords(step.cords) for step in rest)
    told = f"tie {_a(first.name)} on {cords(first.cords)} and one on {others}"
    sides = {step.side for step in ties}
    side = sides.pop() if len(sides) == 1 else None
    return f"{told}, the cord at the {side} first in each" if side else told


def _name(name: str) -> str:
    return knot(name).words["en"].one


def _a(name: str) -> str:
    told = _name(name)
    return f"an {told}" if told[0] in "aeiou" else f"a {told}"


def _leader(leader: int | None) -> str:
    return "the leader" if leader is None else f"cord {leader}"


def _lay(step: Lay) -> str:
    who = "a separate leader" if step.leader is None else f"cord {step.leader}"
    way = _WAYS.get(step.way, step.way)
    return f"lay {who} over {cords(step.over)}, {way}, and hold it straight: it leads"


def _hitch(step: Hitch) -> str:
    if len(step.cords) == 1:
        close = ", close to the last" if step.again else ", and pull it close"
        return f"tie {_a(step.name)} with {cords(step.cords)} onto {_leader(step.leader)}{close}"
    name = "one" if step.again else _a(step.name)
    return (
        f"tie {name} with each of {cords(step.cords)} in turn, close to the last, while "
        f"{_leader(step.leader)} stays straight"
    )


def _upright(step: Upright) -> str:
    side = "over" if step.over else "under"
    way = "to the right" if step.way == "right" else "to the left"
    if step.again:
        each = cords(step.leaders) if len(step.leaders) == 1 else f"each of {cords(step.leaders)}"
        return f"go on {way} with cord {step.worker}: {side} and round {each} in the same way"
    turn = f"back {way}" if step.back else way
    last = cords(step.leaders[:1])
    told = (
        f"take cord {step.worker} {turn}, {side} {last}, and tie {_a(step.name)} round it while "
        f"{last} hangs straight"
    )
    rest = step.leaders[1:]
    return f"{told}; then round each of {cords(rest)}" if rest else told


def _tie(step: Tie) -> str:
    if step.wrapped:
        return (
            f"bind {cords(step.cords)} together with {_a(step.name)}, wound with a cord of its own"
        )
    if step.first is None:
        told = f"tie {cords(step.cords)} together as one in {_a(step.name)}"
    elif step.bare:
        told = f"leave {both(step.bare)} bare and tie {_a(step.name)} on {cords(step.cords)}"
    elif step.below:
        told = f"tie another {_name(step.name)} close below"
    else:
        told = f"tie {_a(step.name)} on {cords(step.cords)}"
    if step.above:
        told += f", {_NUMBERS.get(step.above, step.above)} of each knot above"
    if step.first is not None and not step.bare:
        parts = [f"{'over' if p.over else 'under'} {cords(p.cords)}" for p in step.passes]
        told += f": cord {step.first} first, {' and '.join(parts)}"
        if step.pulled and not step.below:
            told += f"; pull {cords(step.pulled)} to the sides"
    if step.idle:
        told += f"; {cords(step.idle)} hang" + ("s free" if len(step.idle) == 1 else " free")
    return told


def _more(step: More) -> str:
    count = _NUMBERS.get(step.times, str(step.times))
    order = ""
    if step.side and step.turns:
        other = "right" if step.side == "left" else "left"
        order = f", the cord at the {step.side} first, then that at the {other}, in turn"
    elif step.side:
        order = f", the cord at the {step.side} first each time"
    return f"tie {count} more, one close below another{order}"
