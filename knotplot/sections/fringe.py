"""The fringe: what hangs below the last knot, trimmed or knotted at the trim line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.fields import LengthOrFill
from knotplot.kind import KindWords
from knotplot.sections.base import Section
from knotplot.sections.free import hang_bare
from knotplot.tying.finish import least_knotted
from knotplot.tying.job import Job


class Fringe(Section):
    """What hangs below the last knot, down to the trim line.

    With `knotted`, an overhand knot is tied in every end with its lower edge at the trim line, and
    tails of 1 to 2 cm hang below it.

    Example: `{kind: fringe, length: 8 cm, finish: combed}`.
    """

    kind: Literal["fringe"] = "fringe"
    bare_cords: ClassVar[bool] = True
    below_end: ClassVar[bool] = True
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Fringe",
            one="the fringe",
            many="the fringes",
            caption="fringe",
            fault="A fringe cut too short: cut nothing before the piece hangs.",
        )
    }
    length: LengthOrFill
    """How long it is from the last knot to the trim line, at the least; `fill` takes what the drop
    leaves.
    Example: `8 cm`, `fill`.
    """
    finish: Literal["combed", "cut", "knotted"] = "cut"
    """What becomes of the ends: `cut` straight, `combed` out to fibres, or `knotted`, an overhand
    knot in each.
    Example: `combed`.
    """

    def bare(self, job: Job) -> float:
        """Return its length, the least for now where the drop fills it; knots have room in it."""
        least = least_knotted(job.rack.gauge.diameter) if self.finish == "knotted" else 0.0
        return max(least, job.number("length", self.length))

    def work(self, job: Job) -> None:
        """Let the job's lanes hang."""
        hang_bare(job, self.label, self.kind, self.bare(job), self.finish)
