"""How far down every strand is, by id, and what was last begun on it."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from knotplot.tying.ports import Port


@dataclass(slots=True)
class Depths:
    """Lists by strand id (index 0 unused), all in mm.

    `x`, `y` and `hold` are of the port each last left; above `floor` it hangs bare, above `wait`
    nothing more is tied on it. `part` is the number of the section last begun on it, -1 for none.
    """

    x: list[float] = field(default_factory=list)
    y: list[float] = field(default_factory=list)
    hold: list[str] = field(default_factory=list)
    floor: list[float] = field(default_factory=list)
    wait: list[float] = field(default_factory=list)
    part: list[int] = field(default_factory=list)

    def __len__(self) -> int:
        return len(self.x)

    def of(self, strand: int) -> float:
        """Return how far down that strand is tied or bound to hang bare."""
        return max(self.y[strand], self.floor[strand])

    def more(self, count: int) -> None:
        """Keep so many strands more, none of them tied."""
        self.x += [0.0] * count
        self.y += [0.0] * count
        self.hold += ["knot"] * count
        self.floor += [-math.inf] * count
        self.wait += [-math.inf] * count
        self.part += [-1] * count

    def put(self, strand: int, port: Port) -> None:
        """Let a strand hang from a port."""
        self.x[strand], self.y[strand], self.hold[strand] = port.x, port.y, port.hold
