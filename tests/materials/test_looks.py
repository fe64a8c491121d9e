"""Fringes of unlike length and picots that nothing holds: said with place and what to write."""

from __future__ import annotations

import re

import pytest

from knotplot.api import WorkedPiece, build
from knotplot.pattern.load import loads


def told(piece: WorkedPiece, word: str) -> list[str]:
    return [text for text in piece.warnings if word in text]


# --- the two ends of a runner --------------------------------------------------------------------


def runner(
    tail: str = "15 cm", rows: str = "12", length: str = "10 cm", more: str = "",
    mount: str = "open", units: str = "cm",
) -> WorkedPiece:  # fmt: skip
    rod = "" if mount == "open" else ", rod: 20 mm"
    return build(
        loads(
            f"""
knotplot: 1
units: {units}
size: {{width: 24 cm, drop: 60 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: 24}}
mount: {{kind: {mount}, tail: {tail}{rod}}}
sections:
  - {{name: net, kind: square_knot_mesh, rows: {rows}}}
  - {{kind: fringe, length: {length}}}
{more}
"""
        )
    )


def fringe(piece: WorkedPiece) -> float:
    part = piece.layout.piece.parts[-1]
    return part.bottom - part.top


@pytest.mark.parametrize("rows", ["12", "fill"])
@pytest.mark.parametrize("length", ["4 cm", "10 cm", "fill"])
@pytest.mark.parametrize("tail", ["6 cm", "15 cm", "18 cm"])
@pytest.mark.parametrize("units", ["cm", "in"])
def test_unlike_fringes_are_told_and_what_is_told_cures_them(rows, length, tail, units) -> None:
    if rows == length == "fill":
        return  # the format has one of them
    before = runner(tail, rows, length, units=units)
    (top,) = {float(re.sub(" cm", "", tail)) * 10.0}
    unlike = abs(top - fringe(before)) > max(10.0, 0.1 * min(top, fringe(before)))
    found = told(before, "the fringes at the two ends are unlike")
    assert len(found) == unlike
    if not found:
        return
    write = re.search(r"use 'tail: ([^']+)' under 'mount'(?: and 'length: ([^']+)')?", found[0])
    assert write
    assert (write[2] is None) == (length == "fill")
    after = runner(write[1], rows, write[2] or length, units=units)
    assert told(after, "unlike") == []
    assert len(after.layout.piece.rows) == len(before.layout.piece.rows)


def test_both_lengths_are_told() -> None:
    piece = runner()
    (text,) = told(piece, "unlike")
    assert "15 cm (5 7/8 in) at the top" in text
    assert f"{fringe(piece) / 10:.1f}".removesuffix(".0") + " cm" in text


def test_a_shaped_end_and_a_piece_on_a_rod_are_unlike_on_purpose() -> None:
    assert told(runner(more="lower_edge: {profile: vee, rise: -4 cm}"), "unlike") == []
    assert told(runner(mount="hitched"), "unlike") == []


# --- picots --------------------------------------------------------------------------------------


def picots(steps: str, rows: int = 1) -> WorkedPiece:
    return build(
        loads(
            f"""
knotplot: 1
size: {{width: 12 cm, drop: 50 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: 8}}
mount: {{kind: larks_head, rod: 20 mm}}
sections:
  - {{name: band, kind: motif_band, motif: eared, rows: {rows}}}
  - {{kind: fringe, length: 6 cm}}
motifs:
  eared:
    strands: 8
    steps: [{steps}]
"""
        )
    )


KNOT = "{knot: {kind: square_knot, lanes: [3, 4, 5, 6]%s}}"
PLAIN, PICOT = KNOT % "", KNOT % ", picot: 25 mm"


def test_a_picot_above_the_first_knot_of_a_run_is_told_with_its_place() -> None:
    (text,) = told(picots(f"{PICOT}, {PICOT}"), "picots")
    assert text == (
        "“band”, row 2: step 1 of motif eared leaves picots above the first knot of its run, where "
        "no knot above holds them: they flop outwards like ears; tie a plain knot before it: "
        "'- knot: {kind: square_knot, lanes: [3, 4, 5, 6]}'"
    )


def test_the_plain_knot_that_is_told_cures_it() -> None:
    (text,) = told(picots(PICOT), "picots")
    knot = text.rpartition("'- ")[2].removesuffix("'")
    assert told(picots(f"{{{knot}}}, {PICOT}, {PICOT}"), "picots") == []


def test_later_rows_go_on_with_the_run_and_are_not_told() -> None:
    (text,) = told(picots(PICOT, rows=3), "picots")
    assert "row 2: " in text


def test_every_row_whose_run_begins_with_one_is_told_in_one_line() -> None:
    across = "{hitch: {lead: 1, to: 8}}"
    (text,) = told(picots(f"{across}, {PICOT}", rows=3), "picots")
    assert "rows 2–4: step 2 " in text


def test_a_bar_above_holds_no_picot() -> None:
    assert told(picots(f"{{hitch: {{lead: 1, to: 8}}}}, {PLAIN}, {PICOT}"), "picots") == []
