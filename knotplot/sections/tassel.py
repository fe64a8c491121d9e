"""A tassel: all strands wrapped into one bundle that ends the work."""

from __future__ import annotations

from typing import Literal

from knotplot.fields import Colour, Length
from knotplot.sections.base import Section
from knotplot.sections.gather import wrap_all
from knotplot.tying.job import Job


class Tassel(Section):
    """All lanes bound by a gathering knot wrapped `wrap` mm high; only a fringe may follow.

    `colour` is that of the wrapping cord, else the first of the pattern's.
    """

    kind: Literal["tassel"] = "tassel"
    wrap: Length
    colour: Colour | None = None

    def work(self, job: Job) -> None:
        """Wrap all lanes together."""
        wrap_all(job, self.label, self.kind, float(self.wrap), self.colour)
