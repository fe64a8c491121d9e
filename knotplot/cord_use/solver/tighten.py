"""Pull a rope tight: least tension × length under contact and bending, by augmented Lagrangian.

Each round minimises by L-BFGS (Nocedal & Wright, Numerical Optimization, 2nd ed., alg. 7.4–7.5)
with no point moved further than a cap in one step, so that strands cannot pass through each other;
then the multipliers of the constraints are brought up to date (ibid., 17.4).
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import cho_solve_banded, cholesky_banded

from knotplot.cord_use.solver import contacts, forces
from knotplot.cord_use.solver.rope import Floats, Mesh, Screw, Strand, System, mesh

CAP = 0.04  # the longest step of any point, in diameters
EVENNESS = 0.3
MEMORY = 24


@dataclass(frozen=True)
class Tight:
    """A rope pulled tight: the system as it then lies, and how well it was solved.

    `lengths` by strand (of one period in a stack); `energy` is what was made least: tension ×
    length, taut fillers too; `overlap` the deepest that two strands, or a
    strand and a rod, press into each other; `bend` by how much the sharpest corner is too sharp
    (as a share of the sharpest curvature); `change` the last round's relative change of length.
    """

    system: System
    lengths: Floats
    energy: float
    overlap: float
    bend: float
    change: float
    rounds: int


class Problem:
    """A system as a function of one vector: its free coordinates, then pitch and turn."""

    def __init__(self, system: System) -> None:
        self.system = system
        self.mesh: Mesh = mesh(system)
        self.points: Floats = np.vstack([strand.points for strand in system.strands])
        self.screw = system.screw
        self.counts = np.array(
            [np.count_nonzero(self.mesh.strand == k) for k in range(len(system.strands))]
        )
        self.at = np.array([rod.at for rod in system.rods], dtype=float).reshape(-1, 3)
        self.along = np.array([rod.along for rod in system.rods], dtype=float).reshape(-1, 3)
        self.periods = np.array([float(rod.period) for rod in system.rods])
        radii = [rod.radius for rod in system.rods]
        self.clear = np.array([radius + 0.5 for radius in radii])
        self.edge = self.edges_now()
        self.contacts = contacts.none()
        self._factor()

    # --- the vector --------------------------------------------------------------------------

    def vector(self) -> Floats:
        """Return where the system is."""
        if self.screw is None:
            own: Floats = self.points[self.mesh.free]
            return own
        return np.concatenate([self._relative()[self.mesh.free], self.screw.values()])

    def _relative(self) -> Floats:
        """Return the points as on a stack of pitch 1: a change of pitch stretches them with it."""
        return contacts.stretched(self.points, self.screw, 1.0 / self._pitch)

    @property
    def _pitch(self) -> float:
        return 1.0 if self.screw is None or self.screw.pitch is None else self.screw.pitch

    def put(self, vector: Floats) -> None:
        """Move the system to where the vector says."""
        own = int(self.mesh.free.sum())
        relative = self._relative()
        relative[self.mesh.free] = vector[:own]
        if self.screw is not None:
            self.screw = self.screw.with_values(list(vector[own:]))
        self.points = contacts.stretched(relative, self.screw, self._pitch)

    def spread(self) -> Floats:
        """Return the points of this and the next periods: periods × points × 3."""
        return contacts.spread(self.points, self.screw, self.system.reach)

    def rods_at(self) -> Floats:
        """Return a point on each rod, where it lies at the pitch of now."""
        if self.screw is None or self.screw.pitch is None:
            return self.at
        made: Floats = self.at + self.screw.pitch * np.outer(self.periods, self.screw.axis)
        return made

    def edges_now(self) -> Floats:
        """Return the mean edge of each strand."""
        m = self.mesh
        _, total = forces.lengths(
            self.spread(), m.start, m.end, m.ahead, m.strand, len(self.counts)
        )
        made: Floats = total / self.counts
        return made

    def edge_total(self) -> Floats:
        """Return each strand's length now."""
        total: Floats = self.edges_now() * self.counts
        return total

    def pulled(self) -> float:
        """Return tension × length over all strands and what rides."""
        total = float((self.edge_total() * self.mesh.tension).sum())
        return total + self._ridden(np.zeros(3))

    def bend_mu(self, mu: float) -> float:
        """Return the stiffness of bends beside that of contacts."""
        return 0.1 * mu * float(self.edge.mean())

    # --- energy ------------------------------------------------------------------------------

    def energy(self, mu: float) -> tuple[float, Floats]:
        """Return the augmented energy and its gradient by the vector."""
        m, c, x = self.mesh, self.contacts, self.spread()
        grad = np.zeros_like(x)
        edges = (m.start, m.end, m.ahead)
        total = forces.pull(
            x, *edges, m.strand, m.tension, self.counts, EVENNESS, grad
        ) + forces.touch(x, *edges, c.pairs, c.pair_lam, mu, c.pair_gap, grad)
        on_rods = np.zeros_like(self.at)
        if len(c.rods):
            total += forces.against_rods(
                x, *edges, c.rods, c.rod_lam, mu, self.rods_at(), self.along, self.clear,
                c.rod_gap, grad, on_rods,
            )  # fmt: skip
        total += forces.bend(
            x, *edges, c.corners, c.corner_lam, self.bend_mu(mu), self.edge, m.strand,
            c.corner_gap, grad,
        )  # fmt: skip
        own, by_screw = contacts.gathered(grad, x, self.points, self.screw, self.system.reach)
        total += self._ridden(by_screw)
        if self.screw is not None and self.screw.pitch is not None:
            along = self._relative() @ np.array(self.screw.axis)
            by_screw[0] += float((own @ np.array(self.screw.axis)) @ along)
            by_screw[0] += float(self.periods @ (on_rods @ np.array(self.screw.axis)))
            own = contacts.stretched(own, self.screw, self._pitch)
        return float(total), np.concatenate([own[m.free], by_screw])

    def _ridden(self, by_screw: Floats) -> float:
        """Return what the taut fillers and leaders of one period weigh; add to the gradient."""
        if self.screw is None:
            return 0.0
        pitch = sum(rod.rides == "pitch" for rod in self.system.rods)
        spacing = sum(rod.rides == "spacing" for rod in self.system.rods)
        if self.screw.pitch is not None:
            by_screw[0] += pitch
        if self.screw.beside is not None:
            by_screw[-1] += spacing
        return pitch * (self.screw.pitch or 0.0) + spacing * self.screw.spacing

    def _factor(self) -> None:
        """Factor the stiffness of a stretched chain, by strand: the first guess of L-BFGS."""
        self.factors = []
        for k, n in enumerate(self.mesh.sizes):
            h = self.edge[k]
            band = np.zeros((2, n))
            band[0, 1:] = -1.0 / h
            band[1] = 2.0 / h + 2.0
            self.factors.append(cholesky_banded(band))

    def softened(self, gradient: Floats) -> Floats:
        """Return the gradient divided by the chain's stiffness: what L-BFGS starts from."""
        full = np.zeros_like(self.points)
        own = int(self.mesh.free.sum())
        full[self.mesh.free] = gradient[:own]
        for k, factor in enumerate(self.factors):
            first, n = self.mesh.firsts[k], self.mesh.sizes[k]
            part = slice(first, first + n)
            full[part] = cho_solve_banded((factor, False), full[part])
        screw = 0.02 * gradient[own:]
        return np.concatenate([full[self.mesh.free], screw])


