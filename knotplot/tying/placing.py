"""Where the ties of a group of lanes stand, each group in its own frame, free from above.

GEOMETRY's rules 2 to 7: a knot at the mean of its lanes, a hitch or cross on the boundary of its
two; no strand climbs; the leader of a bar runs straight, and all bars of a motif whose angle was
not asked for fall at one angle, the least at which no bar is pushed down from above. Where strands
are added or end, those that are then there share the width of the group.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

from knotplot.knots import form, knot
from knotplot.knots.base import Manner
from knotplot.knots.hitch import ACROSS, ALONG
from knotplot.tying.gauge import Gauge
from knotplot.tying.moves import Add, End, Gap, Move, Moves, most_lanes
from knotplot.tying.ports import LOOPED_MANNER, Port, looped_ports, steepness, tie_ports

ASKED = 45.0  # a bar's angle where the maker asks for none, degrees
STEEPEST = 70.0


class Place(NamedTuple):
    """Where a tie stands: its middle (mm), and the manner in which it is tied."""

    x: float
    y: float
    manner: Manner


Places = dict[tuple[int, int, int], Place]


@dataclass(slots=True)
class _Hanging:
    """A strand on its way down: the tie it last left, and through which port.

    `wait` is bare cord asked before the next tie.
    """

    key: tuple[int, int, int] | None = None
    middle: tuple[float, float] = (0.0, 0.0)
    normal: tuple[float, float] | None = None
    port: Port | None = None
    wait: float = 0.0


@dataclass(slots=True)
class _Sheet:
    """Work in progress: strands by lane, places by key, and the room below each knot.

    `whole` is the gauge of the group as it begins, `gauge` that of the lanes there now.
    """

    whole: Gauge
    lanes: int
    gauge: Gauge
    angle: float
    ease: float
    tall: float
    hanging: list[_Hanging]
    places: Places = field(default_factory=dict)
    room: dict[tuple[int, int, int], float] = field(default_factory=dict)
    held: set[tuple[int, int, int]] = field(default_factory=set)
    pushed: bool = False

    def lanes_of(self, move: Move | Add) -> tuple[Gauge, int]:
        """Return the gauge by which a move stands, and how many of its lanes are left of all."""
        if not any(move.beside):
            return self.gauge, 0
        return self.whole.part(self.lanes, len(self.hanging) + sum(move.beside)), move.beside[0]

    def counted(self) -> None:
        """Let the strands that are there now share the group's width."""
        self.gauge = self.whole.part(self.lanes, max(1, len(self.hanging)))


@lru_cache(maxsize=64)
def place(moves: Moves, lanes: int, gauge: Gauge, ease: float = 1.0, tall: float = 1.0) -> Places:
    """Return where each move's tie stands; `ease` times the usual drop is left to runs.

    Knots are `tall` times as high as usual; crosses and gaps aren't stretched.
    Bisects for the least angle, from `ASKED` to `STEEPEST`, at which no bar that starts from a
    tie of the same group is pushed off its line by a knot; where even the steepest is, bars keep
    the angle they were asked and slide. Kept, since a motif's parts, and every trial of a `fill`,
    ask for the same group again; nobody may change what is returned.
    """
    pitch = gauge.part(lanes, most_lanes(moves, lanes)).pitch  # the least at any time
    flat = max(ASKED, math.degrees(math.acos(min(1.0, pitch / (ALONG * gauge.diameter)))))
    flat = min(flat, STEEPEST)
    sheet = _placed(moves, lanes, gauge, flat, ease, tall)
    if sheet.pushed:
        low, high = flat, STEEPEST
        best = _placed(moves, lanes, gauge, high, ease, tall)
        while not best.pushed and high - low > 0.05:
            middle = (low + high) / 2.0
            tried = _placed(moves, lanes, gauge, middle, ease, tall)
            if tried.pushed:
                low = middle
            else:
                high, best = middle, tried
        sheet = sheet if best.pushed else best
    return _settled(sheet)


def _placed(
    moves: Moves, lanes: int, gauge: Gauge, angle: float, ease: float, tall: float
) -> _Sheet:
    hanging = [_Hanging() for _ in range(lanes)]
    sheet = _Sheet(gauge, lanes, gauge, angle, ease, tall, hanging)
    for line, group in groupby(moves, lambda move: move.line if isinstance(move, Move) else -1):
        members = list(group)
        if line >= 0:
            bar = [move for move in members if isinstance(move, Move)]
            (_vertical_bar if bar[0].knot.startswith("vertical_") else _bar)(sheet, bar)
            continue
        for move in members:
            match move:
                case Gap():
                    for strand in sheet.hanging:
                        strand.wait = max(strand.wait, move.length)
                case Add():
                    _added(sheet, move)
                case End():
                    gone = set(move.lanes)
                    left = [each for lane, each in enumerate(sheet.hanging) if lane not in gone]
                    sheet.hanging = left
                    sheet.counted()
                case _:
                    _single(sheet, move)
    return sheet


