"""A pattern worked: mounted and tied on the rack from top to bottom, what is `fill` found.

The strands below the last knot take the slack; where they can't, the pattern is refused with the
drop, or the number of rows, that would do.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from knotplot.curves.lower_edge import LowerEdge
from knotplot.errors import Path, Refusal
from knotplot.kinds import section_kind
from knotplot.motifs.working import Squeezed, lead_twice
from knotplot.notice import Notice
from knotplot.pattern.bounds import check_room
from knotplot.pattern.colouring import colour_notices, coloured
from knotplot.pattern.cord_parts import Cord as CordType
from knotplot.pattern.gauge_height import heights
from knotplot.pattern.models import Pattern
from knotplot.pattern.room import most_rows, shortfall
from knotplot.pattern.trial import Tied, Trial
from knotplot.sections.base import walk
from knotplot.tying.bench import CLOSE, NoRoom, TooMuch
from knotplot.tying.gauge import NARROWEST, Gauge
from knotplot.tying.piece import Cord, Part, Piece
from knotplot.tying.rack import MOST_TIES, Rack
from knotplot.units import LONGEST_MM, cm

SURE = 1.1
MOST_ALIKE = 12  # notices of one kind that are told, one line each
THINNER = (1.0, 0.8, 0.6, 0.4)  # of the distance from strand to strand: cord to be tried
MOST_BEGUN = 2_000_000
USUAL_TAKEUP = 6.0  # times its way a cord is cut for in dense work (common practice)


class Outcome(NamedTuple):
    """A piece, and what was noticed while it was worked."""

    piece: Piece
    notices: tuple[Notice, ...]


def work(pattern: Pattern, strands: int) -> Outcome:
    """Work a pattern on so many strands; raise `Refusal` where it can't be worked."""
    gauge = Gauge(float(pattern.width), strands, float(pattern.cord_types["main"].diameter))
    if gauge.pitch < NARROWEST * gauge.diameter:
        raise Refusal(
            f"{strands} strands of {gauge.diameter:g} mm don't fit into {cm(gauge.width)}",
            f"use a width of {cm(strands * gauge.diameter)} or more, or fewer strands",
            ("size" if pattern.size else "opening", "width"),
            cm(gauge.width),
        )
    check_room(pattern, gauge)
    shape = pattern.lower_edge
    edge = LowerEdge(
        gauge.width, float(pattern.drop), float(shape.rise), shape.profile,
        shape.count or 1, tuple((float(x), float(f)) for x, f in shape.at or ()),
    )  # fmt: skip
    _check_drop(pattern, edge)
    _check_sections(pattern, strands)
    tall, notes = heights(pattern, gauge)
    bench = Trial(pattern, gauge, edge, tall)
    fill = _fill(pattern)
    numbers = {} if fill is None else {fill: _found(bench, fill)}
    tied = _fitting(bench, numbers)
    return Outcome(_piece(bench, tied), _notices(bench, tied.rack, notes))


def _fitting(bench: Trial, numbers: Mapping[Path, float]) -> Tied:
    """Return the whole piece tied; raise `Refusal`, with what would do, if it is too long."""
    try:
        tied = bench.tie(numbers)
    except NoRoom as refusal:
        raise shortfall(bench, numbers, refusal) from None
    except Squeezed as refusal:
        raise _thinner(bench, numbers, refusal) from None
    if tied.slack < -CLOSE:
        raise shortfall(bench, numbers, None)
    return tied


def _thinner(bench: Trial, numbers: Mapping[Path, float], refused: Squeezed) -> Refusal:
    """Say how thick cord may be where a motif's strands lie too near to each other."""
    gauge = bench.gauge
    remedy = "use thinner cord, or fewer strands"
    for share in THINNER:
        thick = math.floor(10.0 * share * gauge.pitch) / 10.0
        try:
            replace(bench, gauge=replace(gauge, diameter=thick), shapes={}).tie(numbers)
        except Squeezed:
            continue
        except Refusal:
            pass  # another thing is wrong then, which is told in its turn
        remedy = f"use cord of {thick:g} mm at most, or fewer strands"
        break
    path = ("cord",) if bench.pattern.cord is not None else ("cords", "main")
    problem = f"too thick for strands {gauge.pitch:.1f} mm apart: {refused.fault.problem}"
    return Refusal(problem, remedy, (*path, "diameter"), f"{gauge.diameter:g} mm")


def _check_drop(pattern: Pattern, edge: LowerEdge) -> None:
    """Refuse a drop in which every cord would be longer than anybody can handle."""
    ended = any(motif.recounts for motif in pattern.motifs.values())
    straight = edge.highest() * pattern.mount.strands_per_cord
    if straight >= LONGEST_MM and not ended:
        most = LONGEST_MM / pattern.mount.strands_per_cord / USUAL_TAKEUP
        raise Refusal(
            f"every cord would be {straight / 1000:,.0f} m long or more, and 1,000 m is the most",
            f"use a drop of {most // 1000:.0f} m at most",
            ("size" if pattern.size else "opening", "drop"),
            cm(edge.drop_mm),
        )


def _check_sections(pattern: Pattern, strands: int) -> None:
    """Refuse more sections on more strands than can be worked, each begun strand by strand."""
    begun = sum(section.begun(strands) for section in pattern.sections)
    if begun > MOST_BEGUN:
        fewer = MOST_BEGUN // strands
        raise Refusal(
            f"about {begun // strands:,} sections on {strands:,} strands are too many to work",
            f"work {fewer:,} sections at most, repeats counted, or fewer strands",
            ("sections",),
        )


