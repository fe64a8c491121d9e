"""Picots on a mount: their cord by closed form, how high they stand, bounds, words and views."""

from __future__ import annotations

import math

import pytest

import knotplot
from knotplot.api import WorkedPiece
from knotplot.curves.bezier import length
from knotplot.errors import PatternError
from knotplot.geometry.layout import stands_above
from knotplot.materials.remaining import remaining
from knotplot.sheet.facts import largest_opening, longest_free_strand
from knotplot.units import both

PITCH, DIAMETER = 10.0, 4.0

PATTERN = """
knotplot: 1
size: {width: 16 cm, drop: 30 cm}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: PICOT
sections:
  - {kind: sennits, knot: half_knot, strands: 4, count: 6}
  - {kind: fringe, length: fill, finish: cut}
"""
PICOT = "{kind: picot, rod: 16 mm, loop: 50 mm, fold: middle}"


def made(*sets: str, mount: str = PICOT) -> WorkedPiece:
    return knotplot.build(knotplot.loads(PATTERN.replace("PICOT", mount), sets=list(sets)))


def hitched() -> WorkedPiece:
    """Return the piece with every strand a cord of its own, hitched on with an end of 80 mm."""
    return made(mount="{kind: hitched, rod: 16 mm, tail: 80 mm}")


@pytest.mark.parametrize("loop", [16.0, 30.0, 50.0, 90.0, 160.0])
def test_each_strand_takes_half_of_the_loop_beyond_what_a_hitched_one_takes(loop: float) -> None:
    with_loops, without = made(f"mount.loop={loop} mm"), hitched()
    for strand in range(1, 17):
        mine, plain = (each.layout.uses[strand] for each in (with_loops, without))
        assert mine.knots == pytest.approx(plain.knots)
        assert mine.runs == pytest.approx(plain.runs + loop / 2.0, abs=1e-3)
        assert mine.errors == pytest.approx(plain.errors)
    assert with_loops.layout.hanging == pytest.approx(without.layout.hanging)
    ends = [each.used - 80.0 for each in without.bill.lengths]
    cords = [a + b + loop for a, b in zip(ends[::2], ends[1::2], strict=True)]
    assert [each.used for each in with_loops.bill.lengths] == pytest.approx(cords, abs=2e-3)


@pytest.mark.parametrize("loop", [16.0, 30.0, 50.0, 90.0, 160.0])
def test_the_loop_as_drawn_is_as_long_as_it_says_and_smooth_at_its_fold(loop: float) -> None:
    runs = [each for each in made(f"mount.loop={loop} mm").layout.free_runs if each.above < 0]
    assert [each.strand for each in runs] == list(range(1, 17))
    for left, right in zip(runs[::2], runs[1::2], strict=True):
        assert length(left.curve) + length(right.curve) == pytest.approx(loop, rel=1e-4)
        assert left.curve[:2] == right.curve[:2]
        assert left.curve[3] == right.curve[3] == left.curve[1]  # level at the fold
        assert left.curve[6] < left.curve[0] < right.curve[6]


@pytest.mark.parametrize("loop", [16.0, 24.0, 30.0, 50.0])
def test_it_stands_about_as_high_as_a_half_circle_on_two_straight_legs(loop: float) -> None:
    # of two legs h and a half circle of radius r: loop = 2h + πr, and it stands h + r high
    r = PITCH / 2.0
    high = (loop - math.pi * r) / 2.0 + r
    layout = made(f"mount.loop={loop} mm").layout
    assert stands_above(layout.piece) - DIAMETER / 2.0 == pytest.approx(high, rel=0.1, abs=1.0)


def test_pieces_without_loops_have_nothing_above() -> None:
    assert stands_above(hitched().layout.piece) == 0.0


