"""A gather: all strands wrapped into one bundle, to go on below."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from knotplot.fields import Colour, Length
from knotplot.kind import KindWords
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.sections.base import Section
from knotplot.tying.job import Job
from knotplot.tying.moves import Move
from knotplot.tying.rack import Ask
from knotplot.units import cm

MOST_TURNS = 400


class Gather(Section):
    """All strands bound into one bundle by a gathering knot; work goes on below.

    It is wrapped with a cord of its own.

    Example: `{kind: gather, wrap: 3 cm}`.
    """

    kind: Literal["gather"] = "gather"
    bundled: ClassVar[bool] = True
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Gathering knot",
            one="the gathering knot",
            many="the gathering knots",
            caption="gathering",
            fault="A wrap that slides: its turns were not pulled as tight as they go.",
            hint=(
                "Pull the wrap tight turn by turn, then go on below with the same cords in "
                "the same order."
            ),
        )
    }
    wrap: Length
    """How tall the wrapping is. Example: `3 cm`."""
    colour: Colour | None = None
    """The colour of the wrapping cord; without it, the first colour of the pattern.
    Example: `rust`.
    """

    @property
    def own_colour(self) -> str | None:
        """Return the colour of its wrapping cord."""
        return self.colour

    def work(self, job: Job) -> None:
        """Wrap all lanes together."""
        wrap_all(job, self.label, self.kind, float(self.wrap), self.colour)


def wrap_all(job: Job, name: str, kind: str, height: float, colour: str | None) -> None:
    """Bind the job's lanes by one gathering knot `height` mm high, with a new wrapping cord."""
    rack, diameter = job.rack, job.rack.gauge.diameter
    fault = knot("gathering_knot").fault(job.count, 1)
    if fault:
        raise job.refusal(*fault)
    if height > MOST_TURNS * diameter:
        raise job.refusal(
            f"a wrap of more than {MOST_TURNS} turns",
            f"use {cm(int(MOST_TURNS * diameter))} at most", "wrap", value=cm(height),
        )  # fmt: skip
    manner = Manner(job.count, reach=height / diameter / 2.0)
    taken = knot("gathering_knot").cord(manner).by_role["wrap"] * diameter
    cord = rack.cut("wrap", "wrap", length=taken, ends=(0.0, 0.0), colour=colour)
    shape = rack.single(Move("gathering_knot", tuple(range(job.count))), manner)
    rack.begin(name, kind, job.first, job.count)
    rack.tie([Ask(shape, job.first, cord)])
    rack.end()
