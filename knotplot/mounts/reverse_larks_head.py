"""Reverse lark's head: cords folded and looped over the rod, the bar behind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount, MountWords
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
    words: ClassVar[Mapping[str, MountWords]] = {
        "en": MountWords(
            heading="reverse lark's heads on a rod",
            one="the reverse lark's heads",
            many="the reverse lark's heads",
            caption="reverse lark's head mounting",
            fault="A bar that lies in front: that cord went over the rod the other way.",
            support="the top of the rod",
            hang=(
                "Fold each of the {cut} in half. Loop them over the rod, {rod} thick, from "
                "left to right: the loop comes over the rod from behind, both ends go "
                "through it, and the bar of the loop lies behind. {cords} then hang."
            ),
            hang_uneven=(
                "Loop them over the rod, {rod} thick, from left to right, each with its "
                "measured side on the left: the loop comes over the rod from behind, both "
                "ends go through it, and the bar of the loop lies behind. {cords} then "
                "hang."
            ),
        )
    }

    def hang(self, rack: Rack) -> Mounting:
        """Loop each cord over the rod, left to right."""
        return hang_by_loops(rack, self.kind, float(self.rod), self.fold)
