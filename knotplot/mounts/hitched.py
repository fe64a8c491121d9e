"""Hitched: each cord tied to a branch or rod by a double half hitch."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.fields import UnitLength
from knotplot.mounts.base import Mount, MountWords
from knotplot.mounts.hitching import hitch_all, hitch_on
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import Rack


class Hitched(Mount):
    """Each cord is tied to a rod or branch by a double half hitch: one strand a cord.

    Example: `{kind: hitched, rod: 25 mm, tail: 8 cm}`.
    """

    kind: Literal["hitched"] = "hitched"
    rod: UnitLength
    """How thick the rod or branch is, its diameter. Example: `25 mm`."""
    tail: UnitLength
    """How much of each cord is left over above its hitch, to be trimmed or worked in.
    Example: `8 cm`.
    """
    strands_per_cord: ClassVar[int] = 1
    hitched: ClassVar[bool] = True
    words: ClassVar[Mapping[str, MountWords]] = {
        "en": MountWords(
            heading="double half hitches on a branch or rod",
            one="the mounting hitches",
            many="the mounting hitches",
            caption="mounting",
            fault="A single turn slips: every cord goes round the branch or rod twice.",
            support="the top of the branch or rod",
            hang=(
                "Hitch the {cut} onto the branch or rod, {rod} thick, from left to right. "
                "Leave an end of {tail} above each hitch."
            ),
        )
    }

    def hang(self, rack: Rack) -> Mounting:
        """Hitch each cord onto the branch, left to right."""
        gauge, rod = rack.gauge, float(self.rod)
        strands = range(1, gauge.strands + 1)
        starts = (None,) * (gauge.strands + 1)
        for strand in strands:
            rack.cut("main", strands=(strand,))
        rack.hang("body", strands, starts)
        hitch_all(rack, self.kind, hitch_on(rack, rod))
        return Mounting(self.kind, rod, 1, float(self.tail), starts)
