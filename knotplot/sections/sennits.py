"""Sennits: braids of one knot tied again and again, side by side."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import ClassVar, Literal

from pydantic import model_validator

from knotplot.errors import Path, Refusal
from knotplot.fields import Count, LengthOrFill, Line, StrandCount, wrong
from knotplot.kind import KindWords
from knotplot.motifs.motif import Motif
from knotplot.sections.base import Section
from knotplot.sections.square_knot_mesh import facing
from knotplot.tying.checking import lanes_fault
from knotplot.tying.job import Job
from knotplot.tying.piece import Row
from knotplot.tying.rack import Ask, Rack
from knotplot.tying.shape import Shape
from knotplot.tying.stacks import LEAST, stacks
from knotplot.units import cm


class Sennits(Section):
    """Braids of one knot tied again and again, side by side.

    They need a multiple of a braid's strands. Give one of `count` and `length`.

    Example: `{kind: sennits, knot: half_knot, count: 10}`.
    """

    kind: Literal["sennits"] = "sennits"
    swatch_rank: ClassVar[int | None] = 2
    one_knot: ClassVar[bool] = True
    counts: ClassVar[tuple[str, str]] = ("count", "knot")
    knot_keys: ClassVar[tuple[str, ...]] = ("knot",)
    number_of_length: ClassVar[str] = "count"
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Sennits",
            one="the sennits",
            many="the sennits",
            caption="sennits",
            fault="{knot} Count the knots: sennits of one length can hide a missing one.",
            hint=(
                "A row is one knot in every sennit. You may work each sennit to its end "
                "before the next."
            ),
        )
    }
    knot: Line
    """The knot they are tied with; `knotplot knots` lists those that can be asked for by name.
    Example: `half_knot`.
    """
    strands: StrandCount = 4
    """How many strands each braid has. Example: `4`."""
    count: Count | None = None
    """How many knots each braid has. Example: `10`."""
    length: LengthOrFill | None = None
    """How long each braid is: as many knots as fit; `fill` takes what the drop leaves.
    Example: `12 cm`, `fill`.
    """
    facing: Literal["left", "right", "alternate"] = "left"
    """Which side the knots begin from: all `left`, all `right`, or `alternate` by row. Half knots
    of one side wind the braid; the other side winds it the other way.
    Example: `right`.
    """

    @model_validator(mode="after")
    def _one_of_count_and_length(self) -> Sennits:
        if (self.count is None) == (self.length is None):
            problem = "no count and no length" if self.count is None else "both count and length"
            raise wrong(problem, "give one of count and length")
        return self

    def ask(self, motifs: Mapping[str, Motif]) -> tuple[int, int]:
        """Ask for a multiple of a sennit's strands."""
        return (0, self.strands)

    def refusals(self, motifs: Mapping[str, Motif], path: Path) -> Iterator[Refusal]:
        """Yield why its knot can't be tied on its strands, `path` being its own."""
        wrong = lanes_fault(self.knot, self.strands, 1)
        if wrong:
            yield Refusal(*wrong, (*path, "strands"), self.strands)

    def sample(self, rows: int) -> tuple[Section, ...]:
        """Return sennits of so many knots."""
        return (self.model_copy(update={"count": rows, "length": None}),)

    @classmethod
    def hints(cls, side_by_side: bool) -> bool:
        """Return whether there are several: their hint is how to go from one to the next."""
        return side_by_side

    @classmethod
    def features(cls, rows: Sequence[Row], adds: bool) -> Iterator[str]:
        """Yield the stacks that its knots make."""
        if len(rows) >= LEAST:
            yield from stacks(tie for row in rows for p in row.placements for tie in p.shape.ties)

    def work(self, job: Job) -> None:
        """Tie the k-th knots of all sennits as one row, from the left."""
        rack = job.rack
        rack.begin(self.label, self.kind, job.first, job.count)
        count = self._knots(job)
        rack.expect(count * (job.count // self.strands))
        lanes = range(job.first, job.first + job.count, self.strands)
        for k in range(1, count + 1):
            shape = self._shape(rack, k)
            rack.tie([Ask(shape, lane) for lane in lanes])
        rack.end()

    def _shape(self, rack: Rack, k: int) -> Shape:
        return rack.knot(self.knot, self.strands, facing(self.facing, k))

    def _knots(self, job: Job) -> int:
        """Return how many knots each sennit has: as asked, or what its length holds."""
        if self.count is not None or self.length == "fill":
            return int(job.number("count", self.count or 1))
        length = job.number("length", self.length or 0.0)
        height = self._shape(job.rack, 1).bottom
        count = int(length / height + 1e-9)
        if count < 1:
            least = cm(math.ceil(height))
            raise job.refusal(
                f"one {self.knot} is {cm(height)} high", f"use {least} or more", "length"
            )
        return count
