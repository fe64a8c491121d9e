"""What the books and the trade say, held against what the patterns give.

Sources: Dillmont = Thérèse de Dillmont, "Encyclopedia of Needlework" (English edition, c. 1890,
public domain), chapter "Macramé", by figure. McGaw = Virginia McGaw, "Construction Work for Rural
and Elementary Schools" (1909, public domain). "Common practice" = a rule of the trade with no
source.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from knotplot.api import build
from knotplot.geometry.layout import Layout
from knotplot.knots import form
from knotplot.knots.base import Manner
from knotplot.pattern.load import loads
from knotplot.pattern.strand_count import strand_count

Rows = list[dict[str, Any]]


def pattern_text(sections: str, strands: str, mount: str = "open, tail: 3 cm", **more: str) -> str:
    """Return a pattern with these sections; `more` gives other top keys, or replaces them."""
    keys = {
        "size": "{width: 40 cm, drop: 90 cm}",
        "cord": "{diameter: 4 mm}",
        "strands": f"{{{strands}}}",
        "mount": f"{{kind: {mount}}}",
        "sections": f"[{sections}]",
    } | more
    return "knotplot: 1\n" + "".join(f"{key}: {value}\n" for key, value in keys.items())


def worked(text: str) -> tuple[Rows, Layout]:
    """Build a pattern and return its rows with their ties, and its layout."""
    made = build(loads(text))
    found: Rows = made.figures(rows=True)["rows"]
    return found, made.layout


def motif(strands: int, *steps: str) -> dict[str, Any]:
    """Work one motif on its own strands and return its row."""
    text = pattern_text(
        "{kind: motif_band, motif: m, rows: 1}",
        f"count: {strands}",
        motifs=f"{{m: {{strands: {strands}, steps: [{', '.join(steps)}]}}}}",
    )
    (row,), _ = worked(text)
    return row


def repeat_of(sections: str, mount: str = "open, tail: 3 cm") -> tuple[int, int]:
    """Return (plus, repeat) of the strand counts that sections can be worked on."""
    swatch = "{strands: 10, width: 5 cm}"
    text = pattern_text(sections, "rounding: nearest", mount, swatch=swatch)
    count = strand_count(loads(text))
    return count.plus, count.repeat


# --- bars of double half hitches -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("bar", "leaders", "knotters", "order"),
    [
        # Dillmont 540-541: thread 1 is the cord, 2, 3, 4 knot over it; then cord 2; 3, 4, 1
        ("{hitch: {lead: 1, to: 4}}", [1, 2], [[2, 3, 4], [3, 4, 1]], [3, 4, 1, 2]),
        # Dillmont 542-543: cord 4, knotters 3, 2, 1; then cord 3, knotters 2, 1, 4
        ("{hitch: {lead: 4, to: 1}}", [4, 3], [[3, 2, 1], [2, 1, 4]], [3, 4, 1, 2]),
    ],
)
def test_slanting_bars(
    bar: str, leaders: list[int], knotters: list[list[int]], order: list[int]
) -> None:
    row = motif(4, bar, bar)
    for number, (leader, knotting) in enumerate(zip(leaders, knotters, strict=True)):
        ties = row["ties"][3 * number : 3 * number + 3]
        assert [tie["knot"] for tie in ties] == ["double_half_hitch"] * 3
        assert [tie["leader"] for tie in ties] == [leader] * 3
        assert [next(s for s in tie["strands"] if s != leader) for tie in ties] == knotting
    assert row["order_after"] == order


def test_a_single_slanting_bar_moves_its_leader_to_the_end() -> None:
    # Dillmont 540: 1-2-3-4 becomes 2-3-4-1; 542: 1-2-3-4 becomes 4-1-2-3
    assert motif(4, "{hitch: {lead: 1, to: 4}}")["order_after"] == [2, 3, 4, 1]
    assert motif(4, "{hitch: {lead: 4, to: 1}}")["order_after"] == [4, 1, 2, 3]


def test_a_horizontal_bar_has_every_thread_knotted_twice_over_a_cord_of_its_own() -> None:
    # Dillmont 519, 538
    (row,), layout = worked(pattern_text("{kind: hitch_line}", "count: 6"))
    assert [tie["knot"] for tie in row["ties"]] == ["double_half_hitch"] * 6
    assert {tie["leader"] for tie in row["ties"]} == {"L1"}
    assert row["order_after"] == [1, 2, 3, 4, 5, 6]
    assert [cord.role for cord in layout.piece.cords].count("leader") == 1


def test_a_single_chain_has_each_thread_the_cord_in_turn() -> None:
    # Dillmont 545: two threads, each the cord in turn
    row = motif(2, "{hitch: {lead: 1, to: 2, turns: 1, times: 4}}")
    assert [tie["leader"] for tie in row["ties"]] == [1, 2, 1, 2]
    assert {tie["knot"] for tie in row["ties"]} == {"half_hitch"}


# --- flat knots ----------------------------------------------------------------------------------


def test_one_crossing_swaps_the_outer_threads_and_two_bring_them_home() -> None:
    # Dillmont 516: the right outer thread passes under, the left outer over the two centre
    # threads; then the outers come back and tie again. The centre threads never move.
    half = "{knot: {kind: half_knot, lanes: [1, 2, 3, 4]}}"
    flat = "{knot: {kind: square_knot, lanes: [1, 2, 3, 4]}}"
    assert motif(4, half)["order_after"] == [4, 2, 3, 1]
    assert motif(4, half, half)["order_after"] == [1, 2, 3, 4]
    assert motif(4, flat)["order_after"] == [1, 2, 3, 4]
    # Dillmont 529: flat double knot + half = 3 crossings
    assert motif(4, flat, half)["order_after"] == [4, 2, 3, 1]


def test_a_collecting_knot_is_a_flat_knot_over_more_than_two_threads() -> None:
    # Dillmont 530
    row = motif(8, "{knot: {kind: square_knot, lanes: [1, 2, 3, 4, 5, 6, 7, 8]}}")
    assert row["ties"][0]["roles"] == ["working", *["filler"] * 6, "working"]
    assert row["order_after"] == [1, 2, 3, 4, 5, 6, 7, 8]


@pytest.mark.parametrize("count", [1, 2, 7, 8])
def test_waved_knots_are_the_first_crossing_over_and_over(count: int) -> None:
    # Dillmont 531: only the first crossing, repeated; it twists
    section = f"{{kind: sennits, knot: half_knot, strands: 4, count: {count}}}"
    rows, _ = worked(pattern_text(section, "count: 4"))
    assert len(rows) == count
    assert rows[-1]["order_after"] == ([4, 2, 3, 1] if count % 2 else [1, 2, 3, 4])


def test_a_square_knot_ties_with_one_end_in_front_twice_and_a_granny_with_each_once() -> None:
    # McGaw: square knot: end 1 right over 2, then end 1 left over 2; granny: then end 2 over 1
    square = form("square_knot", Manner(2, "left")).paths
    assert [end_in_front(square, y) for y in (-0.5, 0.5)] == [0, 0]
    half = form("half_knot", Manner(2, "left")).paths
    assert end_in_front(half, 0.0) == 0  # again: now the other end hangs left, and is in front


def end_in_front(paths: tuple[Any, ...], y: float) -> int:
    """Return which of two ends passes in front where both are midway between the sides."""
    heights = []
    for path in paths:
        middle = min(
            (curve for curve in path if (curve[0] > 0) != (curve[9] > 0)),
            key=lambda curve: abs((curve[1] + curve[10]) / 2 - y * form_half()),
        )
        heights.append((middle[2] + middle[11]) / 2)
    return heights.index(max(heights))


def form_half() -> float:
    return form("square_knot", Manner(2, "left")).height / 2


def test_alternation_joins_two_threads_of_each_neighbour() -> None:
    # Dillmont 516e: the next knot joins the two right threads of one with the two left of the next
    rows, _ = worked(pattern_text("{kind: square_knot_mesh, rows: 3}", "count: 12"))
    tied = [[tie["strands"] for tie in row["ties"]] for row in rows]
    assert tied[0] == [[1, 2, 3, 4], [5, 6, 7, 8], [9, 10, 11, 12]]
    assert tied[1] == [[3, 4, 5, 6], [7, 8, 9, 10]]
    assert tied[2] == tied[0]


def test_flat_knot_rows_that_decrease_from_ten_to_two() -> None:
    # Dillmont 599: flat-knot rows decrease 10 -> 2
    section = "{kind: square_knot_mesh, rows: 9, shape: decrease}"
    rows, _ = worked(pattern_text(section, "count: 40"))
    assert [len(row["ties"]) for row in rows] == [10, 9, 8, 7, 6, 5, 4, 3, 2]


def test_cords_folded_in_the_middle_give_two_strands() -> None:
    # Dillmont 515: the length folded in half, the loop over the cord, the ends through the loop
    text = pattern_text("{kind: free, length: 5 cm}", "count: 8", "larks_head, rod: 12 mm")
    made = build(loads(text)).figures()
    assert [cord["strands"] for cord in made["cords"]] == [[1, 2], [3, 4], [5, 6], [7, 8]]
    assert made["knots"] == {"larks_head": 4}
    for cord in made["cords"]:
        assert cord["fold_mm"] == pytest.approx(cord["cut_mm"] / 2, abs=0.01)


# --- multiples of ends ---------------------------------------------------------------------------


def columns(*groups: int) -> str:
    parts = ", ".join(
        f"{{strands: {ends}, sections: [{{kind: free, length: 3 cm}}]}}" for ends in groups
    )
    return f"{{kind: columns, parts: [{parts}]}}"


@pytest.mark.parametrize(
    ("groups", "ends"),
    [
        ((8,), 8),  # Dillmont 557: 8-thread groups
        ((8, 3, 2, 3), 16),  # Dillmont 560: 4 double + 3 single + 1 double + 3 single
        ((1, 3, 1, 1, 3, 1), 10),  # Dillmont 573, before it is doubled
        ((4, 4, 5, 4), 17),  # Dillmont 579
        ((2, 2, 2, 1, 1, 2, 1, 1, 2, 2, 2), 18),  # Dillmont 580
    ],
)
def test_multiples_of_ends_in_groups(groups: tuple[int, ...], ends: int) -> None:
    assert repeat_of(columns(*groups)) == (0, ends)


def test_doubled_threads_take_an_even_count() -> None:
    # Dillmont 573: 1-3-1-1-3-1 = 10 doubled; 579: 17 ends on folded threads take two repeats
    assert repeat_of(columns(2, 6, 2, 2, 6, 2), "larks_head, rod: 12 mm") == (0, 20)
    assert repeat_of(columns(4, 4, 5, 4), "larks_head, rod: 12 mm") == (0, 34)


def test_twelve_ends_a_motif() -> None:
    # Dillmont 548: 12 ends per motif; "seed-pod", a motif of our own, has twelve as well
    assert repeat_of("{kind: motif_band, motif: seed-pod, rows: 1}") == (0, 12)


# --- facts of the trade (common practice) --------------------------------------------------------

NET = "{kind: square_knot_mesh, rows: 4}, {kind: motif_band, motif: diamond, rows: 1}"


def sized(rounding: str, swatch: str) -> Any:
    text = pattern_text(
        NET, f"rounding: {rounding}", size="{width: 49 in, drop: 60 in}", swatch=f"{{{swatch}}}"
    )
    return strand_count(loads(text))


def test_a_tension_sample_says_how_many_cords() -> None:
    # Common practice: four square knots on 16 cords that measure 4 in say 196 cords for 49 in,
    # before rounding to multiples of 8.
    count = sized("nearest", "strands: 16, width: 4 in")
    assert count.estimate == 196
    assert count.repeat == 8
    assert count.count == 200  # 196 lies midway between 192 and 200: a tie goes up
    assert sized("down", "strands: 16, width: 4 in").count == 192


def test_hung_a_mesh_widens_and_fewer_cords_serve() -> None:
    # Common practice: hung, a mesh widens, and 176 served for the same 49 in.
    count = sized("nearest", "strands: 16, width: 4 in, hung_width: 49/11 in")
    assert (count.estimate, count.count) == (176, 176)
    assert count.options[1].width_mm == Fraction(49 * 254, 10)
    assert count.options[1].gauge_change == 0


def test_fringe_and_gaps_have_their_usual_measures() -> None:
    # Common practice: about 1½ cm between offset rows; the fringe trimmed to about 1½ in.
    sections = (
        "{kind: motif_band, motif: diamond, rows: 2, offset: half, gap: 1 1/2 cm},"
        "{kind: fringe, length: 1 1/2 in}"
    )
    rows, layout = worked(pattern_text(sections, "count: 24"))
    between = [run.curve for run in layout.free_runs if (run.above, run.below) == (0, 1)]
    assert len(between) == 24
    assert min(curve[-1] - curve[1] for curve in between) == pytest.approx(15.0)
    fringe = [run.curve for run in layout.free_runs if run.below == len(rows)]
    assert len(fringe) == 24
    assert min(curve[-1] - curve[1] for curve in fringe) >= 38.1 - 1e-6


# --- the whole curtain of the issue, without code ------------------------------------------------

# Common practice, every part of it: cords hung temporarily by a short tail (12 in for a rod pocket
# and its fringe); eight rows of alternating square knots; fold; joins of four front over four back
# cords; double half hitches on the short tails alone, with an extra strand as leader; eight-cord
# diamonds of double half hitches, crossed at the centre top, a square knot in the middle, one more
# hitch to close the gap below; offset rows whose edge halves are worked too; a third row that ends
# in a half diamond toward the middle, from both sides, for an arch.
CURTAIN = """\
knotplot: 1
units: in
size: {width: 12, drop: 14}
cord: {diameter: 4 mm}
strands: {count: 48}
mount: {kind: rod_pocket, rod: 3/4 in, rows: 8, tail: 12 in}
sections:
  - {kind: hitch_line, layer: tails, overhang: 4}
  - {name: lace, kind: motif_band, motif: eight, rows: 3, offset: half, gap: 1.5 cm, edges: half}
  - {kind: fringe, length: 1 1/2}
