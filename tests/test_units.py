from __future__ import annotations

from contextlib import suppress
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot import quantities, units
from knotplot.errors import Refusal

INCH = Fraction(127, 5)  # 25.4 mm exactly (international yard and pound agreement, 1959)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("92 cm", 920),
        ("92cm", 920),
        ("1.5 m", 1500),
        (".5 m", 500),
        ("4 mm", 4),
        ("2 yd", 72 * INCH),
        ("3 ft", 36 * INCH),
        ("3'", 36 * INCH),
        ('36 1/2"', Fraction(73, 2) * INCH),
        ("36½ in", Fraction(73, 2) * INCH),
        ("36 ½″", Fraction(73, 2) * INCH),
        ("½ in", INCH / 2),
        ("⅞ in", INCH * 7 / 8),
        ("⅓ yd", 12 * INCH),
        ("1⁄2 in", INCH / 2),
        ("5 ft 2 1/2 in", Fraction(125, 2) * INCH),
        ("5'2½\"", Fraction(125, 2) * INCH),
        ("5′ 2½″", Fraction(125, 2) * INCH),
        ("5’2”", 62 * INCH),
        ("1000 m", 1_000_000),
    ],
)
def test_lengths_are_read_exactly(text: str, mm: Fraction) -> None:
    assert units.parse_length(text) == mm


@pytest.mark.parametrize(
    ("value", "inside", "mm"),
    [(92, "cm", 920), ("92", "cm", 920), (1.1, "cm", 11), ("36 1/2", "in", Fraction(73, 2) * INCH),
     (Decimal("0.1"), "m", 100), (Fraction(1, 3), "mm", Fraction(1, 3))],
)  # fmt: skip
def test_a_bare_number_is_in_the_patterns_units(value: object, inside: str, mm: Fraction) -> None:
    assert units.parse_length(value, inside) == mm


@pytest.mark.parametrize(
    ("value", "problem", "remedy"),
    [
        ("92", "needs a unit", "write '92 cm'"),
        (92, "needs a unit", "92 cm"),
        ("1e3 cm", "exponent", "92 cm"),
        ("1.5E+2", "exponent", "92 cm"),
        ("3,5 cm", "decimal comma", "'3.5 cm'"),
        ("1,000 mm", "comma", "1.000 mm"),
        ("-3 cm", "negative", "above 0"),
        ("+3 cm", "sign", "+ out"),
        ("0 cm", "zero", "above 0"),
        ("0/3 cm", "zero", "above 0"),
        ("3/0 cm", "over 0", "above 0"),
        ("1000.001 m", "1 km", "1 km"),
        ("9" * 100 + " m", "1 km", "1 km"),
        ("9" * 1000 + " m", "too long", "92 cm"),
        ("inf cm", "finite", "92 cm"),
        (".nan", "finite", "92 cm"),
        (float("inf"), "finite", "92 cm"),
        (float("nan"), "finite", "92 cm"),
        (Decimal("Infinity"), "finite", "92 cm"),
        (Decimal("1e999999"), "gigantic", "92 cm"),
        (10**2000, "gigantic", "92 cm"),
        (True, "not a length", "92 cm"),
        (None, "not a length", "92 cm"),
        ("", "no length", "92 cm"),
        ("cm", "not a length", "92 cm"),
        ("2 km", "unknown unit 'km'", "mm, cm, m"),
        ("25\u202e&a", "unknown unit '\\u202e&a'", "use mm"),
        ("2,5\u202ecm", "a decimal comma", "'2.5\\u202ecm'"),
        ("2 inches", "unknown unit 'inches'", "'2 in'"),
        ("2 Feet", "unknown unit 'Feet'", "'2 ft'"),
        ("2 CM", "unknown unit 'CM'", "'2 cm'"),
        ("2 cm 5 mm", "more than one unit", "feet and inches"),
        ("2 in 5 ft", "more than one unit", "feet and inches"),
        ("5'2", "inches without their mark", "'5'2\"'"),
        ("1.2.3 cm", "not a length", "92 cm"),
        ("0." + "0" * 40 + "1 m", "decimals", "fewer"),
    ],
)
def test_what_is_no_length_is_refused_with_a_remedy(
    value: object, problem: str, remedy: str
) -> None:
    with pytest.raises(Refusal) as caught:
        units.parse_length(value)
    assert problem in caught.value.fault.problem
    assert remedy in caught.value.fault.remedy


