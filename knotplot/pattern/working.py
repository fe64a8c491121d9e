"""A pattern worked: mounted and tied on the rack from top to bottom, what is `fill` found.

The strands below the last knot take the slack; where they can't, the pattern is refused with the
drop, or the number of rows, that would do.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from knotplot.curves.lower_edge import LowerEdge
from knotplot.errors import Path, Refusal
from knotplot.kinds import section_kind
from knotplot.motifs.working import Squeezed, double_lead_warning
from knotplot.pattern.bounds import check_room
from knotplot.pattern.colouring import colour_warnings, coloured
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
MOST_ALIKE = 12  # warnings of one kind that are told, one line each
THINNER = (1.0, 0.8, 0.6, 0.4)  # of the distance from strand to strand: cord to be tried
MOST_BEGUN = 2_000_000
USUAL_TAKEUP = 6.0  # times its way a cord is cut for in dense work (common practice)


def work(pattern: Pattern, strands: int) -> Piece:
    """Return the piece of a pattern on so many strands; raise `Refusal` where it can't be."""
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
    return _piece(bench, _fitting(bench, numbers), notes)


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


def _piece(bench: Trial, tied: Tied, notes: tuple[str, ...]) -> Piece:
    rack, types = tied.rack, bench.pattern.cord_types
    own = tuple(_of_type(cord, types) for cord in rack.cords)
    cords, colours = coloured(bench.pattern, own, rack.rows)
    # Strands of added cords begin in the work.
    starts = tied.mounting.starts
    starts += (None,) * (1 + max(max(cord.strands, default=0) for cord in cords) - len(starts))
    mounting = replace(tied.mounting, starts=starts)
    told = colour_warnings(bench.pattern, bench.gauge.strands)
    said = [_folded(each) for each in (notes, rack.warnings, _advice(bench), list(told))]
    warnings = dict.fromkeys(warning for each in said for warning in each)
    return Piece(
        bench.gauge, mounting, tuple(rack.rows), cords, _hanging(bench, rack),
        tuple(rack.lanes["body"]), bench.edge, tuple(warnings), colours, bench.heights,
    )  # fmt: skip


def _folded(warnings: Sequence[str]) -> list[str]:
    """Return the first warnings of one kind, each once, and how many more there are like them."""
    once = list(dict.fromkeys(warnings))
    if len(once) <= MOST_ALIKE + 1:
        return once
    return [*once[:MOST_ALIKE], f"and {len(once) - MOST_ALIKE} more like these"]


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


def _advice(bench: Trial) -> list[str]:
    """Return what a maker should know of the motifs: double leads."""
    found = []
    for _, section in walk(bench.pattern.sections):
        for name in section.motifs:
            warning = double_lead_warning(bench.pattern.motif(name))
            if warning:
                found.append(f"{section.label}: {warning}")
    return found


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
