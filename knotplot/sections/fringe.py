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
    """Strands `length` mm long at the least, or what the drop leaves, with their `finish`.

    `length` is that from the last knot to the trim line. A `knotted` fringe has an overhand knot in
    every end, its lower edge at that line, and tails of 1 to 2 cm below it.
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
    finish: Literal["combed", "cut", "knotted"] = "cut"

    def bare(self, job: Job) -> float:
        """Return its length, the least for now where the drop fills it; knots have room in it."""
        least = least_knotted(job.rack.gauge.diameter) if self.finish == "knotted" else 0.0
        return max(least, job.number("length", self.length))

    def work(self, job: Job) -> None:
        """Let the job's lanes hang."""
        hang_bare(job, self.label, self.kind, self.bare(job), self.finish)
