"""The layout: every strand followed from its start to its end, with the length of each part."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple, TypeAlias

from knotplot.brief import Brief
from knotplot.curves.bezier import Cubic, length
from knotplot.geometry.inner import inner_runs
from knotplot.geometry.runs import RunLengths, run, run_length, shown
from knotplot.knots.base import CordUse, Manner
from knotplot.tying.finish import KNOT, LONGEST_TAIL, MANNER, knot_height, knotted
from knotplot.tying.piece import Piece, Row
from knotplot.tying.ports import Port
from knotplot.tying.shape import Shape

#: What cord a tie takes: knot, manner and section number to lengths by role, in diameters.
Take: TypeAlias = Callable[[str, Manner, int], CordUse]

TAIL_SHOWN = 38.0  # a tail's fringe is trimmed to about 1 1/2 in (common practice)
#: What a strand that ends in the work has left below its last tie (mm), to work in at the back and
#: trim: as much as a hand needs to tie that (contract, 5).
ENDED = 120.0
ENDED_SHOWN = 2.5  # of it, diameters


class Use(NamedTuple):
    """What one strand takes, or a shape's part of it: mm in knots and in free runs.

    `errors` is the sum of squares of its ties' errors (mm²).
    """

    knots: float
    runs: float
    errors: float


class FreeRun(NamedTuple):
    """A free run as worked: the strand, its curve, the row it comes from and the one it enters.

    Rows are counted from 0; -1 is the start, `len(rows)` the lower edge.
    """

    strand: int
    curve: Cubic
    above: int
    below: int


@dataclass(frozen=True, repr=False)
class Layout(Brief):
    """A piece laid out: `uses` by strand id (index 0 unused), each without its hanging end.

    `ends` has where each strand ends, hanging (mm): at the trim line. `hanging` is the bare cord
    below the last knot of the work: that last run; in a knotted fringe (`tied_off`) the run down to
    the knot in the end and the tail below it. That knot is among the strand's `uses`, as a tie.
    `leaders` has what separate cords (leaders, wraps) take in knots, `take` is what was asked for
    the cord of a tie.
    """

    piece: Piece
    uses: tuple[Use, ...]
    ends: tuple[Port | None, ...]
    hanging: tuple[float, ...]
    leaders: dict[str, Use]
    take: Take
    tied_off: frozenset[int] = frozenset()

    def free_end(self, strand: int) -> float:
        """Return what hangs (mm) at the free end of a strand, below the last knot in it."""
        return LONGEST_TAIL if strand in self.tied_off else self.hanging[strand]

    def bare_below(self, strand: int) -> float:
        """Return how long (mm) a strand is below the work, down to its end or the knot in it."""
        return self.hanging[strand] - (LONGEST_TAIL if strand in self.tied_off else 0.0)

    @cached_property
    def free_runs(self) -> tuple[FreeRun, ...]:
        """Follow the strands again and return every free run between rows, as worked."""
        return tuple(self._free_runs())

    def _free_runs(self) -> Iterator[FreeRun]:
        piece, diameter = self.piece, self.piece.gauge.diameter
        at: list[tuple[Port, int] | None] = [
            None if port is None else (port, -1) for port in piece.mounting.starts
        ]
        for index, row in enumerate(piece.rows):
            pitch = row.pitch(piece.gauge)
            for shape, lane, strands, top, _ in row.placements:
                left = lane * pitch
                for who, port in shape.entries:
                    strand = strands[who]
                    before = at[strand]
                    if before is not None:
                        curve = shown(before[0], port.moved(left, top), diameter)
                        yield FreeRun(strand, curve, before[1], index)
                for who, port in shape.last_ports:
                    at[strands[who]] = (port.moved(left, top), index)
        for strand, end in enumerate(self.ends):
            before = at[strand]
            if end is not None and before is not None:
                yield FreeRun(
                    strand, run(before[0], end, diameter), before[1], len(piece.rows)
                )  # fmt: skip


def lay(piece: Piece, take: Take) -> Layout:
    """Follow every strand of a piece and measure it; `take` says what cord a tie takes.

    One pass over the placed shapes: what a shape takes inside is worked out once for each section.
    """
    gauge, starts = piece.gauge, piece.mounting.starts
    count = len(starts)
    knots, runs, errors = [0.0] * count, [0.0] * count, [0.0] * count
    port: list[Port | None] = list(starts)
    left, top = [0.0] * count, [0.0] * count
    lengths = RunLengths(gauge.diameter)
    inside: dict[tuple[int, int], tuple[tuple[int, Use], ...]] = {}
    leaders: dict[str, Use] = {}
    for row in piece.rows:
        pitch = row.pitch(gauge)
        for shape, lane, strands, y, cord in row.placements:
            x = lane * pitch
            for who, entry in shape.entries:
                strand = strands[who]
                before = port[strand]
                if before is not None:
                    runs[strand] += lengths.of(before, left[strand], top[strand], entry, x, y)
            key = (id(shape), row.section)
            uses = inside.get(key)
            if uses is None:
                uses = inside[key] = shape_use(shape, row.section, take, gauge.diameter)
            for who, use in uses:
                if who < 0:
                    old = leaders.get(cord or "", Use(0.0, 0.0, 0.0))
                    leaders[cord or ""] = Use(*map(sum, zip(old, use, strict=True)))
                    continue
                strand = strands[who]
                knots[strand] += use[0]
                runs[strand] += use[1]
                errors[strand] += use[2]
            for who, leave in shape.last_ports:
                strand = strands[who]
                port[strand], left[strand], top[strand] = leave, x, y
    last = [None if p is None else p.moved(left[i], top[i]) for i, p in enumerate(port)]
    measured = tuple(Use(*use) for use in zip(knots, runs, errors, strict=True))
    return _ended(piece, measured, last, leaders, take)


def followed(
    piece: Piece,
    rows: Iterable[Row],
    strands: Collection[int],
    take: Take,
    starts: Mapping[int, Port] | None = None,
) -> float:
    """Return the cord (mm) that some strands take together over some of a piece's rows.

    Knots, runs between them, and the run from where a strand is in `starts`; a strand that isn't
    there is counted from its first tie.
    """
    gauge, total = piece.gauge, 0.0
    last = dict(starts or {})
    for row in rows:
        pitch = row.pitch(gauge)
        for shape, lane, hanging, top, _ in row.placements:
            if not any(strand in strands for strand in hanging):
                continue
            left = lane * pitch
            uses = shape_use(shape, row.section, take, gauge.diameter)
            total += sum(
                use.knots + use.runs for who, use in uses if who >= 0 and hanging[who] in strands
            )
            for who, port in shape.entries:
                before = last.get(hanging[who])
                if hanging[who] in strands and before is not None:
                    total += run_length(before, port.moved(left, top), gauge.diameter)
            for who, port in shape.last_ports:
                last[hanging[who]] = port.moved(left, top)
    return total


def _ended(
    piece: Piece,
    measured: tuple[Use, ...],
    last: list[Port | None],
    leaders: dict[str, Use],
    take: Take,
) -> Layout:
    """Return the layout with every strand's last run to its end, and the knot tied in that."""
    ends, diameter, uses = _ends(piece, measured, last), piece.gauge.diameter, list(measured)
    hanging = [
        length(run(a, b, diameter)) if a and b else 0.0 for a, b in zip(last, ends, strict=True)
    ]
    for strand in piece.ended:
        hanging[strand] = ENDED
    tied_off = knotted(piece)
    for strand, section in tied_off.items():
        above, end = last[strand], ends[strand]
        if above and end:
            knot = end.moved(0.0, -knot_height(diameter))
            hanging[strand] = length(run(above, knot, diameter)) + LONGEST_TAIL
            uses[strand] = _with_knot(uses[strand], take(KNOT, MANNER, section), diameter)
    return Layout(
        piece, tuple(uses), tuple(ends), tuple(hanging), leaders, take, frozenset(tied_off)
    )


