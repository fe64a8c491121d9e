"""A mesh of alternating square knots, dense or open."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import ClassVar, Literal

from knotplot.fields import CountOrFill, LengthOrZero
from knotplot.kind import KindWords
from knotplot.motifs.motif import Motif
from knotplot.sections.base import Section
from knotplot.tying.job import Job
from knotplot.tying.names import counted
from knotplot.tying.piece import Row
from knotplot.tying.rack import Ask


class SquareKnotMesh(Section):
    """A net of square knots on four strands each.

    Every row joins the halves of two knots above. It needs a multiple of 4 strands.

    Example: `{kind: square_knot_mesh, rows: 4, spacing: 6 mm}`.
    """

    kind: Literal["square_knot_mesh"] = "square_knot_mesh"
    swatch_rank: ClassVar[int | None] = 0
    net: ClassVar[bool] = True
    bare_key: ClassVar[str | None] = "spacing"
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Alternating square knots",
            one="the alternating square knots",
            many="the alternating square knots",
            caption="alternating square knots",
            fault=(
                "A knot that twists is a granny: its second half was begun from the same "
                "side as its first. Cords forgotten at the edges: leave exactly those the "
                "row says. A slope: lay a ruler under every few rows."
            ),
        )
    }
    rows: CountOrFill
    """How many rows; `fill` takes what the drop leaves. Example: `6`, `fill`."""
    spacing: LengthOrZero = Fraction(0)
    """How much bare cord is left between two rows; 0 is a dense net. Example: `6 mm`."""
    start: Literal["edge", "offset"] = "edge"
    """Where the first row begins: at the `edge`, or `offset` by two strands. Example: `offset`."""
    shape: Literal["straight", "decrease", "increase"] = "straight"
    """`straight` sides, or a net that draws in to a point (`decrease`) or widens from one
    (`increase`), by a knot a row.
    Example: `decrease`.
    """
    facing: Literal["left", "right", "alternate"] = "left"
    """Which side the knots begin from: all `left`, all `right`, or `alternate` by row.
    Example: `alternate`.
    """

    def ask(self, motifs: Mapping[str, Motif]) -> tuple[int, int]:
        """Ask for a multiple of 4."""
        return (0, 4)

    def sample(self, rows: int) -> tuple[Section, ...]:
        """Return so many of its rows, each on all strands."""
        return (self.model_copy(update={"rows": rows, "shape": "straight"}),)

    @classmethod
    def features(cls, rows: Sequence[Row], adds: bool) -> Iterator[str]:
        """Yield "mesh" for rows that alternate."""
        if len(rows) > 1:
            yield "mesh"

    def work(self, job: Job) -> None:
        """Tie its rows; refuse more of a shaped one than come to a point."""
        rows, rack = int(job.number("rows", self.rows)), job.rack
        most = job.count // 4 - (self.start == "offset")
        if self.shape != "straight" and rows > most:
            what = "an increase" if self.shape == "increase" else "a decrease"
            problem = f"{what} on {job.count} strands has no more than {counted(most, 'row')}"
            remedy = f"use {counted(most, 'row')} at most"
            raise job.refusal(problem, remedy, "rows", value=rows)
        rack.expect(rows * max(1, job.count // 4 - 1) // (1 if self.shape == "straight" else 2))
        rack.begin(self.label, self.kind, job.first, job.count)
        for row in range(1, rows + 1):
            shape = rack.knot("square_knot", 4, facing(self.facing, row))
            inset = self._inset(row, rows)
            lanes = range(job.first + inset, job.first + job.count - inset - 3, 4)
            rack.tie([Ask(shape, lane) for lane in lanes], gap=float(self.spacing) * (row > 1))
        rack.end()

    def _inset(self, row: int, rows: int) -> int:
        """Return how many lanes hang at each side of a row (from 1)."""
        start = 2 if self.start == "offset" else 0
        if self.shape == "straight":
            return start if row % 2 else 2 - start
        return start + 2 * (row - 1 if self.shape == "decrease" else rows - row)


def facing(asked: str, row: int) -> str:
    """Return which way the knots of a row (from 1) face; `alternate` begins with left."""
    if asked == "alternate":
        return "left" if row % 2 else "right"
    return asked
