"""Strands that are added to a motif or end in it: orders, lanes, lengths, words, refusals."""

from __future__ import annotations

from typing import Any

import pytest
import strategies
from hypothesis import given, settings
from instructions.interpreter import execute
from instructions.test_instruction_words import printed, recorded

from knotplot.api import WorkedPiece, build
from knotplot.errors import PatternError
from knotplot.geometry.inner import inner_runs
from knotplot.geometry.layout import ENDED
from knotplot.pattern.load import loads
from knotplot.tying.piece import Piece

Rows = list[dict[str, Any]]

HEAD = """\
knotplot: 1
size: {{width: {width} mm, drop: {drop} mm}}
cord: {{diameter: 4 mm}}
strands: {{count: {count}}}
mount: {mount}
"""
OPEN = "{kind: open, tail: 10 cm}"


def made(count: int, rest: str, mount: str = OPEN, drop: int = 1200, pitch: int = 8) -> WorkedPiece:
    """Return a piece of `count` strands so far apart (mm)."""
    head = HEAD.format(width=pitch * count, count=count, mount=mount, drop=drop)
    return build(loads(head + rest))


def band(steps: str, strands: int, more: str = "rows: 1", after: str = "") -> str:
    return (
        f"sections:\n  - {{name: band, kind: motif_band, motif: a, {more}}}\n{after}"
        f"motifs:\n  a:\n    strands: {strands}\n    steps:\n{steps}"
    )


def rows(found: WorkedPiece) -> Rows:
    """Return the rows, after making sure that the words say the very same."""
    piece = found.layout.piece
    assert execute(printed(piece)) == recorded(piece)
    return list(found.figures(rows=True)["rows"])


def told(row: dict[str, Any]) -> list[tuple[str, list[int], list[int], Any]]:
    return [(tie["knot"], tie["lanes"], tie["strands"], tie["leader"]) for tie in row["ties"]]


ADD = """\
      - add: {after: 2}
      - knot: {kind: square_knot, lanes: [1, 2, 3, 4, 5, 6]}
"""


# Contract 4: each cord is larks-headed on the strand in that lane, its two strands to the right of
# it, next ids left to right; lanes renumber at once; the next column starts after the last. N in x
# is the number of lanes then.
def test_cords_are_added_as_the_contract_says() -> None:
    (row,) = rows(made(8, band(ADD, 4)))
    assert told(row) == [
        ("larks_head", [2], [9, 10], 2),
        ("square_knot", [1, 2, 3, 4, 5, 6], [1, 2, 9, 10, 3, 4], None),
        ("larks_head", [8], [11, 12], 6),
        ("square_knot", [7, 8, 9, 10, 11, 12], [5, 6, 11, 12, 7, 8], None),
    ]
    assert row["order_after"] == [1, 2, 9, 10, 3, 4, 5, 6, 11, 12, 7, 8]
    width = 64.0
    assert [tie["x_mm"] for tie in row["ties"]] == [
        pytest.approx(x, abs=0.005)
        for x in (1.5 * width / 8, 3.0 * width / 10, 7.5 * width / 10, 9.0 * width / 12)
    ]
    assert row["ties"][0]["roles"] == ["mount", "mount"]
    assert [row["ties"][i]["step"] for i in (0, 1)] == [1, 2]


# Contract 4: left within `mirror`; every cord of the step on the strand in that lane.
def test_in_a_mirror_cords_are_added_to_the_left() -> None:
    steps = """\
      - mirror: [add: {after: 2, cords: 2}]
      - both: [hitch: {lead: 1, to: 3}]
"""
    (row,) = rows(made(4, band(steps, 4)))
    assert told(row)[:2] == [("larks_head", [3], [5, 6], 3), ("larks_head", [3], [7, 8], 3)]
    # 1 2 5 6 7 8 3 4: lane 1 leads to 3, and in the mirror lane 8 to 6
    assert told(row)[2:] == [
        ("double_half_hitch", [1, 2], [1, 2], 1),
        ("double_half_hitch", [2, 3], [1, 5], 1),
        ("double_half_hitch", [7, 8], [3, 4], 4),
        ("double_half_hitch", [6, 7], [8, 4], 4),
    ]
    assert row["order_after"] == [2, 5, 1, 6, 7, 4, 8, 3]
    steps = "      - mirror: [mirror: [add: {after: 1}]]\n"
    (row,) = rows(made(4, band(steps, 4)))
    assert row["order_after"] == [1, 5, 6, 2, 3, 4]


