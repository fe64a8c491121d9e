"""Lengths to cut as a tape measures them: centimetres exactly, inches rounded up.

Whoever keeps to one of the two systems cuts no cord shorter than it was reckoned. All lengths on
a sheet are in centimetres, however long, so that those of one table compare and add up.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction

from knotplot.units import MM

FEET_FROM = 36  # in: what is longer is told in feet and inches
EIGHTH = Fraction(1, 8)
_NOISE = Fraction(1, 10**6)  # mm: a float so near a length is that length
_PLACES = 3  # decimals of a centimetre: those of the figures, 0.01 mm


def cut_cm(mm: float | Fraction) -> str:
    """Write a length (mm) in centimetres, exactly; past 0.01 mm rounded up.

    >>> cut_cm(11_450), cut_cm(Fraction(13716, 10)), cut_cm(Fraction(100, 3))
    ('1145 cm', '137.16 cm', '3.334 cm')
    """
    parts = 10 ** (_PLACES - 1)
    whole, rest = divmod(math.ceil(_exact(mm) * parts), 10 * parts)
    decimals = f"{rest:0{_PLACES}d}".rstrip("0")
    return f"{whole}.{decimals} cm" if decimals else f"{whole} cm"


def inches_up(mm: float | Fraction, finest: Fraction | None = None) -> Fraction:
    """Return a length (mm) in inches, rounded up to a whole `finest` of them.

    Where that isn't given: an eighth up to 36 in, a whole inch from there on.

    >>> inches_up(11_450), inches_up(342), inches_up(1371.6)
    (Fraction(451, 1), Fraction(27, 2), Fraction(54, 1))
    """
    inches = _exact(mm) / MM["in"]
    if finest is None:
        finest = EIGHTH if inches <= FEET_FROM else Fraction(1)
    return math.ceil(inches / finest) * finest


def inches_text(inches: Fraction) -> str:
    """Write inches, whole eighths, and feet where they are more than 36.

    >>> inches_text(Fraction(451)), inches_text(Fraction(27, 2)), inches_text(Fraction(48))
    ('37 ft 7 in', '13 1/2 in', '4 ft')
    """
    feet, rest = divmod(inches, 12) if inches > FEET_FROM else (0, inches)
    whole, part = divmod(rest, 1)
    words = [f"{feet} ft"] if feet else []
    if rest or not feet:
        told = [str(whole)] if whole or not part else []
        words.append(" ".join([*told, *([str(part)] if part else [])]) + " in")
    return " ".join(words)


def to_cut(mm: float | Fraction, inches: Fraction | None = None) -> str:
    """Write a length to cut (mm); `inches` where they are not simply this length rounded up.

    >>> to_cut(11_450)
    '1145 cm (37 ft 7 in)'
    """
    told = inches_up(mm) if inches is None else inches
    return f"{cut_cm(mm)} ({inches_text(told)})"


def fold_place(mm: float | Fraction) -> str:
    """Write how far from an end (mm) a cord is folded: inches in eighths, however long.

    >>> fold_place(3990)
    '399 cm (13 ft 1 1/8 in)'
    """
    return to_cut(mm, inches_up(mm, EIGHTH))


def folded_inches(cut: Fraction, folds: Iterable[float]) -> Fraction:
    """Return in how many inches cords of one length (mm) are cut that are folded at `folds` (mm).

    Rounded up, and so long that each side still has its length where its place is rounded up.
    """
    sides = (inches_up(left, EIGHTH) + inches_up(cut - _exact(left), EIGHTH) for left in folds)
    return max([inches_up(cut), *(inches_up(both * MM["in"]) for both in sides)])


def _exact(mm: float | Fraction) -> Fraction:
    """Return a length as a fraction; a float is rounded to a millionth of a millimetre."""
    return round(Fraction(mm) / _NOISE) * _NOISE if isinstance(mm, float) else Fraction(mm)
