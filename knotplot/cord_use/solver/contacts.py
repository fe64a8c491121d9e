"""Which edges may touch: pairs near each other, kept with their multipliers as the rope moves."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from knotplot.cord_use.solver.rope import Floats, Ints, Screw

if TYPE_CHECKING:
    from knotplot.cord_use.solver.tighten import Problem

SKIN = 0.3  # pairs this much further apart than they touch are watched
ALONG = np.pi / 2  # nearer along the cord two edges are no contact but a bend


@dataclass(frozen=True)
class Contacts:
    """Pairs of edges, edges at rods, and corners; multipliers, and how far each is from touch."""

    pairs: Ints
    pair_lam: Floats
    pair_gap: Floats
    rods: Ints
    rod_lam: Floats
    rod_gap: Floats
    corners: Ints
    corner_lam: Floats
    corner_gap: Floats

    def worst(self) -> tuple[float, float]:
        """Return the deepest overlap, and by how much the sharpest corner is too sharp."""
        gaps = np.concatenate([self.pair_gap, self.rod_gap, [0.0]])
        return float(max(0.0, -gaps.min())), float(max(0.0, -self.corner_gap.min(initial=0.0)))

    def raised(self, mu: float, mu_bend: float) -> Contacts:
        """Return the contacts with their multipliers brought up to date."""
        return replace(
            self,
            pair_lam=np.maximum(0.0, self.pair_lam - mu * self.pair_gap),
            rod_lam=np.maximum(0.0, self.rod_lam - mu * self.rod_gap),
            corner_lam=np.maximum(0.0, self.corner_lam - mu_bend * self.corner_gap),
        )


def none() -> Contacts:
    """Return no contacts."""
    e, p = np.zeros(0), np.zeros((0, 3), dtype=np.int64)
    return Contacts(p, e, e, np.zeros((0, 2), dtype=np.int64), e, e, p, e, e)


def turn(screw: Screw, angle: float) -> Floats:
    """Return the rotation about the screw's axis (Rodrigues)."""
    k = np.array(screw.axis)
    cross = np.array([[0.0, -k[2], k[1]], [k[2], 0.0, -k[0]], [-k[1], k[0], 0.0]])
    made: Floats = np.eye(3) + np.sin(angle) * cross + (1.0 - np.cos(angle)) * cross @ cross
    return made


def spread(points: Floats, screw: Screw | None, reach: int) -> Floats:
    """Return the points in every period that matters: periods × points × 3, the first one first."""
    if screw is None:
        return np.ascontiguousarray(points[None])
    return np.stack([carried(points, screw, along, side) for along, side in screw.copies(reach)])


def carried(points: Floats, screw: Screw, along: int, side: int = 0) -> Floats:
    """Return points carried so many periods along and beside."""
    moved = points @ turn(screw, along * screw.turn).T if screw.turn else points
    made: Floats = moved + along * (screw.pitch or 0.0) * np.array(screw.axis)
    if screw.beside is not None:
        made = made + side * screw.spacing * np.array(screw.beside)
    return made


def stretched(points: Floats, screw: Screw | None, by: float) -> Floats:
    """Return a copy of the points, what they have along the screw's axis multiplied."""
    if screw is None or screw.pitch is None:
        return points.copy()
    axis = np.array(screw.axis)
    made: Floats = points + np.outer((by - 1.0) * (points @ axis), axis)
    return made


def gathered(
    grad: Floats, x: Floats, points: Floats, screw: Screw | None, reach: int
) -> tuple[Floats, Floats]:
    """Return the gradient by the points of the first period, and by the screw's values."""
    if screw is None:
        return grad[0], np.zeros(0)
    own = np.zeros_like(points)
    axis, beside = np.array(screw.axis), np.array(screw.beside or (0.0, 0.0, 0.0))
    by_pitch = by_turn = by_spacing = 0.0
    for m, (along, side) in enumerate(screw.copies(reach)):
        own += grad[m] @ turn(screw, along * screw.turn) if screw.turn else grad[m]
        total = grad[m].sum(axis=0)
        by_pitch += along * float(total @ axis)
        by_spacing += side * float(total @ beside)
        if screw.turns and along:
            arm = x[m] - along * (screw.pitch or 0.0) * axis - side * screw.spacing * beside
            by_turn += along * float((grad[m] * np.cross(axis, arm)).sum())
    found = [] if screw.pitch is None else [by_pitch]
    found += [by_turn] if screw.turns else []
    found += [by_spacing] if screw.beside is not None else []
    return own, np.array(found)


