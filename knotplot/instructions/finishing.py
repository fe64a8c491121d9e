"""Finishing as records: hanging, the trim line, fringes, tails, the ends of leaders and wraps."""

from __future__ import annotations

from collections.abc import Iterator

from knotplot.curves.lower_edge import trim_offsets
from knotplot.instructions.records import Finishing, Instruction, Note, TrimMark
from knotplot.tying.piece import Piece

TAILS = 38.0  # mm, 1 1/2 in (common practice)
LEVEL = 0.005  # mm


def finishing(piece: Piece, number: int) -> Iterator[Instruction]:
    """Yield what is done once the last row is tied; `number` is that of its heading."""
    yield Finishing(number)
    yield Note("hang")
    drop = (("drop", piece.edge.drop_mm), ("support", piece.mounting.kind))
    yield Note("string", "do", drop)
    marks = trim_offsets(piece.edge)
    if all(abs(mark.offset_mm) < LEVEL for mark in marks):
        yield Note("trim_level")
    else:
        yield Note("trim_marks")
        for mark in marks:
            yield TrimMark(mark.x_mm, mark.offset_mm)
        yield Note("trim_shaped")
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
