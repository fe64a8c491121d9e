"""Finishing as records: hanging, the trim line, fringes, tails, the ends of leaders and wraps."""

from __future__ import annotations

from collections.abc import Iterator

from knotplot.curves.lower_edge import LowerEdge, trim_places
from knotplot.instructions.records import (
    Finishing,
    Instruction,
    Note,
    TrimLine,
    TrimMark,
)
from knotplot.tying.piece import Piece

TAILS = 38.0  # mm, 1 1/2 in (common practice)
LEVEL = 0.005  # mm


def finishing(piece: Piece, number: int) -> Iterator[Instruction]:
    """Yield what is done once the last row is tied; `number` is that of its heading."""
    yield Finishing(number)
    yield Note("hang")
    drop = (("drop", piece.edge.drop_mm), ("support", piece.mounting.kind))
    yield Note("string", "do", drop)
    if piece.edge.drop_mm - piece.edge.highest() < LEVEL:
        yield Note("trim_level")
    else:
        yield from _trimming(piece.edge)
    finishes = dict.fromkeys(part.finish for part in piece.parts if part.finish)
    for finish in finishes or ("cut",):
        yield Note(f"finish_{finish}")
    if piece.mounting.pocket is not None:
        yield Note("trim_tails", "do", (("length", TAILS),))
    elif piece.mounting.kind == "hitched":
        yield Note("hitched_tails", "do", (("tail", piece.mounting.tail),))
    elif piece.mounting.kind == "open":
        yield Note("open_tails", "do", (("tail", piece.mounting.tail),))
    if piece.ended:
        yield Note("ended_ends")
    leaders = [cord.id for cord in piece.cords if cord.role == "leader"]
    if leaders:
        yield Note("leader_ends", "do", (("leaders", ", ".join(leaders)),))
    if any(cord.role == "wrap" for cord in piece.cords):
        yield Note("wrap_ends")
    yield Note("trimming", "fault")


def _trimming(edge: LowerEdge) -> Iterator[Instruction]:
    """Yield the marks of the trim line, those where it turns first, and how they are joined."""
    turns = edge.turns()
    between = [place for place in trim_places(edge) if place.what == "between"]
    yield Note("trim_turns" if between else "trim_marks")
    for place in turns:
        yield TrimMark(place.x_mm, place.offset_mm, place.what)
    if between:
        yield Note("trim_between")
    for place in between:
        yield TrimMark(place.x_mm, place.offset_mm, place.what)
    corners = [place for place in turns if place.what in ("tip", "notch")]
    corner = corners[0].what if corners else None
    yield TrimLine(edge.shape.straight, corner, tuple(place.x_mm for place in corners))
