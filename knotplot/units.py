"""Lengths a maker writes: read exactly, written in both systems.

A length is read into an exact `Fraction` of millimetres, never a float, since counts of strands
are computed from it. What can't be read is a `Refusal` that says what would do.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

from knotplot.errors import Refusal, shown

# International inch of 25.4 mm exactly; foot and yard are 12 and 36 of them.
MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(127, 5),
    "ft": Fraction(1524, 5),
    "yd": Fraction(4572, 5),
}
_SIGNS = {"'": "ft", '"': "in"}
LONGEST_MM = 1_000_000
_FINEST = 10**30  # the largest denominator read: finer than any measure, and bounds the work
_TEXT_MOST = 120

# Typographic and prime marks stand for the plain ones; the minus and the fraction slash too.
_PLAIN = str.maketrans(
    {
        **dict.fromkeys("′’‘ʹ", "'"),
        **dict.fromkeys("″”“ʺ", '"'),
        "−": "-",
        "⁄": "/",
        "\u00a0": " ",
        "\u202f": " ",
    }
)
_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
NUMBER = r"(?:[0-9]+ +[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_UNIT = r"[^\s0-9.,/+-]+"
_LENGTH = re.compile(rf"(?P<sign>[+-]? *)(?P<number>{NUMBER}) *(?P<unit>{_UNIT})?")
_FEET_INCHES = re.compile(
    rf"(?P<sign>[+-]? *)(?P<feet>{NUMBER}) *(?:ft|') *(?P<inches>{NUMBER}) *(?:in|\")"
)
_EXPONENT = re.compile(r"[0-9.] *[eE][+-]?[0-9]")
_COMMA = re.compile(r"(?P<whole>[0-9]+) *,(?P<part>[0-9]+)(?P<rest>.*)")
_NOT_FINITE = re.compile(r"[+-]?\.?(inf|infinity|nan)\b.*", re.IGNORECASE)
_LIKELY = {
    **dict.fromkeys(("inch", "inches", "zoll"), "in"),
    **dict.fromkeys(("foot", "feet"), "ft"),
    **dict.fromkeys(("yard", "yards", "yds"), "yd"),
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("''", "''\""), '"'),
}


class WrittenFloat(float):
    """A float that remembers how it was written, so that `1e3` can be told from `1000.0`."""

    text: str

    def __new__(cls, value: float, text: str) -> WrittenFloat:
        """Make a float of `value` that was written as `text`."""
        made = super().__new__(cls, value)
        made.text = text
        return made

    def __getnewargs__(self) -> tuple[float, str]:  # type: ignore[override]
        """Return what a copy is made of."""
        return float(self), self.text


class WrittenInt(int):
    """A whole number that remembers how it was written, so that `+5` can be told from `5`."""

    text: str

    def __new__(cls, value: int, text: str) -> WrittenInt:
        """Make a whole number of `value` that was written as `text`."""
        made = super().__new__(cls, value)
        made.text = text
        return made

    def __getnewargs__(self) -> tuple[int, str]:  # type: ignore[override]
        """Return what a copy is made of."""
        return int(self), self.text


def parse_length(
    value: object,
    units: str | None = None,
    signed: bool = False,
    zero: bool = False,
    example: str = "cm",
) -> Fraction:
    """Read a length into exact millimetres.

    `value` is text (`36 1/2 in`, `5'2½"`, `92 cm`) or a number; a bare number, or text that is
    only one, is in `units` and refused where that is None. `signed` allows a sign, `zero`
    allows 0; `example` is the unit a refusal suggests. Raises `Refusal`.

    >>> parse_length("5 ft 2 1/2 in")
    Fraction(3175, 2)
    >>> parse_length(92, "cm")
    Fraction(920, 1)
    """
    text = as_text(value, "a length", f"92 {example}")
    mm = _length_mm(text, units, signed, example)
    if mm == 0 and not zero:
        raise Refusal("a length of zero", "give a length above 0")
    if abs(mm) > LONGEST_MM:
        raise Refusal("longer than 1 km", "give a length of 1 km at most")
    return mm


def _length_mm(text: str, units: str | None, signed: bool, example: str) -> Fraction:
    both = _FEET_INCHES.fullmatch(text)
    if both:
        feet = number(both["feet"]) * MM["ft"] + number(both["inches"]) * MM["in"]
        return _with_sign(feet, both["sign"], signed)
    match = _LENGTH.fullmatch(text)
    if not match:
        raise _unreadable(text)
    unit = match["unit"]
    if unit is None:
        if units is None:
            raise Refusal("needs a unit", f"write '{text.strip(' +-')} {example}'")
        unit = units
    unit = _SIGNS.get(unit, unit)
    if unit not in MM:
        likely = _LIKELY.get(unit.lower(), unit.lower())
        if likely in MM or likely in _SIGNS:
            raise Refusal(f"unknown unit {shown(unit)}", f"write '{match['number']} {likely}'")
        raise Refusal(f"unknown unit {shown(unit)}", "use mm, cm, m, in, ft, yd, ' or \"")
    return _with_sign(number(match["number"]) * MM[unit], match["sign"], signed)


def _with_sign(mm: Fraction, sign: str, signed: bool) -> Fraction:
    sign = sign.strip()
    if sign and not signed:
        if sign == "-":
            raise Refusal("a negative length", "give a length above 0 (only a rise has a sign)")
        raise Refusal("a sign where none is allowed", "leave the + out")
    return -mm if sign == "-" else mm


def as_text(value: object, what: str, example: str) -> str:
    """Return a number or text as plain text with `0-9 . /` and ASCII marks, or refuse it."""
    if isinstance(value, bool) or not isinstance(value, int | float | Fraction | Decimal | str):
        raise Refusal(f"not {what}", f"write it like '{example}'")
    text = value if isinstance(value, str) else number_text(value, what, example)
    if len(text) > _TEXT_MOST:
        raise Refusal(f"too long to be {what}", f"write it like '{example}'")
    text = text.translate(_PLAIN).strip()
    for sign, plain in _VULGAR.items():
        text = re.sub(rf" *{sign}", f" {plain}", text)
    text = text.strip()
    _refuse_number_forms(text, what, example)
    return text


def number_text(value: float | Fraction | Decimal, what: str, example: str) -> str:
    """Return a number's digits without an exponent; refuse what would be gigantic to write."""
    if isinstance(value, WrittenFloat | WrittenInt):
        return value.text
    if isinstance(value, float):
        value = Decimal(repr(value))
    if isinstance(value, Decimal):
        if not value.is_finite():
            raise Refusal("not a finite number", f"write {what} like '{example}'")
        gigantic = abs(value.adjusted()) > _TEXT_MOST
    else:
        gigantic = value.numerator.bit_length() > 999 or value.denominator.bit_length() > 999
    if gigantic:
        raise Refusal("a gigantic number", f"write {what} like '{example}'")
    return format(value, "f") if isinstance(value, Decimal) else str(value)