def _added(sheet: _Sheet, move: Add) -> None:
    """Place the lark's heads of added cords one below another on the strand they hang on.

    The cord whose strands go furthest aside is the uppermost, so that none lies over another's.
    """
    diameter, leader = sheet.gauge.diameter, sheet.hanging[move.lane]
    looped = looped_ports(move.left, diameter)
    gauge, beside = sheet.lanes_of(move)
    middle = gauge.x(move.lane + beside) - looped.above.x
    new = [_Hanging() for _ in range(2 * move.cords)]
    limit = _limit(sheet, leader, gauge.x(move.lane + beside), "knot")
    enter = 0.0 if limit == -math.inf else limit
    if leader.key is not None:
        sheet.room[leader.key] = 0.0
    for cord in range(move.cords) if move.left else reversed(range(move.cords)):
        y, key = enter - looped.above.y, move.key(cord)
        sheet.places[key] = Place(middle, y, LOOPED_MANNER)
        for strand, port in zip(new[2 * cord : 2 * cord + 2], looped.leave, strict=True):
            strand.key, strand.middle, strand.port = key, (middle, y), port.moved(middle, y)
            strand.wait = looped.below.y - port.y  # what they are tied in hangs below the knot
        leader.key, leader.middle, leader.normal = key, (middle, y), None
        leader.port, leader.wait = looped.below.moved(middle, y), 0.0
        enter = leader.port.y
    at = move.lane if move.left else move.lane + 1
    sheet.hanging[at:at] = new
    sheet.counted()


def _single(sheet: _Sheet, move: Move) -> None:
    """Place a knot or cross as high as its strands let it."""
    gauge, beside = sheet.lanes_of(move)
    manner = Manner(len(move.lanes), move.facing, move.workers, tall=sheet.tall)
    if move.knot == "cross":
        reach = 0.5 * min(gauge.pitch / gauge.diameter, 1.2)
        manner = manner._replace(reach=reach, tall=1.0)
    middle = sum(gauge.x(lane + beside) for lane in move.lanes) / len(move.lanes)
    enter, _ = tie_ports(move.knot, manner, knot(move.knot).roles(manner), gauge.diameter)
    half = form(move.knot, manner).height * gauge.diameter / 2.0
    lowest = -math.inf
    for lane, port in zip(move.lanes, enter, strict=True):
        limit = _limit(sheet, sheet.hanging[lane], middle + port.x, port.hold)
        lowest = max(lowest, limit - port.y)
    _put(sheet, move, Place(middle, half if lowest == -math.inf else lowest, manner))


def _bar(sheet: _Sheet, bar: list[Move]) -> None:
    """Place hitches along one straight leader."""
    first = bar[0]
    gauge, beside = sheet.lanes_of(first)
    angle = sheet.angle if first.angle is None else first.angle
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    sign = 1.0 if first.leader == 0 else -1.0
    fall = gauge.pitch * sin / cos
    reach = min(ALONG, gauge.pitch / cos / gauge.diameter) / 2.0
    manner = Manner(2, leader=first.leader, cos=cos, sin=sin, reach=reach, tall=sheet.tall)
    across = ACROSS * sheet.tall * gauge.diameter
    normal = (-sign * sin, cos)
    xs = [gauge.pitch * (move.lanes[0] + beside + 1) for move in bar]
    start, anchored = _bar_start(sheet, first, xs[0], manner)
    lowest = packed = start
    for j, (move, x) in enumerate(zip(bar, xs, strict=True)):
        knotter = sheet.hanging[move.lanes[1 if first.leader == 0 else 0]]
        half = across / 2.0
        limit = _limit(sheet, knotter, x - normal[0] * half, "hitch") + cos * half - j * fall
        if knotter.normal and knotter.normal[0] * normal[0] + knotter.normal[1] * cos > 0.99:
            # Bars lie against each other: the lower one slides. A knot in the way steepens it.
            aside = (x - knotter.middle[0]) * normal[0]
            against = knotter.middle[1] + (across + knotter.wait - aside) / cos
            packed = max(packed, limit, against - j * fall)
        elif knotter.port and knotter.port.hold in ("hitch", "lead"):
            packed = max(packed, limit)
        else:
            lowest = max(lowest, limit)
    if anchored and lowest > start + 1e-6 and first.angle is None:
        sheet.pushed = True
    lowest = max(lowest, packed)
    if lowest == -math.inf:
        lowest = across / 2.0 * cos
    for j, (move, x) in enumerate(zip(bar, xs, strict=True)):
        _put(sheet, move, Place(x, lowest + j * fall, manner), normal)