def _with_knot(use: Use, knot: CordUse, diameter: float) -> Use:
    """Return what a strand takes with one more knot, in its end."""
    total = list(use)
    _add(total, knot, "working", diameter)
    return Use(*total)


def shape_use(
    shape: Shape, section: int, take: Take, diameter: float
) -> tuple[tuple[int, Use], ...]:
    """Return what each strand of a shape takes inside it; -1 stands for its separate cord.

    Knots take what `take` says; the runs between the shape's own ties are measured.
    """
    totals: dict[int, list[float]] = {}
    for each in inner_runs(shape, diameter):
        totals.setdefault(each.who, [0.0, 0.0, 0.0])[1] += each.length
    for tie in shape.ties:
        if tie.carried is not None and tie.leader is not None:  # it hangs straight through
            through = tie.carried[1].y - tie.carried[0].y
            totals.setdefault(tie.leader, [0.0, 0.0, 0.0])[1] += through
        use = take(tie.knot, tie.manner, section)
        for who, role in zip(tie.who, tie.roles, strict=True):
            _add(totals.setdefault(who, [0.0, 0.0, 0.0]), use, role, diameter)
        if tie.leader == -1 or "wrap" in use.by_role:
            separate = totals.setdefault(-1, [0.0, 0.0, 0.0])
            _add(separate, use, "wrap" if "wrap" in use.by_role else "leader", diameter)
    return tuple((who, Use(*totals[who])) for who in sorted(totals))


