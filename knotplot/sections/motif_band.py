"""A band of one motif, side by side and row below row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import ClassVar, Literal, NamedTuple

from knotplot.fields import CountOrFill, LengthOrZero, Line
from knotplot.kind import KindWords
from knotplot.motifs.motif import Motif
from knotplot.motifs.working import MotifShapes
from knotplot.notice import Notice, Value
from knotplot.sections.base import Section
from knotplot.tying.bench import NoRoom
from knotplot.tying.gauge import Gauge
from knotplot.tying.job import Job
from knotplot.tying.names import counted
from knotplot.tying.rack import Ask
from knotplot.tying.shape import Shape


class Column(NamedTuple):
    """Where a motif stands in a row: its lanes that are there (from 1), and the first's lane.

    The lane is as the row begins: the rack counts on as columns add and end strands.
    """

    first: int
    last: int
    lane: int


class MotifBand(Section):
    """Rows of one motif, side by side over the whole width.

    It needs a multiple of the motif's strands. A motif that doesn't fit above a shaped lower edge
    is left at its `top` steps, or left out. A motif that adds or ends strands leaves other lanes
    for the next row, which must suit it.

    Example: `{kind: motif_band, motif: zigzag, rows: 2}`.
    """

    kind: Literal["motif_band"] = "motif_band"
    swatch_rank: ClassVar[int | None] = 2
    bare_key: ClassVar[str | None] = "gap"
    motif_keys: ClassVar[tuple[str, ...]] = ("motif",)
    words: ClassVar[Mapping[str, KindWords]] = {
        "en": KindWords(
            heading="Motifs",
            one="the motifs",
            many="the motifs",
            caption="motifs",
            fault=(
                "A bar that leans or gapes: the leader was not held straight, or a hitch "
                "has one turn instead of two. A cord that was skipped: count them after "
                "every bar."
            ),
        )
    }
    motif: Line
    """The name of the motif: one of the pattern's own `motifs`, or one that comes with knotplot.
    Example: `diamond`.
    """
    rows: CountOrFill
    """How many rows of it; `fill` takes what the drop leaves. Example: `3`, `fill`."""
    offset: Literal["half"] | None = None
    """`half` moves every second row half a motif aside; without it all rows stand below each other.
    Example: `half`.
    """
    gap: LengthOrZero = Fraction(0)
    """How much bare cord is left between two rows. Example: `12 mm`."""
    edges: Literal["half", "free"] = "half"
    """At the sides of rows that are moved aside: `half` works the parts of the motif that are
    there, `free` leaves those strands hanging.
    Example: `free`.
    """

    def ask(self, motifs: Mapping[str, Motif]) -> tuple[int, int]:
        """Ask for a multiple of its motif's strands."""
        return (0, motifs[self.motif].strands)

    def work(self, job: Job) -> None:
        """Tie its rows, each motif whole, or its top, or not at all, as the lower edge lets it."""
        rack = job.rack
        shapes = MotifShapes(rack, self.motif, job.motifs[self.motif], (*job.path, "motif"))
        rack.begin(self.label, self.kind, job.first, job.count)
        rows, worked, idle = int(job.number("rows", self.rows)), 0, 0
        lost, pushed = list[int](), 0.0
        for row in range(1, rows + 1):
            if idle >= 2 and row > 3:
                break  # nothing was worked in two rows: all below are as these two, row by row
            idle += 1
            job = job.now()
            self._check(shapes.motif.strands, job, row)
            columns = self._columns(shapes.motif.strands, job, row)
            gap = float(self.gap) * (row > 1)
            if not columns:
                continue
            asks = [Ask(shapes.shape(c.first, c.last), c.lane) for c in columns]
            if not any(ask.shape.tie_count for ask in asks):
                continue  # only parts that are left with nothing to tie: no row
            hangs = rack.top(asks, gap=gap)
            pushed = max(pushed, hangs.gap * (hangs.gap > gap))
            fitting = self._fitting(shapes, columns, hangs.y, job)
            found = [Ask(shape, c.lane) for shape, c in zip(fitting, columns, strict=True) if shape]
            if not found:
                self._nothing(job, row, worked)
                lost.append(row)
            elif rack.tie(found, gap=hangs.gap, at=hangs.y) is not None:
                worked, idle = worked + 1, 0
        else:
            row = rows + 1
        rack.notices += [*self._lost(job, lost, row, rows), *self._pushed(job, pushed)]
        rack.end()

    def _check(self, m: int, job: Job, row: int) -> None:
        """Refuse a row on lanes that whole motifs don't fill."""
        if job.count % m or not job.count:
            fewer = "use fewer rows, or " if row > 1 else ""
            raise job.refusal(
                f"row {row} of {self.label} finds {counted(job.count, 'strand')}, and its motif "
                f"needs a multiple of {m}",
                f"{fewer}add or end strands so that whole motifs fill the row", "motif",
                value=self.motif,
            )  # fmt: skip

    def _nothing(self, job: Job, row: int, worked: int) -> None:
        """Refuse a row that fits nowhere, unless a shaped edge took it away below others."""
        if worked == 0 or not job.edge.rise_mm:
            problem = f"row {row} of {self.label} doesn't fit above the lower edge"
            raise NoRoom(problem, "use a longer drop", (*job.path, "rows"), self.rows)

    def _lost(self, job: Job, lost: list[int], untried: int, rows: int) -> Iterator[Notice]:
        """Yield which rows fit nowhere; those from `untried` on are as the two above."""
        if not lost:
            return
        again = [row + 2 for row in lost if row + 2 >= untried]
        values: Mapping[str, Value] = {
            "section": (self.label, self.kind),
            "rows": tuple(lost),
            "until": rows if len(again) == 2 else 0,
            "more": sum(len(range(row, rows + 1, 2)) for row in again),
        }
        yield Notice("rows_fit_nowhere", (*job.path, "rows"), "warning", values)

    def _pushed(self, job: Job, gap: float) -> Iterator[Notice]:
        """Yield how much cord (mm) is left bare so that rows don't lie on each other, if any is."""
        if gap:
            # Bands of one name are told once: what is too little to be measured isn't kept.
            values: Mapping[str, Value] = {"section": (self.label, self.kind), "gap": round(gap, 2)}
            yield Notice("rows_pushed_apart", (*job.path, "gap"), "warning", values)

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

    def _fitting(
        self, shapes: MotifShapes, columns: list[Column], top: float, job: Job
    ) -> list[Shape | None]:
        """Return the motif for each column, its top, or None, whichever the edge leaves room for.

        Where a motif that adds or ends strands gives way, its neighbours hang in other lanes: all
        are looked at again until every one that is left fits in its own.
        """
        parts = int(shapes.motif.top is not None)
        gave = [0] * len(columns)  # how often each gave way: to its top, if it has one, to nothing
        shown: list[Shape | None] = [shapes.shape(each.first, each.last) for each in columns]
        while True:
            places = _places(columns, shown, job.rack.gauge)
            over = [
                i for i, shape in enumerate(shown)
                if shape is not None and not self._fits(shape, columns[i].lane, places[i], top, job)
            ]  # fmt: skip
            if not over:
                return [shape if shape is not None and shape.works else None for shape in shown]
            for i in over:
                gave[i] += 1
                first, last = columns[i].first, columns[i].last
                shown[i] = shapes.shape(first, last, top=True) if gave[i] <= parts else None

    def _fits(self, shape: Shape, lane: int, place: Place, top: float, job: Job) -> bool:
        """Tell whether what goes on below a motif has room there, and what ends in it is above."""
        gauge = job.rack.gauge
        for exit_ in shape.exits:
            x = place.gauge.x(place.lane + exit_.lane)
            if top + exit_.port.y + job.below > job.edge.y(x) + 1e-6:
                return False
        left = lane * gauge.pitch
        return all(
            top + each.port.y <= job.edge.y(min(max(left + each.port.x, 0.0), gauge.width)) + 1e-6
            for each in shape.ended
            if each.port is not None
        )


class Place(NamedTuple):
    """Where a motif's strands hang after its row: the first lane (from 0), and the gauge then."""

    lane: int
    gauge: Gauge


def _places(columns: list[Column], shown: list[Shape | None], gauge: Gauge) -> list[Place]:
    """Return where the strands of each column hang once its row is worked so."""
    after = gauge.over(gauge.strands + sum(shape.more for shape in shown if shape is not None))
    found, more = [], 0
    for column, shape in zip(columns, shown, strict=True):
        found.append(Place(column.lane + more, after))
        more += 0 if shape is None else shape.more
    return found
