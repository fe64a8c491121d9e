"""The record's own arithmetic: counts, contiguous rows, and how the piece ends."""

from __future__ import annotations

import strategies
from hypothesis import given

from knotplot.materials.hours import knot_counts
from knotplot.tying.piece import Piece


@given(strategies.pieces())
def test_knots_are_counted_once(piece: Piece) -> None:
    counts: dict[str, int] = {}
    for tie in piece.ties():
        counts[tie.knot] = counts.get(tie.knot, 0) + 1
    assert knot_counts(piece) == dict(sorted(counts.items()))
    assert sum(counts.values()) == piece.tie_count


@given(strategies.pieces())
def test_rows_count_from_one_and_tie_something(piece: Piece) -> None:
    assert [row.number for row in piece.rows] == list(range(1, len(piece.rows) + 1))
    assert all(row.tie_count for row in piece.rows)
    assert all(0 <= row.section < len(piece.parts) for row in piece.rows)


@given(strategies.pieces())
def test_every_strand_ends_in_a_lane_above_the_edge(piece: Piece) -> None:
    assert sorted(piece.lanes) == list(range(1, piece.gauge.strands + 1))
    for row in piece.rows:
        for shape, lane, _, top, _ in row.placements:
            if row.layer == "tails" or row.layers == ("tails", "body"):
                continue
            for _, at, port in shape.exits:
                edge = piece.edge.y(piece.gauge.x(lane + at))
                assert top + port.y <= edge + 1e-6 or piece.rows[-1] is not row
