"""Lark's head: cords folded and looped over the rod, the bar in front."""

from __future__ import annotations

from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount
from knotplot.mounts.folded import hang_by_loops
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import Rack


class LarksHead(Mount):
    """Each cord is folded and looped over the rod by a lark's head: two strands a cord.

    The bar of the knot lies in front.

    Example: `{kind: larks_head, rod: 20 mm}`.
    """

    kind: Literal["larks_head"] = "larks_head"
    rod: UnitLength
    """How thick the rod is, its diameter. Example: `20 mm`."""
    fold: Literal["auto", "middle", "uneven"] = "auto"
    """Where each cord is folded: `middle`, `uneven` (each at the point that suits its two sides),
    or `auto`, which is the middle unless uneven folds save a spool or a tenth of the cord.
    Example: `uneven`.
    """
    strands_per_cord: ClassVar[int] = 2

    def hang(self, rack: Rack) -> Mounting:
        """Loop each cord over the rod, left to right."""
        return hang_by_loops(rack, self.kind, float(self.rod), self.fold)
