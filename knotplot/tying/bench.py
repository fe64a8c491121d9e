"""The bench a piece is tied at: strands by layer and lane, how deep they hang, cords, sections."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from knotplot.errors import Refusal
from knotplot.notice import Notice
from knotplot.tying.depths import Depths
from knotplot.tying.gauge import Gauge
from knotplot.tying.heights import Heights
from knotplot.tying.piece import Cord, Part
from knotplot.tying.ports import Port

MOST_SECTIONS = 50_000  # as worked, repeats counted: far more than ties need
CLOSE = 1e-6  # mm
_PREFIX = {"main": "M", "leader": "L", "wrap": "W"}


class TooMuch(Refusal):
    """More than a piece may have: no search for `fill` goes on past it."""


class NoRoom(Refusal):
    """Work that hangs below the lower edge: with a longer drop, or fewer rows, it may fit."""


@dataclass(slots=True)
class _Section:
    """The section being worked: what its `Part` will say."""

    name: str
    kind: str
    lane: int
    strands: int
    among: int
    tall: float
    top: float = math.inf
    bottom: float = -math.inf
    natural: float = 0.0
    spread: float = 1.0
    tied: bool = False
    now: int = 0

    def __post_init__(self) -> None:
        self.now = self.strands


@dataclass(slots=True)
class Bench:
    """Strands by layer and lane, how deep each hangs, the cords they are of, and the sections.

    `gauge` is that of the body's lanes as they are now: it changes where strands are added or end,
    which `recounted` tells. Nothing can be tied or hang bare below `deepest` (mm).
    """

    gauge: Gauge
    heights: Heights = field(default_factory=Heights)
    deepest: float = math.inf
    lanes: dict[str, list[int]] = field(default_factory=dict)
    cords: list[Cord] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    notices: list[Notice] = field(default_factory=list)
    recounted: bool = False
    _depths: Depths = field(default_factory=Depths)
    _gauges: dict[str, Gauge] = field(default_factory=dict)
    _cut: dict[str, int] = field(default_factory=dict)
    _section: _Section | None = None

    # --- strands -------------------------------------------------------------------------

    def hang(self, layer: str, strands: Iterable[int], starts: Sequence[Port | None]) -> None:
        """Hang strands in the lanes of a layer, left to right, each from its port in `starts`.

        `starts` is by strand id; those with a port there are placed.
        """
        self.lanes[layer] = list(strands)
        self._gauges[layer] = self.gauge
        self._depths.more(len(starts) - len(self._depths))
        for strand in self.lanes[layer]:
            port = starts[strand]
            if port is not None:
                self._depths.put(strand, port)

    def cut(
        self, role: str, kind: str = "main", strands: tuple[int, ...] = (),
        length: float = 0.0, ends: tuple[float, ...] = (), added: bool = False,
        colour: str | None = None,
    ) -> str:  # fmt: skip
        """Take a cord (main, leader or wrap) and return its id: they are numbered as they come.

        `colour` is one that is named for this cord, None for that of its role.
        """
        number = self._cut[role] = self._cut.get(role, 0) + 1
        name = f"{_PREFIX[role]}{number}"
        self.cords.append(Cord(name, role, kind, strands, length, ends, added, colour=colour))
        return name

    def gauge_of(self, layer: str) -> Gauge:
        """Return the gauge of a layer's lanes as they are now."""
        return self._gauges[layer]

    def depth(self, first: int, count: int, layer: str = "body") -> float:
        """Return how far down (mm) the deepest of those lanes is."""
        return max(map(self._depths.of, self.lanes[layer][first : first + count]))

    def depth_of(self, strand: int) -> float:
        """Return how far down (mm) that strand is tied or bound to hang bare."""
        return self._depths.of(strand)

    def hanging(self) -> dict[int, int]:
        """Return on how many strands each section, by number, is the last one."""
        return dict(Counter(self._depths.part))

    def free(self, first: int, count: int, length: float, layer: str = "body") -> None:
        """Keep `length` (mm) of bare cord below the last tie on those lanes."""
        for strand in self.lanes[layer][first : first + count]:
            self._depths.floor[strand] = self.depth_of(strand) + length
        self.reach(length)

    def reach(self, depth: float) -> None:
        """Raise `NoRoom` for what reaches further down (mm) than anything can hang."""
        if depth > self.deepest + CLOSE:
            raise NoRoom("the work is longer than the drop", "use a longer drop")

    def level(self, first: int, count: int, depth: float | None = None) -> None:
        """Let nothing more be tied on those body lanes above the deepest of them (or `depth`)."""
        deepest = self.depth(first, count) if depth is None else depth
        for strand in self.lanes["body"][first : first + count]:
            self._depths.wait[strand] = max(self._depths.wait[strand], deepest)

    # --- sections ------------------------------------------------------------------------

    def begin(self, name: str, kind: str, lane: int, strands: int, layer: str = "body") -> int:
        """Begin a section on those lanes; its number goes into the rows that follow."""
        if len(self.parts) >= MOST_SECTIONS:
            raise TooMuch(f"more than {MOST_SECTIONS:,} sections are worked", "repeat them less")
        among, tall = len(self.lanes[layer]), self.heights.of(name, kind)
        self._section = _Section(name, kind, lane, strands, among, tall)
        self._section.top = self.depth(lane, strands, layer)
        self._section.bottom = self._section.top
        for strand in self.lanes[layer][lane : lane + strands]:
            self._depths.part[strand] = len(self.parts)
        return len(self.parts)

    def end(self, bottom: float | None = None, finish: str | None = None) -> None:
        """End the section and write it down."""
        part = self._section
        if part is None:
            raise RuntimeError("no section was begun")
        self.parts.append(
            Part(part.name, part.kind, part.lane, part.strands, part.among, part.top,
                 max(part.bottom, bottom or part.bottom), part.natural, finish, part.tall,
                 spread=part.spread)
        )  # fmt: skip
        self._section = None

    @property
    def tall(self) -> float:
        """Return how tall the knots of the section being worked are, over their usual height."""
        return 1.0 if self._section is None else self._section.tall
