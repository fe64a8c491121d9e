"""The sheet on cutting: folds, fewer lengths, spools to tick, the allowance, where cord goes."""

from __future__ import annotations

import pytest
from sheet_sample import PLAIN, sheet_of, texts

from knotplot.api import build
from knotplot.drawing.bounds import bounds
from knotplot.drawing.shapes import Fill, Stroke
from knotplot.materials.remaining import folds
from knotplot.pattern.load import loads
from knotplot.sheet.cord_bars import LOOKS, Bar, bars
from knotplot.sheet.words import sheet_words
from knotplot.tape import cut_cm, fold_place
from knotplot.tying.names import ranges

SAY = sheet_words("en")

BRAIDS = """
knotplot: 1
title: Braids
size: {width: 24 cm, drop: 100 cm}
cord: {diameter: 4 mm, spools: [50 m, 30 m, 37 m]}
strands: {count: 32}
mount: {kind: larks_head, rod: 20 mm, fold: uneven}
sections:
  - {kind: hitch_line, overhang: 8 cm}
  - {name: braids, kind: sennits, knot: square_knot, strands: 4, count: 34}
lower_edge: {profile: vee, rise: -36 cm}
"""


def made(*sets: str, text: str = BRAIDS):
    return build(loads(text, sets=sets))


def told(*sets: str, text: str = BRAIDS) -> str:
    pages = sheet_of(made(*sets, text=text)).pages
    return " ".join(" ".join(placed.text for placed in texts(page)[2:]) for page in pages)


def total(length: float) -> str:
    return f"{length / 1000:,.1f} m ({length / 914.4:,.1f} yd)"


def test_every_place_to_fold_is_told_with_both_sides_and_its_cords() -> None:
    piece, text = made(), told()
    cut = {each.cord.id: each.cut for each in piece.bill.lengths}
    for left, cords in folds(piece.bill.lengths):
        right = float(cut[cords[0]]) - left
        assert f"{fold_place(left)} {cut_cm(right)} (" in text
        assert f"in) {ranges(cords)}" in text
    saved = total(float(piece.bill.fold_saves or 0))
    assert f"{saved} less cord is cut in all than with every cord folded in half" in text


def test_a_fold_in_the_middle_needs_no_table() -> None:
    text = told("mount.fold=middle")
    assert "folded in half: each gives two hanging cords" in text
    assert SAY("folds") not in text


def test_what_fewer_lengths_cost_is_told_from_one_to_those_cut() -> None:
    piece = made()
    text = told()
    (mains,) = [each for each in piece.bill.waste if each.role == "main"]
    last = mains.totals[-1]
    assert len(mains.totals) > 1
    assert f"{len(mains.totals)} (as here)" in text
    for each in mains.totals[:-1]:
        assert total(float(each - last)) in text
    assert SAY("fewer") not in told("cut.groups=1")


def test_the_allowance_stands_beside_a_flat_tenth() -> None:
    flat, text = made().bill.flat, told()
    assert f"The allowance comes to {total(flat.allowance)} in all" in text
    assert f"A flat ten per cent would be {total(flat.flat)}" in text
    assert "too little for every cord" in text
    # Of the leader, nearly all of which lies in knots, a tenth is too little even at 30 %.
    assert "too little for 1 cord of 17" in told("allowance.confidence=0.3")
    alone = BRAIDS.replace("  - {kind: hitch_line, overhang: 8 cm}\n", "")
    assert "enough for every cord" in told("allowance.confidence=0.3", text=alone)


def test_odd_spools_are_named_by_their_length_with_a_box_each() -> None:
    piece, text = made(), told()
    plan = piece.bill.shopping[0].spools
    assert plan is not None
    for number, spool in enumerate(plan.spools, start=1):
        assert f"Spool {number} ({float(spool.length_mm) / 1000:g} m)" in text
        cuts = [f"{count} × {label}" for label, count in spool.pieces]
        assert all(cut in text for cut in cuts)
    assert "tick its box" in text
    assert f"down the cut list, {SAY.count(plan.joins, 'plan joins')} would fall on one" in text


def test_spools_at_hand_are_told_once_in_the_maker_s_units() -> None:
    assert "50 m, 30 m, 37 m" in told()
    text = told("units=in", "cord.spools=null", "cord.spool=20 yd")
    assert "× 18.3 m (20 yd)" in text
    assert "(20 yd)" in text.split(SAY("plan"))[1]


def test_a_spool_that_is_used_up_leaves_nothing() -> None:
    each = made().bill.cutting[0].length
    used_up = told("cord.spools=null", f"cord.spool={float(each) / 500:g} m")  # two of them
    assert SAY("plan left none") in used_up
    assert "0.0 m (0 ft) left over" not in used_up


def test_lengths_that_are_not_drawn_are_said_to_be_left_out(monkeypatch) -> None:
    assert "lengths are drawn" not in told()
    monkeypatch.setattr("knotplot.sheet.cutting_part.MOST_BARS", 2)
    assert SAY("goes first", count=2) in told()


def test_leaders_come_off_what_is_left_of_a_spool() -> None:
    assert "; from what is left, 1 × " in told()
    assert "(leaders)" in told()


def test_spools_cut_alike_are_told_once_with_a_box_for_each() -> None:
    many = made("cord.spools=null", "cord.spool=10 m")
    pages = sheet_of(many).pages
    plan = many.bill.shopping[0].spools
    assert plan is not None
    (page,) = [page for page in pages if SAY("plan") in [each.text for each in texts(page)]]
    numbers = {each.text for each in texts(page) if each.text.isdigit()}
    times = plan.alike[0][1]
    assert times > 1
    assert set(map(str, range(1, times + 1))) <= numbers
    labels = [each.text for each in texts(page)]
    assert f"Spools 1–{times} (10 m each)" in labels


def test_no_plan_where_one_spool_does() -> None:
    assert SAY("plan") not in told("cord.spools=null", "cord.spool=200 m")


def test_shares_of_all_cord_add_up_to_a_hundred() -> None:
    found = {}
    for page in sheet_of(made()).pages:
        for placed in texts(page):
            for name in LOOKS:
                if placed.text.startswith(f"{SAY(f'goes {name}')}: "):
                    found[name] = int(placed.text.split(": ")[1].removesuffix(" %"))
    assert list(found) == list(LOOKS)
    assert abs(sum(found.values()) - 100) <= 3  # each of six is rounded by itself


@pytest.mark.parametrize("name", LOOKS)
def test_parts_are_as_wide_as_their_share_and_hatched_within(name: str) -> None:
    rows = [Bar("A", "x", ((name, 600.0), ("runs", 400.0))), Bar("B", "y", ((name, 250.0),))]
    wide = []
    for strip in bars(rows, 143.0, 0.0):
        fill = next(item for item in strip.items if isinstance(item, Fill))
        hatched = [item for item in strip.items if isinstance(item, Stroke)]
        xs = fill.polygons[0][::2]
        wide.append(max(xs) - min(xs))
        for stroke in hatched:
            box = bounds([stroke])
            assert min(xs) - 0.3 <= box[0]
            assert box[2] <= max(xs) + 0.3
    # 100 mm of room for the longest bar.
    assert wide == pytest.approx([60.0, 25.0])


def test_a_piece_without_a_swatch_of_cord_says_so() -> None:
    assert "No swatch was measured for its cord" in told(text=PLAIN)
