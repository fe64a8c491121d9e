"""What mounting asks beside its rows: before them, before the join, and after all."""

from __future__ import annotations

from knotplot.instructions.records import Note
from knotplot.tying.piece import Piece


def mounting(piece: Piece) -> tuple[tuple[Note, ...], tuple[Note, ...], tuple[Note, ...]]:
    """Return the notes before a mounting's rows, before its join row, and after its rows."""
    mount, strands = piece.mounting, piece.gauge.strands
    values: tuple[tuple[str, float | int | str], ...] = (
        ("cut", strands // mount.strands_per_cord),
        ("cords", strands),
        ("rod", mount.rod),
        ("tail", mount.tail),
    )
    before = (Note(f"mount_{mount.kind}", "do", values),)
    if mount.pocket is None:
        return before, (), (Note(mount.kind, "fault"),)
    back = mount.pocket.back_rows
    between = (
        Note("pocket_halves", "do", (("back", back),)) if back else Note("pocket_front"),
        Note("pocket_band", "do", (("band", mount.pocket.band),)),
        Note("pocket_fold", "do", values),
        Note("pocket_join", "do", ()),
    )
    after = (Note("pocket_line"), Note("pocket_tails"), Note(mount.kind, "fault"))
    return before, between, after
