"""`cut.groups: auto` and `fold: auto`: what a sane maker would choose (contract, 2 and 5)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from knotplot import build, loads
from knotplot.api import WorkedPiece
from knotplot.materials.groups import MOST_GROUPS

# A net that draws in: its outer cords end early, so that the cords need many different lengths.
POINT = """
knotplot: 1
size: {width: 60 cm, drop: 90 cm}
cord: {diameter: 4 mm, spool: %s}
strands: {count: 64}
colours: {order: [sand*3, rust*5]}
swatch: {rows: 4, hung_height: 7 cm}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {kind: hitch_line}
  - {kind: square_knot_mesh, rows: 14, shape: decrease, spacing: 1 cm}
  - {kind: fringe, length: 10 cm}
lower_edge: {profile: vee, rise: -40 cm}
"""
# Four strands a sennit, the outer two of which work: one strand of each cord takes far more.
BRAIDS = """
knotplot: 1
size: {width: 12 cm, drop: 70 cm}
cord: {diameter: 4 mm, spool: %s}
strands: {count: 16}
mount: {kind: larks_head, rod: 20 mm, fold: %s}
sections:
  - {name: braids, kind: sennits, knot: square_knot, strands: 4, count: %d}
  - {kind: fringe, length: 6 cm}
"""
Kind = tuple[str, str | None]


def cord_and_spools(made: WorkedPiece) -> dict[Kind, tuple[Fraction, int]]:
    """Return by kind and colour what is cut (mm), and the spools it takes."""
    return {
        (buy.kind, buy.colour): (buy.total, len(buy.spools.spools) if buy.spools else 0)
        for buy in made.bill.shopping
    }


def lengths(made: WorkedPiece, kind: Kind) -> list[Fraction]:
    return sorted(
        each.cut for each in made.bill.lengths if (each.cord.kind, each.cord.colour) == kind
    )


@pytest.mark.parametrize("spool", ["50 m", "100 m", "37 m", "1000 m"])
@pytest.mark.parametrize("step", ["5 cm", "1 cm"])
def test_auto_is_the_fewest_lengths_that_cost_no_spool_and_hardly_any_cord(
    spool: str, step: str
) -> None:
    sets = [f"cut.step={step}"]
    auto = build(loads(POINT % spool, sets=sets))
    asked = [
        build(loads(POINT % spool, sets=[*sets, f"cut.groups={groups}"]))
        for groups in range(1, MOST_GROUPS + 1)
    ]
    amounts = [cord_and_spools(made) for made in asked]
    for kind, (most_cord, most_spools) in amounts[-1].items():
        first = next(
            i
            for i, each in enumerate(amounts)
            if each[kind][0] <= most_cord * Fraction(105, 100) and each[kind][1] <= most_spools
        )
        assert lengths(auto, kind) == lengths(asked[first], kind)


def test_without_spools_cord_alone_decides() -> None:
    text = POINT.replace(", spool: %s", "")
    auto = build(loads(text))
    total = sum(each.cut for each in auto.bill.lengths)
    with_eight = build(loads(text, sets=["cut.groups=8"]))
    assert total <= Fraction(105, 100) * sum(each.cut for each in with_eight.bill.lengths)
    assert len(auto.bill.cutting) < len(with_eight.bill.cutting)


@pytest.mark.parametrize("knots", [3, 8, 20, 35])
@pytest.mark.parametrize("spool", ["25 m", "500 m"])
def test_auto_folds_unevenly_where_that_saves_a_spool_or_a_tenth(knots: int, spool: str) -> None:
    made = {
        fold: build(loads(BRAIDS % (spool, fold, knots))) for fold in ("auto", "middle", "uneven")
    }
    cord = {fold: sum(each.cut for each in m.bill.lengths) for fold, m in made.items()}
    spools = {fold: sum(n for _, n in cord_and_spools(m).values()) for fold, m in made.items()}
    worth = (
        cord["uneven"] <= Fraction(9, 10) * cord["middle"] or spools["uneven"] < spools["middle"]
    )
    chosen = "uneven" if worth else "middle"
    assert made["auto"].layout.piece.mounting.fold == chosen
    assert [c.cut for c in made["auto"].bill.lengths] == [c.cut for c in made[chosen].bill.lengths]
    assert made["auto"].words() == made[chosen].words()


def test_both_folds_are_chosen_somewhere() -> None:
    few, many = (build(loads(BRAIDS % ("500 m", "auto", knots))) for knots in (2, 35))
    assert few.layout.piece.mounting.fold == "middle"
    assert many.layout.piece.mounting.fold == "uneven"
    assert not any("fold" in each for each in few.figures()["warnings"])
    assert "folded in half" in few.words()
    assert "folded in half" not in many.words()


def test_a_wraps_ends_are_not_counted_twice() -> None:
    """A wrap's ends lie in it already: nothing more is cut to hold them."""
    text = POINT % "50 m" + "\n"
    text = text.replace("  - {kind: fringe", "  - {kind: gather, wrap: 4 cm}\n  - {kind: fringe")
    text = text.replace("lower_edge: {profile: vee, rise: -40 cm}\n", "").replace(
        "14, shape: dec", "6, shape: dec"
    )
    made = build(loads(text, sets=["cut.step=0.1 mm", "cut.groups=9", "size.drop=120 cm"]))
    (wrap,) = [each for each in made.bill.lengths if each.cord.role == "wrap"]
    # The tie's own 5 % at z₂ of about 4, the shared 8 % at t of about 2: under half of it.
    assert wrap.used < float(wrap.cut) < 1.5 * wrap.used
    assert float(wrap.cut) - wrap.used < 0.45 * wrap.used
