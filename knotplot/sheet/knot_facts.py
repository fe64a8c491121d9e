"""What is told of a knot beside its pictures: what it is tied on, its cord and its time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from knotplot.knots import knot
from knotplot.knots.base import Knot, Manner
from knotplot.sheet.measures import plain
from knotplot.sheet.words import Words
from knotplot.units import both

USUAL_CORD = 4.0  # mm, where no pattern says another: common practice
_FEW = 4  # counts of cords that are told one by one
_LONG_TIE = 1.5  # minutes, from which they are told as such


def knot_facts(name: str, manner: Manner, diameter: float, say: Words) -> list[tuple[str, str]]:
    """Return label and text of what is told of a knot tied in that manner, in that cord (mm)."""
    mine = knot(name)
    return [
        (say("tied on"), tied_on(mine, manner, diameter, say)),
        (say("takes"), takes(mine, manner, diameter, say)),
        (say("pace"), pace(mine, say)),
        (say("difficulty"), say(f"difficulty {mine.difficulty.value}")),
    ]


def tied_on(mine: Knot, manner: Manner, diameter: float, say: Words) -> str:
    """Return on how many cords a knot can be tied, on which it is here, and how it can face."""
    folded = "mount" in mine.roles(manner)
    roles = _listed(
        [
            say(f"{role} one" if count == 1 else f"{role} many", count=count)
            for role, count in _cast(mine, manner).items()
        ],
        say,
    )
    facts = [roles if folded else say("tied here", range=counts(mine, say), roles=roles)]
    rod = 2.0 * manner.reach if folded else manner.rod
    if rod != 1.0:
        facts[0] = f"{facts[0]} {say('tied rod', thick=both(rod * diameter))}"
    if mine.faces and manner.facing:
        facts.append(say(f"faces {manner.facing}"))
    return say("list facts").join(facts)


def takes(mine: Knot, manner: Manner, diameter: float, say: Words) -> str:
    """Return the cord a knot takes by role: in diameters, and in cord of that diameter (mm)."""
    cast = _cast(mine, manner)
    found = sorted(mine.cord(manner).by_role.items(), key=lambda each: (-each[1], each[0]))
    used = [(role, taken) for role, taken in found if role != "leader" and taken > 0.0]
    parts: list[str] = []
    for role, taken in used:
        whom = say(f"{role} takes one" if cast[role] == 1 else f"{role} takes many")
        key = "takes next" if parts else "takes first"
        parts.append(say(key, number=_about(taken), whom=whom))
    lengths = _listed([both(taken * diameter) for _, taken in used], say)
    cord = plain(diameter, 2)
    told = say("takes text", diameters=_listed(parts, say), diameter=cord, lengths=lengths)
    facts = [told, *([say("takes leader")] if cast["leader"] else [])]
    facts += [say("takes drawn")] if mine.cord(manner).drawn else []
    return say("list facts").join(facts)


def pace(mine: Knot, say: Words) -> str:
    """Return how long practised hands take to tie a knot."""
    if mine.minutes >= _LONG_TIE:
        return say("pace minutes", minutes=plain(mine.minutes))
    seconds = max(5, 5 * round(mine.minutes * 12.0))
    return say("pace minute") if seconds == 60 else say("pace seconds", seconds=seconds)


def in_one_line(name: str, manner: Manner, diameter: float, say: Words) -> str:
    """Return what a knot is called and all that is told of it, as in a list."""
    mine = knot(name)
    told = [text for _, text in knot_facts(name, manner, diameter, say)]
    if mine.by_name:
        told.append(say("by name"))
    return f"{say.knot(name)}: {say('list facts').join(told)}"


def counts(mine: Knot, say: Words) -> str:
    """Return on how many cords a knot can be tied, as it says of itself."""
    if mine.most is None:
        return say("tied one more" if mine.least == 1 else "tied more", least=mine.least)
    legal = [n for n in range(mine.least, mine.most + 1) if mine.fault(n, 1) is None]
    least, most = legal[0], f"{legal[-1]:,}"
    if legal == [1]:
        return say("tied one")
    if len(legal) <= _FEW:
        return say("tied few", counts=_listed([str(n) for n in legal], say, "list or"))
    even = all(n % 2 == 0 for n in legal)
    return say("tied even" if even else "tied range", least=least, most=most)


def _listed(texts: Sequence[str], say: Words, last: str = "list and") -> str:
    """Return texts as a list in words."""
    *before, end = texts
    return say(last).join((say("list").join(before), end)) if before else end


def _cast(mine: Knot, manner: Manner) -> Counter[str]:
    """Return how many cords there are in each role, separate leaders and wraps among them."""
    return Counter((*mine.roles(manner), *_separate(mine, manner)))


def _separate(mine: Knot, manner: Manner) -> Iterator[str]:
    """Yield the roles that take cord without a strand that hangs."""
    there = mine.roles(manner)
    yield from (role for role in mine.cord(manner).by_role if role not in there)


def _about(diameters: float) -> str:
    """Return so many diameters, no finer than a hand ties.

    >>> _about(16.98), _about(3.46)
    ('17', '3.5')
    """
    return f"{diameters:.0f}" if diameters >= 9.95 else plain(diameters)
