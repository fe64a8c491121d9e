"""Reverse lark's head: cords folded and looped over the rod, the bar behind."""

from __future__ import annotations

from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount
from knotplot.mounts.folded import hang_by_loops
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import Rack


class ReverseLarksHead(Mount):
    """Cords folded in the middle (or unevenly), looped from behind over a rod `rod` thick (mm)."""

    kind: Literal["reverse_larks_head"] = "reverse_larks_head"
    rod: UnitLength
    fold: Literal["auto", "middle", "uneven"] = "auto"
    strands_per_cord: ClassVar[int] = 2

    def hang(self, rack: Rack) -> Mounting:
        """Loop each cord over the rod, left to right."""
        return hang_by_loops(rack, self.kind, float(self.rod), self.fold)
