"""Reverse lark's head: cords folded and looped over the rod, the bar behind."""

from __future__ import annotations

from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount
from knotplot.mounts.folded import hang_by_loops
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import Rack


class ReverseLarksHead(Mount):
    """Each cord is folded and looped over the rod by a reverse lark's head: two strands a cord.

    The bar of the knot lies at the back.

    Example: `{kind: reverse_larks_head, rod: 20 mm}`.
    """

    kind: Literal["reverse_larks_head"] = "reverse_larks_head"
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
