"""What will not look as a maker means it: fringes of unlike length, loops that nothing holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import NamedTuple

from knotplot.geometry.layout import Layout
from knotplot.materials.widths import to_a_mark
from knotplot.notice import Notice, Value
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import INCH_UNITS
from knotplot.tying.piece import Piece, Placement
from knotplot.tying.shape import ShapeTie

# From when two fringes look unlike: that much of the shorter, and so many mm (common practice).
UNLIKE, UNLIKE_MM = 0.10, 10.0


def look_cautions(pattern: Pattern, layout: Layout) -> Iterator[Notice]:
    """Yield what will look otherwise than meant."""
    yield from _unlike_fringes(pattern, layout)
    yield from _ears(layout.piece)


def _unlike_fringes(pattern: Pattern, layout: Layout) -> Iterator[Notice]:
    """Yield that a runner's two ends have fringes of different lengths, both trimmed level.

    The top one is as long as its `tail`; the last one takes what the drop leaves. Half of both
    together for each leaves the work between them as it is.
    """
    piece, last = layout.piece, pattern.sections[-1]
    part = piece.parts[-1]
    level = piece.edge.rise_mm == 0.0
    if piece.mounting.support != "none" or part.finish is None or not level:
        return
    top, bottom = piece.mounting.tail, part.bottom - part.top
    if not (part.hangs and part.whole):
        return
    if abs(top - bottom) <= max(UNLIKE_MM, UNLIKE * min(top, bottom)):
        return
    values: Mapping[str, Value] = {
        "top": top,
        "bottom": bottom,
        "alike": to_a_mark(pattern, (top + bottom) / 2.0),
        "inches": pattern.units in INCH_UNITS,
        "filled": last.fills() is not None,
    }
    yield Notice("fringes_unlike", ("mount", "tail"), "warning", values)


# --- picots that no knot above holds -------------------------------------------------------------


class _Ear(NamedTuple):
    """A knot with picots on strands that no one knot above holds: where it stands in the file."""

    section: tuple[str, str]
    motif: str
    step: int
    knot: str
    lanes: tuple[int, ...]


def _ears(piece: Piece) -> Iterator[Notice]:
    """Yield which picots stand above the first knot of a run, where their loops flop outwards."""
    shapes = {id(p.shape): p.shape for row in piece.rows for p in row.placements}
    if not any(tie.picot for shape in shapes.values() for tie in shape.ties):
        return
    found: dict[_Ear, list[int]] = {}
    last: dict[int, tuple[int, int]] = {}  # of each strand, the placed shape and its tie
    placed = chain.from_iterable(((row, p) for p in row.placements) for row in piece.rows)
    for number, (row, placement) in enumerate(placed):
        for at, tie in enumerate(placement.shape.ties):
            if tie.knot == "cross":
                continue
            strands = [placement.strands[who] for who in tie.who]
            left, right = last.get(strands[0]), last.get(strands[-1])
            if tie.picot and (left is None or left != right):
                part = piece.parts[row.section]
                ear = _ear((part.name, part.kind), placement, tie)
                found.setdefault(ear, []).append(row.number)
            last |= dict.fromkeys(strands, (number, at))
    for ear, rows in found.items():
        values: Mapping[str, Value] = {**ear._asdict(), "rows": tuple(dict.fromkeys(rows))}
        yield Notice("picots_unheld", ("motifs", ear.motif), "warning", values)


def _ear(section: tuple[str, str], placement: Placement, tie: ShapeTie) -> _Ear:
    shape = placement.shape
    lanes = tuple(shape.first + lane + 1 for lane in tie.lanes)
    return _Ear(section, shape.motif or "", tie.step or 0, tie.knot, lanes)