def stands_out(piece: Piece) -> float:
    """Return how far picots stand out beyond the sides of a piece (mm), 0 where none do.

    A loop reaches out half its length at the most.
    """
    most, width = 0.0, piece.gauge.width
    for row in piece.rows:
        for shape, lane, _, _, _ in (row.placements[0], row.placements[-1]):
            left = lane * row.pitch(piece.gauge)
            for tie in shape.ties:
                if tie.picot:
                    reach = tie.picot / 2.0 + piece.gauge.diameter
                    xs = [left + port.x for port in tie.enter]
                    most = max(most, reach - min(xs), max(xs) + reach - width)
    return most


def stands_above(piece: Piece) -> float:
    """Return how far loops stand above the top of the work (mm), 0 where cords leave none."""
    if not piece.mounting.loop:
        return 0.0
    folds = (port.y for port in piece.mounting.starts if port is not None)
    return piece.gauge.diameter / 2.0 - min(folds)


def _add(total: list[float], use: CordUse, role: str, diameter: float) -> None:
    taken = use.by_role[role] * diameter
    if role == "crossing":
        total[1] += taken
        return
    total[0] += taken
    total[2] += (use.sigma * taken) ** 2


def _ends(piece: Piece, uses: tuple[Use, ...], last: list[Port | None]) -> list[Port | None]:
    """Return where each strand ends: body strands on the lower edge, tails where they run out.

    One that ended in the work is shown a little below its last tie.
    """
    gauge, mounting = piece.gauge, piece.mounting
    ends: list[Port | None] = [None] * len(last)
    below = piece.last_gauge
    for lane, strand in enumerate(piece.lanes):
        x = below.x(lane)
        ends[strand] = Port(x, piece.edge.y(x), 0.0, 1.0, "knot")
    for strand in piece.ended:
        port = last[strand]
        if port is not None:
            low = port.y + ENDED_SHOWN * gauge.diameter
            ends[strand] = Port(port.x, low, 0.0, 1.0, "knot")
    if mounting.pocket is not None:
        for lane in range(gauge.strands):
            tail = gauge.strands + lane + 1
            port, use = last[tail], uses[tail]
            if port is not None:
                left = max(0.0, mounting.tail - use.knots - use.runs)
                ends[tail] = Port(port.x, port.y + min(left, TAIL_SHOWN), 0.0, 1.0, "knot")
    return ends
