"""What is done in one row as actions from left to right, and rows that are told once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from knotplot.instructions.folding import folds
from knotplot.instructions.records import (
    Action,
    Bare,
    FigureName,
    Hang,
    HitchLine,
    Join,
    Knot,
    Leave,
    Motif,
    RowsAs,
    RowWork,
    Starred,
    Wrap,
)
from knotplot.tying.piece import Placement, Row

LONGEST_STAR = 4  # actions between a star and its "repeat from *"


def row_actions(
    row: Row, first: int, count: int, names: Mapping[int, FigureName], diameter: float
) -> tuple[Action, ...]:
    """Return what is done in a row, left to right, on `count` cords from the `first` (from 0) on.

    Cords are counted as they hang at each moment: after a motif that adds or ends some, anew.
    """
    found: list[Action] = []
    at, more = first, 0
    for placement in row.placements:
        lane, shape = placement.lane + more, placement.shape
        if lane > at:
            found.append(Leave(lane - at))
        found.append(_action(placement, row, names, diameter))
        more += shape.more
        at = lane + shape.span + shape.more
    if first + count + more > at:
        found.append(Leave(first + count + more - at))
    return tuple(_starred(_merged(found)))


def _action(
    placement: Placement, row: Row, names: Mapping[int, FigureName], diameter: float
) -> Action:
    shape = placement.shape
    if id(shape) in names:
        return Motif(names[id(shape)], shape.span + shape.more)
    tie = shape.ties[0]
    if len(row.layers) == 2:
        return Join(tie.knot, shape.span, tie.facing)
    if tie.leader == -1 and placement.cord:
        return HitchLine(tie.knot, shape.span, placement.cord, row.layer)
    if row.section == 0 and tie.roles[0] in ("mount", "knotting"):
        return Hang(tie.knot, shape.span)
    if placement.cord:
        height = 2.0 * tie.manner.reach * diameter
        return Wrap(tie.knot, shape.span, placement.cord, height)
    return Knot(tie.knot, shape.span, tie.facing, tie.manner.workers)


def joins(action: Action) -> bool:
    """Tell whether an action joins tails to cords."""
    return isinstance(action.actions[0] if isinstance(action, Starred) else action, Join)


def free(action: Action) -> int:
    """Return how many cords an action lets hang."""
    return action.cords if isinstance(action, Leave) else 0


def nameless(action: Action) -> Action:
    """Return an action without the name of its separate cord, which is a new one every time."""
    if isinstance(action, HitchLine):
        return replace(action, leader="")
    return replace(action, cord="") if isinstance(action, Wrap) else action


def gaps(rows: Sequence[Row]) -> tuple[float, Callable[[Row], tuple[Action, ...]]]:
    """Return the gap between all rows where it is one, else how to tell a row's own."""
    if len(rows) > 1 and rows[0].gap == 0.0 and len({row.gap for row in rows[1:]}) == 1:
        return rows[1].gap, lambda _row: ()
    return 0.0, lambda row: (Bare(row.gap),) if row.gap else ()


def _merged(actions: Sequence[Action]) -> list[Action]:
    """Return actions with neighbouring hitches on one leader told as one."""
    found: list[Action] = []
    for action in actions:
        before = found[-1] if found else None
        if (
            isinstance(action, HitchLine)
            and isinstance(before, HitchLine)
            and replace(before, cords=1) == action
        ):
            found[-1] = replace(before, cords=before.cords + action.cords)
        else:
            found.append(action)
    return found


def _starred(actions: Sequence[Action]) -> Iterator[Action]:
    for fold in folds(actions, LONGEST_STAR):
        some = tuple(actions[fold.start : fold.start + fold.period])
        if fold.times > 1:
            yield Starred(some, fold.times)
        else:
            yield from some


def told_rows(rows: Sequence[tuple[Action, ...]], first: int) -> Iterator[RowWork | RowsAs]:
    """Yield rows, numbered from `first`, equal neighbours and every second one told once."""
    at = 0
    while at < len(rows):
        same = _run(rows, at, 1)
        second = _run(rows, at, 2)
        if same >= 2 or second < 3:
            yield RowWork(first + at, first + at + same - 1, rows[at])
            at += same
            continue
        for i in (at, at + 1):
            yield RowWork(first + i, first + i, rows[i])
        for i in (at, at + 1):
            as_it = tuple(range(first + i + 2, first + at + second, 2))
            if as_it:
                yield RowsAs(as_it, first + i)
        at += second


def _run(rows: Sequence[object], at: int, period: int) -> int:
    """Return how many rows from `at` on repeat with that period."""
    end = at + period
    while end < len(rows) and rows[end] == rows[end - period]:
        end += 1
    return min(end, len(rows)) - at
