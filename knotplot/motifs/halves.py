"""How many lanes stand beside a step of a `both` once its two halves go down together.

A `both` is worked one half after the other. Where each half adds cords or ends strands, the lanes
are counted anew in between, and the first half would stand on other places than the second. So
a step stands where it would if its mirror image came with it: on the lanes of its own half, and
beside them those that the other half has by then.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from knotplot.motifs.step import Step
from knotplot.motifs.steps import (
    AddStep,
    CrossStep,
    EndStep,
    HitchStep,
    KnotStep,
    VerticalStep,
)

Beside = tuple[int, int]  # lanes at the left and at the right more than are there (or fewer)
ALONE: Beside = (0, 0)


class _Done(NamedTuple):
    """A step worked: the lanes (by name) before it, those it is on, what it adds and ends.

    `low` and `high` are its outermost lanes, counted from 0; None for a gap.
    """

    before: tuple[int, ...]
    low: int | None
    high: int | None
    added: tuple[int, ...] = ()
    left: bool = False
    ended: tuple[int, ...] = ()


def lanes_beside(halves: Sequence[tuple[Step, bool]], lanes: int) -> Iterator[Beside]:
    """Yield for each step of a `both` how many lanes more its half and the other have beside it.

    `halves` has the steps as they are worked, the mirrored ones with their lanes turned over, and
    whether each comes out of a mirror; the two halves are equally long. `lanes` are there before
    the first. Where the halves share a lane, order matters, and all stand as they are worked.
    """
    done = list(_worked(halves, lanes))
    half = len(done) // 2
    found = _together(done[:half], done[half:], list(range(lanes)))
    yield from found or [ALONE] * len(done)


def _worked(steps: Sequence[tuple[Step, bool]], lanes: int) -> Iterator[_Done]:
    """Yield the steps with the lanes they find, each lane by a name it keeps."""
    there, count = list(range(lanes)), lanes
    for step, mirrored in steps:
        before, on = tuple(there), _lanes(step)
        low, high = (min(on) - 1, max(on) - 1) if on else (None, None)
        added: tuple[int, ...] = ()
        ended: tuple[int, ...] = ()
        match step:
            case AddStep():
                added = tuple(range(count, count + 2 * step.cords))
                count += len(added)
                at = step.after - mirrored
                there[at:at] = added
            case EndStep():
                ended = tuple(there[lane - 1] for lane in step.lanes)
                there = [name for name in there if name not in ended]
        yield _Done(before, low, high, added, mirrored, ended)


def _lanes(step: Step) -> tuple[int, ...]:
    """Return the lanes (from 1) that a step is worked on, none for a gap."""
    match step:
        case CrossStep() | KnotStep() | EndStep():
            return tuple(step.lanes)
        case HitchStep():
            return (step.lead, step.to)
        case VerticalStep():
            return (step.worker, step.to)
        case AddStep():
            return (step.after,)
        case _:
            return ()


def _together(
    first: Sequence[_Done], second: Sequence[_Done], there: list[int]
) -> list[Beside] | None:
    """Return what stands beside each step where both halves go down together; None if they can't.

    `there` names the lanes before the first step.
    """
    mine: list[Beside] = []
    other: list[Beside] = []
    for pair in zip(first, second, strict=True):
        for done, found in zip(pair, (mine, other), strict=True):
            beside = _beside(done, there)
            if beside is None:
                return None
            found.append(beside)
        for done in pair:
            if done.added:
                at = there.index(done.before[done.low or 0]) + (not done.left)
                there[at:at] = done.added
            if not set(done.ended) <= set(there):
                return None
            there = [name for name in there if name not in done.ended]
    return mine + other


def _beside(done: _Done, there: Sequence[int]) -> Beside | None:
    """Return how many lanes more are at either side of a step; None if its own aren't there."""
    if done.low is None or done.high is None:
        return ALONE
    on = done.before[done.low : done.high + 1]
    if on[0] not in there:
        return None
    at = there.index(on[0])
    if tuple(there[at : at + len(on)]) != on:
        return None
    return (at - done.low, len(there) - at - (len(done.before) - done.low))