# Strand 2 passes what is tied first, then the cord whose strands hang furthest aside, then the
# other; it never goes up again, and the upper cord is no higher than the row may begin.
@pytest.mark.parametrize(
    "way", ["add: {after: 2, cords: 3}", "mirror: [add: {after: 3, cords: 3}]"]
)
@pytest.mark.parametrize("first", ["", "      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}\n"])
def test_several_cords_hang_one_below_another_in_their_row(way: str, first: str) -> None:
    mount = "{kind: hitched, rod: 20 mm, tail: 10 cm}"
    found = made(4, band(f"{first}      - {way}\n", 4), mount)
    mounted, row = found.layout.piece.rows[0], rows(found)[1]
    tops = [tie["y_mm"] for tie in row["ties"] if tie["knot"] == "larks_head"]
    apart = 4.7 * 4.0  # how far a cord looped on takes up its strand, in 4 mm cord
    expected = [tops[-1 if "mirror" not in way else 0] + apart * i for i in range(3)]
    assert sorted(tops) == pytest.approx(expected, abs=0.02)
    assert tops == sorted(tops, reverse="mirror" not in way)
    above = mounted.placements[0]
    assert min(tops) >= above.y + above.shape.bottom - 0.01
    (placed,) = found.layout.piece.rows[1].placements
    runs = [run for run in inner_runs(placed.shape, 4.0) if run.who in (1, 2)]
    assert len(runs) >= 2
    assert all(run.curve[-1] >= run.curve[1] for run in runs)


EDGES = """\
      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}
      - add: {after: 1}
      - hitch: {lead: 6, to: 1}
      - end: {lanes: [2, 3]}
"""


# Contract 4, by hand: `add` needs its lane, `end` takes those there; lanes not there still count in
# the motif's numbering; steps keep their numbers.
def test_parts_at_the_sides_add_and_end_what_is_there() -> None:
    first, second = rows(made(8, band(EDGES, 4, "rows: 2, offset: half")))
    assert first["order_after"] == [4, 10, 2, 3, 8, 12, 6, 7]
    # the motif's last half at the left: its lane 1 isn't there, so it adds nothing, and its two
    # lanes count as 5 and 6
    left = [tie for tie in told(second) if set(tie[2]) <= {4, 10}]
    assert left == [
        ("square_knot", [1, 2], [4, 10], None),
        ("double_half_hitch", [1, 2], [4, 10], 10),
    ]
    # its first half at the right: 6 7, then 6 15 16 7, 7 leads, and 6 and 15 end
    right = [tie for tie in told(second) if set(tie[2]) & {6, 7, 15, 16}]
    assert [tie[0] for tie in right] == ["square_knot", "larks_head", *["double_half_hitch"] * 3]
    assert right[1] == ("larks_head", [7], [15, 16], 6)
    assert second["order_after"] == [10, 4, 12, 14, 3, 8, 7, 16]
    assert [tie["step"] for tie in second["ties"]][:2] == [1, 3]


def test_a_strand_that_ends_stops_at_its_last_tie() -> None:
    steps = """\
      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}
      - end: {lanes: [2]}
      - knot: {kind: overhand, lanes: [1, 2, 3]}
"""
    found = made(8, band(steps, 4, after="  - {kind: fringe, length: 5 cm}\n"))
    (row,) = rows(found)
    assert row["order_after"] == [1, 3, 4, 5, 7, 8]
    layout = found.layout
    assert layout.piece.ended == (2, 6)
    assert layout.hanging[2] == ENDED
    short, long = (found.figures()["cords"][i] for i in (1, 2))
    assert short["strands"] == [2]
    # finish: 10 cm of tail above, and the end: what a hand needs to work it in (contract 5: 12 cm)
    assert short["use"]["finish_mm"] == pytest.approx(100.0 + 120.0)
    assert short["cut_mm"] < long["cut_mm"]
    # the others hang at thirds of the width now, down to the edge
    ends = [layout.ends[strand] for strand in row["order_after"]]
    assert [round(end.x, 6) for end in ends if end] == [
        round((i + 0.5) * 64.0 / 6, 6) for i in range(6)
    ]
    assert {end.y for end in ends if end} == {1200.0}
    words = found.words()
    assert "(2) End the cord in place 2, with 12 cm (4 3/4 in) left at the back" in words
    assert "Draw the ends of the cords that ended in the work" in words