lower_edge: {profile: parabola, rise: 4}
motifs:
  eight:
    strands: 8
    steps:
      - cross: [4, 5]
      - hitch: {lead: 4, to: 1}
      - hitch: {lead: 5, to: 8}
      - knot: {kind: square_knot, lanes: [3, 4, 5, 6]}
      - hitch: {lead: 1, to: 4}
      - hitch: {lead: 8, to: 5}
      - hitch: {lead: 5, to: 4}
    top: 4
"""
N = 48
HOME = list(range(1, N + 1))
#: A diamond's upper half alone: the crossed strands have been led out to its sides.
OPEN = [5, 1, 2, 3, 6, 7, 8, 4]


@pytest.fixture(scope="module")
def curtain() -> Rows:
    return worked(CURTAIN)[0]


def test_the_band_is_eight_rows_of_alternating_square_knots_half_of_them_at_the_back(
    curtain: Rows,
) -> None:
    band = curtain[:8]
    assert [len(row["ties"]) for row in band] == [12, 11] * 4
    assert {tie["knot"] for row in band for tie in row["ties"]} == {"square_knot"}
    assert [row["layer"] for row in band] == ["back"] * 4 + ["body"] * 4


def test_the_joins_tie_four_tails_over_four_cords_behind(curtain: Rows) -> None:
    join = curtain[8]
    assert len(join["ties"]) == N // 4
    first = join["ties"][0]
    assert first["lanes"] == [1, 2, 3, 4, 1, 2, 3, 4]
    assert first["strands"] == [N + 1, N + 2, N + 3, N + 4, 1, 2, 3, 4]
    assert first["roles"] == ["working", "filler", "filler", "working", *["filler"] * 4]
    assert first["layers"] == ["tails", "body"]
    assert join["order_after"] == HOME


def test_the_tails_alone_are_hitched_onto_an_extra_strand(curtain: Rows) -> None:
    line = curtain[9]
    assert line["layer"] == "tails"
    assert {tie["leader"] for tie in line["ties"]} == {"L1"}
    assert {tie["knot"] for tie in line["ties"]} == {"double_half_hitch"}
    assert line["order_after"] == [N + strand for strand in HOME]


def test_a_closed_diamond_gives_every_strand_back_its_lane(curtain: Rows) -> None:
    first = curtain[10]
    assert len(first["ties"]) == 6 * 14
    assert [tie["step"] for tie in first["ties"][:14]] == [2] * 3 + [3] * 3 + [4] + [5] * 3 + [
        6
    ] * 3 + [7]
    # strand 5 was crossed in front, 4 behind; 5 leads left, hitched by 3, 2, 1, then 4 leads right
    assert [tie["leader"] for tie in first["ties"][:6]] == [5, 5, 5, 4, 4, 4]
    assert [sum(tie["strands"]) - 5 for tie in first["ties"][:3]] == [3, 2, 1]
    assert sorted(first["ties"][-1]["strands"]) == [44, 45]  # the last hitch closes the gap
    assert first["order_after"] == HOME


def test_offset_rows_work_their_edge_halves_too(curtain: Rows) -> None:
    second = curtain[11]
    left = [tie for tie in second["ties"] if max(tie["lanes"]) <= 4]
    right = [tie for tie in second["ties"] if min(tie["lanes"]) > N - 4]
    # the right half of a diamond at the left edge: a bar out, a knot on two strands, a bar back
    assert [tie["step"] for tie in left] == [3, 3, 3, 4, 6, 6, 6]
    assert [tie["step"] for tie in right] == [2, 2, 2, 4, 5, 5, 5]
    assert [tie["leader"] for tie in left if tie["leader"]] == [1] * 6
    assert [tie["leader"] for tie in right if tie["leader"]] == [N] * 6
    assert len(second["ties"]) == 5 * 14 + 2 * 7
    assert second["order_after"] == HOME


def test_the_third_row_ends_in_a_half_diamond_toward_the_middle_from_both_sides(
    curtain: Rows,
) -> None:
    third = curtain[12]
    ties = [sum(1 for tie in third["ties"] if (tie["lanes"][0] - 1) // 8 == i) for i in range(6)]
    assert ties == [14, 7, 0, 0, 7, 14]
    half = [tie["step"] for tie in third["ties"] if (tie["lanes"][0] - 1) // 8 == 1]
    assert half == [2, 2, 2, 3, 3, 3, 4]
    expected = list(HOME)
    for first in (8, 32):
        expected[first : first + 8] = [first + strand for strand in OPEN]
    assert third["order_after"] == expected
    assert len(curtain) == 13
