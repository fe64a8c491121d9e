"""Ring: cords folded and threaded through, not tied."""

from __future__ import annotations

from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount
from knotplot.tying.piece import Mounting
from knotplot.tying.ports import Port
from knotplot.tying.rack import Rack


class Ring(Mount):
    """Each cord is folded and put through a ring: two strands a cord.

    Nothing is tied; a `gather` below holds them together.

    Example: `{kind: ring, diameter: 40 mm}`.
    """

    kind: Literal["ring"] = "ring"
    diameter: UnitLength
    """How wide the ring is. Example: `40 mm`."""
    fold: Literal["auto", "middle", "uneven"] = "auto"
    """Where each cord is folded: `middle`, `uneven` (each at the point that suits its two sides),
    or `auto`, which is the middle unless uneven folds save a spool or a tenth of the cord.
    Example: `uneven`.
    """
    strands_per_cord: ClassVar[int] = 2

    def hang(self, rack: Rack) -> Mounting:
        """Fold the cords through the ring; they hang from it side by side, pushed together."""
        gauge, ring = rack.gauge, float(self.diameter)
        strands = range(1, gauge.strands + 1)
        pitch = min(gauge.pitch, 0.8 * ring / gauge.strands)
        middle = (gauge.strands + 1) / 2.0
        starts = (
            None,
            *(
                Port(gauge.width / 2.0 + (strand - middle) * pitch, ring, 0.0, 1.0, "knot")
                for strand in strands
            ),
        )
        for first in strands[::2]:
            rack.cut("main", strands=(first, first + 1))
        rack.hang("body", strands, starts)
        rack.begin("mount", self.kind, 0, gauge.strands)
        rack.end()
        return Mounting(self.kind, ring, 2, 0.0, starts, fold=self.fold)
