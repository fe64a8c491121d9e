"""The steps of a motif as records, read off a shape's moves, in places of the motif."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import groupby

from knotplot.geometry.layout import ENDED
from knotplot.instructions.folding import folds
from knotplot.instructions.records import (
    AddCords,
    Bar,
    Bare,
    Cross,
    EndCords,
    FigureName,
    PlacesKnot,
    Step,
    StepsAgain,
    Upright,
)
from knotplot.knots import knot
from knotplot.tying.moves import Add, End, Gap, Move
from knotplot.tying.piece import Row
from knotplot.tying.ports import LOOPED
from knotplot.tying.shape import Shape

LONGEST_PERIOD = 24  # of steps repeated; a longer round is written out


def steps_of(shape: Shape) -> tuple[Step | StepsAgain, ...]:
    """Return the steps of a shape, repeated ones told once."""
    return tuple(_folded(list(_steps(shape))))


def _steps(shape: Shape) -> Iterator[Step]:
    for (number, _), group in groupby(shape.moves, _by_step):
        moves = list(group)
        bar = [move for move in moves if isinstance(move, Move) and move.line >= 0]
        if bar:
            yield Step(number, _bar(bar, shape))
        else:
            for move in moves:
                yield Step(number, _single(move, shape.first + 1))


def _by_step(move: Move | Gap | Add | End) -> tuple[int, bool]:
    return (move.step or 0, isinstance(move, Move) and move.line >= 0)


def _single(
    move: Move | Gap | Add | End, place: int
) -> Cross | PlacesKnot | AddCords | EndCords | Bare:
    match move:
        case Gap():
            return Bare(move.length)
        case Add():
            return AddCords(LOOPED, move.lane + place, move.cords, move.left)
        case End():
            return EndCords(tuple(lane + place for lane in move.lanes), ENDED)
    if move.knot == "cross":
        left, right = (lane + place for lane in move.lanes)
        return Cross(right, left) if move.facing == "right" else Cross(left, right)
    facing = (move.facing or "left") if knot(move.knot).faces else None
    return PlacesKnot(
        move.knot, move.lanes[0] + place, move.lanes[-1] + place, facing, move.workers, move.picot
    )


def _bar(moves: list[Move], shape: Shape) -> Bar | Upright:
    first = moves[0]
    once = [move for move in moves if move.turn == first.turn]
    times = len(moves) // len(once)
    vertical = first.knot.startswith("vertical_")
    # In a vertical hitch the cord that is passed leads, else the one that travels does.
    rightward = (first.leader == 1) == vertical
    ends = (once[0].lanes[0], once[-1].lanes[1]) if rightward else (
        once[0].lanes[1], once[-1].lanes[0]
    )  # fmt: skip
    start, to = (lane + shape.first + 1 for lane in ends)
    if vertical:
        return Upright(first.knot, start, to)
    return Bar(first.knot, start, to, times, first.angle)


def _folded(steps: list[Step]) -> Iterator[Step | StepsAgain]:
    """Yield steps, those that come again after a while as `StepsAgain`."""

    def alike(a: Step, b: Step, base: Step, first: Step) -> bool:
        return a.what == b.what and b.number - a.number == first.number - base.number

    for fold in folds(steps, LONGEST_PERIOD, alike):
        base = steps[fold.start : fold.start + fold.period]
        if fold.times == 1 or (fold.period == 1 and fold.times == 2):
            yield from steps[fold.start : fold.end]
            continue
        yield from _folded(base)
        again = steps[fold.start + fold.period : fold.end]
        like = (base[0].number, base[-1].number)
        yield StepsAgain(again[0].number, again[-1].number, like, fold.times - 1)


def figure_names(rows: Iterable[Row]) -> dict[int, FigureName]:
    """Return a name for every motif shape of the rows, by the shape's id, no two alike.

    Where a part of a motif occurs with all and with fewer of its steps, the shorter is its top.
    """
    shapes = {
        id(placement.shape): placement.shape
        for row in rows
        for placement in row.placements
        if placement.shape.motif is not None
    }
    longest: dict[FigureName, int] = {}
    plain: dict[int, FigureName] = {}
    for key, shape in shapes.items():
        name = FigureName(str(shape.motif), shape.first + 1, shape.first + shape.span, shape.of)
        plain[key] = name
        longest[name] = max(longest.get(name, 0), _last_step(shape))
    return {
        key: name
        if _last_step(shapes[key]) == longest[name]
        else replace(name, top=_last_step(shapes[key]))
        for key, name in plain.items()
    }


def _last_step(shape: Shape) -> int:
    return max((move.step or 0 for move in shape.moves), default=0)