def _piece(bench: Trial, tied: Tied) -> Piece:
    rack, types = tied.rack, bench.pattern.cord_types
    own = tuple(_of_type(cord, types) for cord in rack.cords)
    cords, colours = coloured(bench.pattern, own, rack.rows)
    # Strands of added cords begin in the work.
    starts = tied.mounting.starts
    starts += (None,) * (1 + max(max(cord.strands, default=0) for cord in cords) - len(starts))
    mounting = replace(tied.mounting, starts=starts)
    return Piece(
        bench.gauge, mounting, tuple(rack.rows), cords, _hanging(bench, rack),
        tuple(rack.lanes["body"]), bench.edge, colours, bench.heights,
    )  # fmt: skip


def _notices(bench: Trial, rack: Rack, swatches: Sequence[Notice]) -> tuple[Notice, ...]:
    """Return what was noticed of the swatches, while tying, of the motifs and of the colours."""
    colours = tuple(colour_notices(bench.pattern, bench.gauge.strands))
    sources = (swatches, rack.notices, tuple(_led_twice(bench)), colours)
    return tuple(_once(notice for source in sources for notice in _fold(source)))


def _once(notices: Iterable[Notice]) -> list[Notice]:
    """Return notices without those that say the same as one before them."""
    found: dict[Hashable, Notice] = {}
    for notice in notices:
        found.setdefault(notice.said, notice)
    return list(found.values())


def _fold(notices: Sequence[Notice]) -> list[Notice]:
    """Return the first notices of one kind, each once, and how many more there are like them."""
    once = _once(notices)
    if len(once) <= MOST_ALIKE + 1:
        return once
    last = once[MOST_ALIKE - 1]
    more = Notice("more_alike", last.path, last.severity, {"count": len(once) - MOST_ALIKE})
    return [*once[:MOST_ALIKE], more]


def _of_type(cord: Cord, types: Mapping[str, CordType]) -> Cord:
    """Return a cord as what its kind is made of; a kind not given is `main`."""
    kind = cord.kind if cord.kind in types else "main"
    return replace(cord, kind=kind, construction=types[kind].construction)


def _hanging(bench: Trial, rack: Rack) -> tuple[Part, ...]:
    """Return the parts with what hangs last on its lanes reaching down to the lower edge."""
    last = rack.hanging()
    found = []
    for number, part in enumerate(rack.parts):
        kind = section_kind(part)
        if kind is not None and kind.bare_cords and last.get(number) == part.strands:
            gauge = bench.gauge.over(part.among)
            lanes = range(part.lane, part.lane + part.strands)
            lowest = max(bench.edge.y(gauge.x(lane)) for lane in lanes)
            found.append(replace(part, bottom=lowest, hangs=True))
        else:
            found.append(part)
    return tuple(found)


def _led_twice(bench: Trial) -> Iterator[Notice]:
    """Yield the sections whose motif leads the same strand twice, hardly on purpose."""
    for path, section in walk(bench.pattern.sections):
        for name in section.motifs:
            found = lead_twice(bench.pattern.motif(name))
            if found is not None:
                values = {"section": (section.label, section.kind), **found._asdict()}
                yield Notice("led_twice", path, "doubt", values)


# --- fill ------------------------------------------------------------------------------------


def _fill(pattern: Pattern) -> Path | None:
    """Return the path of the number to find for the one section that is `fill`."""
    for path, section in walk(pattern.sections):
        key = section.fills()
        if key is not None:
            return (*path, key)
    return None


def _found(bench: Trial, path: Path) -> float:
    """Return the largest number for `path` that the drop has room for."""
    least = 0.0 if path[-1] == "length" else 1.0
    first = _fitting(bench, {path: least})
    if path[-1] == "length":
        return _length(bench, path, first)
    _check_fill(bench, path, first)

    def fits(count: int) -> float | None:
        """Return the slack with so many rows, None where they don't fit."""
        try:
            tied = bench.tie({path: float(count)})
        except Refusal:
            return None
        whole = tied.slack >= -CLOSE and tied.motifs >= first.motifs
        return tied.slack if whole else None

    # No row is lower than a cord is thick, so the drop bounds them.
    most = int(bench.edge.drop_mm / bench.gauge.diameter) + 2
    return float(most_rows(fits, most))


def _check_fill(bench: Trial, path: Path, first: Tied) -> None:
    """Refuse at once what would surely take too many ties, rows being as high as the first."""
    try:
        three = bench.tie({path: 3.0})
    except NoRoom:
        return
    pitch, ties = first.slack - three.slack, three.rack.ties - first.rack.ties
    if ties > 0 and pitch > 0.0 and three.rack.ties + first.slack / pitch * ties > MOST_TIES * SURE:
        raise TooMuch(
            f"the piece has more than {MOST_TIES:,} ties", "give a shorter drop or fewer strands",
            path, "fill",
        )  # fmt: skip


def _length(bench: Trial, path: Path, first: Tied) -> float:
    """Return the length that leaves no slack, without taking a motif away."""

    def tied(length: float) -> Tied | None:
        try:
            return bench.tie({path: length})
        except NoRoom:
            return None

    low, high = 0.0, first.slack
    for _ in range(8):  # the length may take up the way aside of what follows, and leave more
        whole = tied(high)
        if whole is None or whole.motifs < first.motifs:
            break
        if abs(whole.slack) <= CLOSE:
            return high
        if whole.slack < 0.0:
            break
        low, high = high, high + whole.slack
    for _ in range(60):
        middle = (low + high) / 2.0
        trial = tied(middle)
        fits = trial is not None and trial.slack >= -CLOSE and trial.motifs >= first.motifs
        low, high = (middle, high) if fits else (low, middle)
        if high - low < CLOSE:
            break
    return low
