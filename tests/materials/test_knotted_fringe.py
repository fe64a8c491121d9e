"""Knots in the ends of a knotted fringe: the cord they take, and that no end comes out short."""

from __future__ import annotations

import pytest

from knotplot.api import WorkedPiece, build
from knotplot.knots import catalogue, form
from knotplot.knots.base import Manner
from knotplot.materials.allowance import HOLD_MM
from knotplot.pattern.load import loads
from knotplot.sheet.facts import longest_free_strand

D = 4.0  # mm
TAIL = 20.0  # mm: tails are cut 1 to 2 cm below the knots (common practice)
HEIGHT = form("overhand", Manner(1)).height * D
TAKES = catalogue()["overhand"].cord(Manner(1)).by_role["working"] * D


def made(
    finish: str, more: str = "", length: str = "20 cm", mount: str = "larks_head"
) -> WorkedPiece:
    tail = "" if mount == "larks_head" else ", tail: 15 cm"
    return build(
        loads(
            f"""
knotplot: 1
size: {{width: 16 cm, drop: 60 cm}}
cord: {{diameter: {D:g} mm}}
strands: {{count: 16}}
mount: {{kind: {mount}, rod: 20 mm{tail}}}
sections:
  - {{kind: square_knot_mesh, rows: 4}}
  - {{kind: fringe, length: {length}, finish: {finish}}}
{more}
"""
        )
    )


def test_every_cord_has_its_knots_and_their_tails() -> None:
    """Both strands of a cord take the way to the line, a knot that stands above it, and a tail."""
    cut, tied = made("cut"), made("knotted")
    for plain, knotted in zip(cut.bill.lengths, tied.bill.lengths, strict=True):
        more = 2.0 * (TAKES - HEIGHT + TAIL)
        assert knotted.used - plain.used == pytest.approx(more, abs=0.1)
        assert knotted.knotted - plain.knotted == pytest.approx(2.0 * TAKES)
        assert knotted.cut > plain.cut
        for a, b in zip(plain.sides, knotted.sides, strict=True):
            assert b.errors - a.errors == pytest.approx((0.05 * TAKES) ** 2)
            assert b.finish - a.finish == pytest.approx(TAIL - HEIGHT, abs=0.05)


def test_an_end_is_long_enough_to_be_held_while_its_last_knot_is_tied() -> None:
    """Contract, 5: 12 cm less what hangs there; a tail of 2 cm hangs below the last knot."""
    for each in made("knotted").bill.lengths:
        assert [side.ends for side in each.sides] == [(TAIL,), (TAIL,)]
    for each in made("cut").bill.lengths:
        assert all(end > HOLD_MM for side in each.sides for end in side.ends)
    for each in made("knotted", mount="hitched").bill.lengths:
        assert sorted(end for side in each.sides for end in side.ends) == [TAIL, 150.0]


def test_the_makers_own_figure_for_the_knot_counts() -> None:
    usual, own = made("knotted"), made("knotted", "cord_use: {overhand: {working: 20}}")
    for a, b in zip(usual.bill.lengths, own.bill.lengths, strict=True):
        assert b.used - a.used == pytest.approx(2.0 * (20.0 * D - TAKES))


def test_figures_tell_where_the_cord_goes() -> None:
    cut, tied = made("cut").figures()["cords"][0], made("knotted").figures()["cords"][0]
    assert tied["use"]["knots_mm"] - cut["use"]["knots_mm"] == pytest.approx(2.0 * TAKES, abs=0.02)
    assert tied["use"]["runs_mm"] == cut["use"]["runs_mm"]
    assert sum(tied["use"].values()) == pytest.approx(tied["used_mm"], abs=0.02)


def test_the_free_strand_ends_at_the_knot_in_its_end() -> None:
    cut, tied = (longest_free_strand(made(finish).layout) for finish in ("cut", "knotted"))
    assert tied == pytest.approx(cut - HEIGHT, abs=0.05)


@pytest.mark.parametrize("length", ["1 mm", "fill"])
def test_a_knotted_fringe_has_room_for_its_knots(length: str) -> None:
    """Where hardly any fringe is asked for, the knot still doesn't lie on the last of the net."""
    rows = "sections: [{name: net, kind: square_knot_mesh, rows: fill}, "
    text = f"""
knotplot: 1
size: {{width: 16 cm, drop: 60 cm}}
cord: {{diameter: {D:g} mm}}
strands: {{count: 16}}
mount: {{kind: larks_head, rod: 20 mm}}
{rows if length != "fill" else rows.replace("fill", "20")}
  {{kind: fringe, length: {length}, finish: knotted}}]
"""
    layout = build(loads(text)).layout
    for strand in layout.piece.lanes:
        assert layout.bare_below(strand) >= 0.5 * D - 1e-6
