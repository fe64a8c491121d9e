"""What the cords of a knot are called while it is tied: role, side, and place at that side."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from knotplot.instructions.how_to import Cords, Place, Side

_PLACES: tuple[Place, Place] = ("outer", "inner")


class Key(NamedTuple):
    """What a cord is called: cords of one key have no names of their own."""

    role: str
    side: Side | None = None
    place: Place | None = None


def called(
    roles: Sequence[str], hang: Sequence[float], moves: Iterable[Collection[int]]
) -> tuple[Key, ...]:
    """Return what each cord is called.

    `hang` tells where each of them does (x). Two of one side are told apart, as
    the outer and the inner one, where one of them is ever moved without the other. Two fillers
    with all that work between them are told apart by side.
    """
    keys = list(map(Key, roles))
    across = sorted((j for j, role in enumerate(roles) if role == "working"), key=hang.__getitem__)
    if len({hang[j] for j in across}) < 2:
        return tuple(keys)
    fillers = sorted((j for j, r in enumerate(roles) if r == "filler"), key=hang.__getitem__)
    row = sorted((*across, *fillers), key=hang.__getitem__)
    if len(fillers) == 2 and [row[0], row[-1]] == fillers:
        keys[fillers[0]], keys[fillers[1]] = Key("filler", "left"), Key("filler", "right")
    half = len(across) // 2
    left, right = across[:half], across[half:][::-1]
    sides: tuple[tuple[Side, list[int]], ...] = (("left", left), ("right", right))
    for side, mine in sides:
        apart = len(mine) == 2 and any(len({*mine} & {*each}) == 1 for each in moves)
        for k, j in enumerate(mine):
            keys[j] = Key(roles[j], side, _PLACES[k] if apart else None)
    return tuple(keys)


def grouped(found: Iterable[Key], every: Sequence[Key], hidden: bool) -> tuple[Cords, ...]:
    """Return cords as they are named together, in the order in which they are first found.

    Both of one side are named as that, else both inner or both outer ones; fillers of both sides
    have none. Where fewer cords are
    drawn than there are (`hidden`), fillers aren't counted.
    """
    keys = list(dict.fromkeys(found))
    made = []
    while keys:
        role, side, place = key = keys.pop(0)
        count = 0 if hidden and role in ("filler", "bundle") else every.count(key)
        cords = Cords(role, side, count, place)
        other: Side = "left" if side == "right" else "right"
        if role == "filler" and side and Key(role, other) in keys:
            keys.remove(Key(role, other))
            cords = Cords(role, None, 2)
        if place is not None:
            beside = Key(role, side, _PLACES[place == "outer"])
            across = Key(role, other, place)
            if beside in keys:
                keys.remove(beside)
                cords = Cords(role, side, 2)
            elif across in keys:
                keys.remove(across)
                cords = Cords(role, None, 2, place)
        made.append(cords)
    return tuple(made)


def keys_of(cords: Iterable[Cords]) -> set[Key]:
    """Return all that cords named together may be called one by one."""
    return {
        Key(each.role, side, place)
        for each in cords
        for side in ((each.side,) if each.side or not each.place else ("left", "right"))
        for place in ((each.place,) if each.place else (None, *_PLACES))
    }
