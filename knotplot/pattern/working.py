"""A pattern worked: mounted and tied on the rack from top to bottom, what is `fill` found.

The strands below the last knot take the slack; where they can't, the pattern is refused with the
drop, or the number of rows, that would do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from knotplot.curves.lower_edge import LowerEdge
from knotplot.errors import Path, Refusal
from knotplot.motifs.working import double_lead_warning
from knotplot.pattern.bounds import check_room
from knotplot.pattern.colouring import colour_warnings, coloured
from knotplot.pattern.gauge_height import heights
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import Cord as CordType
from knotplot.sections.base import walk, work_in_turn
from knotplot.sections.motif_band import MotifBand
from knotplot.sections.sennits import Sennits
from knotplot.tying.bench import TooMuch
from knotplot.tying.gauge import NARROWEST, Gauge
from knotplot.tying.heights import Heights
from knotplot.tying.job import Job
from knotplot.tying.names import counted
from knotplot.tying.piece import Cord, Mounting, Part, Piece
from knotplot.tying.rack import Rack
from knotplot.tying.shape import Shape
from knotplot.units import cm

CLOSE = 1e-6  # mm


class Tied(NamedTuple):
    """A rack with everything tied, how it hangs, and the least room (mm) left above the edge."""

    rack: Rack
    mounting: Mounting
    slack: float

    @property
    def motifs(self) -> int:
        """Return how many motif ties stand in it, so that `fill` takes none away."""
        return sum(
            placement.shape.tie_count
            for row in self.rack.rows
            for placement in row.placements
            if placement.shape.motif
        )


@dataclass(frozen=True, slots=True)
class _Work:
    """A pattern with its measures, ready to be tied as often as a search for `fill` needs.

    `shapes` keeps those that were made, for every rack it is tied on.
    """

    pattern: Pattern
    gauge: Gauge
    edge: LowerEdge
    heights: Heights
    shapes: dict[Hashable, Shape] = field(default_factory=dict)

    def tie(self, numbers: Mapping[Path, float]) -> Tied:
        """Tie the whole piece with `numbers` for what is to be found."""
        rack = Rack(self.gauge, self.heights, shapes=self.shapes)
        mounting = self.pattern.mount.hang(rack)
        job = Job(
            rack, 0, self.gauge.strands, (), self.edge, 0.0, numbers, self.pattern.all_motifs
        )  # fmt: skip
        work_in_turn(self.pattern.sections, job, "sections")
        slack = min(
            self.edge.y(rack.gauge.x(lane)) - rack.depth_of(strand)
            for lane, strand in enumerate(rack.lanes["body"])
        )
        return Tied(rack, mounting, slack)


def work(pattern: Pattern, strands: int) -> Piece:
    """Return the piece of a pattern on so many strands; raise `Refusal` where it can't be."""
    gauge = Gauge(float(pattern.width), strands, float(pattern.cord_types["main"].diameter))
    if gauge.pitch < NARROWEST * gauge.diameter:
        raise Refusal(
            f"{strands} strands of {gauge.diameter:g} mm don't fit into {cm(gauge.width)}",
            f"use a width of {cm(strands * gauge.diameter)} or more, or fewer strands",
            ("size" if pattern.size else "opening", "width"),
            cm(gauge.width),
        )
    check_room(pattern, gauge)
    shape = pattern.lower_edge
    edge = LowerEdge(
        gauge.width, float(pattern.drop), float(shape.rise), shape.profile,
        shape.count or 1, tuple((float(x), float(f)) for x, f in shape.at or ()),
    )  # fmt: skip
    tall, notes = heights(pattern, gauge)
    bench = _Work(pattern, gauge, edge, tall)
    fill = _fill(pattern)
    numbers = {} if fill is None else {fill: _found(bench, fill)}
    tied = bench.tie(numbers)
    if tied.slack < -CLOSE:
        raise _shortfall(bench, tied.slack, numbers)
    return _piece(bench, tied, notes)


def _piece(bench: _Work, tied: Tied, notes: tuple[str, ...]) -> Piece:
    rack, types = tied.rack, bench.pattern.cord_types
    own = tuple(_of_type(cord, types) for cord in rack.cords)
    cords, colours = coloured(bench.pattern, own, rack.rows)
    # Strands of added cords begin in the work.
    starts = tied.mounting.starts
    starts += (None,) * (1 + max(max(cord.strands, default=0) for cord in cords) - len(starts))
    mounting = replace(tied.mounting, starts=starts)
    told = colour_warnings(bench.pattern, bench.gauge.strands)
    warnings = dict.fromkeys([*notes, *rack.warnings, *_advice(bench), *told])
    return Piece(
        bench.gauge, mounting, tuple(rack.rows), cords, _hanging(bench, rack),
        tuple(rack.lanes["body"]), bench.edge, tuple(warnings), colours,
    )  # fmt: skip


def _of_type(cord: Cord, types: Mapping[str, CordType]) -> Cord:
    """Return a cord as what its kind is made of; a kind not given is `main`."""
    kind = cord.kind if cord.kind in types else "main"
    return replace(cord, kind=kind, construction=types[kind].construction)


