"""A shape: ties that stand rigidly together, solved once and placed many times.

A knot of a mesh is a shape, and so is a whole motif. Lanes and strands are counted from 0 at the
shape's left; a strand is known by the lane it enters in, those of added cords by the numbers after.
A shape keeps the width of the lanes it begins with: where strands are added or end, those that are
then there share it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import NamedTuple

from knotplot.brief import Brief
from knotplot.knots import form
from knotplot.knots.base import Manner
from knotplot.knots.hitch import ALONG
from knotplot.tying.moves import Moves
from knotplot.tying.ports import Port


class ShapeTie(NamedTuple):
    """One tie (or cross) of a shape: who takes part, left to right, and where it stands (mm).

    `leader` is the strand that leads, -1 for a separate cord, None where nothing leads; `enter`
    and `leave` are the strands' ports, `top` the highest of them. `among` is how many lanes the
    shape has then. `picot` (mm) is the loop above its outer working strands.

    A cord that is added hangs on its leader, which isn't one of `who`: `carried` has the ports
    through which that passes, and `turn` the quarter turn in which the knot lies (`Port.turned`).
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
    among: int
    picot: float = 0.0
    turn: int = 0
    carried: tuple[Port, Port] | None = None


class Change(NamedTuple):
    """Strands were added or ended once `at` ties were tied: the strand in each lane after that."""

    at: int
    hanging: tuple[int, ...]


class Entry(NamedTuple):
    """Where a strand first enters the shape."""

    who: int
    port: Port


class Exit(NamedTuple):
    """Where a strand last leaves the shape, and in which lane it then hangs."""

    who: int
    lane: int
    port: Port


class Ended(NamedTuple):
    """A strand that ends within the shape, and where it left its last tie; None above the shape."""

    who: int
    port: Port | None


@dataclass(frozen=True, slots=True)
class Tied:
    """A group of lanes tied: its moves in its own lanes, its ties, and what hangs where after.

    `added` counts cords, `ended` lists strands, `changes` the moments at which either happened.
    """

    moves: Moves
    ties: tuple[ShapeTie, ...]
    order: tuple[int, ...]
    added: int = 0
    ended: tuple[int, ...] = ()
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Shape(Brief):
    """A rigid group of ties on `span` lanes, with `strands` strands.

    `motif` names the motif it shows and `of` the motif's lanes, of which `first` (from 0) is the
    shape's leftmost. `order[l]` is the strand that hangs in lane l afterwards. `entries` and
    `exits` name the strands that are tied and go on, in the order of strands; `ended` those that
    end here, `added` how many cords are added, `changes` when.
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
    added: int = 0
    ended: tuple[Ended, ...] = ()
    changes: tuple[Change, ...] = ()

    # Worked out once, as rows ask again and again: ties (a cross is none), where strands last
    # leave, those that end too, the lowest of these ports, and how many lanes more there are then.
    tie_count: int = field(init=False)
    last_ports: tuple[tuple[int, Port], ...] = field(init=False)
    bottom: float = field(init=False)
    more: int = field(init=False)

    def __post_init__(self) -> None:
        ties = sum(tie.knot != "cross" for tie in self.ties)
        object.__setattr__(self, "tie_count", ties)
        ends = [(each.who, each.port) for each in self.ended if each.port is not None]
        last = (*((each.who, each.port) for each in self.exits), *ends)
        object.__setattr__(self, "last_ports", last)
        lowest = max((port.y for _, port in last), default=0.0)
        object.__setattr__(self, "bottom", lowest)
        object.__setattr__(self, "more", 2 * self.added - len(self.ended))

    @property
    def works(self) -> bool:
        """Tell whether anything is done in it: tied, crossed or ended."""
        return bool(self.ties or self.ended)


def make_shape(
    tied: Tied,
    span: int,
    diameter: float,
    of: tuple[str, int, int] | None = None,
    level: float | None = None,
) -> Shape:
    """Return the shape of what is tied, moved up so that `level` (its highest port) is at y = 0.

    `of` names a motif, its lanes and which of them is the shape's leftmost.
    """
    top = min((tie.top for tie in tied.ties), default=0.0) if level is None else level
    ties = tuple(_raised(tie, top) for tie in tied.ties)
    first: dict[int, Port] = {}
    last: dict[int, Port] = {}
    for _, tie in passed(ties):
        for who, enter, leave in tie_ends(tie):
            first.setdefault(who, enter)
            last[who] = leave
    strands = len(tied.order) + len(tied.ended)
    came = strands - 2 * tied.added  # those of added cords begin within the shape
    lane_of = {who: lane for lane, who in enumerate(tied.order)}
    lanes_after = max(1, span + 2 * tied.added - len(tied.ended))
    exits = tuple(
        Exit(who, lane_of[who] % lanes_after, last[who]) for who in sorted(last) if who in lane_of
    )
    motif, lanes, leftmost = of or (None, 0, 0)
    return Shape(
        tied.moves, span, strands, ties, tied.order,
        tuple(Entry(who, first[who]) for who in sorted(first) if who < came),
        exits, _natural_width(ties, span, diameter), motif, lanes, leftmost,
        tied.added, tuple(Ended(who, last.get(who)) for who in sorted(tied.ended)), tied.changes,
    )  # fmt: skip


def passed(ties: Sequence[ShapeTie]) -> Iterator[tuple[int, ShapeTie]]:
    """Yield ties with their numbers in the order strands pass through them.

    That is the order worked, save for cords added on one strand in one step: those are written from
    left to right, and the strand passes the uppermost first.
    """
    for adding, group in groupby(enumerate(ties), lambda each: each[1].carried and each[1].step):
        together = list(group)
        yield from together if adding is None else sorted(together, key=lambda each: each[1].y)


def tie_ends(tie: ShapeTie) -> Iterator[tuple[int, Port, Port]]:
    """Yield every strand that passes through a tie, with the ports it enters and leaves by."""
    yield from zip(tie.who, tie.enter, tie.leave, strict=True)
    if tie.carried is not None and tie.leader is not None:
        yield (tie.leader, *tie.carried)


def _raised(tie: ShapeTie, by: float) -> ShapeTie:
    carried = tie.carried and (tie.carried[0].moved(0.0, -by), tie.carried[1].moved(0.0, -by))
    return tie._replace(
        y=tie.y - by,
        top=tie.top - by,
        enter=tuple(port.moved(0.0, -by) for port in tie.enter),
        leave=tuple(port.moved(0.0, -by) for port in tie.leave),
        carried=carried,
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
        elif tie.knot != "cross" and tie.carried is None:
            visible = 2.0 * form(tie.knot, tie.manner).half_width
            width = max(width, (visible + tie.among - len(set(tie.lanes))) * diameter)
    return max([width, *bars.values()]) or span * diameter