def found(problem: Problem) -> Contacts:
    """Return the contacts of a system where it is now; multipliers known before are kept."""
    x, old = problem.spread(), problem.contacts
    pairs = _pairs(problem, x)
    rods = _rods(problem, x)
    corners = _corners(problem)
    return Contacts(
        pairs, _kept(pairs, old.pairs, old.pair_lam), np.full(len(pairs), SKIN),
        rods, _kept(rods, old.rods, old.rod_lam), np.full(len(rods), SKIN),
        corners, _kept(corners, old.corners, old.corner_lam), np.full(len(corners), 1.0),
    )  # fmt: skip


def _kept(new: Ints, old: Ints, values: Floats) -> Floats:
    """Return the old values under the new list's keys, 0 where there is none."""
    made = np.zeros(len(new))
    if not len(old) or not len(new):
        return made
    keys, known = _keys(new), _keys(old)
    order = np.argsort(known)
    at = np.searchsorted(known[order], keys).clip(max=len(known) - 1)
    same = known[order][at] == keys
    made[same] = values[order][at][same]
    return made


def _keys(rows: Ints) -> Ints:
    key = rows[:, 0].copy()
    for column in range(1, rows.shape[1]):
        key = key * 100_000 + rows[:, column]
    return key


def _pairs(problem: Problem, x: Floats) -> Ints:
    """Return (edge, edge, copy) for all edges of the first period near one of any copy."""
    mesh, screw = problem.mesh, problem.screw
    copies = [(0, 0)] if screw is None else screw.copies(problem.system.reach)
    middles = 0.5 * (x[0, mesh.start] + x[mesh.ahead, mesh.end])
    here = cKDTree(middles)
    radius = 1.0 + SKIN + float(problem.edge.max())
    found = []
    for m, (along, side) in enumerate(copies):
        if m == 0:
            near = here.query_pairs(radius, output_type="ndarray").astype(np.int64)
        elif screw is None or along > (problem.system.reach if screw.pitch is not None else 0):
            continue  # only there for edges that end in it
        else:
            there = cKDTree(carried(middles, screw, along, side))
            matrix = here.sparse_distance_matrix(there, radius, output_type="coo_matrix")
            near = np.column_stack([matrix.row, matrix.col]).astype(np.int64)
        if side == 0:
            near = near[_apart(problem, near, along)]
        found.append(np.column_stack([near, np.full(len(near), m, dtype=np.int64)]))
    return np.ascontiguousarray(np.vstack(found))


def _apart(problem: Problem, near: Ints, periods: int) -> NDArray[np.bool_]:
    """Tell which pairs of edges, `periods` apart, are not neighbours along one cord."""
    mesh, strands = problem.mesh, problem.system.strands
    a, b = mesh.strand[near[:, 0]], mesh.strand[near[:, 1]]
    place = mesh.place[near[:, 1]] - mesh.place[near[:, 0]]
    size = problem.edge[a]
    apart = np.ones(len(near), dtype=bool)
    for k, strand in enumerate(strands):
        mine = a == k
        if strand.then == k and not strand.stacked:  # a loop: near the other way round too
            round_ = np.minimum(np.abs(place), problem.counts[k] - np.abs(place))
            apart[mine & (b == k) & (round_ * size < ALONG)] = False
            continue
        on, ahead, before = k, 0, 0
        while ahead <= periods:  # along the cord that starts as strand k
            if ahead == periods:
                apart[mine & (b == on) & (np.abs(place + before) * size < ALONG)] = False
            then = strands[on].then
            if then is None:
                break
            before += int(problem.counts[on])
            ahead += int(strands[on].stacked)
            on = then
            if on == k and ahead == 0:
                break
    return apart


def _rods(problem: Problem, x: Floats) -> Ints:
    mesh = problem.mesh
    middle = 0.5 * (x[0, mesh.start] + x[mesh.ahead, mesh.end])
    found = []
    for r, at in enumerate(problem.rods_at()):
        off = middle - at
        off = off - np.outer(off @ problem.along[r], problem.along[r])
        near = np.linalg.norm(off, axis=1) < problem.clear[r] + SKIN + problem.edge.max()
        edges = np.flatnonzero(near)
        found.append(np.column_stack([edges, np.full(len(edges), r)]))
    return np.ascontiguousarray(np.vstack([*found, np.zeros((0, 2))]).astype(np.int64))


def _corners(problem: Problem) -> Ints:
    """Return every edge with the one that follows it: (edge, edge, periods between them)."""
    mesh = problem.mesh
    first = {int(start): i for i, start in enumerate(mesh.start)}
    rows = [
        (i, first[int(end)], int(ahead))
        for i, (end, ahead) in enumerate(zip(mesh.end, mesh.ahead, strict=True))
        if int(end) in first
    ]
    return np.array(rows, dtype=np.int64).reshape(-1, 3)
