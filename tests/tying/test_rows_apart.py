"""Rows that share no strands don't lie on each other, and interlocking rows stay as they are."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workable import Document, text_of, tied, warnings

import knotplot
from knotplot.errors import PatternError, Refusal
from knotplot.motifs.shipped import shipped_motif
from knotplot.pattern.load import loads
from knotplot.tying.outline import outline
from knotplot.tying.piece import Piece

DIAMETER = 4.0
TOP = 100.0  # mm, the fringe above an open mount
SOFT = 0.31  # diameters by which two ties may press into each other
JOSEPHINE = {"kind": "josephine_knot", "lanes": [3, 4, 5, 6]}
Corners = list[tuple[float, float]]


def document(motif: Document, pitch: float, sections: list[Document], count: int) -> Document:
    return {
        "knotplot": 1,
        "size": {"width": f"{count * pitch} mm", "drop": "9 m"},
        "cord": {"diameter": f"{DIAMETER} mm"},
        "strands": {"count": count},
        "mount": {"kind": "open", "tail": "10 cm"},
        "sections": sections,
        "motifs": {"m": motif},
    }


def band(**more: Any) -> Document:
    return {"kind": "motif_band", "motif": "m", "rows": 4, "offset": "half", **more}


def depth(one: Corners, other: Corners) -> float:
    """Return how deep two convex outlines lie in each other (mm), by their separating axes."""
    found = math.inf
    for corners in (one, other):
        for (ax, ay), (bx, by) in pairwise([*corners, corners[0]]):
            far = math.hypot(bx - ax, by - ay)
            nx, ny = (ay - by) / far, (bx - ax) / far
            a = [x * nx + y * ny for x, y in one]
            b = [x * nx + y * ny for x, y in other]
            found = min(found, min(max(a), max(b)) - max(min(a), min(b)))
    return found


def on_each_other(piece: Piece) -> list[tuple[int, int, float]]:
    """Return ties of two rows that lie on each other: the rows and how deep, in diameters.

    Sideways, knots may lie on each other by a tenth of their width.
    """
    ties: list[tuple[int, float, float, float, float, Corners]] = []
    for row in piece.rows:
        for shape, lane, _, y, _ in row.placements:
            left = lane * row.pitch(piece.gauge)
            for hull in outline(shape, DIAMETER).hulls:
                at = [(x + left, each + y) for x, each in hull.whole]
                xs, ys = [x for x, _ in at], [each for _, each in at]
                ties.append((row.number, min(xs), min(ys), max(xs), max(ys), at))
    ties.sort(key=lambda tie: tie[2])
    found = []
    for i, (row, left, _, right, bottom, at) in enumerate(ties):
        for other, left2, top2, right2, _, at2 in ties[i + 1 :]:
            if top2 >= bottom:
                break
            if other == row or left2 >= right or left >= right2:
                continue
            deep = depth(at, at2) / DIAMETER
            wide = (right - left + right2 - left2) / 2.0 / DIAMETER
            if deep > max(SOFT, 0.1 * wide + 0.01):
                found.append((row, other, deep))
    return found


@st.composite
def bands(draw: st.DrawFn) -> Document:
    """Draw one or two bands of a motif that leaves some of its strands alone."""
    m = draw(st.integers(4, 8))
    found: list[Document] = []
    for _ in range(draw(st.integers(1, 3))):
        kind = draw(st.sampled_from(["square_knot", "overhand", "josephine_knot", "hitch"]))
        wide = 4 if kind == "josephine_knot" else draw(st.integers(2, min(m, 5)))
        first = draw(st.integers(1, m - wide + 1))
        lanes = list(range(first, first + wide))
        if kind == "hitch":
            ends = draw(st.permutations([lanes[0], lanes[-1]]))
            found.append({"hitch": {"lead": ends[0], "to": ends[1]}})
        else:
            found.append({"knot": {"kind": kind, "lanes": lanes}})
    offset = draw(st.sampled_from([{}, {"edges": "free"}]))
    sections = [band(gap=f"{draw(st.sampled_from([0, 5, 15, 40]))} mm", **offset)]
    sections += draw(st.sampled_from([[], [band(gap="10 mm", rows=2)], [{"kind": "hitch_line"}]]))
    pitch = draw(st.sampled_from([5.0, 7.0, 9.0, 14.0]))
    return document({"strands": m, "steps": found}, pitch, sections, 4 * m)


@given(bands())
def test_no_row_lies_on_another(document):
    try:
        piece = tied(loads(text_of(document)))
    except (Refusal, PatternError):
        return  # a knot cut at the side of an offset row, or runs that cross
    assert on_each_other(piece) == []


def josephines(pitch: float, **more: Any) -> Document:
    motif = {"strands": 8, "steps": [{"knot": JOSEPHINE}]}
    return document(motif, pitch, [band(gap="15 mm", edges="free", **more)], 48)


def tops(piece: Piece) -> list[float]:
    return [round(row.placements[0].y, 2) for row in piece.rows]


def test_wide_knots_of_offset_rows_hang_below_each_other():
    # A Josephine knot of two strands a side is 2 · 3.2 · 1.2 · 2 = 15.36 diameters tall, 61.44 mm,
    # and 2 · (3 · 2.4 + 1) = 16.4 wide, 65.6 mm; columns of two rows stand 4 · 7 = 28 mm apart.
    piece = tied(loads(text_of(josephines(7.0))))
    tall = 61.44
    assert [b - a for a, b in pairwise(tops(piece))] == pytest.approx([tall] * 3, abs=0.02)
    # The cord left bare is told: that on strands from the row before the last, a knot's height.
    assert [row.gap for row in piece.rows][2:] == pytest.approx([tall] * 2, abs=0.02)


def test_knots_with_room_beside_them_hang_side_by_side():
    # 4 · 17 = 68 mm from column to column: wider than a knot, so nothing keeps the rows apart.
    piece = tied(loads(text_of(josephines(17.0))))
    first, second, third, fourth = tops(piece)
    assert second == pytest.approx(TOP + 15.0)  # its cords hang from the top
    assert third - first == pytest.approx(61.44 + 15.0, abs=0.02)
    assert fourth - second == pytest.approx(61.44 + 15.0, abs=0.02)
    assert [row.gap for row in piece.rows] == [0.0, 15.0, 15.0, 15.0]


def test_rows_that_are_moved_are_warned_of():
    (warning,) = (w for w in warnings(loads(text_of(josephines(7.0)))) if "bare" in w)
    assert warning.startswith("motif_band: knots would lie on those of the rows above, so up to ")
    assert not [w for w in warnings(loads(text_of(josephines(17.0)))) if "bare" in w]


def test_the_next_section_clears_the_one_before():
    # The second band's knots are on lanes the first leaves alone, four beside its own.
    motif = {"strands": 8, "steps": [{"knot": JOSEPHINE}]}
    other = {"strands": 8, "steps": [{"knot": {"kind": "square_knot", "lanes": [7, 8]}}]}
    both = document(motif, 7.0, [band(rows=1), {**band(rows=1), "motif": "other"}], 16)
    both["motifs"]["other"] = other
    first, second = tops(tied(loads(text_of(both))))
    # Lanes 7 and 8 lie from 42 to 56 mm and their knot from 37 to 61; the first from -4.8 to 60.8.
    assert second - first == pytest.approx(61.44, abs=0.02)


@pytest.mark.parametrize("name", ["diamond", "seed-pod", "arrowhead", "double-chevron", "pebbles"])
@pytest.mark.parametrize("pitch", [6.8, 8.0, 10.0])
def test_shipped_motifs_interlock_as_their_strands_let_them(name, pitch):
    # Where nothing lies on anything, a row hangs by its strands alone: the gap is as asked.
    m = shipped_motif(name).strands
    found = document({}, pitch, [{**band(gap="12 mm"), "motif": name}], 4 * m)
    del found["motifs"]
    piece = tied(loads(text_of(found)))
    assert [row.gap for row in piece.rows] == [0.0, 12.0, 12.0, 12.0]
    assert on_each_other(piece) == []


def test_rows_worked_close_may_move_by_less_than_a_cord_without_a_word():
    # A zigzag's leader turns between two rows: by strands alone its hitches would lie
    # 0.78 diameters deep in each other.
    found = document({}, 8.0, [{"kind": "motif_band", "motif": "zigzag", "rows": 2}], 12)
    del found["motifs"]
    pattern = loads(text_of(found))
    piece = tied(pattern)
    assert [row.gap for row in piece.rows] == [0.0, 0.0]
    assert on_each_other(piece) == []
    assert warnings(pattern) == ()


def test_a_long_stack_moves_below_a_long_stack():
    # Knots of four, 20 mm wide, 17.6 mm from stack to stack: 300 of 14 mm each.
    knot = {"knot": {"kind": "square_knot", "lanes": [3, 4, 5, 6]}}
    motif = {"strands": 8, "steps": [{"repeat": {"times": 300, "steps": [knot]}}]}
    piece = tied(loads(text_of(document(motif, 4.4, [band(rows=2, edges="free")], 16))))
    first, second = tops(piece)
    assert second - first == pytest.approx(300 * 14.0, abs=0.02)


def test_columns_side_by_side_go_down_each_for_itself():
    # The left column's Josephine knots reach 4.8 mm over into the right one, which still begins at
    # the top; what follows both begins below the deeper.
    motif = {"strands": 4, "steps": [{"knot": {**JOSEPHINE, "lanes": [1, 2, 3, 4]}}]}
    sennit = {"kind": "sennits", "knot": "square_knot", "strands": 4, "count": 2}
    straight = {"kind": "motif_band", "motif": "m", "rows": 4}
    columns = {
        "kind": "columns",
        "parts": [{"strands": 4, "sections": [straight]}, {"strands": 4, "sections": [sennit]}],
    }
    piece = tied(loads(text_of(document(motif, 14.0, [columns, {**sennit}], 8))))
    # Its outer cords hang 13 mm beside their ports, 21 - 8, and fall 0.6 of that at the least.
    assert tops(piece)[4] == pytest.approx(TOP + 0.6 * 13.0)
    # Below a Josephine the inner ones of four hang 0.8 · 2.4 - 0.5 = 1.42 diameters aside, and
    # enter a square knot 0.5 aside: 3.68 mm nearer to its middle.
    drop = 0.6 * 0.92 * DIAMETER
    assert tops(piece)[6] == pytest.approx(tops(piece)[3] + 61.44 + drop, abs=0.02)


def crowding(pitch: float) -> list[str]:
    """Return the warnings of a row of motifs with a knot of three at either side of each."""
    steps = [{"knot": {"kind": "square_knot", "lanes": lanes}} for lanes in ([1, 2, 3], [6, 7, 8])]
    found = document({"strands": 8, "steps": steps}, pitch, [band(rows=1)], 48)
    said = knotplot.build(loads(text_of(found))).figures()["warnings"]
    return [warning for warning in said if "flare" in warning]


def test_neighbours_in_a_row_that_lie_on_each_other_are_told():
    # A square knot on one filler is 5.10 diameters wide (solved), 20.4 mm. The knots of two
    # neighbours stand three lanes of 4.25 mm apart and lie on each other by 7.65 mm; a motif has
    # 34 mm, so that a row needs 41.65/34 = 1.225 times the 20.4 cm it has: 25 cm. The knot and the
    # five other strands of a motif alone take 10.1 diameters, 24.2 cm in all.
    (warning,) = crowding(4.25)
    assert "25 cm" in warning
    assert "20.4 cm" in warning
    assert crowding(6.0) == []
