"""An ideal rope as numbers: strands as polylines, what holds their ends, what they may not touch.

Lengths are in cord diameters. A system is a set of strands (polylines of equal edges), straight
rods fixed in space, and, for a stack, the screw that carries one period onto the next: a step
along an axis (the pitch) and a turn about it. Where a strand ends it is held, or joined to its own
start, or goes on as another strand of the next period.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Strand:
    """One strand: its `points` (n × 3), what follows its last point, and how hard it is pulled.

    `then` is None for a strand held at both ends, or the number of the strand on which it goes on:
    in the next period if `stacked`, else in the same one (its own number closes it to a loop).
    `free_ends` says in which of x, y, z the two held ends may move.
    """

    role: str
    points: Floats
    then: int | None = None
    stacked: bool = False
    tension: float = 1.0
    free_ends: tuple[bool, bool, bool] = (True, False, False)


@dataclass(frozen=True)
class Rod:
    """A straight rod of that radius that nothing moves, through `at` along `along`, without end.

    `rides` is "pitch" or "spacing" for a taut filler or leader of a stack: a period of it is as
    long as that, and is pulled as a strand is. `period` says in which period of a stack it lies,
    so that it moves with the pitch.
    """

    at: tuple[float, float, float]
    along: tuple[float, float, float]
    radius: float
    rides: str | None = None
    period: int = 0


@dataclass(frozen=True)
class Screw:
    """What carries one period to the next: `pitch` along a unit `axis`, `turn` (radians) about it.

    `turns` tells whether the turn is to be found too; the pitch always is. With `beside`, a second
    unit axis, the stack also repeats sideways, every `spacing`, which is found. A pitch of None
    repeats sideways only.
    """

    axis: tuple[float, float, float]
    pitch: float | None
    turn: float = 0.0
    turns: bool = False
    beside: tuple[float, float, float] | None = None
    spacing: float = 0.0

    def values(self) -> list[float]:
        """Return what is to be found: pitch, turn and spacing, those that there are."""
        found = [] if self.pitch is None else [self.pitch]
        found += [self.turn] if self.turns else []
        return found + ([self.spacing] if self.beside is not None else [])

    def with_values(self, values: Sequence[float]) -> Screw:
        """Return the screw with those values, in the order of `values()`."""
        rest = list(values)
        pitch = None if self.pitch is None else float(rest.pop(0))
        turn = float(rest.pop(0)) if self.turns else self.turn
        spacing = float(rest.pop(0)) if self.beside is not None else self.spacing
        return replace(self, pitch=pitch, turn=turn, spacing=spacing)

    def copies(self, reach: int) -> list[tuple[int, int]]:
        """Return the periods that may touch the first, as (along, beside): itself first.

        Of two that mirror each other about the first only one stands there. Each is followed by
        the next one along, on which its edges may end.
        """
        along = reach if self.pitch is not None else 0
        columns = [(m, 0) for m in range(along + 2)]
        for side in range(1, reach + 1) if self.beside is not None else ():
            columns += [(m, side) for m in range(-along, along + 2)]
        return columns


@dataclass(frozen=True)
class System:
    """Everything that is solved together."""

    strands: tuple[Strand, ...]
    rods: tuple[Rod, ...] = ()
    screw: Screw | None = None
    reach: int = 2  # how many periods away strands may touch


@dataclass(frozen=True)
class Mesh:
    """A system's topology as arrays: for each edge where it starts and ends.

    `ahead` is 1 where an edge ends in the next period. `strand` and `place` are each edge's strand
    and its number along it; `free` marks the coordinates that may move.
    """

    start: Ints
    end: Ints
    ahead: Ints
    strand: Ints
    place: Ints
    sizes: Ints
    firsts: Ints
    free: NDArray[np.bool_]
    tension: Floats = field(repr=False)


def mesh(system: System) -> Mesh:
    """Return the topology of a system."""
    sizes = np.array([len(strand.points) for strand in system.strands], dtype=np.int64)
    firsts = np.concatenate([[0], np.cumsum(sizes)[:-1]]).astype(np.int64)
    start: list[int] = []
    end: list[int] = []
    ahead: list[int] = []
    which: list[int] = []
    place: list[int] = []
    free = np.ones((int(sizes.sum()), 3), dtype=bool)
    for k, strand in enumerate(system.strands):
        n, first = int(sizes[k]), int(firsts[k])
        inner = range(first, first + n - 1)
        start += inner
        end += [i + 1 for i in inner]
        ahead += [0] * (n - 1)
        if strand.then is None:
            free[[first, first + n - 1]] = strand.free_ends
        else:
            start.append(first + n - 1)
            end.append(int(firsts[strand.then]))
            ahead.append(int(strand.stacked))
        edges = len(start) - len(which)
        which += [k] * edges
        place += range(edges)
    tension = np.array([strand.tension for strand in system.strands])
    return Mesh(
        _ints(start), _ints(end), _ints(ahead), _ints(which), _ints(place), sizes, firsts, free,
        tension,
    )  # fmt: skip


def _ints(values: Sequence[int]) -> Ints:
    return np.array(values, dtype=np.int64)


def resampled(line: Floats, edges: int) -> Floats:
    """Return a polyline cut anew into so many equal edges (n + 1 points)."""
    at = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    wanted = np.linspace(0.0, at[-1], edges + 1)
    return np.column_stack([np.interp(wanted, at, line[:, i]) for i in range(3)])
