"""Folded cords: both sides are long enough, no side is cut as long as a worker for nothing."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
import strategies
from cords_sample import sennits
from hypothesis import given, settings
from hypothesis import strategies as st

from knotplot.api import build
from knotplot.materials.allowance import Draw, Margin, holding_reserve_mm, margin
from knotplot.materials.bill import bill, laid, terms
from knotplot.materials.folds import Halves, fold_points
from knotplot.materials.lengths import cord_lengths
from knotplot.materials.remaining import folds, remaining
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.tape import EIGHTH, fold_place, inches_up

SHARED = 0.08  # no swatch was measured for its cord: contract, 5


def whole(each) -> Draw:
    """Return what of a whole cord can run short."""
    return Draw(each.knotted, sum(side.errors for side in each.sides))


def needed(used: float, draw: Draw, ends, m: Margin) -> float:
    """Return the contract's formula: used + t·s·knotted + z₂·τ + hand, never below used."""
    more = m.shared * SHARED * draw.knotted + m.own * draw.own + holding_reserve_mm(ends)
    return used + max(0.0, more)


def by_contract(each, m):
    """Return the contract's formula over all that a cord uses."""
    ends = [end for side in each.sides for end in side.ends]
    return needed(each.used, whole(each), ends, m)


def halves(each):
    """Return how much of its cut cord either side of a folded cord has."""
    return each.fold, float(each.cut) - each.fold


@settings(max_examples=40)
@given(strategies.patterns())
def test_no_cord_is_cut_shorter_than_the_formula_of_the_contract(pattern: Pattern) -> None:
    layout = laid(pattern, strategies.tied(pattern))
    on = terms(pattern)
    for fold in ("middle", "uneven"):
        lengths = cord_lengths(layout, on, fold)
        m = margin(on.confidence, [whole(each) for each in lengths], on.shared_error)
        for each in lengths:
            least = by_contract(each, m)
            assert each.cut >= each.need - 1e-6 >= least - 2e-6
            if each.fold is None:
                assert each.need == pytest.approx(least)


@pytest.mark.parametrize("fold", ["middle", "uneven"])
@pytest.mark.parametrize("groups", [1, 2, 4])
@pytest.mark.parametrize("confidence", [0.5, 0.9, 0.99])
def test_each_side_of_a_folded_cord_suffices_by_itself(fold, groups, confidence) -> None:
    made = sennits(fold=fold, groups=groups, confidence=confidence)
    # A draw for each side: two a folded cord.
    draws = [side.draw for each in made.bill.lengths for side in each.sides]
    m = margin(confidence, draws, SHARED)
    for each in made.bill.lengths:
        for side, has in zip(each.sides, halves(each), strict=True):
            need = needed(side.used, side.draw, side.ends, m)
            assert has >= need - 1e-6


def test_a_fold_in_the_middle_is_in_the_middle_and_cut_for_twice_the_longer_side() -> None:
    for each in sennits(fold="middle").bill.lengths:
        assert each.fold == float(each.cut) / 2.0
        assert each.bare == 2.0 * max(side.used for side in each.sides)


def test_uneven_folds_are_whole_centimetres_and_keep_fillers_short() -> None:
    made, middle = sennits(), sennits(fold="middle")
    saved = sum(each.cut for each in middle.bill.lengths) - sum(
        each.cut for each in made.bill.lengths
    )
    assert made.bill.fold_saves == saved > 1000
    assert middle.bill.fold_saves is None
    for each in made.bill.lengths:
        assert each.fold % 10.0 == 0.0
        # Strands 1, 4, 5, 8 … work in every row, 2, 3, 6, 7 … never do.
        left, right = halves(each)
        assert (left > 1.5 * right) == (each.cord.strands[0] % 4 == 1)
    assert [each["fold_mm"] for each in made.figures()["cords"]] == [
        each.fold for each in made.bill.lengths
    ]


def test_in_inches_folds_are_whole_half_inches() -> None:
    made = sennits(units="in", step="2 in")
    for each in made.bill.lengths:
        assert round(each.fold / 12.7) * 12.7 == pytest.approx(each.fold)
        # So that the printed eighths are exact.
        assert inches_up(each.fold, EIGHTH) * 25.4 == pytest.approx(each.fold)


def test_what_is_left_of_a_strand_is_counted_from_the_fold() -> None:
    made = sennits()
    left = remaining(made.layout, made.bill.lengths)
    last = len(made.layout.piece.rows) - 1
    for each in made.bill.lengths:
        for side, has in zip(each.sides, halves(each), strict=True):
            told = left(side.strand, last)
            assert told == pytest.approx(has - side.knots - side.runs, abs=0.05)
            assert told >= side.finish


def test_folds_are_told_by_length_and_place_with_every_cord_once() -> None:
    made = sennits()
    told = folds(made.bill.lengths)
    assert sorted(cord for _, cords in told for cord in cords) == sorted(
        each.cord.id for each in made.bill.lengths
    )
    assert len(told) <= 4
    assert f"fold {fold_place(told[0][0])} from the left end" in " ".join(made.words().split())


SPANS = st.lists(st.tuples(st.integers(1, 40), st.integers(0, 12)), min_size=1, max_size=6)


@given(SPANS)
def test_fold_places_are_as_few_as_there_can_be(spans) -> None:
    cut, grain = Fraction(600), Fraction(10)
    cords = [Halves(10.0 * lo - 3.0, 600.0 - 10.0 * (lo + more) - 3.0, 0.5) for lo, more in spans]
    found = fold_points(cords, cut, grain)
    for cord, place in zip(cords, found, strict=True):
        assert place % 10.0 == 0.0
        assert cord.left <= place <= 600.0 - cord.right
    # So many stretches that no two of them meet need as many places, and no more are needed.
    apart = max(
        n
        for n in range(1, len(spans) + 1)
        for some in combinations(sorted(spans), n)
        if all(a + more < b for (a, more), (b, _) in pairwise(some))
    )
    assert len(set(found)) == apart


def test_what_is_over_is_shared_by_what_each_side_must_allow() -> None:
    # 1000 − 300 − 400 = 300 over, of which the left side gets a third: 400 mm.
    assert fold_points([Halves(300.0, 400.0, 1 / 3)], Fraction(1000), Fraction(10)) == [400.0]


def test_a_leader_that_its_hitches_fill_is_not_cut_for_its_span_alone() -> None:
    made = build(
        loads(
            """
knotplot: 1
size: {width: 10 cm, drop: 40 cm}
cord: {diameter: 5 mm}
strands: {count: 16}
mount: {kind: open, tail: 10 cm}
sections: [{kind: hitch_line, overhang: 6 cm}]
cord_use: {double_half_hitch: {leader: 2.5, knotting: 9.0}}
"""
        )
    )
    leader = next(each for each in made.bill.lengths if each.cord.role == "leader")
    # 16 hitches of 2.5 · 5 mm, where the piece is 100 mm wide; 60 mm stand out at each side.
    assert leader.used == pytest.approx(16 * 12.5 + 120.0)
    assert math.isclose(leader.knotted, 200.0)


def test_a_bill_of_folds_in_the_middle_is_what_the_lengths_give_asked_for_so() -> None:
    made = sennits()
    asked = cord_lengths(made.layout, terms(made.pattern), "middle")
    other = sennits(fold="middle")
    assert [each.cut for each in asked] == [each.cut for each in other.bill.lengths]
    assert bill(made.pattern, made.layout) == made.bill