def test_sign_and_zero_only_where_allowed() -> None:
    assert units.parse_length("−9 cm", signed=True) == -90
    assert units.parse_length("+9 cm", signed=True) == 90
    assert units.parse_length("0", "cm", zero=True) == 0
    with pytest.raises(Refusal):
        units.parse_length("-1 cm", zero=True)


lengths = st.fractions(min_value=Fraction(1, 10**6), max_value=10**6, max_denominator=10**6)


@given(lengths)
def test_a_length_reads_back_from_its_text(mm: Fraction) -> None:
    assert units.parse_length(units.length_text(mm)) == mm


@given(
    st.integers(0, 3000), st.integers(0, 11), st.integers(0, 7), st.sampled_from(["'", " ft ", "′"])
)
def test_feet_inches_and_eighths_add_up(feet: int, inch: int, eighths: int, mark: str) -> None:
    text = f'{feet}{mark}{inch} {eighths}/8"'
    assert units.parse_length(text, zero=True) == (feet * 12 + inch + Fraction(eighths, 8)) * INCH


@given(st.decimals(min_value="0.001", max_value=1000, places=3))
def test_decimals_are_exact(number: Decimal) -> None:
    assert units.parse_length(f"{number} m") == Fraction(number) * 1000


@given(st.one_of(st.text(max_size=20), st.floats(), st.integers()))
def test_anything_is_read_or_refused(value: object) -> None:
    with suppress(Refusal):  # anything else that it raises fails
        assert 0 < units.parse_length(value, "cm") <= 1_000_000


@pytest.mark.parametrize(
    ("mm", "cm", "inches"),
    [
        (342, "34.2 cm", "13 1/2 in"),
        (0, "0 cm", "0 in"),
        (25.4, "2.5 cm", "1 in"),
        (Fraction(127, 40), "0.3 cm", "1/8 in"),
        (-12.7, "-1.3 cm", "-1/2 in"),
        (-0.01, "0 cm", "0 in"),
        (10_000, "1000 cm", "393 3/4 in"),
        (12.5, "1.2 cm", "1/2 in"),  # half to even
    ],
)
def test_lengths_are_written_in_both_systems(mm: Fraction, cm: str, inches: str) -> None:
    assert units.cm(mm) == cm
    assert units.inches(mm) == inches
    assert units.both(mm) == f"{cm} ({inches})"


def test_other_measures() -> None:
    assert quantities.parse_mass_per_length("9.6 g/m") == Fraction(48, 5)
    assert quantities.parse_percent("12 1/2 %") == Fraction(1, 8)
    assert quantities.parse_percent(quantities.percent_text(Fraction(1, 8))) == Fraction(1, 8)
    assert quantities.parse_money("18.50 EUR") == quantities.Money(Decimal("18.50"), "EUR")
    assert quantities.parse_spool("100 m") == quantities.Spool(length_mm=Fraction(100_000))
    assert quantities.parse_spool("1 kg") == quantities.Spool(mass_g=Fraction(1000))
    assert quantities.parse_spool(str(quantities.Spool(mass_g=Fraction(500)))).mass_g == 500
    assert quantities.parse_angle("22 1/2°") == 22.5
    assert quantities.parse_angle(0) == 0.0


@pytest.mark.parametrize(
    ("parse", "value", "said"),
    [
        (quantities.parse_mass_per_length, "9.6", "needs a unit"),
        (quantities.parse_mass_per_length, "9.6 oz/yd", "unknown unit"),
        (quantities.parse_mass_per_length, "0 g/m", "zero"),
        (quantities.parse_mass_per_length, "-1 g/m", "not a mass"),
        (quantities.parse_percent, 15, "not a percentage"),
        (quantities.parse_percent, "15,5 %", "decimal comma"),
        (quantities.parse_percent, "99999 %", "gigantic"),
        (quantities.parse_money, 18.5, "not an amount"),
        (quantities.parse_money, "EUR 18", "not an amount"),
        (quantities.parse_money, "-1 EUR", "negative"),
        (quantities.parse_money, "1,50 EUR", "decimal comma"),
        (quantities.parse_spool, 100, "write '100 m'"),
        (quantities.parse_spool, "0 kg", "zero"),
        (quantities.parse_angle, 90, "steep"),
        (quantities.parse_angle, "-5", "not an angle"),
        (quantities.parse_angle, float("nan"), "finite"),
    ],
)
def test_other_measures_are_refused_with_a_remedy(parse, value: object, said: str) -> None:
    with pytest.raises(Refusal, match=said):
        parse(value)
