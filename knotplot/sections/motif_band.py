"""A band of one motif, side by side and row below row."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from knotplot.fields import CountOrFill, LengthOrZero, Line
from knotplot.motifs.motif import Motif
from knotplot.motifs.working import MotifShapes
from knotplot.sections.base import Section
from knotplot.tying.job import Job
from knotplot.tying.rack import Ask
from knotplot.tying.shape import Shape


class Column(NamedTuple):
    """Where a motif stands in a row: its lanes that are there (from 1), and the first's lane."""

    first: int
    last: int
    lane: int


class MotifBand(Section):
    """`rows` rows of a motif, `gap` mm of bare cord between them; offset rows start half over."""

    kind: Literal["motif_band"] = "motif_band"
    motif: Line
    rows: CountOrFill
    offset: Literal["half"] | None = None
    gap: LengthOrZero = Fraction(0)
    edges: Literal["half", "free"] = "half"

    def ask(self, motifs: Mapping[str, Motif]) -> tuple[int, int]:
        """Ask for a multiple of its motif's strands."""
        return (0, motifs[self.motif].strands)

    def work(self, job: Job) -> None:
        """Tie its rows, each motif whole, or its top, or not at all, as the lower edge lets it."""
        rack = job.rack
        shapes = MotifShapes(rack, self.motif, job.motif(self.motif))
        rack.begin(self.label, self.kind, job.first, job.count)
        rows, worked = int(job.number("rows", self.rows)), 0
        for row in range(1, rows + 1):
            columns = self._columns(shapes.motif.strands, job, row)
            gap = float(self.gap) * (row > 1)
            if not columns:
                continue
            asks = [Ask(shapes.shape(c.first, c.last), c.lane) for c in columns]
            if not any(ask.shape.ties for ask in asks):
                continue  # only parts that are left with nothing to tie: no row
            top = rack.top(asks, gap=gap)
            fitting = [self._fitting(shapes, c, top, job) for c in columns]
            found = [Ask(shape, c.lane) for shape, c in zip(fitting, columns, strict=True) if shape]
            if not found:
                self._nothing(job, row, worked)
            worked += rack.tie(found, gap=gap, at=top) is not None
        rack.end()

    def _nothing(self, job: Job, row: int, worked: int) -> None:
        """Refuse a row that fits nowhere, or warn where a shaped edge took it away."""
        if worked == 0 or not job.edge.rise_mm:
            raise job.refusal(
                f"row {row} of {self.label} doesn't fit above the lower edge",
                f"use {worked} rows at most, or a longer drop" if worked else "use a longer drop",
                "rows", value=self.rows,
            )  # fmt: skip
        job.rack.warnings.append(
            f"{self.label}: row {row} fits nowhere above the lower edge, so nothing of it is worked"
        )

    def _columns(self, m: int, job: Job, row: int) -> list[Column]:
        """Return the motifs of a row (from 1) left to right; parts of one at its sides."""
        if self.offset is None or row % 2:
            return [Column(1, m, lane) for lane in range(job.first, job.first + job.count, m)]
        half, last = m // 2, job.first + job.count
        whole = [Column(1, m, lane) for lane in range(job.first + half, last - m + 1, m)]
        if self.edges == "free":
            return whole
        left = [Column(m - half + 1, m, job.first)] if half else []
        right = [Column(1, m - half, last - (m - half))]
        return [*left, *whole, *right]

    def _fitting(self, shapes: MotifShapes, column: Column, top: float, job: Job) -> Shape | None:
        """Return the motif, its top, or None, whichever the edge leaves room for."""
        whole = shapes.shape(column.first, column.last)
        if self._fits(whole, column, top, job):
            return whole if whole.ties else None
        if shapes.motif.top is None:
            return None
        part = shapes.shape(column.first, column.last, top=True)
        return part if part.ties and self._fits(part, column, top, job) else None

    def _fits(self, shape: Shape, column: Column, top: float, job: Job) -> bool:
        gauge = job.rack.gauge
        return all(
            top + exit_.port.y + job.below <= job.edge.y(gauge.x(column.lane + exit_.lane)) + 1e-6
            for exit_ in shape.exits
        )
