"""Hitched: each cord tied to a branch or rod by a double half hitch."""

from __future__ import annotations

from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.knots.base import Manner
from knotplot.mounts.base import Mount
from knotplot.tying.moves import Move
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import Ask, Rack


class Hitched(Mount):
    """Cords hitched onto a branch or rod `rod` thick (mm), `tail` left over above (mm)."""

    kind: Literal["hitched"] = "hitched"
    rod: UnitLength
    tail: UnitLength
    strands_per_cord: ClassVar[int] = 1

    def hang(self, rack: Rack) -> Mounting:
        """Hitch each cord onto the branch, left to right."""
        gauge, rod = rack.gauge, float(self.rod)
        strands = range(1, gauge.strands + 1)
        starts = (None,) * (gauge.strands + 1)
        for strand in strands:
            rack.cut("main", strands=(strand,))
        rack.hang("body", strands, starts)
        manner = Manner(1, leader=-1, reach=1.0, rod=rod / gauge.diameter)
        shape = rack.single(Move("double_half_hitch", (0,), leader=-1), manner)
        rack.begin("mount", self.kind, 0, gauge.strands)
        rack.tie([Ask(shape, lane) for lane in range(gauge.strands)], at=0.0)
        rack.end()
        return Mounting(self.kind, rod, 1, float(self.tail), starts)
