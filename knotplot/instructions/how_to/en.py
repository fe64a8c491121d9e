"""English: a stage of tying in one or two sentences."""

from __future__ import annotations

from itertools import pairwise

from knotplot.instructions.how_to import Cords, Pass, Step, Way
from knotplot.knots import knot
from knotplot.tying.names import capital

_WAYS: dict[Way, str] = {
    "left": "to the left", "right": "to the right", "up": "upwards", "down": "downwards",
    "up left": "up to the left", "up right": "up to the right",
    "down left": "down to the left", "down right": "down to the right", "sides": "to the sides",
}  # fmt: skip
_LOOPS = {way: told.removeprefix("to the ").removesuffix("wards") for way, told in _WAYS.items()}
_TURNS = {"left": "to the left", "right": "to the right"}
_OPPOSITE: dict[Way, Way] = {
    "left": "right", "right": "left", "up": "down", "down": "up", "up left": "down right",
    "down right": "up left", "up right": "down left", "down left": "up right", "sides": "sides",
}  # fmt: skip
_ONE = {
    "working": "working cord", "filler": "filler cord", "leader": "leader",
    "knotting": "knotting cord", "wrap": "wrapping cord", "rod": "rod", "bundle": "bundle",
    "fold": "loop", "ends": "end", "crossing": "cord", "mount": "cord",
}  # fmt: skip
_SIDES = ("in front of", "behind")
_COUNTS = {1: "a", 2: "two", 3: "three", 4: "four"}
_TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times"}


def sentence(step: Step) -> str:
    """Return what a stage of tying is told in."""
    if step.tight:
        text = _tight(step)
    elif step.bight:
        text = _bight(step)
    else:
        text = _lay(step)
    told = capital(text) + "."
    if step.tied is None:
        return told
    name, count = step.tied
    words = knot(name).words["en"]
    return f"Tie {_COUNTS.get(count, count)} {words.one if count == 1 else words.many}. {told}"


def _lay(step: Step) -> str:
    """Return how a cord is laid: what it passes, and where its end is led."""
    first = _first(step)
    if step.loop:
        where = f"in a long loop that points {_LOOPS[step.loop]}"
        return f"{first} {_listed(_parts(step))} {where}, its end led {_WAYS[step.way]}"
    if step.times > 1:
        times = _TIMES.get(step.times, f"{step.times} times")
        return f"{first} round {times}: {_listed(_parts(step))}"
    parts = _parts(step)
    if step.through is None:
        told = f"{first} {_listed(parts)}"
    else:
        told = f"{first} {_listed(parts[: step.through])}, then {_listed(parts[step.through :])}"
    if step.own:
        return f"{told}: that makes a loop"
    if step.moves[0].role == "leader":
        return f"{told}, lead it {_WAYS[step.way]} and hold it straight"
    return told if step.way == "down" else f"{told}, out {_WAYS[step.way]}"


def _parts(step: Step) -> list[str]:
    """Return what is passed, part by part; where the cord turns round, with its direction."""
    parts: list[str] = []
    ways = [each.way for each in step.passes]
    turns = any(_OPPOSITE[one] == other for one, other in pairwise(ways))
    for i, each in enumerate(step.passes):
        same = i > 0 and step.through is None and each.cords == step.passes[i - 1].cords
        told = _pass(each, it=same and len(each.cords) == 1 and each.cords[0].number == 1)
        new = i == 0 or ways[i] != ways[i - 1]
        if i == step.through:
            told = f"{'up' if each.over else 'down'} through the loop, {told}"
        elif step.times > 1:
            told += " in front" if each.over else " behind"
        elif turns and new:
            told = f"{_TURNS.get(each.way, each.way)} {told}"
        parts.append(told)
    return parts


def _first(step: Step) -> str:
    """Return the verb and what is moved."""
    cords = " and ".join(map(_the, step.moves))
    together = step.moves[0].role == "working" and step.moves[0][1::2] == (None, None)
    if together and step.first:
        count = step.moves[0].number
        cords = "the cord" if count == 1 else f"{_every(count)} cords together as one"
    elif together:
        cords = "the end" if step.moves[0].number == 1 else "the ends"
    if step.times > 1:
        return f"wind {cords}"
    verb = "lay" if step.passes and step.passes[0].over else "take"
    if step.again:
        return f"once more {verb} {cords}"
    return f"now {verb} {cords} back" if step.back else f"{verb} {cords}"


def _pass(each: Pass, it: bool = False, names: tuple[str, str] = ("over", "under")) -> str:
    """Return what is passed on one side; as "it" where it is what was passed before."""
    side = names[0] if each.over else names[1]
    if it:
        return f"{side} it"
    return f"{side} {_listed([_the(cords, one=True) for cords in each.cords])}"


def _bight(step: Step) -> str:
    """Return how the fold of a cord is laid."""
    told = _listed(
        [f"{_LOOPS[each.way]} {_pass(each, names=_SIDES)}" for each in step.passes]
        if step.first
        else [_pass(each, names=_SIDES) for each in step.passes]
    )
    if step.first:
        return f"fold the cord in half and take its loop {told}"
    verb = "bring the loop forward" if step.passes[-1].over else "take the loop back"
    return f"{verb}, {told}: the ends now hang through it"


def _tight(step: Step) -> str:
    """Return how what was laid is drawn up."""
    kind = step.moves[0].role
    if kind == "wrap":
        return "pull the top end upwards until the loop is inside the turns, then trim both ends"
    cords = _all_of(step.moves)
    if kind == "working" and step.moves[0].side is None:
        cords = "the end" if step.moves[0].number == 1 else "the ends"
    told = f"pull {cords} {_WAYS[step.way]}"
    if step.held:
        told += f" while you hold {_listed([_the(each) for each in step.held])} straight"
    if step.done:
        return f"{told}, until the knot is tight"
    return f"{told}, until they lie snug"


def _all_of(moves: tuple[Cords, ...]) -> str:
    """Return cords that are pulled together."""
    count = sum(cords.number for cords in moves)
    name = _ONE[moves[0].role]
    if len(moves) > 1:
        return f"{_every(count)} {name}s evenly"
    return _the(moves[0])


def _the(cords: Cords, one: bool = False) -> str:
    """Return cords of one kind with their article or number; working ones as `one` if asked."""
    role, side, count, place = cords
    if role == "self":
        return "itself" if count == 1 else "themselves"
    noun = "one" if one and role == "working" else _ONE[role]
    name = " ".join(word for word in (place, side, noun) if word)
    if count == 1 or role == "bundle":
        return f"the {name}"
    if count > 2 and side:
        return f"the {name}s"
    return f"{_every(count)} {name}s"


def _every(count: int) -> str:
    return {0: "all the", 2: "both"}.get(count, f"all {count}")


def _listed(parts: list[str]) -> str:
    """Return parts as a list: commas, and an "and" before the last."""
    if len(parts) < 3:
        return " and ".join(parts)
    return ", ".join(parts[:-1]) + " and " + parts[-1]
