"""The record: cords, strands, rows and ties, as tied. Frozen; everything after reads it.

Rows keep placed shapes rather than single ties, since a curtain repeats a few shapes a thousand
times; `Row.ties()` writes the ties out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeAlias

from knotplot.brief import Brief
from knotplot.curves.lower_edge import LowerEdge
from knotplot.tying.colouring import PLAIN, Colouring
from knotplot.tying.gauge import Gauge
from knotplot.tying.heights import Heights
from knotplot.tying.ports import Port
from knotplot.tying.shape import Shape, ShapeTie

NO_PARAMS: Mapping[str, object] = MappingProxyType({})
#: What strands hang on: a rod or branch, a ring, or nothing but pins while they are worked.
Support: TypeAlias = Literal["rod", "ring", "none"]


class Tie(NamedTuple):
    """One tie: `lanes` (from 1), `strands` and `roles` are parallel and run left to right.

    `leader` is the strand or cord held straight, or None; `x` and `y` (mm) are the mean of the
    lanes before it, of `among` that are there then, and its top, counted from the top of the
    support.
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
    among: int


class Placement(NamedTuple):
    """A shape tied at one place: its first lane (from 0) as the row begins, and its top (mm).

    `strands` are those that enter, then those of the cords it adds. `y` is as worked; `cord` is the
    separate cord (leader or wrap) it was tied with.
    """

    shape: Shape
    lane: int
    strands: tuple[int, ...]
    y: float
    cord: str | None = None


@dataclass(frozen=True, slots=True, repr=False)
class Row(Brief):
    """One row. `shift` (mm) moves it from where it was worked to where it hangs.

    `gap` is the bare cord asked between this row and the one above. `order_after` lists the
    strands of the row's layer, left to right; `among` is how many lanes it had as the row began,
    which is what its shapes' places go by.
    """

    number: int
    section: int
    layer: str
    layers: tuple[str, ...]
    placements: tuple[Placement, ...]
    order_after: tuple[int, ...]
    among: int
    gap: float = 0.0
    shift: float = 0.0

    def ties(self, gauge: Gauge) -> Iterator[Tie]:
        """Write out the row's ties in the order worked, in the lanes there are at each."""
        more = 0
        for shape, first, strands, y, cord in self.placements:
            lane, rest = first + more, self.among + more - shape.span
            more += shape.more
            for tie in shape.ties:
                if tie.knot == "cross":
                    continue
                lanes = tuple(lane + at + 1 for at in tie.lanes)
                among = rest + tie.among
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
                    _params(tie, cord),
                    tie.step,
                    (sum(lanes) / len(lanes) - 0.5) * gauge.over(among).pitch,
                    y + tie.top + self.shift,
                    among,
                )

    def pitch(self, gauge: Gauge) -> float:
        """Return the distance from lane to lane (mm) by which its shapes are placed."""
        return gauge.over(self.among).pitch

    @property
    def more(self) -> int:
        """Return how many lanes more (or fewer) there are after it."""
        return sum(placement.shape.more for placement in self.placements)

    @property
    def tie_count(self) -> int:
        """Return how many ties the row has."""
        return sum(placement.shape.tie_count for placement in self.placements)


def _params(tie: ShapeTie, cord: str | None) -> Mapping[str, object]:
    if tie.picot:
        return {"picot_mm": tie.picot}
    return {"cord": cord} if cord and tie.leader is None else NO_PARAMS


@dataclass(frozen=True, slots=True, repr=False)
class Cord(Brief):
    """A length cut from the spool: id, role (main, leader, wrap), kind, and its strands.

    `construction` is that of its kind: twisted, braided or single.

    For a leader or wrap, `length` (mm) is what it spans or takes; `ends` how much hangs at each
    of its free ends. `added` tells of a main cord that it was added in the work, folded. `colour`
    is its colour's name, None where it has none.
    """

    id: str
    role: str
    kind: str
    strands: tuple[int, ...] = ()
    length: float = 0.0
    ends: tuple[float, ...] = ()
    added: bool = False
    construction: str = "twisted"
    colour: str | None = None


