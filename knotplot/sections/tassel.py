"""A tassel: all strands wrapped into one bundle that ends the work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import ClassVar, Literal

from knotplot.fields import Colour, Length
from knotplot.kind import KindWords
from knotplot.sections.base import Section
from knotplot.sections.gather import wrap_all
from knotplot.tying.job import Job
from knotplot.tying.piece import Row


class Tassel(Section):
    """All strands bound into one bundle by a gathering knot that ends the work.

    Only a fringe may follow.

    Example: `{kind: tassel, wrap: 2 cm}`.
    """

    kind: Literal["tassel"] = "tassel"
    bundled: ClassVar[bool] = True
    ends_work: ClassVar[bool] = True
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Tassel",
            one="the tassel",
            many="the tassels",
            caption="tassel",
            fault="A wrap that slides: its turns were not pulled as tight as they go.",
            hint="Pull the wrap tight turn by turn. Only the fringe hangs below it.",
        )
    }
    wrap: Length
    """How tall the wrapping is. Example: `2 cm`."""
    colour: Colour | None = None
    """The colour of the wrapping cord; without it, the first colour of the pattern.
    Example: `rust`.
    """

    @property
    def own_colour(self) -> str | None:
        """Return the colour of its wrapping cord."""
        return self.colour

    @classmethod
    def features(cls, rows: Sequence[Row], adds: bool) -> Iterator[str]:
        """Yield "tassel added" in a piece with added cords."""
        if adds:
            yield "tassel added"

    def work(self, job: Job) -> None:
        """Wrap all lanes together."""
        wrap_all(job, self.label, self.kind, float(self.wrap), self.colour)
