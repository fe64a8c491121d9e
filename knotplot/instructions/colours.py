"""The order of colours in which cords are hung, as a maker says it, and the colours of others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from knotplot.instructions.records import ColourOrder, OtherColours
from knotplot.tying.colouring import Run
from knotplot.tying.piece import Piece

Runs = tuple[tuple[int, str], ...]


def colour_order(piece: Piece) -> Iterator[ColourOrder]:
    """Yield in which colours the cords are hung, if they have an order."""
    given = piece.colours
    cords = [cord for cord in piece.cords if cord.role == "main" and not cord.added]
    if not given.unit or not cords:
        return
    folded = piece.mounting.strands_per_cord == 2
    if len({cord.colour for cord in cords}) == 1:
        whole = ((len(cords), given.unit[0].colour),)
        yield ColourOrder(len(cords), whole, 1, (), False, folded)
        return
    half = (len(cords) + 1) // 2 if given.mirror else len(cords)
    times, left = divmod(half, sum(run.count for run in given.unit))
    unit = _joined(given.unit) if times else ()
    rest = _joined(_first(given.unit, left))
    yield ColourOrder(len(cords), unit, times, rest, given.mirror, folded)


def _first(unit: Iterable[Run], cords: int) -> Iterator[Run]:
    """Yield the runs of so many cords, the last one cut off where they end."""
    for run in unit:
        if cords <= 0:
            return
        yield Run(run.colour, min(run.count, cords))
        cords -= run.count


def _joined(runs: Iterable[Run]) -> Runs:
    """Return runs with neighbours of one colour told as one."""
    return tuple(
        (sum(run.count for run in same), colour)
        for colour, same in groupby(runs, key=lambda run: run.colour)
    )


def other_colours(piece: Piece) -> Iterator[OtherColours]:
    """Yield the colours of leaders, wraps and cords added in the work, if they have any."""
    found: dict[str, list[str]] = {}
    for cord in piece.cords:
        if cord.colour is not None and (cord.role != "main" or cord.added):
            found.setdefault(cord.colour, []).append(cord.id)
    if found:
        yield OtherColours(tuple((colour, tuple(ids)) for colour, ids in found.items()))
