"""The measures all ties of a piece share."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Gauge:
    """Width of the piece, its strands, and the cord's diameter, in mm."""

    width: float
    strands: int
    diameter: float

    @property
    def pitch(self) -> float:
        """Return the distance from lane to lane."""
        return self.width / self.strands

    def x(self, lane: int) -> float:
        """Return the middle of a lane, counted from 0."""
        return (lane + 0.5) * self.width / self.strands
