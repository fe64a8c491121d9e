"""What the sheet tells of a piece beside its figures: free strands, openings, sizes by name."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from knotplot.errors import Refusal
from knotplot.geometry.layout import Layout
from knotplot.geometry.runs import run_length
from knotplot.pattern.models import Pattern
from knotplot.tying.piece import Piece, Row
from knotplot.tying.shape import Shape
from knotplot.units import parse_length


def longest_free_strand(layout: Layout) -> float:
    """Return the longest stretch of a strand (mm) that no knot holds: hanging, or between knots.

    A loop left at a fold counts whole. A run is about as long as its chord: only one that may be
    the longest is measured.
    """
    piece = layout.piece
    below = (layout.bare_below(strand) for strand in range(len(layout.hanging)))
    longest = max([piece.mounting.loop, *below])
    diameter = piece.gauge.diameter
    ports = list(piece.mounting.starts)
    at = [(0.0, 0.0) if p is None else (p.x, p.y) for p in ports]
    moved = [(0.0, 0.0)] * len(ports)
    for row in piece.rows:
        pitch = row.pitch(piece.gauge)
        for shape, lane, strands, top, _ in row.placements:
            left = lane * pitch
            for who, entry in shape.entries:
                strand = strands[who]
                before = ports[strand]
                x, y = at[strand]
                chord = math.hypot(entry.x + left - x, entry.y + top - y)
                if before is not None and _RATIO * chord + abs(entry.loop) > longest:
                    a = before.moved(*moved[strand])
                    longest = max(longest, run_length(a, entry.moved(left, top), diameter))
            for who, port in shape.last_ports:
                strand = strands[who]
                ports[strand], moved[strand] = port, (left, top)
                at[strand] = (port.x + left, port.y + top)
    return longest


_RATIO = 1.2  # no run is so much longer than its chord


def largest_opening(piece: Piece) -> float:
    """Return the height (mm) of the tallest opening between two neighbouring lanes, as worked.

    From one tie (or line of hitches, or the support) that joins the two to the next below; 0
    where nothing below joins any. What is open below, a fringe, is none. Pulled apart an opening
    measures twice its height round, so that a loop above the support counts as half its cord.
    """
    start = None if piece.mounting.support == "none" else _start(piece)
    last: dict[str, list[float | None]] = {}
    known: dict[int, tuple[_Join, ...]] = {}
    largest = piece.mounting.loop / 2.0
    for row in piece.rows:
        layer = "tails" if row.layer == "tails" else "body"
        if layer not in last:
            last[layer] = [start] * (piece.gauge.strands - 1)
        mine = last[layer]
        for join in _joins(row, known):
            if join.lane < len(mine):
                above = mine[join.lane]
                if above is not None:
                    largest = max(largest, join.top - above)
                largest = max(largest, join.within)
                mine[join.lane] = join.bottom
        if any(placement.shape.changes for placement in row.placements):
            last[layer] = _recounted(mine, row)
    return largest


def _recounted(openings: Sequence[float | None], row: Row) -> list[float | None]:
    """Return where openings begin between the lanes there are after a row that adds or ends some.

    Those within a shape that does begin at its bottom.
    """
    found: list[float | None] = []
    at = 0
    for shape, lane, _, y, _ in row.placements:
        found += openings[at:lane]
        at = lane + shape.span - 1
        if not shape.changes:
            found += openings[lane:at]
            continue
        after = shape.span + shape.more
        found += [y + shape.bottom] * max(0, after - 1)
        if not after and found:  # its neighbours are now each other's
            found.pop()
    return [*found, *openings[at:]]


class _Join(NamedTuple):
    """Where a lane is joined to the next: from the first tie's top to the last one's bottom.

    `within` is the tallest opening between those ties.
    """

    lane: int
    top: float
    bottom: float
    within: float


def _start(piece: Piece) -> float:
    pocket = piece.mounting.pocket
    return piece.mounting.rod if pocket is None else pocket.join - pocket.band


def _joins(row: Row, known: dict[int, tuple[_Join, ...]]) -> Iterator[_Join]:
    """Yield what a row joins, in lanes of the piece and mm as worked."""
    before: tuple[str, int, float, float] | None = None
    for shape, lane, _, y, cord in row.placements:
        joins = known.get(id(shape))
        if joins is None:
            joins = known[id(shape)] = tuple(_shape_joins(shape))
        for at, top, bottom, within in joins:
            yield _Join(lane + at, y + top, y + bottom, within)
        if cord is not None:  # neighbours on one leader are joined by it
            if before is not None and before[0] == cord and before[1] == lane:
                yield _Join(lane - 1, before[2], before[3], 0.0)
            before = (cord, lane + shape.span, y, y + shape.bottom)


def _shape_joins(shape: Shape) -> Iterator[_Join]:
    """Yield what a shape joins in the lanes it begins with, while these are the ones there."""
    found: dict[int, list[tuple[float, float]]] = {}
    for tie in shape.ties[: shape.changes[0].at] if shape.changes else shape.ties:
        if tie.knot != "cross":
            bottom = max(port.y for port in tie.leave)
            for lane in range(min(tie.lanes), max(tie.lanes)):
                found.setdefault(lane, []).append((tie.top, bottom))
    for lane, ties in sorted(found.items()):
        ties.sort()
        within, low = 0.0, ties[0][1]
        for top, bottom in ties[1:]:
            within = max(within, top - low)
            low = max(low, bottom)
        yield _Join(lane, ties[0][0], low, within)


class NamedSize(NamedTuple):
    """A size by its name: width and drop (mm), None where they can't be told; `here`: this one."""

    name: str
    width: Fraction | None
    drop: Fraction | None
    here: bool


_MEASURES = ("width", "drop", "overlap", "fullness")


def named_sizes(pattern: Pattern) -> list[NamedSize]:
    """Return the pattern's named sizes; what a size leaves alone is as in the pattern.

    Where the pattern may itself be one of them, what that one gives can't be told of others.
    """
    given = {name: _given(pattern, overlay) for name, overlay in pattern.sizes.items()}
    now = {key: getattr(pattern.size or pattern.opening, key, None) for key in _MEASURES}
    here = {
        name
        for name, own in given.items()
        if own and all(now[key] == value for key, value in own.items())
    }
    changed = {key for name in here for key in given[name]}
    return [
        NamedSize(name, *_told({**now, **own}, changed - set(own)), name in here)
        for name, own in given.items()
    ]


def _given(pattern: Pattern, overlay: dict[str, object]) -> dict[str, Fraction]:
    """Return the measures a named size gives, those that can be read."""
    found = {}
    for part in (overlay.get("size"), overlay.get("opening")):
        if not isinstance(part, dict):
            continue
        for key in _MEASURES:
            if key in part:
                try:
                    found[key] = (
                        Fraction(str(part[key]))
                        if key == "fullness"
                        else parse_length(part[key], pattern.units, zero=True)
                    )
                except (Refusal, ValueError):
                    continue
    return found


def _told(
    measures: Mapping[str, Fraction | None], unsure: set[str]
) -> tuple[Fraction | None, Fraction | None]:
    width, drop = measures["width"], measures["drop"]
    if width is not None:
        width = (width + 2 * (measures["overlap"] or 0)) * (measures["fullness"] or 1)
    return (
        None if unsure - {"drop"} else width,
        None if "drop" in unsure else drop,
    )
