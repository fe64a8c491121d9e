"""What is asked of a group of lanes, one tie (or cross, or gap) at a time.

Lanes are counted from 0 at the left of the group. Moves stand in the order worked.
"""

from __future__ import annotations

from typing import NamedTuple, TypeAlias


class Move(NamedTuple):
    """One tie or cross: a knot by name on neighbouring lanes, left to right.

    `leader` is 0 or 1 where the left or right of two lanes leads, -1 for a separate leader.
    Moves of one `line` (0 and up) lie on one straight leader; `angle` is its fall in degrees
    where the maker asked for one. `turn` counts repetitions within a step.
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

    @property
    def key(self) -> tuple[int, int, int]:
        """Return what finds this move again in a larger group: step, turn, and place in a line."""
        return (self.step or 0, self.turn, self.lanes[0] if self.line >= 0 else -1)


class Gap(NamedTuple):
    """Bare cord (mm) between what was tied before and what comes next, on every lane."""

    length: float
    step: int | None = None


Moves: TypeAlias = tuple[Move | Gap, ...]
