"""Numbers worked out by hand: mounts, nets, fills, bars and overhands, none of them from the code.

All on cord of 4 mm. A square knot is 2 · 2 · 0.875 = 3.5 diameters tall, 14 mm; its outer cords
enter and leave 1.6 diameters from the middle on one filler, 2.0 on two (GEOMETRY, rule 3), and
fillers stand a diameter apart.
"""

from __future__ import annotations

from typing import Any

import pytest
from workable import Document, text_of, tied

from knotplot.errors import PatternError, Refusal
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.motifs.motif import Motif
from knotplot.motifs.working import MotifShapes
from knotplot.pattern.load import loads
from knotplot.tying.gauge import Gauge
from knotplot.tying.piece import Piece
from knotplot.tying.rack import Rack

D = 4.0  # mm, the cord
MESH = {"kind": "square_knot_mesh"}
OPEN = {"kind": "open", "tail": "10 cm"}


def document(
    *sections: Document, mount: Document = OPEN, count: int = 8, pitch: float = 8.0,
    drop: float = 900.0, **more: Any,
) -> Document:  # fmt: skip
    return {
        "knotplot": 1,
        "size": {"width": f"{count * pitch} mm", "drop": f"{drop} mm"},
        "cord": {"diameter": "4 mm"},
        "strands": {"count": count},
        "mount": mount,
        "sections": list(sections),
        **more,
    }


def piece_of(*sections: Document, **more: Any) -> Piece:
    return tied(loads(text_of(document(*sections, **more))))


def tops(piece: Piece) -> list[float]:
    return [row.placements[0].y for row in piece.rows]


def starts(piece: Piece) -> list[tuple[float, float]]:
    return [(port.x, port.y) for port in piece.mounting.starts if port is not None]


# --- mounts ----------------------------------------------------------------------------------


def test_a_ring_holds_its_cords_close_together_below_it():
    # Eight strands hang on a ring of 10 cm within 0.8 of it: 10 mm apart, about the middle, 20 cm.
    piece = piece_of({**MESH, "rows": 1}, mount={"kind": "ring", "diameter": "10 cm"}, pitch=50.0)
    assert starts(piece) == [(165.0 + 10.0 * i, 100.0) for i in range(8)]
    assert [cord.strands for cord in piece.cords] == [(1, 2), (3, 4), (5, 6), (7, 8)]
    assert (piece.mounting.kind, piece.mounting.rod, piece.mounting.tail) == ("ring", 100.0, 0.0)


def test_open_cords_begin_below_their_fringe_each_in_its_lane():
    piece = piece_of({**MESH, "rows": 1})
    assert starts(piece) == [(4.0 + 8.0 * i, 100.0) for i in range(8)]
    assert [cord.strands for cord in piece.cords] == [(i,) for i in range(1, 9)]
    assert (piece.mounting.rod, piece.mounting.tail) == (0.0, 100.0)


def test_hitched_cords_are_one_each_and_hang_below_the_rod():
    # A rod of 3 cm, and above and below it a cord of 4 mm that gives to 0.875: 30 + 7 mm from port
    # to port, about the middle at 0.
    piece = piece_of({**MESH, "rows": 1}, mount={"kind": "hitched", "rod": "3 cm", "tail": "9 cm"})
    assert starts(piece) == []
    assert [cord.strands for cord in piece.cords] == [(i,) for i in range(1, 9)]
    (leave,) = (exit_.port for exit_ in piece.rows[0].placements[0].shape.exits)
    enter = piece.rows[0].placements[0].shape.entries[0].port
    assert leave.y - enter.y == pytest.approx(37.0)
    assert (piece.mounting.rod, piece.mounting.tail) == (30.0, 90.0)


@pytest.mark.parametrize("kind", ["larks_head", "reverse_larks_head"])
def test_folded_cords_hang_two_lanes_each(kind):
    piece = piece_of({**MESH, "rows": 1}, mount={"kind": kind, "rod": "2 cm"})
    row = piece.rows[0]
    assert [placement.lane for placement in row.placements] == [0, 2, 4, 6]
    assert [cord.strands for cord in piece.cords] == [(1, 2), (3, 4), (5, 6), (7, 8)]
    assert {tie.manner.reach for placement in row.placements for tie in placement.shape.ties} == {
        20.0 / D / 2.0
    }
    assert (piece.mounting.rod, piece.mounting.strands_per_cord) == (20.0, 2)


