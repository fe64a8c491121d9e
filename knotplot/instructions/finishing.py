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
from knotplot.tying.finish import LONGEST_TAIL, SHORTEST_TAIL, knotted
from knotplot.tying.names import ranges
from knotplot.tying.piece import Piece

TAILS = 38.0  # mm, 1 1/2 in (common practice)
LEVEL = 0.005  # mm


def finishing(piece: Piece, number: int) -> Iterator[Instruction]:
    """Yield what is done once the last row is tied; `number` is that of its heading."""
    yield Finishing(number)
    yield Note("hang")
    drop = (("drop", piece.edge.drop_mm), ("support", piece.mounting.kind))
    yield Note("string", "do", drop)
    level = piece.edge.drop_mm - piece.edge.highest() < LEVEL
    if not level:
        yield from _trimming(piece.edge)
    yield from _knots(piece, level)
    if len(knotted(piece)) < len(piece.lanes):
        others = "_others" if knotted(piece) else ""
        yield Note(f"trim_level{others}" if level else f"trim_shaped{others}")
    finishes = dict.fromkeys(part.finish for part in piece.parts if part.finish and part.hangs)
    for finish in finishes or ("cut",):
        if finish != "knotted":
            yield Note(f"finish_{finish}")
    if piece.mounting.pocket is not None:
        yield Note("trim_tails", "do", (("length", TAILS),))
    elif piece.mounting.tail:
        key = "open_tails" if piece.mounting.support == "none" else "hitched_tails"
        yield Note(key, "do", (("tail", piece.mounting.tail),))
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


def _knots(piece: Piece, level: bool) -> Iterator[Note]:
    """Yield how the ends of a knotted fringe are tied, before their tails are cut."""
    ends = knotted(piece)
    if not ends:
        return
    tails = (("least", SHORTEST_TAIL), ("most", LONGEST_TAIL))
    places = [str(lane) for lane, strand in enumerate(piece.lanes, start=1) if strand in ends]
    key = "knot_level" if level else "knot_shaped"
    if len(places) == len(piece.lanes):
        yield Note(key, "do", tails)
    else:
        yield Note(f"{key}_some", "do", (("ends", ranges(places)), *tails))
    yield Note("knot_slide", "hint")
