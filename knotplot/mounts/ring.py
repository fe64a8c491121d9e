"""Ring: cords folded and threaded through, not tied."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.errors import Refusal
from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount, MountWords
from knotplot.tying.gauge import Gauge
from knotplot.tying.piece import Mounting, Support
from knotplot.tying.ports import Port
from knotplot.tying.rack import Rack
from knotplot.units import cm

# The share of a plane that equal circles cover at most (Thue 1890): π/√12.
CLOSEST = math.pi / math.sqrt(12.0)


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
    support: ClassVar[Support] = "ring"
    words: ClassVar[Mapping[str, MountWords]] = {
        "en": MountWords(
            heading="through a ring",
            one="the ring",
            many="the rings",
            caption="ring",
            fault="Cords of uneven ends: pull both ends level before you begin.",
            support="the top of the ring",
            hang=(
                "Fold each of the {cut} in half and thread it through the ring, {rod} "
                "across. Nothing is tied. Lay the ends flat from left to right: {cords} "
                "then hang."
            ),
            hang_uneven=(
                "Thread them through the ring, {rod} across, up to their folds. Nothing is "
                "tied. Lay the ends flat from left to right, the measured side of each on "
                "the left: {cords} then hang."
            ),
            fault_uneven=(
                "A cord that slips in the ring loses its fold: tie each loosely until its "
                "first knot holds it."
            ),
        )
    }

    def check_room(self, gauge: Gauge) -> None:
        """Raise `Refusal` where so many cords don't go through the ring."""
        cords = gauge.strands // 2
        least = gauge.diameter * math.sqrt(cords / CLOSEST)
        if self.diameter < least:
            raise Refusal(
                f"{cords} cords of {gauge.diameter:g} mm don't go through this ring",
                f"use a ring {cm(math.ceil(least))} across or more, or fewer strands",
                ("mount", "diameter"),
                f"{float(self.diameter):g} mm",
            )

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
        return Mounting(self.kind, ring, 2, 0.0, starts, fold=self.fold, support=self.support)
