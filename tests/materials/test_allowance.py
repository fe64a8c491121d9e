from __future__ import annotations

import math
import random
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.materials.allowance import allowance_mm, cut_length_mm, hand_mm, margin


def test_one_cord_at_a_confidence_that_is_a_square():
    # √0.9409 = 0.97, of which 1.88079 is the quantile (any table of the normal distribution).
    m = margin(0.9409, 1)
    assert (m.shared, m.own) == pytest.approx((1.88079, 1.88079), abs=1e-5)


@pytest.mark.parametrize(("confidence", "cords"), [(0.5, 1), (0.9, 7), (0.99, 90), (0.999, 20_000)])
def test_each_kind_of_error_gets_the_root_of_the_confidence(confidence, cords):
    m, normal = margin(confidence, cords), NormalDist()
    assert normal.cdf(m.shared) == pytest.approx(math.sqrt(confidence), abs=1e-12)
    assert normal.cdf(m.own) ** cords == pytest.approx(math.sqrt(confidence), abs=1e-9)


@given(st.floats(0.3, 0.9999), st.integers(1, 20_000))
def test_a_cord_more_or_more_confidence_takes_more(confidence, cords):
    m = margin(confidence, cords)
    assert margin(confidence, cords + 1).own > m.own >= m.shared - 1e-12
    assert margin(confidence + 1e-5, cords).shared > m.shared


def test_hand_is_what_the_ends_lack():
    # 12 cm must hang at each free end: contract, 5.
    assert [hand_mm([]), hand_mm([120.0, 300.0]), hand_mm([0.0, 100.0])] == [0, 0, 140]


def test_the_parts_add_up():
    m = margin(0.99, 90)
    parts = {
        "shared": allowance_mm(5000, 0.08, 0, [], m),
        "own": allowance_mm(0, 0.08, 400, [], m),
        "hand": allowance_mm(0, 0.08, 0, [100, 500], m),
    }
    assert parts == pytest.approx({"shared": m.shared * 400, "own": m.own * 20, "hand": 20})
    cut = cut_length_mm(6000, 5000, 0.08, 400, [100, 500], m)
    assert cut == pytest.approx(6000 + sum(parts.values()))


def shares_short(cut_own, cut_shared, pieces=10_000, cords=12, seed=1890):
    """Work many pieces, and return the share of them with any cord too short."""
    knotted, shared_error, ties, sigma = 4000.0, 0.04, 25, 12.0
    own = math.sqrt(ties) * sigma
    rng = random.Random(seed)
    short = 0
    for _ in range(pieces):
        spare = cut_shared * shared_error * knotted + cut_own * own
        spare -= shared_error * knotted * rng.gauss(0, 1)
        short += any(own * rng.gauss(0, 1) > spare for _ in range(cords))
    return short / pieces


@pytest.mark.parametrize("confidence", [0.8, 0.95, 0.99])
def test_few_pieces_run_short(confidence):
    m = margin(confidence, 12)
    wrong = 1 - confidence
    # Three standard errors of a share among 10,000 pieces.
    assert shares_short(m.own, m.shared) <= wrong + 3 * math.sqrt(wrong * confidence / 10_000)


def test_taken_as_each_knots_own_the_shared_error_leaves_far_more_short():
    # The control: among 25 ties a shared error that averaged out would be a fifth of itself.
    m = margin(0.99, 12)
    assert shares_short(m.own, m.shared / 5) > 0.1
    # And one cord's margin forgets that the eleven others draw too.
    assert shares_short(margin(0.99, 1).own, m.shared) > shares_short(m.own, m.shared)


@pytest.mark.parametrize(
    "call",
    [
        lambda: margin(0, 5),
        lambda: margin(1, 5),
        lambda: margin(math.nan, 5),
        lambda: margin(0.9, 0),
        lambda: allowance_mm(-1, 0.04, 0, [], margin(0.9, 1)),
        lambda: allowance_mm(1, 0.04, math.nan, [], margin(0.9, 1)),
        lambda: cut_length_mm(math.inf, 1, 0.04, 0, [], margin(0.9, 1)),
    ],
)
def test_the_impossible_is_refused(call):
    with pytest.raises(ValueError, match=r"between 0 and 1|one cord|finite"):
        call()
