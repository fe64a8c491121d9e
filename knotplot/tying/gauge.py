"""The measures all ties of a piece share."""

from __future__ import annotations

from dataclasses import dataclass

NARROWEST = 0.25  # of a cord's diameter from lane to lane: cords can't lie closer in two layers


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

    def over(self, strands: int) -> Gauge:
        """Return the gauge of the same width with so many strands side by side."""
        return self if strands == self.strands else Gauge(self.width, strands, self.diameter)

    def part(self, lanes: int, now: int) -> Gauge:
        """Return the gauge of a group's lanes in its own frame, once they are `now` of them.

        It keeps the width that its first `lanes` lanes had.
        """
        return self if now == lanes else Gauge(lanes * self.pitch, now, self.diameter)

    def x(self, lane: int) -> float:
        """Return the middle of a lane, counted from 0."""
        return (lane + 0.5) * self.width / self.strands
