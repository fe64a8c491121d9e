"""Picot: both ends of a folded cord hitched on, its fold left standing above as a loop.

A picot heading (common practice). Half of the loop belongs to each strand: it begins at the fold,
the loop's top, and runs down to its hitch.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.errors import Refusal
from knotplot.fields import UnitLength
from knotplot.geometry.runs import run_length
from knotplot.mounts.base import Mount, MountWords
from knotplot.mounts.hitching import hitch_all, hitch_on
from knotplot.tying.piece import Mounting
from knotplot.tying.ports import Port
from knotplot.tying.rack import Rack

#: Above this many diameters of cord a loop no longer stands, but falls over (common practice).
LIMP = 40.0


class Picot(Mount):
    """Both ends of each folded cord are hitched onto the rod: two strands a cord.

    The fold stands above the rod as a loop.

    Example: `{kind: picot, rod: 12 mm, loop: 5 cm}`.
    """

    kind: Literal["picot"] = "picot"
    rod: UnitLength
    """How thick the rod is, its diameter. Example: `12 mm`."""
    loop: UnitLength
    """How much cord the loop takes, from hitch to hitch. Example: `5 cm`."""
    fold: Literal["auto", "middle", "uneven"] = "auto"
    """Where each cord is folded: `middle`, `uneven` (each at the point that suits its two sides),
    or `auto`, which is the middle unless uneven folds save a spool or a tenth of the cord.
    Example: `uneven`.
    """
    strands_per_cord: ClassVar[int] = 2
    hitched: ClassVar[bool] = True
    words: ClassVar[Mapping[str, MountWords]] = {
        "en": MountWords(
            heading="picots above double half hitches on a branch or rod",
            one="the picot heading",
            many="the picot headings",
            caption="picot heading",
            fault=(
                "Loops of uneven height: pin every fold level with the first one, and let "
                "no cord slip as you tighten its hitches."
            ),
            support="the top of the branch or rod",
            hang=(
                "Fold each of the {cut} in half. Hitch both ends onto the branch or rod, "
                "{rod} thick, side by side, the left one first, with a double half hitch "
                "each. Leave a loop of {loop}, measured along the cord from hitch to hitch, "
                "standing above the rod: about {stands} high. Pin its fold to the board at "
                "that height while you tie. {cords} then hang."
            ),
            hang_uneven=(
                "Hitch both ends of each onto the branch or rod, {rod} thick, side by side, "
                "the measured side on the left and first, with a double half hitch each. "
                "Leave a loop of {loop}, measured along the cord from hitch to hitch, "
                "standing above the rod, the fold at its top: about {stands} high. Pin the "
                "fold to the board at that height while you tie. {cords} then hang."
            ),
        )
    }

    def hang(self, rack: Rack) -> Mounting:
        """Hitch both ends of each cord onto the rod, left to right."""
        gauge, rod = rack.gauge, float(self.rod)
        shape = hitch_on(rack, rod)
        ((_, entry),) = shape.entries
        stands = self._stands(entry, gauge.pitch, gauge.diameter)
        strands = range(1, gauge.strands + 1)
        starts: list[Port | None] = [None]
        for first in strands[::2]:
            rack.cut("main", strands=(first, first + 1))
            starts += _fold(first * gauge.pitch, entry.y - stands)
        rack.hang("body", strands, starts)
        hitch_all(rack, self.kind, shape)
        return Mounting(
            self.kind, rod, 2, 0.0, tuple(starts), fold=self.fold, loop=float(self.loop)
        )

    def _stands(self, entry: Port, pitch: float, diameter: float) -> float:
        """Return how high (mm) the fold lies above where the strands enter their hitches.

        The curve of each half, from fold to hitch, is then half the loop long. The least loop is
        a half circle from hitch to hitch.
        """
        loop = float(self.loop)
        least, most = math.ceil(math.pi / 2.0 * pitch), math.floor(LIMP * diameter)
        if loop < least:
            raise self._refused(
                f"too short to stand above hitches {pitch:.1f} mm apart", f"{least} mm or more"
            )
        if loop > max(least, most):
            raise self._refused(
                f"too long to stand in cord of {diameter:g} mm", f"{max(least, most)} mm or less"
            )
        low, high = 0.0, loop / 2.0
        for _ in range(50):
            middle = (low + high) / 2.0
            left, _ = _fold(entry.x + pitch / 2.0, entry.y - middle)
            short = run_length(left, entry, diameter) < loop / 2.0
            low, high = (middle, high) if short else (low, middle)
        return high

    def _refused(self, problem: str, would_do: str) -> Refusal:
        value = f"{float(self.loop):g} mm"
        return Refusal(problem, f"use a loop of {would_do}", ("mount", "loop"), value)


def _fold(x: float, y: float) -> tuple[Port, Port]:
    """Return where the two strands of a cord begin: they leave its fold to the left and right."""
    return Port(x, y, -1.0, 0.0, "knot"), Port(x, y, 1.0, 0.0, "knot")