def _hanging(bench: _Work, rack: Rack) -> tuple[Part, ...]:
    """Return the parts with what hangs last on its lanes reaching down to the lower edge."""
    last = rack.hanging()
    found = []
    for number, part in enumerate(rack.parts):
        if part.kind in ("free", "fringe") and last.get(number) == part.strands:
            gauge = bench.gauge.over(part.among)
            lanes = range(part.lane, part.lane + part.strands)
            lowest = max(bench.edge.y(gauge.x(lane)) for lane in lanes)
            found.append(replace(part, bottom=lowest, hangs=True))
        else:
            found.append(part)
    return tuple(found)


def _advice(bench: _Work) -> list[str]:
    """Return what a maker should know of the motifs: double leads."""
    found = []
    for _, section in walk(bench.pattern.sections):
        if isinstance(section, MotifBand):
            warning = double_lead_warning(bench.pattern.motif(section.motif))
            if warning:
                found.append(f"{section.label}: {warning}")
    return found


# --- fill ------------------------------------------------------------------------------------


def _fill(pattern: Pattern) -> Path | None:
    """Return the path of the number to find for the one section that is `fill`."""
    for path, section in walk(pattern.sections):
        if getattr(section, "rows", None) == "fill":
            return (*path, "rows")
        if getattr(section, "length", None) == "fill":
            return (*path, "count" if isinstance(section, Sennits) else "length")
    return None


def _found(bench: _Work, path: Path) -> float:
    """Return the largest number for `path` that the drop has room for."""
    least = 0.0 if path[-1] == "length" else 1.0
    first = bench.tie({path: least})
    if first.slack < -CLOSE:
        raise _shortfall(bench, first.slack, {path: least})
    if path[-1] == "length":
        return _length(bench, path, first)

    def fits(count: int) -> float | None:
        """Return the slack with so many rows, None where they don't fit."""
        try:
            tied = bench.tie({path: float(count)})
        except TooMuch:
            raise
        except Refusal:
            return None
        whole = tied.slack >= -CLOSE and tied.motifs >= first.motifs
        return tied.slack if whole else None

    # No row is lower than a cord is thick, so the drop bounds them.
    most = int(bench.edge.drop_mm / bench.gauge.diameter) + 2
    return float(_most(fits, first.slack, most))


def _most(fits: Callable[[int], float | None], slack: float, most: int) -> int:
    """Return the largest count up to `most` that fits, knowing that one leaves `slack`.

    Rows stand evenly as a rule, so that two measures tell where to look; where another part of
    the piece is deeper at first, they don't, and the count is doubled instead.
    """
    three = fits(3)
    if three is None:
        return 2 if fits(2) is not None else 1
    pitch = (slack - three) / 2.0
    low, high = 3, min(most, 6 if pitch < CLOSE else max(4, 2 + int(slack / pitch)))
    while high < most and fits(high) is not None:
        low, high = high, min(most, high * 2)
    while high - low > 1:
        # The guess is nearly always right: try just below `high` first, then halve.
        middle = high - 1 if high - low > 8 and fits(high - 2) is not None else (low + high) // 2
        low, high = (middle, high) if fits(middle) is not None else (low, middle)
    return low


def _length(bench: _Work, path: Path, first: Tied) -> float:
    """Return the length that leaves no slack, without taking a motif away."""
    low, high = 0.0, first.slack
    for _ in range(8):  # the length may take up the way aside of what follows, and leave more
        tied = bench.tie({path: high})
        whole = tied.motifs >= first.motifs
        if whole and abs(tied.slack) <= CLOSE:
            return high
        if not whole or tied.slack < 0.0:
            break
        low, high = high, high + tied.slack
    for _ in range(60):
        middle = (low + high) / 2.0
        tied = bench.tie({path: middle})
        fits = tied.slack >= -CLOSE and tied.motifs >= first.motifs
        low, high = (middle, high) if fits else (low, middle)
        if high - low < CLOSE:
            break
    return low


def _shortfall(bench: _Work, slack: float, numbers: Mapping[Path, float]) -> Refusal:
    """Say by how much the work is too long, which drop would do, and how many rows at most."""
    drop = math.ceil((bench.edge.drop_mm - slack) / 5.0) * 5.0
    problem = f"the work is {cm(-slack)} too long for a drop of {cm(bench.edge.drop_mm)}"
    remedy = f"use a drop of {cm(drop)} or more"
    place: Path = ("size" if bench.pattern.size else "opening", "drop")
    value: object = cm(bench.edge.drop_mm)
    for path, section in reversed(tuple(walk(bench.pattern.sections))):
        key = "count" if isinstance(section, Sennits) else "rows"
        asked = getattr(section, key, None)
        if isinstance(asked, int) and asked > 1:
            most = _fewer(bench, (*path, key), asked, numbers)
            if most:
                unit = "knot" if key == "count" else "row"
                remedy += f", or {counted(most, unit)} at most in {section.label}"
                place, value = (*path, key), asked
                break
    return Refusal(problem, remedy, place, value)


def _fewer(bench: _Work, path: Path, asked: int, numbers: Mapping[Path, float]) -> int:
    """Return the largest number of rows below `asked` that fits; 0 where none does."""

    def fits(count: int) -> bool:
        try:
            return bench.tie({**numbers, path: float(count)}).slack >= -CLOSE
        except Refusal:
            return False

    if not fits(1):
        return 0
    low, high = 1, asked
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low
