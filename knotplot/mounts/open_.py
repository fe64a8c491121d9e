"""Open: no support, as in a runner; the tails are its top fringe."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount, MountWords
from knotplot.tying.piece import Mounting, Support
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
    support: ClassVar[Support] = "none"
    words: ClassVar[Mapping[str, MountWords]] = {
        "en": MountWords(
            heading="no support",
            one="the top fringe",
            many="the top fringes",
            caption="top fringe",
            fault="Cords that creep: clamp them all at one height before you begin.",
            support="the top ends of the cords",
            hang=(
                "Lay the {cut} side by side and hold them with a clamp or pins. Leave "
                "{tail} above the first row for the top fringe."
            ),
        )
    }

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
        return Mounting(self.kind, 0.0, 1, tail, starts, support=self.support)
