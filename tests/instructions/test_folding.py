"""Folding loses nothing and finds what comes again."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from knotplot.instructions.folding import Fold, folds


@given(st.lists(st.integers(0, 2), max_size=30), st.integers(1, 6))
def test_unfolding_gives_the_sequence_back(items: list[int], longest: int) -> None:
    found = list(folds(items, longest))
    assert [item for f in found for item in items[f.start : f.start + f.period] * f.times] == items
    assert all(f.period <= longest for f in found)


@given(st.lists(st.integers(0, 2), min_size=1, max_size=5), st.integers(2, 9))
def test_a_repeated_stretch_is_one_fold(stretch: list[int], times: int) -> None:
    (fold,) = folds(stretch * times, 5)
    assert fold.end == len(stretch) * times
    assert fold.times >= times


def test_the_shortest_period_of_equals_is_taken() -> None:
    assert list(folds("abababab", 4)) == [Fold(0, 2, 4)]
    assert list(folds("aaaa", 4)) == [Fold(0, 1, 4)]


def test_what_never_comes_again_stays_single() -> None:
    assert list(folds("abc", 3)) == [Fold(0, 1, 1), Fold(1, 1, 1), Fold(2, 1, 1)]


def test_alike_decides_what_is_the_same_again() -> None:
    def steady(a: int, b: int, base: int, first: int) -> bool:
        return b - a == first - base

    assert list(folds([1, 3, 5, 7, 8], 1, steady)) == [Fold(0, 1, 4), Fold(4, 1, 1)]