def _bar_start(sheet: _Sheet, move: Move, x: float, manner: Manner) -> tuple[float, bool]:
    """Return how high a bar may start for its leader's sake, and whether its leader is anchored.

    A leader that comes from a tie of the group turns at its own lane's middle, in straight runs.
    """
    lane = move.lanes[move.leader or 0]
    leader, (gauge, beside) = sheet.hanging[lane], sheet.lanes_of(move)
    if leader.port is None:
        return -math.inf, False
    rise = manner.sin * manner.reach * gauge.diameter
    port_x = x - (1.0 if move.leader == 0 else -1.0) * manner.cos * manner.reach * gauge.diameter
    limit = _limit(sheet, leader, port_x, "lead") + rise
    if leader.port.hold == "knot" or leader.wait > 0.0:
        return limit, False
    corner = gauge.x(lane + beside)
    aside = abs(leader.middle[0] - corner) + abs(x - corner)
    return max(limit, leader.middle[1] + aside * manner.sin / manner.cos), True


def _vertical_bar(sheet: _Sheet, bar: list[Move]) -> None:
    """Place vertical hitches: one worker passes level across hanging leaders."""
    first = bar[0]
    gauge, beside = sheet.lanes_of(first)
    manner = Manner(2, leader=first.leader, reach=ALONG / 2.0, tall=sheet.tall)
    half = ALONG * sheet.tall * gauge.diameter / 2.0
    xs = [gauge.pitch * (move.lanes[0] + beside + 1) for move in bar]
    lowest = half
    for move, x in zip(bar, xs, strict=True):
        passed = sheet.hanging[move.lanes[first.leader or 0]]
        lowest = max(lowest, _limit(sheet, passed, x, "lead") + half)
    worker = sheet.hanging[first.lanes[1 - (first.leader or 0)]]
    lowest = max(lowest, _limit(sheet, worker, xs[0], "hitch"))
    for move, x in zip(bar, xs, strict=True):
        _put(sheet, move, Place(x, lowest, manner))


def _limit(sheet: _Sheet, strand: _Hanging, x: float, hold: str) -> float:
    """Return the highest y at which a strand can enter a port at `x`."""
    if strand.port is None:
        return -math.inf
    slope = sheet.ease * steepness(strand.port.hold, hold)
    drop = max(strand.wait, slope * abs(x - strand.port.x))
    return strand.port.y + drop


def _put(
    sheet: _Sheet, move: Move, where: Place, normal: tuple[float, float] | None = None
) -> None:
    """Write down a tie's place, move its strands on, and note the room left above it."""
    gauge = sheet.gauge
    roles = knot(move.knot).roles(where.manner)
    enter, leave = tie_ports(move.knot, where.manner, roles, gauge.diameter)
    strands = [sheet.hanging[lane] for lane in move.lanes]
    for strand, port in zip(strands, enter, strict=True):
        if strand.key is not None:
            sheet.held.add(move.key)
            limit = _limit(sheet, strand, where.x + port.x, port.hold)
            left = where.y + port.y - limit
            sheet.room[strand.key] = min(sheet.room.get(strand.key, math.inf), left)
    sheet.places[move.key] = where
    order = knot(move.knot).order(where.manner)
    for strand, port in zip(strands, leave, strict=True):
        strand.key, strand.middle, strand.normal = move.key, (where.x, where.y), normal
        strand.port, strand.wait = port.moved(where.x, where.y), 0.0
    for lane, who in zip(move.lanes, order, strict=True):
        sheet.hanging[lane] = strands[who]


def _settled(sheet: _Sheet) -> Places:
    """Let knots with ties above and below stand midway in their slack (GEOMETRY, rule 6)."""
    for key, room in sheet.room.items():
        where = sheet.places[key]
        if where.manner.leader is None and key in sheet.held and room > 0.0:
            sheet.places[key] = where._replace(y=where.y + room / 2.0)
    return sheet.places
