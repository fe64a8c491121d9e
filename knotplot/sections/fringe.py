"""The fringe: what hangs below the last knot, trimmed and finished."""

from __future__ import annotations

from typing import Literal

from knotplot.fields import LengthOrFill
from knotplot.sections.base import Section
from knotplot.sections.free import hang_bare
from knotplot.tying.job import Job


class Fringe(Section):
    """Strands `length` mm long at the least, or what the drop leaves, with their `finish`."""

    kind: Literal["fringe"] = "fringe"
    length: LengthOrFill
    finish: Literal["combed", "cut", "knotted"] = "cut"

    def bare(self, job: Job) -> float:
        """Return its length, the least for now where the drop fills it."""
        return job.number("length", self.length)

    def work(self, job: Job) -> None:
        """Let the job's lanes hang."""
        hang_bare(job, self.label, self.kind, self.bare(job), self.finish)
