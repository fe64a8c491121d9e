"""The parts of a pattern beside its work: size, swatches, strands, cutting, support, cost."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field, model_validator

from knotplot import stock
from knotplot.discovery import hint
from knotplot.errors import Refusal
from knotplot.fields import (
    Confidence,
    Count,
    CountOrAuto,
    Length,
    LengthOrZero,
    Line,
    Percent,
    Positive,
    Price,
    Spec,
    StrandCount,
    UnitLength,
    Written,
    current_units,
    number_in,
    wrong,
)

MOST_SWATCHES = 200
LEAST_CONFIDENCE = 0.01
INCH_UNITS = ("in", "ft", "yd")


class Size(Spec):
    """The finished piece, as it hangs.

    Example: `{width: 92 cm, drop: 84 cm}`.
    """

    width: Length
    """The finished width, hanging. Example: `92 cm`."""
    drop: Length
    """The finished height: from the top of the support to the lowest trimmed point.
    Example: `84 cm`.
    """


class Opening(Spec):
    """What the piece covers, in place of `size`.

    The piece is (width + 2 × overlap) × fullness wide.

    Example: `{width: 80 cm, drop: 60 cm, overlap: 3 cm, fullness: 1.3}`.
    """

    width: Length
    """The width of what is covered. Example: `80 cm`."""
    drop: Length
    """The finished height: from the top of the support to the lowest trimmed point.
    Example: `60 cm`.
    """
    overlap: LengthOrZero = Fraction(0)
    """How far the piece reaches beyond the opening at each side. Example: `3 cm`."""
    fullness: Annotated[
        Fraction,
        Written(
            lambda value: _exact(value, 20),
            float,
            {"type": "number", "exclusiveMinimum": 0, "maximum": 20},
        ),
    ] = Fraction(1)
    """How many times as wide as what it covers the piece is: 1 hangs flat, more falls in folds. A
    plain number up to 20.
    Example: `1.3`.
    """


def _exact(value: object, most: float) -> Fraction:
    """Return a plain number above 0 as it is written, exactly."""
    number = number_in(value, 0.0, most)
    if isinstance(value, int):  # however it is written, as 0x2
        return Fraction(int(value))
    return Fraction(getattr(value, "text", repr(number)))


class Swatch(Spec):
    """A sample that the maker knotted and measured.

    It sets how many strands the width takes, how tall rows come out, and how much cord they take.

    Example: `{strands: 20, width: 13.1 cm, hung_width: 14 cm, rows: 4, height: 7.2 cm}`.
    """

    of: Line | None = None
    """The section, by name or kind, that the swatch is of. The first swatch also serves every
    section that has none of its own.
    Example: `net`.
    """
    strands: StrandCount | None = None
    """How many strands it has. Example: `20`."""
    width: Length | None = None
    """How wide it came out, flat on the board. Example: `13.1 cm`."""
    hung_width: Length | None = None
    """How wide it is once it hangs with weight in it; this counts where it is given.
    Example: `14 cm`.
    """
    rows: Count | None = None
    """How many rows it has. Example: `4`."""
    height: Length | None = None
    """How tall those rows came out, flat on the board. Example: `7.2 cm`."""
    hung_height: Length | None = None
    """How tall they are once it hangs; this counts where it is given. Example: `7.5 cm`."""
    cord_used: Length | None = None
    """How much cord one strand took over those rows, in the mean. Example: `41 cm`."""
    minutes: Positive | None = None
    """How many minutes it took. Example: `14`."""

    @property
    def gauge_width(self) -> Fraction | None:
        """Return the width that counts: hung, else as worked (mm)."""
        return self.hung_width or self.width

    @property
    def gauge_height(self) -> Fraction | None:
        """Return the height that counts: hung, else as worked (mm)."""
        return self.hung_height or self.height


class Strands(Spec):
    """How many strands the piece has.

    Without a swatch, give `count`.

    Example: `{count: 88}`.
    """

    rounding: Literal["nearest", "up", "down"] = "nearest"
    """From the swatch, take the `nearest` count that suits all parts, or the next one `up` or
    `down`.
    Example: `up`.
    """
    count: StrandCount | None = None
    """The count itself, which must suit all parts; without it, it comes from the swatch.
    Example: `88`.
    """


class Allowance(Spec):
    """How sure you want to be that no cord comes out short.

    Example: `{confidence: 0.99}`.
    """

    confidence: Confidence = 0.99
    """The chance that all cords of one piece are long enough, from 0.01 to below 1.
    Example: `0.99`.
    """

    @model_validator(mode="after")
    def _not_hopeless(self) -> Allowance:
        if self.confidence < LEAST_CONFIDENCE:
            raise wrong(
                f"a confidence of {self.confidence:g}, at which cords nearly always run short",
                f"use {LEAST_CONFIDENCE} or more, as 0.99",
            )
        return self


def _default_step() -> Fraction:
    return Fraction(254, 5) if current_units() in INCH_UNITS else Fraction(50)


class Cut(Spec):
    """How many different lengths the cut list may have, and what they are rounded up to.

    Example: `{groups: 4, step: 5 cm}`.
    """

    groups: CountOrAuto = "auto"
    """The most lengths that cords of one use, kind and colour are cut in; `auto` takes the fewest
    that cost no further spool and hardly any cord (5 %).
    Example: `4`, `auto`.
    """
    step: Length = Field(default_factory=_default_step)
    """Lengths are rounded up to a whole number of these. Unless said it is 5 cm, or 2 in where
    `units` are in, ft or yd.
    Example: `5 cm`.
    """


def _material(value: object) -> str:
    stock.material(value)
    return str(value).strip()


Material = Annotated[
    str,
    Written(
        _material, None, {"type": "string", "minLength": 1, "examples": ["pine", "steel tube"]}
    ),
]


class Support(Spec):
    """What the piece hangs on: a rod on two brackets.

    From it follows how far it sags and what each bracket carries.

    Example: `{material: pine, diameter: 20 mm, span: 95 cm}`.
    """

    material: Material
    """What the rod is made of, in words of the trade.
    Example: `pine`, `steel tube`, `found branch`.
    """
    diameter: UnitLength
    """How thick it is. Example: `20 mm`."""
    span: Length
    """How far apart the brackets are. Example: `95 cm`."""
    wall: UnitLength | None = None
    """How thick the wall of a tube is; without it, the usual one. Example: `1.5 mm`."""
    price: Price | None = None
    """What the rod costs, for one piece. Example: `12 EUR`."""


class Work(Spec):
    """What a commission costs: the hour, and what comes on top.

    Example: `{rate: 22 EUR, overhead: 15 %, markup: 30 %, tax: 20 %}`.
    """

    rate: Price
    """What an hour of work costs. Example: `22 EUR`."""
    overhead: Percent = Fraction(0)
    """What is added for rent, tools and the like. Example: `15 %`."""
    markup: Percent = Fraction(0)
    """What is added for profit. Example: `30 %`."""
    tax: Percent = Fraction(0)
    """What is added for tax, at the end. Example: `20 %`."""
    minutes: dict[str, Positive] = Field(default_factory=dict)
    """The minutes that you take for one tie of a knot, by the knot's name; for the others usual
    ones count.
    Example: `{square_knot: 0.4}`.
    """


ROLES = ("working", "filler", "leader", "knotting", "wrap", "mount")


def _role(value: object) -> str:
    if value not in ROLES:
        raise Refusal("unknown role", hint(value, ROLES))
    return str(value)


Role = Annotated[str, Written(_role, None, {"type": "string", "enum": list(ROLES)})]
CordUse = dict[str, dict[Role, Positive]]