def test_a_leader_may_end_and_another_takes_its_place() -> None:
    steps = """\
      - hitch: {lead: 1, to: 4}
      - end: {lanes: [4]}
      - hitch: {lead: 1, to: 3}
"""
    (row,) = rows(made(4, band(steps, 4)))
    assert [tie["leader"] for tie in row["ties"]] == [1, 1, 1, 2, 2]
    assert row["order_after"] == [3, 4, 2]


# Thérèse de Dillmont, Encyclopedia of Needlework (c. 1890), fig. 599 [CHECK_VALUES 1]: 4 threads
# folded on a ring, 4 times, 8 added; rows of flat knots decrease from 10 to 2. [D] 16 folded
# threads are 32 ends; with 8 more they are the 40 of 10 flat knots on four.
def test_the_ring_of_figure_599() -> None:
    rest = band(
        "      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}\n"
        "      - knot: {kind: square_knot, lanes: [5, 6, 7, 8]}\n"
        "      - add: {after: 4}\n",
        8,
        after="  - {kind: square_knot_mesh, rows: 9, shape: decrease}\n"
        "  - {kind: fringe, length: 6 cm}\n",
    )
    found = made(32, rest, "{kind: ring, diameter: 12 cm}")
    band_row, *net = rows(found)
    added = [tie for tie in band_row["ties"] if tie["knot"] == "larks_head"]
    assert [strand for tie in added for strand in tie["strands"]] == list(range(33, 41))
    assert [len(row["ties"]) for row in net] == [10, 9, 8, 7, 6, 5, 4, 3, 2]
    cords = found.figures()["cords"]
    assert [cord["cord"] for cord in cords[16:]] == ["M17", "M18", "M19", "M20"]
    assert all(cord["fold_mm"] == cord["cut_mm"] / 2 for cord in cords)
    assert "Lay M17–M20 aside" in found.words()


# Common practice: folded cords looped onto a strand and bound below it make a tassel.
def test_a_tassel_of_cords_added_to_one_strand() -> None:
    rest = """\
sections:
  - kind: columns
    parts:
      - strands: 1
        sections:
          - {kind: free, length: 4 cm}
          - {name: bunch, kind: motif_band, motif: bunch, rows: 1}
          - {kind: tassel, wrap: 1 cm}
          - {kind: fringe, length: 8 cm}
motifs: {bunch: {strands: 1, steps: [add: {after: 1, cords: 3}]}}
"""
    head = HEAD.format(width=300, count=3, mount="{kind: hitched, rod: 3 cm, tail: 8 cm}", drop=400)
    found = build(loads(head + rest))
    bound = [row for row in rows(found) if row["ties"][0]["knot"] == "gathering_knot"]
    assert [row["ties"][0]["strands"] for row in bound] == [
        [1, *range(4, 10)], [2, *range(10, 16)], [3, *range(16, 22)],
    ]  # fmt: skip
    assert [row["ties"][0]["lanes"][0] for row in bound] == [1, 8, 15]
    cut = {cord["cord"]: cord for cord in found.figures()["cords"]}
    # one strand a cord on the branch, with its tail; those that are added are folded, without one
    assert cut["M1"]["fold_mm"] is None
    assert cut["M4"]["fold_mm"] == cut["M4"]["cut_mm"] / 2