@dataclass(frozen=True, slots=True, repr=False)
class Part(Brief):
    """A section as worked: its name and kind, lanes (first, count), top and bottom (mm).

    Its lanes are those it begins with, of `among`. `tall` is the height of its knots over their
    usual one; `hangs` tells that nothing is worked below it, so that it reaches to the lower edge.
    `spread` is how many times its room motifs take that don't lie on their neighbours in a row.
    """

    name: str
    kind: str
    lane: int
    strands: int
    among: int
    top: float
    bottom: float
    natural_width: float
    finish: str | None = None
    tall: float = 1.0
    hangs: bool = False
    spread: float = 1.0

    @property
    def whole(self) -> bool:
        """Tell whether it is worked on all lanes there are."""
        return self.strands == self.among

    def sides(self, width: float) -> tuple[float, float]:
        """Return where it begins and ends across a piece so wide (mm)."""
        pitch = width / self.among
        return self.lane * pitch, (self.lane + self.strands) * pitch

    def spans(self, x: float, width: float) -> bool:
        """Tell whether it is worked at that place across a piece so wide (mm)."""
        left, right = self.sides(width)
        return left <= x < right


@dataclass(frozen=True, slots=True, repr=False)
class Pocket(Brief):
    """A rod pocket: the band's length (mm) as worked, the rod with cord, and where it joins."""

    band: float
    radius: float
    join: float
    back_rows: int


@dataclass(frozen=True, slots=True, repr=False)
class Mounting(Brief):
    """How the strands hang: kind, rod diameter (mm), strands a cord, tail (mm), where they start.

    `starts` has a port for every strand by id (index 0 unused), as worked; `fold` ("middle" or
    "uneven") is where cords of two strands are folded, "auto" until their lengths are known.
    `loop` (mm) is the cord that each leaves standing above the support at its fold, half of it in
    either strand's first run. `support` is what they hang on.
    """

    kind: str
    rod: float
    strands_per_cord: int
    tail: float
    starts: tuple[Port | None, ...]
    pocket: Pocket | None = None
    fold: str = "middle"
    loop: float = 0.0
    support: Support = "rod"


@dataclass(frozen=True, slots=True, repr=False)
class Piece(Brief):
    """A piece as tied; `lanes` is the strand in each body lane at the end.

    `gauge` is that of the strands as mounted; some may be added, others end. `heights` is how tall
    its knots are, by the swatches.
    """

    gauge: Gauge
    mounting: Mounting
    rows: tuple[Row, ...]
    cords: tuple[Cord, ...]
    parts: tuple[Part, ...]
    lanes: tuple[int, ...]
    edge: LowerEdge
    colours: Colouring = PLAIN
    heights: Heights = field(default_factory=Heights)

    @property
    def tie_count(self) -> int:
        """Return how many ties the piece has."""
        return sum(row.tie_count for row in self.rows)

    @property
    def last_gauge(self) -> Gauge:
        """Return the gauge of the strands that hang at the end."""
        return self.gauge.over(len(self.lanes))

    @property
    def changes(self) -> bool:
        """Tell whether strands are added or end anywhere."""
        return any(cord.added for cord in self.cords) or len(self.lanes) != self.gauge.strands

    @property
    def tails(self) -> range:
        """Return the strands that are the short ends of a rod pocket's cords."""
        first = self.gauge.strands + 1
        return range(first, first + (self.gauge.strands if self.mounting.pocket else 0))

    @property
    def ended(self) -> tuple[int, ...]:
        """Return the strands that ended within the work."""
        left, tails = set(self.lanes), self.tails
        return tuple(
            strand
            for cord in self.cords
            for strand in cord.strands
            if strand not in left and strand not in tails
        )

    def fold_of(self, cord: Cord) -> str | None:
        """Return where a cord is folded, "middle" or "uneven"; None for one that isn't."""
        if cord.role != "main":
            return None
        if cord.added:
            return "middle"
        if self.mounting.strands_per_cord != 2:
            return None
        return "uneven" if self.mounting.fold == "uneven" else "middle"

    def ties(self) -> Iterator[Tie]:
        """Write out all ties in the order worked."""
        for row in self.rows:
            yield from row.ties(self.gauge)
