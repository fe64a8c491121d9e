"""The record: cords, strands, rows and ties, as tied. Frozen; everything after reads it.

Rows keep placed shapes rather than single ties, since a curtain repeats a few shapes a thousand
times; `Row.ties()` writes the ties out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from knotplot.curves.lower_edge import LowerEdge
from knotplot.tying.gauge import Gauge
from knotplot.tying.ports import Port
from knotplot.tying.shape import Shape

NO_PARAMS: Mapping[str, object] = MappingProxyType({})


class Tie(NamedTuple):
    """One tie: `lanes` (from 1), `strands` and `roles` are parallel and run left to right.

    `leader` is the strand or cord held straight, or None; `x` and `y` (mm) are the mean of the
    lanes before it and its top, counted from the top of the support.
    """

    knot: str
    facing: str | None
    lanes: tuple[int, ...]
    strands: tuple[int, ...]
    roles: tuple[str, ...]
    leader: int | str | None
    layers: tuple[str, ...]
    params: Mapping[str, object]
    step: int | None
    x: float
    y: float


class Placement(NamedTuple):
    """A shape tied at one place: its first lane (from 0), the strands that enter, its top (mm).

    `y` is as worked; `cord` is the separate cord (leader or wrap) it was tied with.
    """

    shape: Shape
    lane: int
    strands: tuple[int, ...]
    y: float
    cord: str | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One row. `shift` (mm) moves it from where it was worked to where it hangs.

    `gap` is the bare cord asked between this row and the one above. `order_after` lists the
    strands of the row's layer, left to right.
    """

    number: int
    section: int
    layer: str
    layers: tuple[str, ...]
    placements: tuple[Placement, ...]
    order_after: tuple[int, ...]
    gap: float = 0.0
    shift: float = 0.0

    def ties(self, gauge: Gauge) -> Iterator[Tie]:
        """Write out the row's ties in the order worked."""
        for shape, lane, strands, y, cord in self.placements:
            for tie in shape.ties:
                if tie.knot == "cross":
                    continue
                lanes = tuple(lane + at + 1 for at in tie.lanes)
                leader: int | str | None = None
                if tie.leader is not None:
                    leader = cord if tie.leader < 0 else strands[tie.leader]
                yield Tie(
                    tie.knot,
                    tie.facing,
                    lanes,
                    tuple(strands[who] for who in tie.who),
                    tie.roles,
                    leader,
                    self.layers,
                    {"cord": cord} if cord and tie.leader is None else NO_PARAMS,
                    tie.step,
                    (sum(lanes) / len(lanes) - 0.5) * gauge.pitch,
                    y + tie.top + self.shift,
                )

    @property
    def tie_count(self) -> int:
        """Return how many ties the row has."""
        return sum(placement.shape.tie_count for placement in self.placements)


@dataclass(frozen=True, slots=True)
class Cord:
    """A length cut from the spool: id, role (main, leader, wrap), kind, and its strands.

    For a leader or wrap, `length` (mm) is what it spans or takes; `ends` how much hangs at each
    of its free ends.
    """

    id: str
    role: str
    kind: str
    strands: tuple[int, ...] = ()
    length: float = 0.0
    ends: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """A section as worked: its name and kind, lanes (first, count), top and bottom (mm).

    `tall` is the height of its knots over their usual one.
    """

    name: str
    kind: str
    lane: int
    strands: int
    top: float
    bottom: float
    natural_width: float
    finish: str | None = None
    tall: float = 1.0


@dataclass(frozen=True, slots=True)
class Pocket:
    """A rod pocket: the band's length (mm) as worked, the rod with cord, and where it joins."""

    band: float
    radius: float
    join: float
    back_rows: int


@dataclass(frozen=True, slots=True)
class Mounting:
    """How the strands hang: kind, rod diameter (mm), strands a cord, tail (mm), where they start.

    `starts` has a port for every strand by id (index 0 unused), as worked; `fold` ("middle" or
    "uneven") is where cords of two strands are folded.
    """

    kind: str
    rod: float
    strands_per_cord: int
    tail: float
    starts: tuple[Port | None, ...]
    pocket: Pocket | None = None
    fold: str = "middle"


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece as tied; `lanes` is the strand in each body lane at the end."""

    gauge: Gauge
    mounting: Mounting
    rows: tuple[Row, ...]
    cords: tuple[Cord, ...]
    parts: tuple[Part, ...]
    lanes: tuple[int, ...]
    edge: LowerEdge
    warnings: tuple[str, ...]

    @property
    def tie_count(self) -> int:
        """Return how many ties the piece has."""
        return sum(row.tie_count for row in self.rows)

    def ties(self) -> Iterator[Tie]:
        """Write out all ties in the order worked."""
        for row in self.rows:
            yield from row.ties(self.gauge)
