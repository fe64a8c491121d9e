"""The rack: the only one who moves strands.

Mounts and sections ask it to tie shapes in rows; it checks that this can be done, finds how deep
the row hangs, moves the strands to their new lanes and writes the row down. It keeps the depth
of every strand, so that a section can ask how far down it is. Where a shape adds cords it cuts
them, where strands end it takes them off, and counts the lanes anew at once.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple, TypeAlias

from knotplot.errors import Refusal
from knotplot.fields import MOST_STRANDS
from knotplot.knots.base import Manner
from knotplot.tying.above import Above, room
from knotplot.tying.assembling import assemble, shape_tie
from knotplot.tying.bench import Bench, TooMuch
from knotplot.tying.checking import check
from knotplot.tying.gauge import NARROWEST
from knotplot.tying.moves import Move, Moves
from knotplot.tying.piece import Placement, Row
from knotplot.tying.placing import Place, place
from knotplot.tying.ports import steepness
from knotplot.tying.shape import Shape, Tied, make_shape
from knotplot.units import cm

MOST_TIES = 2_000_000
_HOLDS = ("knot", "hitch", "lead", "cross", "bundle", "side")
_STEEPNESS = {above: {below: steepness(above, below) for below in _HOLDS} for above in _HOLDS}


class Hanging(NamedTuple):
    """How far down (mm) a row hangs, and the bare cord (mm) above it on its tightest strand."""

    y: float
    gap: float


class Ask(NamedTuple):
    """A shape to tie at a lane (from 0), with a separate cord where it takes one."""

    shape: Shape
    lane: int
    cord: str | None = None


Placed: TypeAlias = list[tuple[Shape, int, tuple[int, ...], str | None]]


@dataclass(slots=True)
class Rack(Bench):
    """A bench with the shapes that were made, and all that was tied so far.

    `shapes` may be shared by racks of one width and cord, so that none is made again.
    """

    rows: list[Row] = field(default_factory=list)
    most_ties: int = MOST_TIES
    shapes: dict[Hashable, Shape] = field(default_factory=dict)
    _ties: int = 0
    _above: Above | None = None

    # --- shapes --------------------------------------------------------------------------

    def shape(self, key: Hashable, make: Callable[[], Shape]) -> Shape:
        """Return the shape kept under `key`, made the first time."""
        found = self.shapes.get(key)
        if found is None:
            found = self.shapes[key] = make()
        return found

    def knot(self, name: str, lanes: int, facing: str | None, workers: int = 1) -> Shape:
        """Return the shape of one knot on so many lanes; refuses one that can't be tied so."""
        moves: Moves = (Move(name, tuple(range(lanes)), facing, workers),)
        key = (name, lanes, facing, workers, self.tall, self.gauge.strands)
        return self.shape(key, lambda: self.group(moves, lanes))

    def group(self, moves: Moves, lanes: int) -> Shape:
        """Return the shape of a group of moves on so many lanes."""
        self.check(moves, lanes)
        places = place(moves, lanes, self.gauge, tall=self.tall)
        return make_shape(assemble(moves, places, lanes, self.gauge), lanes, self.gauge.diameter)

    def single(self, move: Move, manner: Manner, layer: str = "body") -> Shape:
        """Return the shape of one tie in a given manner (mounts, hitches on a separate leader)."""
        span, gauge = max(move.lanes) + 1, self._gauges.get(layer, self.gauge)

        def make() -> Shape:
            middle = sum(gauge.x(lane) for lane in move.lanes) / len(move.lanes)
            who = tuple(range(len(move.lanes)))
            tie = shape_tie(move, Place(middle, 0.0, manner), who, gauge.diameter, span)
            return make_shape(Tied((move,), (tie,), who), span, gauge.diameter)

        return self.shape((move, manner, gauge.strands), make)

    def check(self, moves: Moves, lanes: int) -> None:
        """Refuse lanes that aren't there, don't lie side by side, or can't be tied together."""
        check(moves, lanes, len(self.rows) + 1)

    def lift(self, by: float, strands: Iterable[int]) -> None:
        """Move strands and all rows so far up by `by` (mm): the board's zero moves down."""
        for strand in strands:
            self._depths.y[strand] -= by
        if self._section is not None:
            self._section.top, self._section.bottom = 0.0, self._section.bottom - by
        self._above = None
        self.rows = [
            replace(row, placements=tuple(p._replace(y=p.y - by) for p in row.placements))
            for row in self.rows
        ]

    # --- tying ---------------------------------------------------------------------------

    def top(self, asks: Iterable[Ask], layer: str = "body", gap: float = 0.0) -> Hanging:
        """Return how far down a row of those shapes hangs: as high as every strand lets it.

        It hangs lower, with more bare cord than `gap` (mm), where it would lie on a row above.
        """
        return self._hanging(self._placed(asks, layer), layer, gap)

    def _hanging(self, placed: Placed, layer: str, gap: float) -> Hanging:
        top = self._top(placed, layer, gap)
        if self._section is None or layer != "body":
            return Hanging(top, gap)
        y = self.above.clear(placed, self._gauges[layer].pitch, top)
        if y == top:
            return Hanging(y, gap)
        bare = min(
            y + port.y - max(at.y[strands[who]], at.floor[strands[who]], at.wait[strands[who]])
            for at in (self._depths,)
            for shape, _, strands, _ in placed
            for who, port in shape.entries
        )
        # Less than a cord is thick is nothing to measure: such rows are tied close.
        return Hanging(y, bare if bare > gap + self.gauge.diameter else gap)

    @property
    def above(self) -> Above:
        """Return what stands above the next row of the body."""
        if self._above is None:
            self._above = Above(self.gauge.diameter)
        return self._above

    @above.setter
    def above(self, above: Above) -> None:
        self._above = above

    def _placed(self, asks: Iterable[Ask], layer: str) -> Placed:
        lanes = self.lanes[layer]
        placed = []
        for shape, lane, cord in asks:
            strands = tuple(lanes[lane : lane + shape.span])
            if lane < 0 or len(strands) < shape.span:
                raise Refusal(
                    f"row {len(self.rows) + 1}: lanes {lane + 1} to {lane + shape.span}: there are "
                    f"lanes 1 to {len(lanes)}",
                    f"use lanes from 1 to {len(lanes)}",
                )
            placed.append((shape, lane, strands, cord))
        return placed

    def _top(self, placed: Placed, layer: str, gap: float) -> float:
        pitch, at = self._gauges[layer].pitch, self._depths
        xs, ys, holds, floor, wait = at.x, at.y, at.hold, at.floor, at.wait
        top = -math.inf
        for shape, lane, strands, _ in placed:
            left = lane * pitch
            for who, port in shape.entries:
                strand = strands[who]
                aside = left + port.x - xs[strand]
                drop = _STEEPNESS[holds[strand]][port.hold] * (aside if aside > 0 else -aside)
                y = ys[strand] + (drop if drop > gap else gap)
                if y < floor[strand]:
                    y = floor[strand]
                if y < wait[strand]:
                    y = wait[strand]
                if y - port.y > top:
                    top = y - port.y
        return top

    def tie(
        self, asks: Iterable[Ask], layer: str = "body", gap: float = 0.0, at: float | None = None
    ) -> Row | None:
        """Tie one row of shapes on the lanes of a layer, and return it; None where nothing is tied.

        The row hangs at `at` (mm), or as high as it can, `gap` (mm) below what is above it. Asks go
        by the lanes as the row begins, and are worked from left to right.
        """
        placed = self._placed(asks, layer)
        if not any(shape.tie_count for shape, *_ in placed):
            return None
        top, gap = self._hanging(placed, layer, gap) if at is None else (at, gap)
        among = len(self.lanes[layer])
        placements = tuple(
            Placement(shape, lane, strands + self._added(shape), top, cord)
            for shape, lane, strands, cord in placed
        )
        if layer == "body" and self._section is not None:
            self._stands(placements)
        self._move(placements, layer)
        return self._write(placements, layer, (layer,), gap, among)

    def _stands(self, placements: Sequence[Placement]) -> None:
        """Keep where a row of the body stands, for those below it, and how wide it would be."""
        pitch, part = self._gauges["body"].pitch, self._section
        self.above.put(placements, pitch)
        if part is not None and any(placement.shape.motif for placement in placements):
            part.spread = max(part.spread, room(placements, pitch, self.gauge.diameter))

    def _added(self, shape: Shape) -> tuple[int, ...]:
        """Cut the cords a shape adds, and return the ids of their strands."""
        if not shape.added:
            return ()
        first, count = len(self._depths), 2 * shape.added
        if first + count - 1 - len(self.lanes.get("tails", ())) > MOST_STRANDS:
            raise self._refused(f"more than {MOST_STRANDS:,} strands", "add fewer cords")
        self._depths.more(count)
        for strand in range(first, first + count, 2):
            self.cut("main", strands=(strand, strand + 1), added=True)
        return tuple(range(first, first + count))

    def _move(self, placements: Sequence[Placement], layer: str) -> None:
        """Move the strands of a row to their new lanes, those of each shape after the last."""
        lanes, pitch, more, added = self.lanes[layer], self._gauges[layer].pitch, 0, 0
        xs, ys, holds = self._depths.x, self._depths.y, self._depths.hold
        for shape, lane, strands, top, _ in placements:
            left = lane * pitch
            for who, _, port in shape.exits:
                strand = strands[who]
                xs[strand] = left + port.x
                ys[strand] = top + port.y
                holds[strand] = port.hold
            at = lane + more
            lanes[at : at + shape.span] = [strands[who] for who in shape.order]
            more += shape.more
            added += shape.added
        if more or added:
            self._counted(placements, layer, more)

    def _counted(self, placements: Sequence[Placement], layer: str, more: int) -> None:
        """Let the lanes that are there after a row share the width; refuse too many, or none."""
        self.recounted = True
        lanes, gauge = self.lanes[layer], self._gauges[layer]
        if not lanes:
            raise self._refused("no strand is left", "let one go on")
        self._gauges[layer] = self.gauge = gauge.over(gauge.strands + more)
        least = NARROWEST * gauge.diameter
        if self.gauge.pitch < least:
            most = int(gauge.width / least)
            raise self._refused(
                f"{len(lanes)} strands of {gauge.diameter:g} mm don't fit into {cm(gauge.width)}",
                f"add fewer cords, so that there are {most} strands at most",
            )
        if self._section is not None:
            for shape, _, strands, _, _ in placements:
                for who in shape.order:
                    self._depths.part[strands[who]] = len(self.parts)

    def _refused(self, problem: str, remedy: str) -> Refusal:
        return Refusal(f"row {len(self.rows) + 1}: {problem}", remedy)

    def join(self, shape: Shape, lanes: Iterable[int], layers: tuple[str, ...]) -> Row:
        """Tie one shape at each of those lanes (from 0) with the strands of several layers.

        The shape's strands are those of the first layer, left to right, then of the next; every
        strand keeps its lane.
        """
        placed: Placed = [
            (shape, lane, tuple(s for name in layers
                                for s in self.lanes[name][lane : lane + shape.span]), None)
            for lane in lanes
        ]  # fmt: skip
        at = self._top(placed, layers[-1], 0.0)
        placements = [Placement(*each[:3], at) for each in placed]
        for shape, lane, strands, top, _ in placements:
            left = lane * self.gauge.pitch
            for who, _, port in shape.exits:
                self._depths.put(strands[who], port.moved(left, top))
        return self._write(tuple(placements), layers[-1], layers, 0.0, self.gauge.strands)

    def expect(self, ties: int) -> None:
        """Refuse so many more ties, if the piece would then have too many, before they are tied."""
        if self._ties + ties > self.most_ties:
            raise TooMuch(
                f"the piece has more than {self.most_ties:,} ties",
                "work fewer rows or fewer strands",
            )

    @property
    def ties(self) -> int:
        """Return how many ties were tied so far."""
        return self._ties

    def _write(
        self, placements: tuple[Placement, ...], layer: str, layers: tuple[str, ...], gap: float,
        among: int,
    ) -> Row:  # fmt: skip
        ties = sum(placement.shape.tie_count for placement in placements)
        self.expect(ties)
        self.reach(placements[0].y)
        self._ties += ties
        order = tuple(self.lanes[layer])
        number = len(self.rows) + 1
        row = Row(number, len(self.parts), layer, layers, placements, order, among, gap)
        self.rows.append(row)
        if self._section is not None:
            part, used = self._section, sum(p.shape.span for p in placements)
            if not part.tied:
                part.top, part.tied = placements[0].y, True
            part.bottom = max(part.bottom, *(p.y + p.shape.bottom for p in placements))
            natural = sum(p.shape.natural_width for p in placements)
            natural += (part.now - used) * self.gauge.diameter
            part.natural = max(part.natural, natural)
            part.now += sum(p.shape.more for p in placements)
        return row