@pytest.mark.parametrize(
    ("loop", "told"),
    [
        # a half circle from hitch to hitch, 10 mm apart, is 15.7 mm
        ("15 mm", r"mount\.loop: '15 mm': too short to stand above hitches 10\.0 mm apart; use a "
         "loop of 16 mm or more"),
        ("161 mm", r"mount\.loop: '161 mm': too long to stand in cord of 4 mm; use a loop of "
         "160 mm or less"),
        ("30", "mount.loop: 30: needs a unit; write '30 mm'"),
    ],
)  # fmt: skip
def test_loops_that_cannot_stand_are_refused(loop: str, told: str) -> None:
    with pytest.raises(PatternError, match=told):
        made(f"mount.loop={loop}")


def test_where_the_shortest_loop_is_long_the_remedy_works() -> None:
    wide = "size.width=300 cm"  # hitches so far apart that a half circle is beyond 40 diameters
    with pytest.raises(PatternError, match="use a loop of 295 mm or more"):
        made(wide, "mount.loop=294 mm")
    assert made(wide, "mount.loop=295 mm").layout.piece.mounting.loop == 295.0
    with pytest.raises(PatternError, match="use a loop of 295 mm or less"):
        made(wide, "mount.loop=296 mm")


def test_cords_are_pairs_of_strands() -> None:
    with pytest.raises(PatternError, match=r"strands\.count"):
        made("strands.count=15")
    piece = made().layout.piece
    assert [cord.strands for cord in piece.cords] == [(i, i + 1) for i in range(1, 17, 2)]


def test_it_is_counted_as_two_hitches_a_cord() -> None:
    figures = made().figures()
    assert figures["knots"]["double_half_hitch"] == 16
    assert figures["cords"][0]["fold_mm"] * 2.0 == figures["cords"][0]["cut_mm"]


def test_what_is_left_below_the_hitches_is_the_side_without_half_the_loop() -> None:
    piece = made("mount.fold=uneven", "mount.loop=50 mm")
    left = remaining(piece.layout, piece.bill.lengths)
    hitch = piece.layout.take("double_half_hitch", piece.layout.piece.rows[0].placements[0].shape
                              .ties[0].manner, 0).by_role["knotting"] * DIAMETER  # fmt: skip
    for each in piece.bill.lengths:
        one, other = each.cord.strands
        assert each.fold is not None
        assert each.fold % 10.0 == 0.0
        assert left(one, 0) == pytest.approx(each.fold - 25.0 - hitch, abs=1e-3)
        assert left(other, 0) == pytest.approx(float(each.cut) - each.fold - 25.0 - hitch, abs=1e-3)
    assert {each.fold for each in piece.bill.lengths} > {float(piece.bill.lengths[0].fold or 0)}


def test_the_words_say_how_long_and_how_high() -> None:
    piece = made()
    words = " ".join(piece.words().split())
    high = both(stands_above(piece.layout.piece))
    assert "Fold each of the 8 cords in half. Hitch both ends onto the branch or rod" in words
    assert f"Leave a loop of {both(50.0)}, measured along the cord" in words
    assert f"about {high} high" in words
    assert "* double half hitch with the next cord; repeat from * 15 more times" in words
    uneven = " ".join(made("mount.fold=uneven").words().split())
    assert "in half" not in uneven
    assert "the measured side on the left and first" in uneven


def test_a_loop_is_an_opening_and_a_free_strand() -> None:
    net = "sections=[{kind: square_knot_mesh, rows: 20}]"
    piece = made("size.drop=43 cm", net, "mount.loop=120 mm").layout
    assert max(piece.hanging) < 120.0
    assert longest_free_strand(piece) == 120.0
    assert largest_opening(piece.piece) == 60.0


def test_views_have_room_for_the_loops() -> None:
    low, high = made("mount.loop=30 mm"), made("mount.loop=90 mm")
    more = stands_above(high.layout.piece) - stands_above(low.layout.piece)
    assert more == pytest.approx(30.0, abs=2.0)
    for view in ("cord", "chart"):
        a, b = (piece.draw(view).drawing.height for piece in (low, high))
        assert b - a == pytest.approx(more, abs=3.0)
    assert "loops above" in high.draw("outline").svg()
    assert "loops above" not in hitched().draw("outline").svg()
