"""What can't be tied: lanes that aren't there, that don't lie side by side, knots too small."""

from __future__ import annotations

from knotplot.errors import Refusal, shown
from knotplot.knots import catalogue, knot
from knotplot.knots.base import Manner
from knotplot.tying.moves import Add, End, Gap, Move, Moves, lanes_more


def check(moves: Moves, lanes: int, row: int) -> None:
    """Raise `Refusal` for the first move that can't be tied on so many lanes; `row` is named."""
    for move in moves:
        if isinstance(move, Gap | Add | End):
            lanes += lanes_more(move)
            continue
        names = ", ".join(str(lane + 1) for lane in move.lanes)
        if min(move.lanes) < 0 or max(move.lanes) >= lanes:
            raise Refusal(
                f"row {row}: {move.knot} on lanes {names}: there are lanes 1 to {lanes}",
                f"use lanes from 1 to {lanes}",
            )
        if any(b - a != 1 for a, b in zip(move.lanes, move.lanes[1:], strict=False)):
            raise Refusal(
                f"row {row}: {move.knot} on lanes {names}: they don't lie side by side",
                "use lanes that follow each other from left to right",
            )
        _check_knot(move, f"row {row}: lanes {names}")


def _check_knot(move: Move, place: str) -> None:
    tied = knot(move.knot)
    fault = tied.fault(len(move.lanes), move.workers)
    if fault:
        raise Refusal(f"{place}: {fault[0]}", fault[1])
    wrong = picot_fault(move.knot, len(move.lanes), move.workers) if move.picot else None
    if wrong:
        raise Refusal(f"{place}: {wrong[0]}", wrong[1])
    if move.line < 0 and not tied.by_name:
        known = ", ".join(name for name, each in catalogue().items() if each.by_name)
        raise Refusal(f"{move.knot} can't be asked for by name", f"use one of {known}")


def lanes_fault(name: str, lanes: int, workers: int) -> tuple[str, str] | None:
    """Say why a knot can't be tied by name on so many lanes (problem, remedy), or None if it can.

    A name that no knot has is refused as it is read, so that nothing is said of it here but where a
    pattern is made in Python.
    """
    tied = catalogue().get(name)
    if tied is None or not tied.by_name:
        known = ", ".join(each for each, knot in catalogue().items() if knot.by_name)
        return (f"{shown(name)} is no knot to tie on lanes", f"use one of {known}")
    return tied.fault(lanes, workers)


def picot_fault(name: str, strands: int, workers: int) -> tuple[str, str] | None:
    """Say why a knot can have no picots (problem, remedy), or None if it can."""
    tied = knot(name)
    roles = tied.roles(Manner(strands, "left", workers))
    if not tied.as_one and strands > 1 and roles[0] == roles[-1] == "working":
        return None
    problem = f"{name} has no working strands at its outside to stand out in picots"
    return (problem, "leave 'picot' out, or use a square_knot or half_knot")
