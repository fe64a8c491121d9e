"""Free strands: bare cord between two stretches of work."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.fields import LengthOrFill
from knotplot.kind import KindWords
from knotplot.sections.base import Section
from knotplot.tying.job import Job


class Free(Section):
    """Strands left bare between two stretches of work.

    Example: `{kind: free, length: 4 cm}`.
    """

    kind: Literal["free"] = "free"
    bare_cords: ClassVar[bool] = True
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Bare cords",
            one="the bare cords",
            many="the bare cords",
            caption="free cords",
            fault=("Bare cords of uneven length: measure each from the knot above it, not by eye."),
        )
    }
    length: LengthOrFill
    """How long they hang bare, at the least; `fill` takes what the drop leaves.
    Example: `4 cm`, `fill`.
    """

    def bare(self, job: Job) -> float:
        """Return its length, the least for now where the drop fills it."""
        return job.number("length", self.length)

    def work(self, job: Job) -> None:
        """Let the job's lanes hang."""
        hang_bare(job, self.label, self.kind, self.bare(job))


def hang_bare(job: Job, name: str, kind: str, length: float, finish: str | None = None) -> None:
    """Let the job's lanes hang `length` mm; `finish` says what becomes of their ends, if any."""
    rack = job.rack
    rack.begin(name, kind, job.first, job.count)
    bottom = rack.depth(job.first, job.count) + length
    rack.free(job.first, job.count, length)
    rack.end(bottom, finish)
