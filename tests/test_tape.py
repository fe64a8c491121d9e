"""Lengths to cut: centimetres exact, inches never less."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.tape import EIGHTH, cut_cm, fold_place, folded_inches, inches_text, inches_up, to_cut

LENGTHS = st.integers(1, 100_000_000).map(lambda n: Fraction(n, 100))  # 0.01 mm to 1 km


def read_inches(text: str) -> Fraction:
    """Return inches as they are read from text."""
    feet = re.search(r"(\d+) ft", text)
    inches = re.search(r"(?:ft )?((?:\d+ )?\d+/\d+|\d+) in", text)
    found = sum(map(Fraction, inches[1].split()), Fraction(0)) if inches else Fraction(0)
    return 12 * int(feet[1] if feet else 0) + found


@pytest.mark.parametrize(
    ("mm", "told"),
    [
        # 11.45 m is 450.787 in, 12.45 m 490.157 in.
        (11_450, "1145 cm (37 ft 7 in)"),
        (12_450, "1245 cm (40 ft 11 in)"),
        (Fraction(11_450), "1145 cm (37 ft 7 in)"),
        (342, "34.2 cm (13 1/2 in)"),
        (914.4, "91.44 cm (36 in)"),
        (Fraction(4826, 5), "96.52 cm (3 ft 2 in)"),
        (1, "0.1 cm (1/8 in)"),
        (1219.2, "121.92 cm (4 ft)"),
    ],
)
def test_a_length_to_cut_is_told_exactly_and_in_inches_up(mm, told: str) -> None:
    assert to_cut(mm) == told


@given(LENGTHS)
def test_centimetres_are_exact_and_inches_no_shorter(mm: Fraction) -> None:
    assert Fraction(cut_cm(mm).removesuffix(" cm")) * 10 == mm
    inches = read_inches(to_cut(mm).split("(")[1])
    assert inches == inches_up(mm)
    assert mm <= inches * Fraction(127, 5) < mm + Fraction(127, 5) / (1 if inches > 36 else 8)


@given(LENGTHS, st.integers(1, 99))
def test_both_sides_of_a_fold_have_their_length_in_inches_too(cut: Fraction, part: int) -> None:
    left = cut * part / 100
    inches = folded_inches(cut, [float(left)])
    at = inches_up(float(left), EIGHTH)
    assert at * Fraction(127, 5) >= left - Fraction(1, 10**6)
    assert (inches - at) * Fraction(127, 5) >= cut - left - Fraction(1, 10**6)
    assert inches <= inches_up(cut) + 1


@given(st.integers(0, 80_000).map(lambda n: Fraction(n, 8)))
def test_inches_read_back(inches: Fraction) -> None:
    assert read_inches(inches_text(inches)) == inches


def test_a_place_to_fold_is_told_in_eighths_however_long() -> None:
    assert fold_place(3990) == "399 cm (13 ft 1 1/8 in)"


def test_past_a_hundredth_of_a_millimetre_is_rounded_up() -> None:
    assert cut_cm(Fraction(100, 3)) == "3.334 cm"
