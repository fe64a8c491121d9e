"""A group of lanes tied, move by move: its ties at their places, and what hangs where after each.

The places are those of a whole group (a motif); what is tied may be a part of it, cut at its sides.
"""

from __future__ import annotations

from knotplot.knots import form, knot
from knotplot.tying.gauge import Gauge
from knotplot.tying.moves import Add, End, Gap, Move, Moves, There
from knotplot.tying.placing import Place, Places
from knotplot.tying.ports import LOOPED, looped_ports, tie_ports
from knotplot.tying.shape import Change, ShapeTie, Tied


def assemble(
    moves: Moves, places: Places, span: int, gauge: Gauge, first: int = 0, among: int | None = None
) -> Tied:
    """Return `moves` tied at their `places`.

    Moves and places are of a group of `among` lanes, of which this one has `span` from `first` on
    (from 0); what comes out is in its own lanes. A knot cut at the part's side stands on the lanes
    it has.
    """
    bench = _Bench(places, gauge, span if among is None else among, first, span)
    for move in moves:
        match move:
            case Gap():
                bench.moves.append(move)
            case Add():
                bench.add(move)
            case End():
                bench.end(move)
            case _:
                bench.tie(move)
    return Tied(
        tuple(bench.moves), tuple(bench.ties), tuple(bench.hanging), bench.added,
        tuple(bench.ended), tuple(bench.changes),
    )  # fmt: skip


class _Bench:
    """Work in progress: what hangs in the lanes that are there, and what was tied."""

    def __init__(self, places: Places, gauge: Gauge, among: int, first: int, span: int) -> None:
        self.places, self.gauge, self.among, self.span = places, gauge, among, span
        self.shift = first * gauge.pitch
        self.there = There(first, first + span, among)
        self.hanging = list(range(span))
        self.moves: list[Move | Gap | Add | End] = []
        self.ties: list[ShapeTie] = []
        self.ended: list[int] = []
        self.changes: list[Change] = []
        self.added = 0

    def tie(self, move: Move) -> None:
        """Tie one knot (or cross) and move its strands."""
        where = self.places[move.key]
        if where.manner.leader is None:
            left, right = move.beside
            now = self.gauge.part(self.among, self.there.among + left + right)
            x = sum(now.x(lane + left) for lane in move.lanes) / len(move.lanes)
            manner = where.manner._replace(strands=len(move.lanes), workers=move.workers)
            where = Place(x, where.y, manner)
        lanes = tuple(lane - self.there.first for lane in move.lanes)
        who = tuple(self.hanging[lane] for lane in lanes)
        moved = move._replace(lanes=lanes)
        self.moves.append(moved)
        where = where._replace(x=where.x - self.shift)
        self.ties.append(shape_tie(moved, where, who, self.gauge.diameter, self.there.count))
        order = knot(move.knot).order(where.manner)
        for lane, at in zip(lanes, order, strict=True):
            self.hanging[lane] = who[at]

    def add(self, move: Add) -> None:
        """Loop new cords onto the strand in a lane, if it is there."""
        lane = move.lane - self.there.first
        if move.lane in self.there:
            leader, there = self.hanging[lane], self.there.count
            new = self.span + 2 * self.added
            for cord in range(move.cords):
                where = self.places[move.key(cord)]
                where = where._replace(x=where.x - self.shift)
                who = (new + 2 * cord, new + 2 * cord + 1)
                tie = added_tie(move, lane, where, (leader, *who), self.gauge.diameter, there)
                self.ties.append(tie)
            at = lane if move.left else lane + 1
            self.hanging[at:at] = range(new, new + 2 * move.cords)
            self.added += move.cords
            self.moves.append(move._replace(lane=lane))
            self.changes.append(Change(len(self.ties), tuple(self.hanging)))
        self.there.add(move.lane, move.cords)

    def end(self, move: End) -> None:
        """End the strands in those of its lanes that are there."""
        lanes = tuple(lane - self.there.first for lane in move.lanes if lane in self.there)
        if lanes:
            self.ended += [self.hanging[lane] for lane in lanes]
            gone = set(lanes)
            left = [who for lane, who in enumerate(self.hanging) if lane not in gone]
            self.hanging = left
            self.moves.append(move._replace(lanes=lanes))
            self.changes.append(Change(len(self.ties), tuple(left)))
        self.there.end(move.lanes)


def shape_tie(
    move: Move, where: Place, who: tuple[int, ...], diameter: float, among: int
) -> ShapeTie:
    """Return the tie of one move at its place, with its ports; `among` lanes are there then."""
    roles = knot(move.knot).roles(where.manner)
    enter, leave = tie_ports(move.knot, where.manner, roles, diameter)
    enter = tuple(port.moved(where.x, where.y) for port in enter)
    leave = tuple(port.moved(where.x, where.y) for port in leave)
    if move.picot:
        enter = tuple(
            port._replace(loop=move.picot if 2 * i >= len(roles) else -move.picot)
            if roles[i] == "working"
            else port
            for i, port in enumerate(enter)
        )
    leader = None
    if move.leader is not None:
        leader = -1 if move.leader < 0 else who[move.leader]
    facing = (move.facing or "left") if knot(move.knot).faces else None
    if move.knot == "cross":
        facing = move.facing
    top = min(port.y for port in (*enter, *leave))
    if where.manner.leader is None:
        top = where.y - form(move.knot, where.manner).height * diameter / 2.0
    return ShapeTie(
        move.knot, where.manner, facing, move.lanes, who, roles, leader, move.step,
        where.x, where.y, top, enter, leave, among, move.picot,
    )  # fmt: skip


def added_tie(
    move: Add, lane: int, where: Place, who: tuple[int, int, int], diameter: float, among: int
) -> ShapeTie:
    """Return the lark's head of one added cord in `lane`: who leads, and its two strands."""
    looped = looped_ports(move.left, diameter)
    leave = tuple(port.moved(where.x, where.y) for port in looped.leave)
    carried = (looped.above.moved(where.x, where.y), looped.below.moved(where.x, where.y))
    return ShapeTie(
        LOOPED, where.manner, None, (lane,), who[1:], knot(LOOPED).roles(where.manner), who[0],
        move.step, where.x, where.y, carried[0].y, leave, leave, among, 0.0, looped.turn, carried,
    )  # fmt: skip
