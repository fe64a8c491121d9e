"""A shape: ties that stand rigidly together, solved once and placed many times.

A knot of a mesh is a shape, and so is a whole motif. Lanes and strands are counted from 0 at the
shape's left; a strand is known by the lane it enters in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from knotplot.knots import form, knot
from knotplot.knots.base import Manner
from knotplot.knots.hitch import ALONG
from knotplot.tying.gauge import Gauge
from knotplot.tying.moves import Gap, Move, Moves
from knotplot.tying.placing import Place, Places
from knotplot.tying.ports import Port, tie_ports


class ShapeTie(NamedTuple):
    """One tie (or cross) of a shape: who takes part, left to right, and where it stands (mm).

    `leader` is the strand that leads, -1 for a separate cord, None where nothing leads; `enter`
    and `leave` are the strands' ports, `top` the highest of them.
    """

    knot: str
    manner: Manner
    facing: str | None
    lanes: tuple[int, ...]
    who: tuple[int, ...]
    roles: tuple[str, ...]
    leader: int | None
    step: int | None
    x: float
    y: float
    top: float
    enter: tuple[Port, ...]
    leave: tuple[Port, ...]


class Entry(NamedTuple):
    """Where a strand first enters the shape."""

    who: int
    port: Port


class Exit(NamedTuple):
    """Where a strand last leaves the shape, and in which lane it then hangs."""

    who: int
    lane: int
    port: Port


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """A rigid group of ties on `span` lanes, with `strands` strands.

    `motif` names the motif it shows and `of` the motif's lanes, of which `first` (from 0) is the
    shape's leftmost. `order[l]` is the strand that hangs in lane l afterwards. `entries` and
    `exits` name the strands that are tied, in the order of strands.
    """

    moves: Moves
    span: int
    strands: int
    ties: tuple[ShapeTie, ...]
    order: tuple[int, ...]
    entries: tuple[Entry, ...]
    exits: tuple[Exit, ...]
    natural_width: float
    motif: str | None = None
    of: int = 0
    first: int = 0

    # Worked out once, as rows ask again and again: ties (a cross is none), and the lowest port.
    tie_count: int = field(init=False)
    bottom: float = field(init=False)

    def __post_init__(self) -> None:
        ties = sum(tie.knot != "cross" for tie in self.ties)
        object.__setattr__(self, "tie_count", ties)
        lowest = max((exit_.port.y for exit_ in self.exits), default=0.0)
        object.__setattr__(self, "bottom", lowest)


def assemble(
    moves: Moves, places: Places, span: int, gauge: Gauge, first: int = 0
) -> tuple[tuple[ShapeTie, ...], tuple[int, ...]]:
    """Return the ties of `moves` at their `places` and the order after them.

    Moves and places are of a group of which this one has the lanes from `first` on (from 0); ties
    come out in its own lanes. A knot cut at the part's side stands on the lanes it has.
    """
    hanging = list(range(span))
    shift = first * gauge.pitch
    ties = []
    for move in moves:
        if isinstance(move, Gap):
            continue
        where = places[move.key]
        if where.manner.leader is None:
            x = sum(gauge.x(lane) for lane in move.lanes) / len(move.lanes)
            manner = where.manner._replace(strands=len(move.lanes), workers=move.workers)
            where = Place(x, where.y, manner)
        lanes = tuple(lane - first for lane in move.lanes)
        who = tuple(hanging[lane] for lane in lanes)
        moved = move._replace(lanes=lanes)
        ties.append(shape_tie(moved, where._replace(x=where.x - shift), who, gauge.diameter))
        order = knot(move.knot).order(where.manner)
        for lane, at in zip(lanes, order, strict=True):
            hanging[lane] = who[at]
    return tuple(ties), tuple(hanging)


def shape_tie(move: Move, where: Place, who: tuple[int, ...], diameter: float) -> ShapeTie:
    """Return the tie of one move at its place, with its ports."""
    roles = knot(move.knot).roles(where.manner)
    enter, leave = tie_ports(move.knot, where.manner, roles, diameter)
    enter = tuple(port.moved(where.x, where.y) for port in enter)
    leave = tuple(port.moved(where.x, where.y) for port in leave)
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
        where.x, where.y, top, enter, leave,
    )  # fmt: skip


def make_shape(
    moves: Moves,
    ties: Sequence[ShapeTie],
    order: tuple[int, ...],
    span: int,
    diameter: float,
    of: tuple[str, int, int] | None = None,
    level: float | None = None,
) -> Shape:
    """Return the shape of those ties, moved up so that `level` (its highest port) is at y = 0.

    `of` names a motif, its lanes and which of them is the shape's leftmost.
    """
    top = min((tie.top for tie in ties), default=0.0) if level is None else level
    ties = tuple(_raised(tie, top) for tie in ties)
    first: dict[int, Port] = {}
    last: dict[int, Port] = {}
    for tie in ties:
        for who, enter, leave in zip(tie.who, tie.enter, tie.leave, strict=True):
            first.setdefault(who, enter)
            last[who] = leave
    lane_of = {who: lane for lane, who in enumerate(order)}
    exits = tuple(Exit(who, lane_of[who] % span, last[who]) for who in sorted(last))
    motif, lanes, leftmost = of or (None, 0, 0)
    return Shape(
        moves, span, len(order), ties, order,
        tuple(Entry(who, first[who]) for who in sorted(first)),
        exits, _natural_width(ties, span, diameter), motif, lanes, leftmost,
    )  # fmt: skip


def _raised(tie: ShapeTie, by: float) -> ShapeTie:
    return tie._replace(
        y=tie.y - by,
        top=tie.top - by,
        enter=tuple(port.moved(0.0, -by) for port in tie.enter),
        leave=tuple(port.moved(0.0, -by) for port in tie.leave),
    )


def _natural_width(ties: Sequence[ShapeTie], span: int, diameter: float) -> float:
    """Return the width (mm) the shape takes when nothing pulls it: its widest level."""
    bars: dict[tuple[int | None, int | None], float] = {}
    width = 0.0
    for tie in ties:
        if tie.manner.leader is not None:
            bar = (tie.step, tie.leader)
            leader = 0.0 if tie.leader == -1 else diameter
            bars[bar] = bars.get(bar, leader) + ALONG * tie.manner.cos * diameter
        elif tie.knot != "cross":
            visible = 2.0 * form(tie.knot, tie.manner).half_width
            width = max(width, (visible + span - len(set(tie.lanes))) * diameter)
    return max([width, *bars.values()]) or span * diameter
