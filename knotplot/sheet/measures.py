"""Numbers as the sheet writes them."""

from __future__ import annotations

from fractions import Fraction

from knotplot.pattern.parts import INCH_UNITS
from knotplot.sheet.words import Words
from knotplot.units import MM

_EXACT_HOURS = 5.0  # below this halves are told
_POUND = 453.59237  # g: the international avoirdupois pound, exactly


def metres(length: Fraction | float, say: Words) -> str:
    """Return a length (mm) in whole metres and yards, rounded up: never too little to buy."""
    whole, yards = -(-Fraction(length) // 1000), -(-Fraction(length) // MM["yd"])
    return say("metres", metres=f"{whole:,}", yards=f"{yards:,}")


def metres_line(length: Fraction | float, say: Words) -> str:
    """Return the same on one line."""
    return metres(length, say).replace("\n", " / ")


def total(length: Fraction | float, say: Words) -> str:
    """Return what many cords come to (mm), in metres and yards however little it is."""
    return say(
        "total", metres=f"{float(length) / 1000:,.1f}", yards=f"{float(length / MM['yd']):,.1f}"
    )


def left_over(length: Fraction | float, say: Words) -> str:
    """Return what is left of a spool (mm), in metres and feet, never more than is there."""
    tenths, feet = int(length // 100), int(length // MM["ft"])
    return say("left over", metres=f"{tenths / 10:,.1f}", feet=f"{feet:,}")


def mass(grams: float, say: Words) -> str:
    """Return a mass in g and lb, in kg from 1 kg on."""
    pounds = f"{grams / _POUND:,.1f}" if grams >= 100 else f"{grams / _POUND:.2f}"
    if grams < 999.5:
        return say("grams", mass=f"{grams:.0f}", pounds=pounds)
    kilograms = f"{grams / 1000.0:,.1f}" if grams < 1e5 else f"{grams / 1000.0:,.0f}"
    return say("kilograms", mass=kilograms, pounds=pounds)


def spool_mass(grams: Fraction | float, say: Words) -> str:
    """Return what is on a spool as it is sold by mass: no digits that its label hasn't got."""
    pounds = plain(float(grams) / _POUND)
    if grams < 1000:
        return say("grams", mass=plain(grams), pounds=pounds)
    return say("kilograms", mass=plain(float(grams) / 1000.0, 2), pounds=pounds)


def spool_length(length: Fraction | float, say: Words, units: str | None = None) -> str:
    """Return how much is on a spool (mm) in m and yd; of a pattern in `units`, in one of them."""
    key = (
        "metres yards" if units is None else "only yards" if units in INCH_UNITS else "only metres"
    )
    metres, yards = plain(length / 1000), plain(length / MM["yd"])
    return say(key, metres=metres, yards=yards)


def time(hours: float, say: Words) -> str:
    """Return how long the work takes, no finer than can be known."""
    if hours < 0.96:
        return say("minutes", minutes=max(5, 5 * round(hours * 12.0)))
    told = round(2.0 * hours) / 2.0 if hours < _EXACT_HOURS else float(round(hours))
    return say("hour") if told == 1.0 else say("hours", hours=f"{told:,g}")


def plain(number: Fraction | float, places: int = 1) -> str:
    """Return a number with at most so many decimals, none where it is whole.

    >>> plain(Fraction(5, 2)), plain(3.0)
    ('2.5', '3')
    """
    text = f"{float(number):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
