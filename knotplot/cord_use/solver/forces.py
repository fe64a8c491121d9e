"""Length, contact and bending of a rope in numbers, with their gradients: the solver's inner loop.

Compiled when first called. The augmented Lagrangian of a constraint c ≤ 0 with multiplier λ and
stiffness μ is (max(0, λ + μc)² − λ²)/2μ.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba
import numpy as np

from knotplot.cord_use.solver.rope import Floats, Ints

F = TypeVar("F", bound=Callable[..., Any])


def compiled(function: F) -> F:
    """Return a function compiled to machine code, kept between runs."""
    return cast("F", numba.njit(cache=True)(function))


@compiled
def closest(
    p: Floats, u: Floats, q: Floats, v: Floats
) -> tuple[float, float, float, float, float, float]:
    """Return (s, t, x, y, z, d): the nearest points p + s·u and q + t·v of two edges, 0 ≤ s, t ≤ 1.

    x, y, z is the vector from the second to the first, d its length. (The clamped solution by
    Lumelsky 1985, as in Ericson, Real-Time Collision Detection, 5.1.9: from memory.)
    """
    wx, wy, wz = p[0] - q[0], p[1] - q[1], p[2] - q[2]
    a = u[0] * u[0] + u[1] * u[1] + u[2] * u[2]
    e = v[0] * v[0] + v[1] * v[1] + v[2] * v[2]
    b = u[0] * v[0] + u[1] * v[1] + u[2] * v[2]
    c = u[0] * wx + u[1] * wy + u[2] * wz
    f = v[0] * wx + v[1] * wy + v[2] * wz
    bottom = a * e - b * b
    s = 0.5
    if bottom > 1e-9 * a * e:
        s = min(1.0, max(0.0, (b * f - c * e) / bottom))
    t = (b * s + f) / e
    if t < 0.0:
        t = 0.0
        s = min(1.0, max(0.0, -c / a))
    elif t > 1.0:
        t = 1.0
        s = min(1.0, max(0.0, (b - c) / a))
    x = wx + s * u[0] - t * v[0]
    y = wy + s * u[1] - t * v[1]
    z = wz + s * u[2] - t * v[2]
    return s, t, x, y, z, np.sqrt(x * x + y * y + z * z)


@compiled
def lengths(
    x: Floats, start: Ints, end: Ints, ahead: Ints, strand: Ints, count: int
) -> tuple[Floats, Floats]:
    """Return each edge's length and each strand's; `x` is periods × points × 3."""
    edges = np.zeros(len(start))
    total = np.zeros(count)
    for i in range(len(start)):
        a = x[0, start[i]]
        b = x[ahead[i], end[i]]
        edges[i] = np.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2 + (b[2] - a[2]) ** 2)
        total[strand[i]] += edges[i]
    return edges, total


@compiled
def pull(
    x: Floats, start: Ints, end: Ints, ahead: Ints, strand: Ints, tension: Floats,
    counts: Ints, evenness: float, grad: Floats,
) -> float:  # fmt: skip
    """Return tension × length and what keeps the edges of a strand even; add to the gradient."""
    edges, total = lengths(x, start, end, ahead, strand, len(tension))
    squares = np.zeros(len(tension))
    for i in range(len(start)):
        off = edges[i] * counts[strand[i]] / total[strand[i]] - 1.0
        squares[strand[i]] += off * off
    energy = 0.0
    for i in range(len(start)):
        k = strand[i]
        mean = total[k] / counts[k]
        off = edges[i] / mean - 1.0
        energy += tension[k] * edges[i] + 0.5 * evenness * mean * off * off
        force = (tension[k] + evenness * (off - 0.5 * squares[k] / counts[k])) / edges[i]
        a = x[0, start[i]]
        b = x[ahead[i], end[i]]
        for c in range(3):
            g = force * (b[c] - a[c])
            grad[ahead[i], end[i], c] += g
            grad[0, start[i], c] -= g
    return energy


@compiled
def touch(
    x: Floats, start: Ints, end: Ints, ahead: Ints, pairs: Ints, lam: Floats, mu: float,
    gap: Floats, grad: Floats,
) -> float:  # fmt: skip
    """Return the energy of edges that overlap; `gap` is filled with distance − 1.

    A pair is (edge, edge, periods between them).
    """
    energy = 0.0
    for k in range(len(pairs)):
        i, j, m = pairs[k, 0], pairs[k, 1], pairs[k, 2]
        p = x[0, start[i]]
        p2 = x[ahead[i], end[i]]
        q = x[m, start[j]]
        q2 = x[m + ahead[j], end[j]]
        s, t, nx, ny, nz, d = closest(p, p2 - p, q, q2 - q)
        gap[k] = d - 1.0
        force = lam[k] - mu * gap[k]
        if force <= 0.0:
            energy -= lam[k] * lam[k] / (2.0 * mu)
            continue
        energy += (force * force - lam[k] * lam[k]) / (2.0 * mu)
        f = -force / max(d, 1e-9)
        gx, gy, gz = f * nx, f * ny, f * nz
        for point, period, share in (
            (start[i], 0, 1.0 - s), (end[i], ahead[i], s),
            (start[j], m, t - 1.0), (end[j], m + ahead[j], -t),
        ):  # fmt: skip
            grad[period, point, 0] += share * gx
            grad[period, point, 1] += share * gy
            grad[period, point, 2] += share * gz
    return energy


@compiled
def against_rods(
    x: Floats, start: Ints, end: Ints, ahead: Ints, pairs: Ints, lam: Floats, mu: float,
    at: Floats, along: Floats, clear: Floats, gap: Floats, grad: Floats, on_rods: Floats,
) -> float:  # fmt: skip
    """Return the energy of edges that overlap a rod; a pair is (edge, rod).

    Adds to the gradient by the points, and by where the rods lie.
    """
    energy = 0.0
    for k in range(len(pairs)):
        i, r = pairs[k, 0], pairs[k, 1]
        a = x[0, start[i]] - at[r]
        b = x[ahead[i], end[i]] - at[r]
        axis = along[r]
        a = a - (a[0] * axis[0] + a[1] * axis[1] + a[2] * axis[2]) * axis
        b = b - (b[0] * axis[0] + b[1] * axis[1] + b[2] * axis[2]) * axis
        u = b - a
        uu = u[0] * u[0] + u[1] * u[1] + u[2] * u[2]
        s = 0.5
        if uu > 1e-12:
            s = min(1.0, max(0.0, -(a[0] * u[0] + a[1] * u[1] + a[2] * u[2]) / uu))
        n = a + s * u
        d = np.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2])
        gap[k] = d - clear[r]
        force = lam[k] - mu * gap[k]
        if force <= 0.0:
            energy -= lam[k] * lam[k] / (2.0 * mu)
            continue
        energy += (force * force - lam[k] * lam[k]) / (2.0 * mu)
        f = -force / max(d, 1e-9)
        for c in range(3):
            grad[0, start[i], c] += (1.0 - s) * f * n[c]
            grad[ahead[i], end[i], c] += s * f * n[c]
            on_rods[r, c] -= f * n[c]
    return energy


@compiled
def bend(
    x: Floats, start: Ints, end: Ints, ahead: Ints, corners: Ints, lam: Floats, mu: float,
    size: Floats, strand: Ints, gap: Floats, grad: Floats,
) -> float:  # fmt: skip
    """Return the energy of corners sharper than a cord of diameter 1 can turn (radius ½).

    A corner is (edge, next edge, periods on). The constraint is 1 − (κ/2)² ≥ 0 with
    κ² = 2(1 − cos θ)/h²; `size` is h, each strand's edge.
    """
    energy = 0.0
    for k in range(len(corners)):
        i, j, m = corners[k, 0], corners[k, 1], corners[k, 2]
        a = x[0, start[i]]
        b = x[ahead[i], end[i]]
        c2 = x[m + ahead[j], end[j]]
        u = b - a
        v = c2 - b
        lu = np.sqrt(u[0] * u[0] + u[1] * u[1] + u[2] * u[2])
        lv = np.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
        cos = (u[0] * v[0] + u[1] * v[1] + u[2] * v[2]) / (lu * lv)
        h = size[strand[i]]
        gap[k] = 1.0 - (1.0 - cos) / (2.0 * h * h)
        force = lam[k] - mu * gap[k]
        if force <= 0.0:
            energy -= lam[k] * lam[k] / (2.0 * mu)
            continue
        energy += (force * force - lam[k] * lam[k]) / (2.0 * mu)
        f = -force / (2.0 * h * h)  # by cos
        for c in range(3):
            du = v[c] / (lu * lv) - cos * u[c] / (lu * lu)
            dv = u[c] / (lu * lv) - cos * v[c] / (lv * lv)
            grad[0, start[i], c] -= f * du
            grad[ahead[i], end[i], c] += f * (du - dv)
            grad[m + ahead[j], end[j], c] += f * dv
    return energy
