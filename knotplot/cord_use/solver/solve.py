"""From a start shape to numbers: coarse, fine, finer; extrapolated; perturbed and solved anew.

A polyline's length errs with the square of its edge (chords cut corners), so that two edges, √2
apart, give the length of the smooth cord and the error that is left.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from knotplot.cord_use.solver.rope import Floats, System
from knotplot.cord_use.solver.starts import cut_anew
from knotplot.cord_use.solver.tighten import Tight, tighten

COARSE, FINER = 0.25, 0.1  # edges, in diameters
NUDGE = 0.06  # how far a solved shape is pushed about, in diameters
BETTER = 2e-4  # a perturbed shape shorter by this share is taken instead
TRIES = 3
CAUGHT = 0.01  # deeper overlaps, or corners sharper by five times that, are of a rope that caught


@dataclass(frozen=True)
class Start:
    """A system to solve: loose, with what of each strand is straight path and no knot.

    `straight` is a strand's, or by role in `straight_of`; the pitch of a stack is taken off besides
    where `per_pitch`. `halves` counts a strand that is two, folded.
    """

    system: System
    straight: float = 0.0
    per_pitch: bool = False
    halves: bool = False
    straight_of: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Solved:
    """What was found: `excess` by role over the straight path, the stack's measures, the errors.

    `excess` is the mean of a role's strands, `split` the most that one differs from it.
    `spacing_error` is what the extrapolation changed, `perturbed` the largest share by which a
    shape pushed about came back to another length; `overlap`, `bend` and `change` are those of
    the last round (see `Tight`).
    """

    excess: Mapping[str, float]
    split: float
    pitch: float | None
    turn: float | None
    spacing: float | None
    width: float
    depth: float
    spacing_error: float
    perturbed: float
    overlap: float
    bend: float
    change: float
    tight: Tight

    @property
    def converged(self) -> bool:
        """Tell whether the numbers can be trusted to about half a percent."""
        total = sum(self.excess.values()) + 1.0
        return (
            self.overlap < 5e-4 and self.bend < 5e-3 and self.change < 2e-5
            and self.perturbed < 5e-3 and self.spacing_error < 5e-3 * total
        )  # fmt: skip


def solve(start: Start, finer: float = FINER, tries: int = TRIES) -> Solved:
    """Solve a start shape down to edges of `finer`, in diameters."""
    tight = _fine(_coarse(start.system).system, finer * np.sqrt(2.0))
    tight, perturbed = _returned(tight, finer * np.sqrt(2.0), tries)
    finest = _fine(tight.system, finer)
    return _measured(start, tight, finest, perturbed)


def _coarse(system: System) -> Tight:
    """Return a system roughly tight. Where its corners catch on each other, it is cut anew."""
    for edge in (COARSE, 1.1 * COARSE, 0.9 * COARSE):
        tight = tighten(
            cut_anew(system, edge), mu=20.0, rounds=120, steps=100, tolerance=1e-5, overlap=2e-3
        )
        system = tight.system
        if max(tight.overlap, 0.2 * tight.bend) < CAUGHT:
            break
    return tight


def _fine(system: System, edge: float) -> Tight:
    return tighten(cut_anew(system, edge), mu=200.0, rounds=100, steps=60)


def _returned(tight: Tight, edge: float, tries: int) -> tuple[Tight, float]:
    """Push a shape about and let it come back; keep the shorter. Return how far apart they were."""
    worst = 0.0
    for seed in range(tries):
        again = _fine(nudged(tight.system, NUDGE, seed), edge)
        apart = again.energy / tight.energy - 1.0
        if apart < -BETTER:
            tight, worst = again, 0.0
            continue
        if again.overlap < 5e-4:
            worst = max(worst, abs(apart))
    return tight, worst


def nudged(system: System, size: float, seed: int) -> System:
    """Return the system with its strands bent a little, smoothly, by chance of that seed."""
    chance = np.random.default_rng(seed)
    strands = []
    for strand in system.strands:
        n = len(strand.points)
        along = np.linspace(0.0, 1.0, n, endpoint=strand.then is None)[:, None]
        push = np.zeros((n, 3))
        for wave in range(1, 5):
            phase, height = chance.random(3), chance.normal(size=3) / wave
            push += height * np.sin(2.0 * np.pi * (wave * along + phase))
        if strand.then is None:
            push *= np.sin(np.pi * along)
        strands.append(replace(strand, points=strand.points + size * push))
    return replace(system, strands=tuple(strands))


def _measured(start: Start, coarse: Tight, fine: Tight, perturbed: float) -> Solved:
    """Extrapolate to edges of nothing, and measure."""
    lengths = 2.0 * fine.lengths - coarse.lengths
    pitch, turn, spacing = (
        None if a is None or b is None else 2.0 * b - a
        for a, b in zip(_screw(coarse), _screw(fine), strict=True)
    )
    roles = [strand.role for strand in fine.system.strands]
    straight = np.array([start.straight_of.get(role, start.straight) for role in roles])
    taken = (lengths - straight - (pitch or 0.0) * start.per_pitch) / (1 + start.halves)
    excess: dict[str, float] = {}
    split = 0.0
    for role in dict.fromkeys(roles):
        mine: Floats = taken[[i for i, each in enumerate(roles) if each == role]]
        excess[role] = float(mine.mean())
        split = max(split, float(np.abs(mine - mine.mean()).max()))
    points = np.vstack([strand.points for strand in fine.system.strands])
    low, high = points.min(axis=0), points.max(axis=0)
    return Solved(
        excess, split, pitch, turn, spacing, float(high[0] - low[0]) + 1.0,
        float(high[2] - low[2]) + 1.0, float(np.abs(lengths - fine.lengths).max()), perturbed,
        fine.overlap, fine.bend, fine.change, fine,
    )  # fmt: skip


def _screw(tight: Tight) -> tuple[float | None, float | None, float | None]:
    screw = tight.system.screw
    if screw is None:
        return None, None, None
    return (
        screw.pitch, screw.turn if screw.turn else None,
        screw.spacing if screw.beside is not None else None,
    )  # fmt: skip
