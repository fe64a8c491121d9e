"""Straight bars on two supports, bent by even loads: sections, moments, deflections.

Euler–Bernoulli: EI·v'' = −M, small deflections, supports that hold down as well as up. N, mm and
MPa throughout; v is positive downwards. Everything is symmetrical about the middle of the span,
so that `s`, how far from there, says where.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

GRAVITY = 9.80665  # m/s², standard (CGPM 1901)


class Section(NamedTuple):
    """A round section: area (mm²), second moment of area (mm⁴), section modulus (mm³)."""

    area: float
    inertia: float
    modulus: float


class Load(NamedTuple):
    """A load of so many newtons, spread evenly over `length` mm about the middle of the span."""

    newtons: float
    length: float


def section(diameter: float, wall: float | None = None) -> Section:
    """Return the section of a round bar, or of a tube with that wall (mm).

    πd²/4, πd⁴/64 and πd³/32, a tube's hollow taken away.

    >>> round(section(20.0).inertia, 1)
    7854.0
    """
    inner = 0.0 if wall is None else diameter - 2.0 * wall
    if not 0.0 <= inner < diameter:
        raise ValueError(f"no tube {diameter} mm thick has a wall of {wall} mm")
    inertia = math.pi * (diameter**4 - inner**4) / 64.0
    return Section(math.pi * (diameter**2 - inner**2) / 4.0, inertia, 2.0 * inertia / diameter)


def weight(grams: float) -> float:
    """Return what a mass in g weighs, in N."""
    return grams / 1000.0 * GRAVITY


def moment(load: Load, span: float, s: float) -> float:
    """Return the bending moment (N·mm) at `s` mm from the middle; below 0 it bends upwards.

    M = M₀ − w·(s² − ⟨s − b/2⟩²)/2 + W/2·⟨s − L/2⟩ with M₀ = W·(2L − b)/8 in the middle, W the load,
    b its length, w = W/b, and ⟨x⟩ = x above 0, else 0 (Macaulay). It holds whether the load is
    shorter than the span or longer.
    """
    even, beyond, past = _places(load, span, s)
    middle = load.newtons * (2.0 * span - load.length) / 8.0
    return middle - even * (s**2 - beyond**2) / 2.0 + load.newtons * past / 2.0


def deflection(load: Load, span: float, rigidity: float, s: float) -> float:
    """Return how far down (mm) a bar of `rigidity` EI (N·mm²) goes at `s` mm from the middle.

    The moment integrated twice: no slope in the middle, no deflection over the supports.
    """
    return (_drop(load, span, span / 2.0) - _drop(load, span, s)) / rigidity


def _drop(load: Load, span: float, s: float) -> float:
    """Return EI times how far the middle lies below the bar at `s`."""
    even, beyond, past = _places(load, span, s)
    middle = load.newtons * (2.0 * span - load.length) / 8.0
    return (
        middle * s**2 / 2.0
        - even * (s**4 - beyond**4) / 24.0
        + load.newtons * past**3 / 12.0
    )  # fmt: skip


def _places(load: Load, span: float, s: float) -> tuple[float, float, float]:
    """Return the load per mm, how far `s` lies beyond the load, and past the support."""
    even = load.newtons / load.length
    return even, max(0.0, s - load.length / 2.0), max(0.0, s - span / 2.0)


def sag(loads: Iterable[Load], span: float, rigidity: float, edge: float) -> tuple[float, float]:
    """Return the deflection (mm) in the middle of the span and at `edge` mm from there.

    One of the two is the largest there is, where `edge` is how far the loads reach, or the span.
    """
    both = [
        (deflection(load, span, rigidity, 0.0), deflection(load, span, rigidity, edge))
        for load in loads
    ]
    return sum(middle for middle, _ in both), sum(end for _, end in both)


def largest_moment(loads: Iterable[Load], span: float) -> float:
    """Return the largest bending moment (N·mm), whichever way: in the middle or over a support."""
    both = [(moment(load, span, 0.0), moment(load, span, span / 2.0)) for load in loads]
    return max(abs(sum(middle for middle, _ in both)), abs(sum(over for _, over in both)))


def longest_span(per_mm: float, rigidity: float, bending: float, share: float) -> float:
    """Return the longest simple span (mm) under an even load of `per_mm` N/mm all along it.

    It sags by no more than `share` of itself (5wL⁴/384EI) and is bent by no more than `bending`
    N·mm (wL²/8).
    """
    stiff: float = (share * 384.0 * rigidity / (5.0 * per_mm)) ** (1.0 / 3.0)
    return min(stiff, math.sqrt(8.0 * bending / per_mm))
