"""A horizontal row of double half hitches onto one separate leader cord."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar, Literal

from knotplot.fields import Length
from knotplot.kind import KindWords
from knotplot.knots.base import Manner
from knotplot.knots.hitch import ALONG
from knotplot.sections.base import Section
from knotplot.tying.gauge import Gauge
from knotplot.tying.job import Job
from knotplot.tying.moves import Move
from knotplot.tying.rack import Ask


class HitchLine(Section):
    """A level row of double half hitches onto a separate leader cord.

    Every strand is hitched, from left to right.

    Example: `{kind: hitch_line, overhang: 6 cm}`.
    """

    kind: Literal["hitch_line"] = "hitch_line"
    swatch_rank: ClassVar[int | None] = 3
    hitched: ClassVar[bool] = True
    own_width: ClassVar[bool] = True
    skips_cords: ClassVar[bool] = True
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Horizontal row of double half hitches",
            one="the row of double half hitches",
            many="the rows of double half hitches",
            caption="row of double half hitches",
            fault=(
                "Single hitches instead of double ones: every cord goes round the leader "
                "twice. A wavy line: hold the leader straight and level."
            ),
        )
    }
    layer: Literal["body", "tails"] = "body"
    """Which strands are hitched: the `body`, or the `tails` of a rod pocket. Example: `tails`."""
    overhang: Length = Fraction(50)
    """How far the leader stands out at each side, to be worked in. Example: `6 cm`."""

    @property
    def stands_out(self) -> float:
        """Return how far (mm) its leader stands out at each side."""
        return float(self.overhang)

    def sample(self, rows: int) -> tuple[Section, ...]:
        """Return so many of it, one below another."""
        return (self.model_copy(update={"layer": "body"}),) * rows

    def work(self, job: Job) -> None:
        """Hitch every lane of the layer, left to right, on a new leader."""
        rack, gauge = job.rack, job.rack.gauge
        if self.layer not in rack.lanes:
            raise job.refusal(
                "there are no tails to hitch", "use 'layer: body', or mount on a rod pocket",
                "layer", value=self.layer,
            )  # fmt: skip
        if self.layer != "body" and rack.recounted:
            gauge, job = self._tails(job)
        room = gauge.pitch / gauge.diameter
        over = float(self.overhang)
        leader = rack.cut("leader", length=job.count * gauge.pitch, ends=(over, over))
        rack.begin(self.label, self.kind, job.first, job.count, self.layer)
        manner = Manner(1, leader=-1, reach=min(ALONG, room) / 2.0, tall=rack.tall)
        shape = rack.single(Move("double_half_hitch", (0,), leader=-1), manner, self.layer)
        lanes = range(job.first, job.first + job.count)
        row = rack.tie([Ask(shape, lane, leader) for lane in lanes], self.layer)
        if row is not None and self.layer != "body":
            rack.level(job.first, job.count, row.placements[0].y + shape.bottom)
        rack.end()

    def _tails(self, job: Job) -> tuple[Gauge, Job]:
        """Return the tails' gauge and lanes, where the body's are others by now."""
        rack = job.rack
        if job.others:
            raise job.refusal(
                "strands were added or ended above, so that tails no longer hang behind the "
                "strands of this part", "hitch the tails before, or across the whole piece",
                "layer", value=self.layer,
            )  # fmt: skip
        return rack.gauge_of(self.layer), job.on(0, len(rack.lanes[self.layer]))