def test_a_rod_pocket_folds_its_band_in_half():
    # A band of 8 rows 17.6 mm apart (as the net below), the last 14 mm tall, hung over a line: its
    # first row begins 2.4 mm below it, so 139.6 mm in all. Half its rows are behind the rod.
    mount = {"kind": "rod_pocket", "rod": "20 mm", "rows": 8, "tail": "40 cm"}
    piece = piece_of({**MESH, "rows": 1}, mount=mount)
    pocket = piece.mounting.pocket
    assert pocket is not None
    assert pocket.band == pytest.approx(2.4 + 7 * 17.6 + 14.0)
    assert (pocket.radius, pocket.back_rows) == ((20.0 + D) / 2.0, 4)
    assert [cord.strands for cord in piece.cords] == [(i, 8 + i) for i in range(1, 9)]
    assert [row.layer for row in piece.rows[:8]] == ["back"] * 4 + ["body"] * 4
    assert piece.mounting.tail == 400.0


def test_a_picot_mount_leaves_no_tail():
    mount = {"kind": "picot", "rod": "16 mm", "loop": "6 cm"}
    mounting = piece_of({**MESH, "rows": 1}, mount=mount).mounting
    assert (mounting.rod, mounting.tail, mounting.loop) == (16.0, 0.0, 60.0)


# --- nets, fills, and what hangs free ----------------------------------------------------------

# Four lanes of 8 mm hang at 4, 12, 20, 28 and enter a knot at 8, 14, 18, 24: 4 mm aside at the
# most, so 0.6 · 4 = 2.4 mm down. From row to row a strand goes from 24 to 30, 6 mm aside: 3.6 down.
FIRST, PITCH, TALL = 102.4, 17.6, 14.0


def test_rows_of_a_net_stand_as_their_strands_let_them():
    assert tops(piece_of({**MESH, "rows": 4})) == pytest.approx(
        [FIRST + PITCH * i for i in range(4)]
    )


@pytest.mark.parametrize(("start", "first"), [("edge", [0, 4]), ("offset", [2])])
def test_rows_of_a_net_take_turns(start, first):
    piece = piece_of({**MESH, "rows": 3, "start": start})
    lanes = [[placement.lane for placement in row.placements] for row in piece.rows]
    assert lanes == ([first, [2], first] if start == "edge" else [first, [0, 4], first])


def test_a_net_that_comes_to_a_point_and_one_that_widens():
    down = piece_of({**MESH, "rows": 2, "shape": "decrease"})
    up = piece_of({**MESH, "rows": 2, "shape": "increase"})
    assert [[each.lane for each in row.placements] for row in down.rows] == [[0, 4], [2]]
    assert [[each.lane for each in row.placements] for row in up.rows] == [[2], [0, 4]]


def fill(drop: float) -> int:
    net = {**MESH, "rows": "fill"}
    fringe = {"kind": "fringe", "length": "6 cm"}
    return len(piece_of(net, fringe, drop=drop).rows)


def test_a_fill_takes_a_row_as_soon_as_it_fits():
    five = FIRST + 4 * PITCH + TALL + 60.0  # 246.8 mm
    assert (fill(five), fill(five - 0.01)) == (5, 4)
    assert (fill(five + PITCH), fill(five + PITCH - 0.01)) == (6, 5)
    assert fill(FIRST + TALL + 60.0) == 1


def test_a_length_fills_what_is_left():
    net = {**MESH, "rows": 2}
    piece = piece_of(net, {"kind": "free", "length": "fill"}, {**MESH, "rows": 1}, drop=300.0)
    # What follows the free cord is a row of its own, straight below: it ends on the edge.
    assert tops(piece)[2] == pytest.approx(300.0 - TALL, abs=1e-4)


def test_what_follows_free_cord_begins_below_it():
    piece = piece_of({**MESH, "rows": 1}, {"kind": "free", "length": "5 cm"}, {**MESH, "rows": 1})
    assert tops(piece) == pytest.approx([FIRST, FIRST + TALL + 50.0])


def test_a_drop_that_is_too_short_is_told_with_one_that_does():
    net, fringe = {**MESH, "rows": 6}, {"kind": "fringe", "length": "6 cm"}
    with pytest.raises((Refusal, PatternError)) as refused:
        piece_of(net, fringe, drop=246.8)
    # Six rows need 264.4 mm: up to a whole 5 mm, 265.
    said = str(refused.value)
    assert "1.8 cm too long" in said
    assert "26.5 cm or more, or 5 rows at most" in said


# --- bars, lines, picots -----------------------------------------------------------------------


