"""What is asked of a group of lanes, one tie (or cross, or gap) at a time.

Lanes are counted from 0 at the left of the group. Moves stand in the order worked.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias


class Move(NamedTuple):
    """One tie or cross: a knot by name on neighbouring lanes, left to right.

    `leader` is 0 or 1 where the left or right of two lanes leads, -1 for a separate leader.
    Moves of one `line` (0 and up) lie on one straight leader; `angle` is its fall in degrees
    where the maker asked for one. `turn` counts repetitions within a step. `picot` (mm) is the
    loop in which the outer working strands stand out above the knot. `beside` are the lanes at its
    left and right, more than are there, by which its place goes (see `motifs/halves.py`).
    """

    knot: str
    lanes: tuple[int, ...]
    facing: str | None = None
    workers: int = 1
    leader: int | None = None
    step: int | None = None
    line: int = -1
    angle: float | None = None
    turn: int = 0
    picot: float = 0.0
    beside: tuple[int, int] = (0, 0)

    @property
    def key(self) -> tuple[int, int, int]:
        """Return what finds this move again in a larger group: step, turn, and place in a line."""
        return (self.step or 0, self.turn, self.lanes[0] if self.line >= 0 else -1)


class Gap(NamedTuple):
    """Bare cord (mm) between what was tied before and what comes next, on every lane."""

    length: float
    step: int | None = None


class Add(NamedTuple):
    """`cords` new cords looped onto the strand in a lane; their strands hang right (or left) of it.

    Lanes are counted anew at once: two more for each cord. `beside` is as in `Move`.
    """

    lane: int
    cords: int
    left: bool = False
    step: int | None = None
    beside: tuple[int, int] = (0, 0)

    def key(self, cord: int) -> tuple[int, int, int]:
        """Return what finds the tie of one of its cords (from 0) in a larger group."""
        return (self.step or 0, 0, cord)


class End(NamedTuple):
    """The strands in `lanes` end here; lanes are counted anew at once, without them."""

    lanes: tuple[int, ...]
    step: int | None = None


Moves: TypeAlias = tuple[Move | Gap | Add | End, ...]


@dataclass(slots=True)
class There:
    """Which lanes of a group are there: `first` up to, not with, `last`, of `among` in all.

    Those that are not still count, and what is added or ended on them changes the counting.
    """

    first: int
    last: int
    among: int

    def __contains__(self, lane: int) -> bool:
        return self.first <= lane < self.last

    @property
    def count(self) -> int:
        """Return how many are there."""
        return self.last - self.first

    def add(self, lane: int, cords: int) -> None:
        """Count the lanes anew after cords were added on one; those of a lane there are there."""
        more = 2 * cords
        self.among += more
        if lane < self.first:
            self.first += more
        if lane < self.last:
            self.last += more

    def end(self, lanes: Iterable[int]) -> None:
        """Count the lanes anew without some."""
        gone = sorted(set(lanes))
        first, last = self.first, self.last
        self.among -= len(gone)
        self.first -= sum(lane < first for lane in gone)
        self.last -= sum(lane < last for lane in gone)


def most_lanes(moves: Moves, lanes: int) -> int:
    """Return the most lanes by which anything stands at any time."""
    most = lanes
    for move in moves:
        if isinstance(move, Move | Add):
            most = max(most, lanes + sum(move.beside))
        lanes += lanes_more(move)
        most = max(most, lanes)
    return most


def lanes_more(move: Move | Gap | Add | End) -> int:
    """Return how many lanes more (or fewer) there are after a move."""
    if isinstance(move, Add):
        return 2 * move.cords
    return -len(move.lanes) if isinstance(move, End) else 0
