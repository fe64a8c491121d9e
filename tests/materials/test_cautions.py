"""What a maker should know before cutting: said where it is so, with what it would save."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from cords_sample import sennits

import knotplot
from knotplot.api import WorkedPiece, build
from knotplot.materials.bill import terms
from knotplot.materials.lengths import cord_lengths
from knotplot.pattern.load import loads
from knotplot.units import both

PATTERNS = sorted((Path(knotplot.__file__).parent.parent / "patterns").glob("*.yaml"))


def told(made: WorkedPiece, word: str) -> list[str]:
    return [text for text in made.warnings if word in text]


def others(made: WorkedPiece) -> list[str]:
    """Return all warnings but the one that every net without a measured height has."""
    return [text for text in made.warnings if "pushed a quarter closer" not in text]


def piece(sections: str, more: str = "", count: int = 24, width: str = "20 cm") -> WorkedPiece:
    return build(
        loads(
            f"""
knotplot: 1
size: {{width: {width}, drop: 150 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: {count}}}
mount: {{kind: open, tail: 12 cm}}
sections: [{sections}]
{more}
"""
        )
    )


def total(lengths) -> float:
    return float(sum(each.cut for each in lengths))


def metres(text: str) -> float:
    return float(re.search(r"([\d.]+) m \([\d.]+ yd\) less", text)[1])


# --- cords of very different needs -----------------------------------------------------------

BRAIDS = "{kind: sennits, knot: square_knot, strands: 4, count: 70}"


def test_one_length_for_very_uneven_cords_is_warned_of_with_what_two_would_save() -> None:
    one, two = piece(BRAIDS, "cut: {groups: 1}"), piece(BRAIDS, "cut: {groups: 2}")
    (text,) = told(one, "'groups: 2'")
    assert metres(text) == pytest.approx(
        (total(one.bill.lengths) - total(two.bill.lengths)) / 1000, abs=0.05
    )
    # Each of them works at a side of its braid.
    assert text.startswith("M1, M4, M5, M8, M9, M12, ")
    assert told(two, "groups") == []


def test_nothing_is_said_of_needs_that_are_alike() -> None:
    even = piece("{kind: square_knot_mesh, rows: 20}", "cut: {groups: 1}")
    assert others(even) == []


def test_an_uneven_fold_is_advised_where_it_saves_and_not_where_it_is() -> None:
    middle, uneven = sennits(fold="middle"), sennits()
    (text,) = told(middle, "'fold: uneven'")
    assert "M1–M8" in text
    assert metres(text) == pytest.approx(float(uneven.bill.fold_saves) / 1000, abs=0.05)
    assert told(uneven, "fold") == []
    assert told(sennits(fold="middle", count=2), "fold") == []


# --- strands that work in every row ----------------------------------------------------------


def test_strands_that_always_work_are_named_with_the_row_to_swap_from() -> None:
    (text,) = told(sennits(fold="middle"), "work in every row")
    # 35 knots in rows 2 to 36 (row 1 mounts): after 18 of them, from row 20.
    assert "1, 4, 5, 8, 9, 12, 13, 16 in “braids” (rows 2–36; swap from row 20)" in text


def test_what_swapping_saves_is_what_is_cut_where_braids_share_their_knots() -> None:
    made = sennits(fold="middle")
    (text,) = told(made, "work in every row")
    # All four strands then take the mean of a worker's and a filler's cord.
    given = []
    for each in made.bill.lengths:
        knots = sum(side.knots for side in each.sides) / 2.0
        errors = sum(side.errors for side in each.sides) / 2.0
        given.append(tuple(side._replace(knots=knots, errors=errors) for side in each.sides))
    other = cord_lengths(made.layout, terms(made.pattern), given=given)
    assert metres(text) == pytest.approx((total(made.bill.lengths) - total(other)) / 1000, abs=0.05)


def test_no_swap_is_advised_where_cords_are_cut_to_what_they_take() -> None:
    assert told(piece(BRAIDS), "work in every row") == []
    assert told(sennits(), "work in every row") == []


def test_a_net_changes_its_working_strands_by_itself() -> None:
    net = piece("{kind: square_knot_mesh, rows: 60, shape: straight}", "cut: {groups: 1}")
    assert told(net, "work in every row") == []


def test_several_sections_of_braids_are_told_in_one_line() -> None:
    braids = "{name: %s, kind: sennits, knot: square_knot, strands: 4, count: 38}"
    both_ends = piece(
        f"{braids % 'upper'}, {{kind: free, length: 3 cm}}, {braids % 'lower'}",
        "cut: {groups: 1}",
    )
    (text,) = told(both_ends, "work in every row")
    assert "in “upper” (rows 1–38; swap from row 20) and " in text
    assert "in “lower” (rows 39–76; swap from row 58)" in text


# --- sections wider than their room ----------------------------------------------------------


def test_a_crowded_line_is_told_in_trade_words_with_what_would_do() -> None:
    # Hitches lie 2.5 diameters apart: 24 · 10 mm = 24 cm in 20 cm; 20 of them would do.
    (text,) = piece("{kind: hitch_line}").warnings
    assert text == (
        f"the row of double half hitches is {both(240)} wide where nothing pulls, and has "
        f"{both(200)}: it may flare; leave it out, or hitch only one cord of every two onto it and "
        "let the other pass behind; or pull the hitches tightly together; or use 'count: 20' under "
        "'strands', 'diameter: 3.5 mm' under 'cord' or 'width: 24 cm' under 'size'"
    )
    assert piece("{kind: hitch_line}", count=20).warnings == ()


def test_crowded_lines_are_told_together_and_the_count_suits_all_sections() -> None:
    net = "{kind: square_knot_mesh, rows: 3, spacing: 2 cm}"
    lines = f"{{kind: hitch_line}}, {net}, {{kind: hitch_line}}"
    (text,) = others(piece(lines, count=28))
    assert text.startswith("the rows of double half hitches are ")
    assert "use 'count: 20' under" in text  # a multiple of 4
    assert "leave them out, or hitch only one cord of every two onto each" in text


def test_hitches_that_have_no_room_are_not_told_to_be_tight() -> None:
    (text,) = piece("{kind: hitch_line}", count=30).warnings
    assert "tightly" not in text
    assert "use 'count: 20' under" in text


def test_an_open_piece_is_as_the_maker_chose_it() -> None:
    open_net = piece("{kind: square_knot_mesh, rows: 5}", width="60 cm")
    assert others(open_net) == []
    line = piece("{kind: square_knot_mesh, rows: 5}, {kind: hitch_line}", width="60 cm")
    (told,) = others(line)
    assert "the leader shows between them" in told


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_our_patterns_warn_of_little_and_name_no_kind(path: Path) -> None:
    warnings = knotplot.build(knotplot.load(path)).warnings
    assert len(warnings) <= 3
    assert not any(re.search(r"hitch_line|square_knot|motif_band", text) for text in warnings)