def reach(pitch: float, **more: Any) -> float:
    motif = {"strands": 8, "steps": [{"hitch": {"lead": 1, "to": 4, **more}}]}
    band = {"kind": "motif_band", "motif": "m", "rows": 1}
    piece = piece_of(band, pitch=pitch, motifs={"m": motif})
    (found,) = {round(tie.manner.reach, 9) for tie in piece.rows[0].placements[0].shape.ties}
    return found


def test_a_hitch_takes_two_and_a_half_diameters_of_its_leader_or_less():
    # At 45 degrees lanes of 8 mm are 8 · 1.414 = 11.3 mm apart along the leader, more than the 10
    # that a hitch takes; level lanes of 6.4 mm leave it 6.4. Half of it lies to either side.
    assert reach(8.0) == pytest.approx(1.25)
    assert reach(6.4, angle=0) == pytest.approx(6.4 / D / 2.0)


def test_a_hitch_line_takes_a_leader_of_its_lanes_and_what_hangs_over():
    line = {"kind": "hitch_line", "overhang": "15 cm"}
    piece = piece_of(line)
    (leader,) = (cord for cord in piece.cords if cord.role == "leader")
    assert (leader.length, leader.ends) == (64.0, (150.0, 150.0))
    assert [tie.x for tie in piece.rows[0].ties(piece.gauge)] == [4.0 + 8.0 * i for i in range(8)]
    # Lanes of 8 mm leave each hitch two diameters of the leader, one to either side.
    assert {each.shape.ties[0].manner.reach for each in piece.rows[0].placements} == {1.0}


def test_picots_stand_out_to_the_outside():
    picot = {"kind": "square_knot", "lanes": [1, 2, 3, 4, 5, 6], "workers": 2, "picot": "2 cm"}
    motif = {"strands": 6, "steps": [{"knot": picot}]}
    band = {"kind": "motif_band", "motif": "m", "rows": 1}
    piece = piece_of(band, count=6, motifs={"m": motif})
    (tie,) = piece.rows[0].placements[0].shape.ties
    assert [port.loop for port in tie.enter] == [-20.0, -20.0, 0.0, 0.0, 20.0, 20.0]


def test_a_part_of_a_motif_keeps_its_places():
    # The right half of four lanes of 10 mm begins 20 mm in, and so does a cord added in it: its
    # head is turned, its middle 0.6 diameters beside lane 4 (35 mm), on the right.
    motif = {
        "strands": 4,
        "steps": [
            {"knot": {"kind": "square_knot", "lanes": [1, 2, 3, 4]}},
            {"add": {"after": 4, "cords": 1}},
        ],
    }
    made = Motif.model_validate(motif)
    shapes = MotifShapes(Rack(Gauge(40.0, 4, D)), "m", made)
    whole, right = shapes.shape(1, 4), shapes.shape(3, 4)
    assert whole.ties[1].x == pytest.approx(35.0 + 0.6 * D)
    assert right.ties[1].x == pytest.approx(15.0 + 0.6 * D)


def test_an_added_cord_hangs_to_the_right_of_its_strand():
    # Of six lanes the two new ones are the second and third: a bar from them is at 2 · 40/6.
    motif = {
        "strands": 4,
        "steps": [
            {"knot": {"kind": "square_knot", "lanes": [1, 2, 3, 4]}},
            {"add": {"after": 1, "cords": 1}},
            {"hitch": {"lead": 1, "to": 2}},
        ],
    }
    shape = MotifShapes(Rack(Gauge(40.0, 4, D)), "m", Motif.model_validate(motif)).shape(1, 4)
    knot_, head, bar = shape.ties
    assert (bar.lanes, bar.x) == ((0, 1), pytest.approx(40.0 / 6.0))
    assert (bar.who, head.leader, knot_.who) == ((0, 4), 0, (0, 1, 2, 3))
    # Below its head the strand leads straight on; the new one comes from the head, not the knot.
    assert bar.y > head.leave[0].y > knot_.y


# --- overhands ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("strands", "thick"),
    # Circles in a circle: two lie side by side, three at 1 + 2/√3; four and more take 0.74 of it.
    [(1, 1.0), (2, 2.0), (3, 2.1547), (4, 2.3250), (6, 2.8475)],
)
def test_an_overhand_of_several_strands_grows_with_their_bundle(strands, thick):
    overhand = knot("overhand")
    one = overhand.cord(Manner(1)).by_role["working"]
    assert overhand.cord(Manner(strands)).by_role["working"] == pytest.approx(thick * one, rel=1e-3)
    form, single = overhand.form(Manner(strands)), overhand.form(Manner(1))
    assert form.height == pytest.approx(thick * single.height, rel=1e-3)
