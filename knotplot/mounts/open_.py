"""Open: no support, as in a runner; the tails are its top fringe."""

from __future__ import annotations

from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount
from knotplot.tying.piece import Mounting
from knotplot.tying.ports import Port
from knotplot.tying.rack import Rack


class Open(Mount):
    """The cords hang on nothing, as for a runner: one strand a cord.

    They are held only while they are worked; their tails are its top fringe, and the drop is
    measured from their tops.

    Example: `{kind: open, tail: 8 cm}`.
    """

    kind: Literal["open"] = "open"
    tail: UnitLength
    """How long the top fringe is, above the first row. Example: `8 cm`."""
    strands_per_cord: ClassVar[int] = 1

    def hang(self, rack: Rack) -> Mounting:
        """Lay the cords side by side; nothing is tied above the end of their tails."""
        gauge, tail = rack.gauge, float(self.tail)
        strands = range(1, gauge.strands + 1)
        ports = (Port(gauge.x(strand - 1), tail, 0.0, 1.0, "knot") for strand in strands)
        starts = (None, *ports)
        for strand in strands:
            rack.cut("main", strands=(strand,))
        rack.hang("body", strands, starts)
        rack.begin("mount", self.kind, 0, gauge.strands)
        rack.end()
        return Mounting(self.kind, 0.0, 1, tail, starts)
