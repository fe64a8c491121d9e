"""The record's own arithmetic: counts, contiguous rows, and how the piece ends."""

from __future__ import annotations

import strategies
from hypothesis import given

from knotplot.materials.hours import knot_counts
from knotplot.tying.finish import knotted
from knotplot.tying.piece import Piece


@given(strategies.pieces())
def test_knots_are_counted_once(piece: Piece) -> None:
    counts: dict[str, int] = {}
    for tie in piece.ties():
        counts[tie.knot] = counts.get(tie.knot, 0) + 1
    if knotted(piece):
        counts["overhand"] = counts.get("overhand", 0) + len(knotted(piece))
    assert knot_counts(piece) == dict(sorted(counts.items()))
    assert sum(counts.values()) == piece.tie_count + len(knotted(piece))


@given(strategies.pieces())
def test_rows_count_from_one_and_tie_something(piece: Piece) -> None:
    assert [row.number for row in piece.rows] == list(range(1, len(piece.rows) + 1))
    assert all(row.tie_count for row in piece.rows)
    assert all(0 <= row.section < len(piece.parts) for row in piece.rows)


@given(strategies.pieces())
def test_every_strand_ends_in_a_lane_above_the_edge(piece: Piece) -> None:
    ids = sorted(strand for cord in piece.cords for strand in cord.strands)
    assert ids == list(range(1, len(ids) + 1))
    assert sorted([*piece.lanes, *piece.ended, *piece.tails]) == ids
    for row in piece.rows:
        for shape, lane, _, top, _ in row.placements:
            if row.layer == "tails" or row.layers == ("tails", "body"):
                continue
            for _, at, port in shape.exits:
                if shape.more or row.among != len(piece.lanes):
                    continue  # the lanes below are others
                edge = piece.edge.y(piece.last_gauge.x(lane + at))
                assert top + port.y <= edge + 1e-6 or piece.rows[-1] is not row
