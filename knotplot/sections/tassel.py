"""A tassel: all strands wrapped into one bundle that ends the work."""

from __future__ import annotations

from typing import Literal

from knotplot.fields import Colour, Length
from knotplot.sections.base import Section
from knotplot.sections.gather import wrap_all
from knotplot.tying.job import Job


class Tassel(Section):
    """All strands bound into one bundle by a gathering knot that ends the work.

    Only a fringe may follow.

    Example: `{kind: tassel, wrap: 2 cm}`.
    """

    kind: Literal["tassel"] = "tassel"
    wrap: Length
    """How tall the wrapping is. Example: `2 cm`."""
    colour: Colour | None = None
    """The colour of the wrapping cord; without it, the first colour of the pattern.
    Example: `rust`.
    """

    def work(self, job: Job) -> None:
        """Wrap all lanes together."""
        wrap_all(job, self.label, self.kind, float(self.wrap), self.colour)
