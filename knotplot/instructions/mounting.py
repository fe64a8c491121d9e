"""What mounting asks beside its rows: before them, before the join, and after all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from knotplot.geometry.layout import stands_above
from knotplot.instructions.records import FoldMark, Note
from knotplot.tying.piece import Piece

#: Where cords that aren't folded in the middle are: mm from the left end, and their ids.
Folds: TypeAlias = Sequence[tuple[float, tuple[str, ...]]]


def mounting(
    piece: Piece, folds: Folds = ()
) -> tuple[tuple[Note | FoldMark, ...], tuple[Note, ...], tuple[Note, ...]]:
    """Return what comes before a mounting's rows, before its join row, and after its rows."""
    mount, strands = piece.mounting, piece.gauge.strands
    tied = sorted(
        {
            tie.knot
            for row in piece.rows
            if row.section == 0  # the mounting is the first of the parts
            for placement in row.placements
            for tie in placement.shape.ties
        }
    )
    values: tuple[tuple[str, float | int | str], ...] = (
        ("kind", mount.kind),
        ("each", mount.strands_per_cord),
        ("tied", tied[0] if tied else ""),
        ("cut", strands // mount.strands_per_cord),
        ("cords", strands),
        ("rod", mount.rod),
        ("tail", mount.tail),
        ("loop", mount.loop),
        ("stands", stands_above(piece)),
    )
    before: tuple[Note | FoldMark, ...] = (Note("hang", "do", values, mount.kind),)
    fault = "fault"
    if mount.strands_per_cord == 2 and mount.fold == "uneven":
        first = Note("fold_each" if folds else "fold_by_list", "do", values)
        hang = Note("hang_uneven", "do", values, mount.kind)
        before = (first, *(FoldMark(length, cords) for length, cords in folds), hang)
        fault = "fault_uneven"
    wrong = Note(fault, "fault", (), mount.kind)
    if mount.pocket is None:
        return before, (), (wrong,)
    back = mount.pocket.back_rows
    between = (
        Note("pocket_halves", "do", (("back", back),)) if back else Note("pocket_front"),
        Note("pocket_band", "do", (("band", mount.pocket.band),)),
        Note("pocket_fold", "do", values),
        Note("pocket_join", "do", ()),
    )
    after = (Note("pocket_line"), Note("pocket_tails"), wrong)
    return before, between, after
