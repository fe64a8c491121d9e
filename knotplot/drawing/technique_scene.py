"""A frame of a technique as cords in the plane: what is tied so far, and how all hangs then.

All is in mm of the technique's piece. Cords hang from where they are; what comes later isn't there
yet. Parts that move in the frame are told from the others.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from knotplot.curves.bezier import straight
from knotplot.drawing.technique_steps import Shown, knotter, led
from knotplot.geometry.layout import ENDED_SHOWN
from knotplot.geometry.runs import run
from knotplot.knots.base import Point2
from knotplot.techniques.deeds import Deed
from knotplot.tying.piece import Piece
from knotplot.tying.ports import Port

TOP = 2.6  # diameters a cord is shown above where it begins
HANG = 3.6  # and below the lowest knot of all frames
SPREAD = 1.1  # how far cords go aside below their last knot, for each mm they hang
ROOM = 1.5  # diameters above a knot, in which the cords that come to it turn aside
IN_HAND = 2.4  # of a leader beyond its row
ASIDE = 0.4  # of a cord that goes on sideways between vertical hitches
BESIDE = 2.0  # of a separate leader beyond the cords it lies over

MOVE = ("working", "knotting", "mount", "crossing")  # roles of cords that are in the hand


class Part(NamedTuple):
    """A part of a cord, between knots or hanging: its curve (x, y alternating, mm)."""

    curve: tuple[float, ...]
    moving: bool


@dataclass(frozen=True, slots=True)
class Scene:
    """A frame: runs and hanging cords below, leaders that are held straight on them, then knots.

    `knots` are deeds with the numbers of their cords that move (-1 for a wrap); `ends` where a
    moving cord ends and its direction there; `names` the number of each cord and where it stands.
    """

    below: tuple[Part, ...]
    leaders: tuple[Part, ...]
    knots: tuple[tuple[Deed, frozenset[int]], ...]
    ends: tuple[tuple[Point2, Point2], ...]
    names: tuple[tuple[int, Point2], ...]


def scene(piece: Piece, done: Sequence[Deed], frame: Shown, bottom: float) -> Scene:
    """Return a frame of a technique as cords in the plane, that hang down to `bottom` (mm)."""
    deeds = list(done[: frame.upto])
    if frame.look == "low":
        deeds.append(_lowered(done[frame.upto], deeds, piece))
    return _Making(piece, done, frame, deeds, bottom).scene()


def lowest(piece: Piece, done: Sequence[Deed], frames: Sequence[Shown]) -> float:
    """Return how far down the cords of all frames hang (mm)."""
    low = max((port.y for deed in done for _, port in deed.leave), default=0.0)
    for frame in frames:
        if frame.look == "low":
            made = _lowered(done[frame.upto], done[: frame.upto], piece)
            low = max(low, *(port.y for _, port in made.leave))
    return low + HANG * piece.gauge.diameter


def moving(deed: Deed) -> frozenset[int]:
    """Return the strands that are in the hand for a deed; -1 for a separate wrap."""
    if deed.tie is None:
        return frozenset(deed.strands)
    pairs = zip(deed.strands, deed.tie.roles, strict=True)
    return frozenset({s for s, role in pairs if role in MOVE}) or frozenset({-1})


def _lowered(deed: Deed, before: Sequence[Deed], piece: Piece) -> Deed:
    """Return a knot with picots as it is tied, below the bare cord it is then pushed up over."""
    assert deed.tie is not None
    by, diameter = deed.tie.picot, piece.gauge.diameter
    last = {strand: port for each in before for strand, port in each.leave}
    runs = tuple(
        (strand, run(last[strand], Port(curve[-2], curve[-1] + by, 0.0, 1.0, "knot"), diameter))
        for strand, curve in deed.runs
    )
    leave = tuple((strand, port.moved(0.0, by)) for strand, port in deed.leave)
    return replace(deed, y=deed.y + by, runs=runs, leave=leave)


class _Making:
    """A scene being made: cords as far as `deeds` go, of all that are `done` in the end."""

    def __init__(
        self, piece: Piece, done: Sequence[Deed], frame: Shown, deeds: Sequence[Deed], bottom: float
    ) -> None:
        self.piece, self.done, self.frame, self.deeds = piece, done, frame, deeds
        self.diameter = piece.gauge.diameter
        self.bottom = bottom
        self.new = deeds[frame.since :]
        self.starts = {s: p for s, p in enumerate(piece.mounting.starts) if p is not None}
        self.last = self.starts | {s: port for deed in deeds for s, port in deed.leave}
        self.order = deeds[-1].order if deeds else tuple(self.starts)
        self.ended = tuple(s for deed in deeds if deed.tie is None for s in deed.strands)
        self.movers = frozenset(s for deed in self.new for s in moving(deed))
        self._lows = [max(port.y for _, port in deed.leave) for deed in deeds if deed.leave]
        self.ends: list[tuple[Point2, Point2]] = []

    def scene(self) -> Scene:
        """Return the scene."""
        below = [*self._runs(), *self._ended(), *self._sideways(), *self._hanging()]
        leaders = tuple(self._leaders())
        knots = tuple(
            (deed, moving(deed) if i >= self.frame.since else frozenset[int]())
            for i, deed in enumerate(self.deeds)
            if deed.tie is not None
        )
        if self.frame.pushed:
            self._pushed(self.new[0])
        return Scene(tuple(below), leaders, knots, tuple(self.ends), tuple(self._names()))

    def _runs(self) -> Iterator[Part]:
        """Yield the runs into every knot, those that begin a cord from a little above."""
        begun: set[int] = set()
        for i, deed in enumerate(self.deeds):
            new = moving(deed) if i >= self.frame.since else frozenset[int]()
            for strand, curve in deed.runs:
                whole = curve if strand in begun else self._first(strand, curve)
                begun.add(strand)
                yield Part(whole, strand in new)

    def _first(self, strand: int, curve: tuple[float, ...]) -> tuple[float, ...]:
        """Return the run into a cord's first knot, from a little above where it begins."""
        if strand not in self.starts:
            return curve
        x0, y0, x1, y1 = curve[-4:]
        size = math.hypot(x1 - x0, y1 - y0) or 1.0
        port = Port(x1, y1, (x1 - x0) / size, (y1 - y0) / size, "knot")
        top = self._top(strand)
        # it hangs straight beside what was tied above its knot, and turns aside below that
        level = max((low for low in self._lows if low < y1 - ROOM * self.diameter), default=top.y)
        down = top._replace(y=max(top.y, level))
        return (*straight(top.x, top.y, down.x, down.y), *run(down, port, self.diameter)[2:])

    def _top(self, strand: int) -> Port:
        """Return where a cord is first shown."""
        return self.starts[strand].moved(0.0, -TOP * self.diameter)

    def _from(self, strand: int) -> Port:
        """Return where a cord hangs from now: its last knot, or where it is first shown."""
        tied = any(strand == s for deed in self.deeds for s, _ in deed.leave)
        return self.last[strand] if tied else self._top(strand)

    def _hanging(self) -> Iterator[Part]:
        """Yield the cords that hang down, each in its lane."""
        busy = {*self._led(), *self._aside()}
        for lane, strand in enumerate(self.order):
            if strand in busy:
                continue
            curve = run(self._from(strand), self._foot(lane, strand), self.diameter)
            yield self._free(strand, curve, (0.0, 1.0))

    def _foot(self, lane: int, strand: int) -> Port:
        """Return where a cord ends that hangs in a lane: below that, or as near as it gets."""
        start, gauge = self._from(strand), self.piece.gauge.over(len(self.order))
        most = SPREAD * (self.bottom - start.y)
        aside = min(max(gauge.x(lane) - start.x, -most), most)
        return Port(start.x + aside, self.bottom, 0.0, 1.0, "knot")

    def _free(self, strand: int, curve: tuple[float, ...], way: Point2) -> Part:
        """Return the free end of a cord; where it moves, an arrow goes on from it."""
        if strand in self.movers:
            self.ends.append(((curve[-2], curve[-1]), way))
        return Part(curve, strand in self.movers)

    def _ended(self) -> Iterator[Part]:
        """Yield the ends of cords that go no further; once worked in, they are drawn elsewhere."""
        for strand in self.ended:
            if self.frame.look != "back":
                port = self.last[strand]
                end = Port(port.x, port.y + ENDED_SHOWN * self.diameter, 0.0, 1.0, "knot")
                yield self._free(strand, run(port, end, self.diameter), (0.0, 1.0))

    # --- cords that are held straight, or led sideways -------------------------------------------

    def _row(self) -> tuple[Deed, ...]:
        """Return the hitches still to come of a row that is begun, or whose leader is laid."""
        at = self.frame.upto
        if at >= len(self.done) or not self.done[at].hitch:
            return ()
        begun = at > 0 and self.done[at - 1].bar == self.done[at].bar
        same = begun and self.done[at - 1].leader == self.done[at].leader
        return led(self.done, at) if same or self.frame.look == "lay" else ()

    def _led(self) -> frozenset[int]:
        """Return the strand that leads the row at work, if it is one of the piece."""
        row = [deed for deed in self._row() if not deed.vertical]
        return frozenset({row[0].leader} if row and isinstance(row[0].leader, int) else ())

    def _aside(self) -> frozenset[int]:
        """Return the strand that goes on sideways in vertical hitches."""
        at = self.frame.upto
        if not 0 < at < len(self.done) or not self.done[at].vertical:
            return frozenset()
        same = self.done[at - 1].vertical and self.done[at - 1].bar == self.done[at].bar
        return frozenset({knotter(self.done[at])} if same else ())

    def _sideways(self) -> Iterator[Part]:
        for strand in self._aside():
            port, far = self.last[strand], ASIDE * self.diameter
            curve = straight(port.x, port.y, port.x + far * port.tx, port.y + far * port.ty)
            yield self._free(strand, curve, (port.tx, port.ty))

    def _leaders(self) -> Iterator[Part]:
        """Yield the leader of the row at work, and separate ones of those that are done."""
        laid = self.frame.look == "lay"
        for strand in self._led():
            row = self._row()
            port, far = dict(row[-1].leave)[strand], IN_HAND * self.diameter
            x, y = port.x + far * port.tx, port.y + far * port.ty
            first = dict(row[0].runs)[strand]
            tied = strand in {s for deed in self.deeds for s, _ in deed.leave}
            start = first if tied else self._first(strand, first)
            if laid:
                self.ends.append(((x, y), (port.tx, port.ty)))
            yield Part((*start, *straight(first[-2], first[-1], x, y)[2:]), laid)
        yield from self._separate(laid)

    def _separate(self, laid: bool) -> Iterator[Part]:
        """Yield leaders that are cords of their own, of rows done or at work."""
        own = [deed for deed in self.done if isinstance(deed.leader, str)]
        coming = {deed.leader for deed in self._row()}
        begun = {deed.leader for deed in self.deeds}
        for leader in sorted({str(deed.leader) for deed in own}):
            row = [deed for deed in own if deed.leader == leader]
            if leader not in begun | coming:
                continue
            half = self.piece.rows[row[0].bar[0]].pitch(self.piece.gauge) / 2.0
            over = half + BESIDE * self.diameter
            x0, x1, y = row[0].x - over, row[-1].x + over, row[0].y
            new = laid and leader not in begun
            if new:
                self.ends.append(((x1, y), (1.0, 0.0)))
            yield Part(straight(x0, y, x1, y), new)

    def _pushed(self, deed: Deed) -> None:
        """Show by arrows at its sides that a knot is pushed up."""
        ports = sorted(port.x for _, port in deed.leave)
        low = max(port.y for _, port in deed.leave)
        out = 2.6 * self.diameter
        self.ends = [((x, low), (0.0, -1.0)) for x in (ports[0] - out, ports[-1] + out)]

    def _names(self) -> Iterator[tuple[int, Point2]]:
        """Yield the number of each cord above it, or below it where it was added."""
        up, down = 0.7 * self.diameter, 3.4 * self.diameter
        for strand, port in self.starts.items():
            yield strand, (port.x, port.y - TOP * self.diameter - up)
        for lane, strand in enumerate(self.order):
            if strand not in self.starts:
                yield strand, (self._foot(lane, strand).x, self.bottom + down)