def _refuse_number_forms(text: str, what: str, example: str) -> None:
    if _NOT_FINITE.fullmatch(text):
        raise Refusal("not a finite number", f"write {what} like '{example}'")
    if _EXPONENT.search(text):
        raise Refusal("a number with an exponent", f"write it out, like '{example}'")
    comma = _COMMA.search(text)
    if comma:
        better = f"{comma['whole']}.{comma['part']}{comma['rest']}"
        raise Refusal("a decimal comma", f"use a decimal point: {shown(better)}")


def _unreadable(text: str) -> Refusal:
    if not text:
        return Refusal("no length here", "write it like '92 cm'")
    if re.fullmatch(rf"[+-]? *{NUMBER} *(?:ft|') *{NUMBER}", text):
        return Refusal("inches without their mark", f"write '{text}\"'")
    units = re.findall(r"mm|cm|m|in|ft|yd|'|\"", text)
    if len(units) > 1:
        return Refusal("more than one unit", "only feet and inches go together, as '5 ft 2 1/2 in'")
    return Refusal("not a length", "write it like '92 cm', '36 1/2 in' or '5 ft 2 in'")


def number(text: str) -> Fraction:
    """Read digits, a decimal, a fraction or a whole number and a fraction, exactly."""
    total = Fraction(0)
    for part in text.split():
        above, slash, below = part.partition("/")
        if slash and not int(below):
            raise Refusal("a fraction over 0", "give a number above 0 below the line")
        total += Fraction(int(above), int(below)) if slash else Fraction(part.rstrip("."))
    if total.denominator > _FINEST:
        raise Refusal("more decimals than can be measured", "give fewer decimals")
    return total


def length_text(mm: Fraction) -> str:
    """Write a length so that it reads back exactly.

    >>> length_text(Fraction(127, 15))
    '127/15 mm'
    """
    return f"{mm} mm"


def cm(mm: float | Fraction) -> str:
    """Write a length in mm as centimetres, half to even to a millimetre.

    >>> cm(342), cm(920)
    ('34.2 cm', '92 cm')
    """
    tenths = Fraction(mm)
    exact = Decimal(tenths.numerator) / Decimal(tenths.denominator) / 10
    rounded = exact.quantize(Decimal("0.1"), ROUND_HALF_EVEN)
    text = str(rounded if rounded else abs(rounded))
    return f"{text.removesuffix('.0')} cm"


def inches(mm: float | Fraction) -> str:
    """Write a length in mm as inches in eighths.

    >>> inches(342)
    '13 1/2 in'
    """
    eighths = round(Fraction(mm) / MM["in"] * 8)
    whole, part = divmod(abs(eighths), 8)
    fraction = Fraction(part, 8)
    words = [str(whole)] if whole or not part else []
    words += [str(fraction)] if part else []
    return ("-" if eighths < 0 else "") + " ".join(words) + " in"


def extent_text(width: float | Fraction, height: float | Fraction) -> str:
    """Write a width and a height in mm.

    >>> extent_text(210, 297.4)
    '210 × 297 mm'
    """
    return f"{float(width):.0f} × {float(height):.0f} mm"


def both(mm: float | Fraction) -> str:
    """Write a length in mm in both systems.

    >>> both(342)
    '34.2 cm (13 1/2 in)'
    """
    return f"{cm(mm)} ({inches(mm)})"
