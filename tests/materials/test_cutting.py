from __future__ import annotations

import itertools
import math
import random
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.materials.cutting import exact, group_lengths, steps_needed, waste_by_groups

# Cut lengths printed, cm, by figure: Thérèse de Dillmont, Encyclopedia of Needlework (English ed.
# c. 1890, public domain), "Macramé". She gives no finished sizes, so they test only the cut list.
DILLMONT_CM = {
    "548": (80,), "551": (50,), "556/557": (50,), "560": (120,), "562": (75,), "563": (75,),
    "569": (80,), "573": (65,), "578": (90,), "579": (170,), "583": (120,), "586": (150,),
    "589": (100, 40), "599": (200,), "604": (200,),
}  # fmt: skip
DILLMONT_MM = [10 * cm for lengths in DILLMONT_CM.values() for cm in lengths]

needs = st.lists(st.integers(1, 400), min_size=1, max_size=9)


def brute(steps, groups):
    """Return the best choice of lengths by trying all: least sum, fewest, the shorter."""
    distinct = sorted(set(steps))
    choices = []
    for size in range(1, min(groups, len(distinct)) + 1):
        for rest in itertools.combinations(distinct[:-1], size - 1):
            lengths = (*rest, distinct[-1])
            cuts = [next(length for length in lengths if length >= step) for step in steps]
            choices.append((sum(cuts), size, lengths, cuts))
    return min(choices)


def test_dillmonts_lengths_in_as_many_groups_as_there_are():
    different = len(set(DILLMONT_MM))
    assert list(group_lengths(DILLMONT_MM, 50, different)) == DILLMONT_MM
    assert waste_by_groups(DILLMONT_MM, 50, different)[-1] == 0


def test_dillmonts_lengths_in_four_groups():
    cuts = group_lengths(DILLMONT_MM, 50, 4)
    assert list(cuts) == [50 * step for step in brute([mm // 50 for mm in DILLMONT_MM], 4)[3]]
    assert sorted(set(cuts)) == [500, 800, 1200, 2000]


@given(needs, st.sampled_from([1, 7, 50]), st.integers(1, 5))
def test_the_best_of_all_choices(lengths, step, groups):
    steps = [-(-length // step) for length in lengths]
    cuts = group_lengths(lengths, step, groups)
    assert [cut / step for cut in cuts] == brute(steps, groups)[3]


@given(needs, st.integers(1, 8))
def test_waste_for_every_number_of_lengths(lengths, groups):
    wastes = waste_by_groups(lengths, 5, groups)
    assert len(wastes) == groups
    assert list(wastes) == [
        sum(group_lengths(lengths, 5, n)) - sum(lengths) for n in range(1, groups + 1)
    ]
    assert list(wastes) == sorted(wastes, reverse=True)


@given(
    st.lists(st.floats(0.001, 1e6), min_size=1, max_size=40),
    st.fractions(Fraction(1, 8), 500),
    st.integers(1, 6),
)
def test_every_cord_is_long_enough_and_every_length_whole_steps(lengths, step, groups):
    cuts = group_lengths(lengths, step, groups)
    assert all(
        cut >= exact(need) - Fraction(1, 10**6) for cut, need in zip(cuts, lengths, strict=True)
    )
    assert all((cut / step).denominator == 1 for cut in cuts)
    assert len(set(cuts)) <= groups


def test_of_equal_sums_the_shorter_lengths():
    # 1 + 2 + 3 steps in two lengths: 1, 3, 3 and 2, 2, 3 both take 7.
    assert list(group_lengths([10, 20, 30], 10, 2)) == [10, 30, 30]


def test_rounding_noise_costs_no_step():
    assert list(group_lengths([100.0000000001, 0.1 + 0.2], 50, 4)) == [100, 50]
    assert steps_needed(100.000001, 50) == 3  # a real millionth over does


def test_steps_that_no_decimal_holds():
    third = Fraction(254, 30)  # a third of an inch
    assert group_lengths([7 * third, float(5 * third)], third, 2) == (7 * third, 5 * third)


def test_inch_steps_are_exact():
    assert group_lengths([1000], 2 * Fraction(254, 10), 1) == (Fraction(1016),)


def test_nothing_to_cut():
    assert group_lengths([], 50, 4) == ()
    assert waste_by_groups([], 50, 2) == (0, 0)


def test_twenty_thousand_cords_of_ten_thousand_lengths():
    # About half a second; one that grows with the square of the lengths would take minutes.
    rng = random.Random(2)
    lengths = [rng.randint(1000, 11_000) for _ in range(20_000)]
    one, two = waste_by_groups(lengths, 1, 2)
    assert one == 20_000 * max(lengths) - sum(lengths)
    ranked = sorted(lengths)
    saved = max((i + 1) * (ranked[-1] - length) for i, length in enumerate(ranked))
    assert two == one - saved
    assert len(set(group_lengths(lengths, 1, 8))) == 8


@pytest.mark.parametrize(
    "call",
    [
        lambda: group_lengths([100], 50, 0),
        lambda: group_lengths([100], 0, 1),
        lambda: group_lengths([-1], 50, 1),
        lambda: group_lengths([math.nan], 50, 1),
        lambda: group_lengths([math.inf], 50, 1),
    ],
)
def test_the_impossible_is_refused(call):
    with pytest.raises(ValueError, match=r"one length or more|below 0|finite"):
        call()
