"""A rod pocket hanging: the band as a teardrop round the rod (GEOMETRY, rule 10)."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Teardrop:
    """A band folded over a rod: round it on an arc of `radius` (mm), then straight to the join.

    `half` is half the band's length, `join` how far below the top its two ends meet.
    """

    radius: float
    half: float
    join: float

    def y(self, s: float) -> float:
        """Return how far down (mm) the place hangs that lies `s` along the band from the fold."""
        q = self.join - self.radius
        angle = math.pi - math.acos(min(1.0, self.radius / q))
        arc = self.radius * angle
        s = abs(s)
        if s <= arc:
            return self.radius * (1.0 - math.cos(s / self.radius))
        start = self.radius * (1.0 - math.cos(angle))
        straight = self.half - arc
        return start + (self.join - start) * min(1.0, (s - arc) / straight) if straight else start


def least_half(radius: float) -> float:
    """Return the least half band that goes round the rod and can be joined: half its girth."""
    return math.pi * radius


def teardrop(rod: float, diameter: float, half: float) -> Teardrop:
    """Return the teardrop of a band of twice `half` over a rod of diameter `rod` (all mm).

    Solves r(π − acos(r/q)) + √(q² − r²) = S for q by bisection. Raises ValueError for a band
    shorter than half the girth of rod and cord.
    """
    radius = (rod + diameter) / 2.0
    if half < least_half(radius):
        raise ValueError("the band is too short to go round the rod")
    low, high = radius, radius + half
    for _ in range(100):
        q = (low + high) / 2.0
        length = radius * (math.pi - math.acos(radius / q)) + math.sqrt(q * q - radius * radius)
        low, high = (q, high) if length < half else (low, q)
    return Teardrop(radius, half, radius + high)