def test_added_cords_in_a_rod_pocket_come_after_the_tails() -> None:
    rest = band(ADD, 4, after="  - {kind: hitch_line, layer: tails}\n")
    mount = "{kind: rod_pocket, rod: 12 mm, rows: 8, tail: 40 cm}"
    *_, lace, tails = rows(made(8, rest, mount))
    assert lace["order_after"] == [1, 2, 17, 18, 3, 4, 5, 6, 19, 20, 7, 8]
    # the tails hang as they did, eight to the width
    assert tails["order_after"] == list(range(9, 17))
    assert [tie["x_mm"] for tie in tails["ties"]] == [4.0 + 8.0 * i for i in range(8)]


FEWER = "      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}\n      - end: {lanes: [1]}\n"


@pytest.mark.parametrize(
    ("count", "rest", "said"),
    [
        (
            12, band(FEWER, 6, after="  - {kind: square_knot_mesh, rows: 2}\n"),
            "sections[1]: 10 strands hang here, once strands were added or ended, and "
            "square_knot_mesh needs a multiple of 4, 4 at the least; add or end strands so that",
        ),
        (
            12, band(FEWER, 6, "rows: 2"),
            "sections[0].motif: 'a': row 2 of band finds 10 strands, and its motif needs a "
            "multiple of 6; use fewer rows, or add or end strands",
        ),
        (
            12,
            band(FEWER, 6, after="  - {kind: sennits, knot: half_knot, strands: 3, count: 2}\n"),
            "sections[1]: 10 strands hang here",
        ),
        (
            8,
            band(FEWER, 4, after="  - kind: columns\n    parts:\n      - strands: 8\n"
                 "        sections: [{kind: free, length: 1 cm}]\n"),
            "sections[1]: 6 strands hang here, once strands were added or ended, and columns needs "
            "a multiple of 8, 8 at the least",
        ),
        (
            8,
            "sections:\n  - kind: repeat\n    times: 2\n    sections:\n"
            "      - {kind: square_knot_mesh, rows: 1}\n"
            "      - {kind: motif_band, motif: a, rows: 1}\n"
            f"motifs:\n  a:\n    strands: 8\n    steps:\n{FEWER}",
            "sections[0].sections[0]: 7 strands hang here",
        ),
        (
            4, band("      - add: {after: 1, cords: 40}\n", 2),
            "row 1: 164 strands of 4 mm don't fit into 3.2 cm; add fewer cords, so that there are "
            "32 strands at most",
        ),
    ],
)  # fmt: skip
def test_what_follows_must_suit(count: int, rest: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        made(count, rest)
    assert said in str(caught.value)


def test_tails_of_a_part_that_was_recounted_cannot_be_hitched() -> None:
    rest = """\
sections:
  - kind: columns
    parts:
      - strands: 4
        sections:
          - {kind: motif_band, motif: a, rows: 1}
          - {kind: hitch_line, layer: tails}
motifs: {a: {strands: 4, steps: [add: {after: 2}]}}
"""
    with pytest.raises(PatternError, match="layer: 'tails': strands were added or ended above"):
        made(8, rest, "{kind: rod_pocket, rod: 12 mm, rows: 8, tail: 40 cm}")


def test_more_than_twenty_thousand_strands_are_refused() -> None:
    # wide enough for the lanes: what is counted is every strand there ever was
    steps = "      - repeat: {times: 40, steps: [add: {after: 1, cords: 60}, end: {lanes: [%s]}]}\n"
    lanes = ", ".join(str(lane) for lane in range(2, 122))
    head = HEAD.format(width=8000, count=400, mount=OPEN, drop=90_000)
    with pytest.raises(PatternError, match="row 1: more than 20,000 strands; add fewer cords"):
        build(loads(head + band(steps % lanes, 40)))


def test_rows_that_are_fill_stop_where_they_no_longer_suit() -> None:
    steps = "      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}\n      - end: {lanes: [1, 4]}\n"
    found = made(16, band(steps, 4, "rows: fill", "  - {kind: fringe, length: 5 cm}\n"))
    assert [len(row["order_after"]) for row in rows(found)] == [8, 4, 2]


def test_a_repeat_adds_again_and_again() -> None:
    rest = """\
sections:
  - kind: repeat
    times: 3
    sections:
      - {name: lace, kind: motif_band, motif: a, rows: 1}
      - {kind: square_knot_mesh, rows: 1}
motifs: {a: {strands: 4, steps: [add: {after: 4, cords: 2}, gap: 5 mm]}}
"""
    found = made(4, rest, drop=2000)
    assert [len(row["order_after"]) for row in rows(found)] == [8, 8, 16, 16, 32, 32]
    parts = found.layout.piece.parts[1:]
    assert [(part.strands, part.among) for part in parts] == [
        (4, 4), (8, 8), (8, 8), (16, 16), (16, 16), (32, 32),
    ]  # fmt: skip


# Only the top has room at the middle of an arch: there nothing is added, at the sides it is, and
# each column is counted on from the last.
def test_a_top_adds_what_its_steps_do() -> None:
    steps = """\
      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}
      - add: {after: 1}
      - mirror: [add: {after: 1}]
      - knot: {kind: square_knot, lanes: [3, 4, 5, 6]}
      - both: [hitch: {lead: 1, to: 4}]
"""
    edge = "lower_edge: {profile: parabola, rise: 10 cm}\n"
    rest = edge + band(steps, 4, after="  - {kind: fringe, length: 2 cm}\n") + "    top: 1\n"
    (row,) = rows(made(24, rest, drop=275, pitch=14))
    added = [tie["strands"] for tie in row["ties"] if tie["knot"] == "larks_head"]
    whole = [(tie["lanes"][0] - 1) for tie in row["ties"] if tie["step"] == 1]
    assert whole == [0, 8, 12, 16, 20, 24]  # four lanes for a top, eight for a whole motif
    assert added == [[25, 26], [27, 28], [29, 30], [31, 32]]
    assert row["order_after"][8:24] == list(range(5, 21))


# A swatch of a band that adds strands is measured on the piece's own lanes.
def test_a_swatch_may_be_of_a_band_that_adds() -> None:
    swatch = "swatch: {of: band, strands: 8, width: 64 mm, rows: 2, height: 12 cm}\n"
    steps = FEWER.replace("end: {lanes: [1]}", "add: {after: 4, cords: 2}")
    found = made(8, swatch + band(steps, 4, "rows: 2, gap: 2 cm"), drop=900)
    top = min(tie["y_mm"] for tie in rows(found)[0]["ties"])
    part = next(part for part in found.layout.piece.parts if part.name == "band")
    assert part.tall != 1.0
    assert part.bottom - top == pytest.approx(120.0, abs=0.01)


def test_the_interpreter_notices_wrong_words_of_what_is_added_or_ended() -> None:
    """Proof that the comparison can fail."""
    steps = ADD + "      - end: {lanes: [2, 5]}\n      - hitch: {lead: 1, to: 4}\n"
    piece = made(8, band(steps, 4)).layout.piece
    lines = printed(piece)
    for good, bad in (
        ("onto the cord in place 2:", "onto the cord in place 3:"),
        ("in places 3–4", "in places 4–5"),
        ("End the cords in places 2 and 5", "End the cords in places 2 and 6"),
        ("Loop a new cord", "Loop 2 new cords"),
    ):
        assert any(good in line for line in lines)
        try:
            worked = execute(line.replace(good, bad) for line in lines)
        except AssertionError:
            continue
        assert worked != recorded(piece)


@settings(max_examples=25)
@given(strategies.pieces())
def test_lanes_are_those_mounted_with_those_added_without_those_ended(piece: Piece) -> None:
    strands = piece.gauge.strands
    for row in piece.rows:
        if row.layer != "tails":
            assert row.among == strands
            strands += row.more
            assert len(row.order_after) == strands
    assert len(piece.lanes) == strands
    added = [cord for cord in piece.cords if cord.added]
    ends = len(piece.ended)
    assert piece.gauge.strands + 2 * len(added) - ends == strands
    assert [cord.id for cord in piece.cords if cord.role == "main"] == [
        f"M{i}" for i in range(1, sum(cord.role == "main" for cord in piece.cords) + 1)
    ]
