"""The rack: the only one who moves strands.

Mounts and sections ask it to tie shapes in rows; it checks that this can be done, finds how deep
the row hangs, moves the strands to their new lanes and writes the row down. It keeps the depth
of every strand, so that a section can ask how far down it is.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple, TypeAlias

from knotplot.errors import Refusal
from knotplot.knots.base import Manner
from knotplot.tying.checking import check
from knotplot.tying.gauge import Gauge
from knotplot.tying.heights import Heights
from knotplot.tying.moves import Move, Moves
from knotplot.tying.piece import Cord, Part, Placement, Row
from knotplot.tying.placing import Place, place
from knotplot.tying.ports import Port, steepness
from knotplot.tying.shape import Shape, assemble, make_shape, shape_tie

MOST_TIES = 2_000_000
MOST_SECTIONS = 50_000  # as worked, repeats counted: far more than ties need
_HOLDS = ("knot", "hitch", "lead", "cross", "bundle")
_STEEPNESS = {above: {below: steepness(above, below) for below in _HOLDS} for above in _HOLDS}
_PREFIX = {"main": "M", "leader": "L", "wrap": "W"}


class TooMuch(Refusal):
    """More than a piece may have: no search for `fill` goes on past it."""


class Ask(NamedTuple):
    """A shape to tie at a lane (from 0), with a separate cord where it takes one."""

    shape: Shape
    lane: int
    cord: str | None = None


Placed: TypeAlias = list[tuple[Shape, int, tuple[int, ...], str | None]]


@dataclass(slots=True)
class _Section:
    """The section being worked: what its `Part` will say."""

    name: str
    kind: str
    lane: int
    strands: int
    tall: float
    top: float = math.inf
    bottom: float = -math.inf
    natural: float = 0.0
    tied: bool = False


@dataclass(slots=True)
class Rack:
    """Strands by layer and lane, how deep each hangs, and all that was tied so far."""

    gauge: Gauge
    heights: Heights = field(default_factory=Heights)
    lanes: dict[str, list[int]] = field(default_factory=dict)
    rows: list[Row] = field(default_factory=list)
    cords: list[Cord] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)
    _x: list[float] = field(default_factory=list)
    _y: list[float] = field(default_factory=list)
    _hold: list[str] = field(default_factory=list)
    _floor: list[float] = field(default_factory=list)
    _wait: list[float] = field(default_factory=list)
    _shapes: dict[Hashable, Shape] = field(default_factory=dict)
    _section: _Section | None = None
    _ties: int = 0

    # --- strands -------------------------------------------------------------------------

    def hang(self, layer: str, strands: Iterable[int], starts: Sequence[Port | None]) -> None:
        """Hang strands in the lanes of a layer, left to right, each from its port in `starts`.

        `starts` is by strand id; those with a port there are placed.
        """
        self.lanes[layer] = list(strands)
        need = len(starts) - len(self._x)
        self._x += [0.0] * need
        self._y += [0.0] * need
        self._hold += ["knot"] * need
        self._floor += [-math.inf] * need
        self._wait += [-math.inf] * need
        for strand in self.lanes[layer]:
            port = starts[strand]
            if port is not None:
                self._x[strand], self._y[strand], self._hold[strand] = port.x, port.y, port.hold

    def cut(
        self, role: str, kind: str = "main", strands: tuple[int, ...] = (),
        length: float = 0.0, ends: tuple[float, ...] = (),
    ) -> str:  # fmt: skip
        """Add a cord (main, leader or wrap) and return its id."""
        number = 1 + sum(cord.role == role for cord in self.cords) if role != "main" else 0
        if role == "main":
            number = len(self.cords) + 1
        name = f"{_PREFIX[role]}{number}"
        self.cords.append(Cord(name, role, kind, strands, length, ends))
        return name

    def depth(self, first: int, count: int, layer: str = "body") -> float:
        """Return how far down (mm) the deepest of those lanes is."""
        return max(self.depth_of(strand) for strand in self.lanes[layer][first : first + count])

    def depth_of(self, strand: int) -> float:
        """Return how far down (mm) that strand is tied or bound to hang bare."""
        return max(self._y[strand], self._floor[strand])

    def free(self, first: int, count: int, length: float, layer: str = "body") -> None:
        """Keep `length` (mm) of bare cord below the last tie on those lanes."""
        for strand in self.lanes[layer][first : first + count]:
            self._floor[strand] = self.depth_of(strand) + length

    def level(self, first: int, count: int, depth: float | None = None) -> None:
        """Let nothing more be tied on those body lanes above the deepest of them (or `depth`)."""
        deepest = self.depth(first, count) if depth is None else depth
        for strand in self.lanes["body"][first : first + count]:
            self._wait[strand] = max(self._wait[strand], deepest)

    def lift(self, by: float, strands: Iterable[int]) -> None:
        """Move strands and all rows so far up by `by` (mm): the board's zero moves down."""
        for strand in strands:
            self._y[strand] -= by
        if self._section is not None:
            self._section.top, self._section.bottom = 0.0, self._section.bottom - by
        self.rows = [
            replace(row, placements=tuple(p._replace(y=p.y - by) for p in row.placements))
            for row in self.rows
        ]

    # --- sections ------------------------------------------------------------------------

    def begin(self, name: str, kind: str, lane: int, strands: int, layer: str = "body") -> int:
        """Begin a section on those lanes; its number goes into the rows that follow."""
        if len(self.parts) >= MOST_SECTIONS:
            raise TooMuch(f"more than {MOST_SECTIONS:,} sections are worked", "repeat them less")
        self._section = _Section(name, kind, lane, strands, self.heights.of(name, kind))
        self._section.top = self.depth(lane, strands, layer)
        self._section.bottom = self._section.top
        return len(self.parts)

    def end(self, bottom: float | None = None, finish: str | None = None) -> None:
        """End the section and write it down."""
        part = self._section
        if part is None:
            raise RuntimeError("no section was begun")
        self.parts.append(
            Part(part.name, part.kind, part.lane, part.strands, part.top,
                 max(part.bottom, bottom or part.bottom), part.natural, finish, part.tall)
        )  # fmt: skip
        self._section = None

    # --- shapes --------------------------------------------------------------------------

    @property
    def tall(self) -> float:
        """Return how tall the knots of the section being worked are, over their usual height."""
        return 1.0 if self._section is None else self._section.tall

    def shape(self, key: Hashable, make: Callable[[], Shape]) -> Shape:
        """Return the shape kept under `key`, made the first time."""
        found = self._shapes.get(key)
        if found is None:
            found = self._shapes[key] = make()
        return found

    def knot(self, name: str, lanes: int, facing: str | None, workers: int = 1) -> Shape:
        """Return the shape of one knot on so many lanes; refuses one that can't be tied so."""
        moves: Moves = (Move(name, tuple(range(lanes)), facing, workers),)
        key = (name, lanes, facing, workers, self.tall)
        return self.shape(key, lambda: self.group(moves, lanes))

    def group(self, moves: Moves, lanes: int) -> Shape:
        """Return the shape of a group of moves on so many lanes."""
        self.check(moves, lanes)
        places = place(moves, lanes, self.gauge, tall=self.tall)
        ties, order = assemble(moves, places, lanes, self.gauge)
        return make_shape(moves, ties, order, lanes, self.gauge.diameter)

    def single(self, move: Move, manner: Manner) -> Shape:
        """Return the shape of one tie in a given manner (mounts, hitches on a separate leader)."""
        span = max(move.lanes) + 1

        def make() -> Shape:
            middle = sum(self.gauge.x(lane) for lane in move.lanes) / len(move.lanes)
            who = tuple(range(len(move.lanes)))
            tie = shape_tie(move, Place(middle, 0.0, manner), who, self.gauge.diameter)
            return make_shape((move,), (tie,), who, span, self.gauge.diameter)

        return self.shape((move, manner), make)

    def check(self, moves: Moves, lanes: int) -> None:
        """Refuse lanes that aren't there, don't lie side by side, or can't be tied together."""
        check(moves, lanes, len(self.rows) + 1)

    # --- tying ---------------------------------------------------------------------------

    def top(self, asks: Iterable[Ask], layer: str = "body", gap: float = 0.0) -> float:
        """Return how far down (mm) a row of those shapes hangs: as high as every strand lets it."""
        return self._top(self._placed(asks, layer), gap)

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

    def _top(self, placed: Placed, gap: float) -> float:
        pitch, xs, ys, holds = self.gauge.pitch, self._x, self._y, self._hold
        floor, wait = self._floor, self._wait
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

        The row hangs at `at` (mm), or as high as it can, `gap` (mm) below what is above it.
        """
        placed = self._placed(asks, layer)
        if not any(shape.tie_count for shape, *_ in placed):
            return None
        top = self._top(placed, gap) if at is None else at
        placements = tuple(
            Placement(shape, lane, strands, top, cord) for shape, lane, strands, cord in placed
        )
        self._move(placements, self.lanes[layer])
        return self._write(placements, layer, (layer,), gap)

    def _move(self, placements: Sequence[Placement], lanes: list[int]) -> None:
        pitch, xs, ys, holds = self.gauge.pitch, self._x, self._y, self._hold
        for shape, lane, strands, top, _ in placements:
            left = lane * pitch
            for who, _, port in shape.exits:
                strand = strands[who]
                xs[strand] = left + port.x
                ys[strand] = top + port.y
                holds[strand] = port.hold
            lanes[lane : lane + shape.span] = [strands[who] for who in shape.order]

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
        at = self._top(placed, 0.0)
        placements = [Placement(*each[:3], at) for each in placed]
        for shape, lane, strands, top, _ in placements:
            left = lane * self.gauge.pitch
            for who, _, port in shape.exits:
                strand = strands[who]
                self._x[strand], self._y[strand] = left + port.x, top + port.y
                self._hold[strand] = port.hold
        return self._write(tuple(placements), layers[-1], layers, 0.0)

    def expect(self, ties: int) -> None:
        """Refuse so many more ties, if the piece would then have too many, before they are tied."""
        if self._ties + ties > MOST_TIES:
            raise TooMuch(
                f"the piece has more than {MOST_TIES:,} ties", "work fewer rows or fewer strands"
            )

    def _write(
        self, placements: tuple[Placement, ...], layer: str, layers: tuple[str, ...], gap: float
    ) -> Row:
        ties = sum(placement.shape.tie_count for placement in placements)
        self.expect(ties)
        self._ties += ties
        order = tuple(self.lanes[layer])
        row = Row(len(self.rows) + 1, len(self.parts), layer, layers, placements, order, gap)
        self.rows.append(row)
        if self._section is not None:
            part, used = self._section, sum(p.shape.span for p in placements)
            if not part.tied:
                part.top, part.tied = placements[0].y, True
            part.bottom = max(part.bottom, *(p.y + p.shape.bottom for p in placements))
            natural = sum(p.shape.natural_width for p in placements)
            natural += (part.strands - used) * self.gauge.diameter
            part.natural = max(part.natural, natural)
        return row
