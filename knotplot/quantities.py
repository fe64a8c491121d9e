"""What a maker writes beside lengths: angles, mass per length, spools, money, percentages.

Read exactly; what can't be read is a `Refusal` that says what would do.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from knotplot.errors import Refusal, shown
from knotplot.units import NUMBER, as_text, length_text, number, parse_length


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in one currency (three capital letters, as EUR)."""

    amount: Decimal
    currency: str

    def __str__(self) -> str:
        return f"{self.amount} {self.currency}"


@dataclass(frozen=True, slots=True)
class Spool:
    """What one spool holds: a length in mm or a mass in g, exactly one of them given."""

    length_mm: Fraction | None = None
    mass_g: Fraction | None = None

    def __str__(self) -> str:
        if self.length_mm is not None:
            return length_text(self.length_mm)
        return f"{self.mass_g} g"


def parse_angle(value: object) -> float:
    """Read an angle in degrees, from 0 to less than 90: `45`, `45°` or `45 deg`.

    >>> parse_angle("22 1/2 deg")
    22.5
    """
    text = as_text(value, "an angle", "45")
    match = re.fullmatch(rf"({NUMBER}) *(?:°|deg)?", text)
    if not match:
        raise Refusal("not an angle", "write degrees from 0 to less than 90, like 45")
    degrees = number(match[1])
    if degrees >= 90:
        raise Refusal("too steep an angle", "give degrees from 0 to less than 90")
    return float(degrees)


def _measure(value: object, what: str, example: str, units: dict[str, Fraction]) -> Fraction:
    """Read a number above 0 with one of `units` behind it; units give the factor."""
    text = as_text(value, what, example)
    match = re.fullmatch(rf"({NUMBER}) *(\S+)?", text)
    if not match:
        raise Refusal(f"not {what}", f"write it like '{example}'")
    if match[2] is None:
        raise Refusal("needs a unit", f"write it like '{example}'")
    if match[2] not in units:
        raise Refusal(f"unknown unit {shown(match[2])} here", f"write it like '{example}'")
    amount = number(match[1]) * units[match[2]]
    if amount == 0:
        raise Refusal("zero", f"give {what} above 0, like '{example}'")
    if amount > 1_000_000:
        raise Refusal("gigantic", f"give {what} like '{example}'")
    return amount


def parse_mass_per_length(value: object) -> Fraction:
    """Read a mass per length in g/m.

    >>> parse_mass_per_length("9.6 g/m")
    Fraction(48, 5)
    """
    return _measure(value, "a mass per length", "9.6 g/m", {"g/m": Fraction(1)})


def parse_spool(value: object) -> Spool:
    """Read what a spool holds: a length with its unit (`100 m`) or a mass (`1 kg`, `500 g`)."""
    if isinstance(value, str) and re.fullmatch(r"[^a-z]*k?g\s*", value):
        masses = {"g": Fraction(1), "kg": Fraction(1000)}
        return Spool(mass_g=_measure(value, "a spool", "1 kg", masses))
    return Spool(length_mm=parse_length(value, example="m"))


def parse_money(value: object) -> Money:
    """Read an amount of money with its currency.

    >>> str(parse_money("18.50 EUR"))
    '18.50 EUR'
    """
    text = as_text(value, "an amount of money", "18.50 EUR")
    match = re.fullmatch(r"([0-9]{1,12}(?:\.[0-9]{1,6})?) *([A-Z]{3})", text)
    if not match:
        problem = "a negative amount" if text.startswith("-") else "not an amount of money"
        raise Refusal(problem, "write an amount and a currency, like '18.50 EUR'")
    return Money(Decimal(match[1]), match[2])


def parse_percent(value: object) -> Fraction:
    """Read `15 %` as the share 3/20."""
    text = as_text(value, "a percentage", "15 %")
    match = re.fullmatch(rf"({NUMBER}) *%", text)
    if not match:
        raise Refusal("not a percentage", "write it with its sign, like '15 %'")
    share = number(match[1]) / 100
    if share > 10:
        raise Refusal("gigantic", "give 1000 % at most")
    return share


def percent_text(share: Fraction) -> str:
    """Write a share as a percentage that reads back exactly."""
    return f"{share * 100} %"