def tighten(
    system: System, rounds: int = 60, steps: int = 60, mu: float = 20.0,
    tolerance: float = 2e-6, overlap: float = 1e-4,
) -> Tight:  # fmt: skip
    """Return the system pulled tight from where it is.

    Stops when the length changes by less than `tolerance` a round and nothing overlaps by more
    than `overlap`.
    """
    problem = Problem(system)
    last, change, quiet = np.inf, np.inf, 0
    for done in range(1, rounds + 1):  # noqa: B007 - told at the end
        problem.edge = problem.edges_now()
        problem.contacts = contacts.found(problem)
        _descend(problem, mu, steps)
        deepest, bend = problem.contacts.worst()
        problem.contacts = problem.contacts.raised(mu, problem.bend_mu(mu))
        length = problem.pulled()
        change = abs(length - last) / length
        last = length
        quiet = quiet + 1 if change < tolerance and deepest < overlap else 0
        if quiet >= 3:
            break
    return _result(problem, deepest, bend, change, done)


def _descend(problem: Problem, mu: float, steps: int) -> None:
    """Go down by L-BFGS, so many steps or until nothing is gained."""
    x = problem.vector()
    value, grad = problem.energy(mu)
    history: deque[tuple[Floats, Floats, float]] = deque(maxlen=MEMORY)
    moved = 0.0
    for _ in range(steps):
        way = -_turned(problem, grad, history)
        slope = float(way @ grad)
        if slope >= 0.0:
            history.clear()
            way = -problem.softened(grad)
            slope = float(way @ grad)
        longest = float(np.abs(way).max(initial=0.0))
        size = min(1.0, CAP / max(longest, 1e-300))
        for _ in range(12):
            problem.put(x + size * way)
            new_value, new_grad = problem.energy(mu)
            if new_value <= value + 1e-4 * size * slope:
                break
            size *= 0.4
        else:
            problem.put(x)
            if not history:
                return
            history.clear()
            continue
        step = size * way
        bend = new_grad - grad
        curve = float(step @ bend)
        if curve > 1e-12 * float(np.linalg.norm(step) * np.linalg.norm(bend)):
            history.append((step, bend, 1.0 / curve))
        gained = value - new_value
        x, value, grad = x + step, new_value, new_grad
        moved += size * longest
        if moved > 0.4 * contacts.SKIN:
            problem.contacts = contacts.found(problem)
            value, grad = problem.energy(mu)
            moved = 0.0
        if gained < 1e-9 * abs(value):
            return


def _turned(problem: Problem, grad: Floats, history: deque[tuple[Floats, Floats, float]]) -> Floats:
    """Return the inverse Hessian's guess times the gradient (two-loop recursion)."""
    q = grad.copy()
    shares = []
    for step, bend, rho in reversed(history):
        share = rho * float(step @ q)
        shares.append(share)
        q -= share * bend
    q = problem.softened(q)
    if history:
        step, bend, rho = history[-1]
        soft = problem.softened(bend)
        q *= float(step @ bend) / float(bend @ soft)
    for (step, bend, rho), share in zip(history, reversed(shares), strict=True):
        q += step * (share - rho * float(bend @ q))
    return q


def _result(problem: Problem, overlap: float, bend: float, change: float, rounds: int) -> Tight:
    m = problem.mesh
    strands: list[Strand] = []
    for k, strand in enumerate(problem.system.strands):
        first = m.firsts[k]
        points = problem.points[first : first + m.sizes[k]].copy()
        strands.append(replace(strand, points=points))
    screw: Screw | None = problem.screw
    system = replace(problem.system, strands=tuple(strands), screw=screw)
    total = problem.edge_total()
    return Tight(system, total, problem.pulled(), overlap, bend, change, rounds)
