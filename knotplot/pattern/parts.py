"""The parts of a pattern beside its work: size, cord, swatches, edge, cutting, cost."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from knotplot import stock
from knotplot.discovery import hint
from knotplot.errors import Refusal
from knotplot.fields import (
    Colour,
    Confidence,
    Count,
    CountOrAuto,
    Flag,
    Length,
    LengthOrZero,
    Line,
    MassPerLength,
    Percent,
    Positive,
    Price,
    SignedLength,
    Spec,
    SpoolSize,
    StrandCount,
    UnitLength,
    Written,
    colour_name,
    current_units,
    number_in,
    wrong,
)
from knotplot.tying.colouring import Run

MOST_SCALLOPS = 1000
MOST_RUNS = 1000
LEAST_CONFIDENCE = 0.01
INCH_UNITS = ("in", "ft", "yd")


class Size(Spec):
    """The finished piece as it hangs (mm): drop from the top of the support to the lowest point."""

    width: Length
    drop: Length


class Opening(Spec):
    """What the piece covers (mm): its width is (width + 2·overlap)·fullness."""

    width: Length
    drop: Length
    overlap: LengthOrZero = Fraction(0)
    fullness: Annotated[
        Fraction,
        Written(
            lambda value: _exact(value, 20),
            float,
            {"type": "number", "exclusiveMinimum": 0, "maximum": 20},
        ),
    ] = Fraction(1)


def _exact(value: object, most: float) -> Fraction:
    """Return a plain number above 0 as it is written, exactly."""
    number = number_in(value, 0.0, most)
    return Fraction(getattr(value, "text", repr(number)))


class Cord(Spec):
    """A cord: `diameter` in mm, `mass_per_length` in g/m; what a spool holds and costs."""

    diameter: UnitLength
    construction: Literal["twisted", "braided", "single"] = "twisted"
    fibre: Line | None = None
    mass_per_length: MassPerLength | None = None
    spool: SpoolSize | None = None
    spools: Annotated[tuple[SpoolSize, ...], Field(min_length=1)] | None = None
    price_per_spool: Price | None = None

    @model_validator(mode="after")
    def _one_of_spool_and_spools(self) -> Cord:
        if self.spool is not None and self.spools is not None:
            raise wrong("both spool and spools", "give one of the two")
        return self


class Cords(Spec):
    """Cords by kind: `main` serves mains and leaders, `wrap` wraps."""

    main: Cord
    wrap: Cord | None = None


def _run(value: object) -> Run:
    match = (
        re.fullmatch(r"([^*]*?)(?: *\* *([0-9]{1,5}) *)?", value)
        if isinstance(value, str)
        else None
    )
    if not match or not match[1].strip() or (match[2] and not int(match[2])):
        raise Refusal("not a run of one colour", "write a colour and a count, like 'natural*6'")
    return Run(colour_name(match[1]), int(match[2] or 1))


def _hex(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"#[0-9a-fA-F]{6}", value):
        raise Refusal("not a colour", 'write six hexadecimal digits in quotes, like "#a4502f"')
    return value.lower()


ColourRun = Annotated[
    Run, Written(_run, str, {"type": "string", "pattern": r"^[^*]+(\* *[0-9]+)?$"}, (Run,))
]
Hex = Annotated[str, Written(_hex, None, {"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"})]


class Colours(Spec):
    """The colours of the main cords from the left, repeated; `mirror` reflects them.

    `palette` gives the ink of a colour by its name; one that isn't there is drawn as usual cord.
    """

    order: Annotated[tuple[ColourRun, ...], Field(min_length=1, max_length=MOST_RUNS)]
    mirror: Flag = False
    palette: dict[Colour, Hex] = Field(default_factory=dict)


class Swatch(Spec):
    """What the maker knotted and measured, as worked and hung (mm, minutes)."""

    of: Line | None = None
    strands: StrandCount | None = None
    width: Length | None = None
    hung_width: Length | None = None
    rows: Count | None = None
    height: Length | None = None
    hung_height: Length | None = None
    cord_used: Length | None = None
    minutes: Positive | None = None

    @property
    def gauge_width(self) -> Fraction | None:
        """Return the width that counts: hung, else as worked (mm)."""
        return self.hung_width or self.width

    @property
    def gauge_height(self) -> Fraction | None:
        """Return the height that counts: hung, else as worked (mm)."""
        return self.hung_height or self.height


class Strands(Spec):
    """How many strands: rounded from the swatch, or said."""

    rounding: Literal["nearest", "up", "down"] = "nearest"
    count: StrandCount | None = None


def _share(value: object) -> float:
    number = -1.0
    if isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value) if abs(value) < 2 else -1.0
    if not 0.0 <= number <= 1.0:
        raise Refusal("not a number from 0 to 1", "write a number from 0 to 1")
    return number


Share = Annotated[float, Written(_share, None, {"type": "number", "minimum": 0, "maximum": 1})]
Profile = Literal["straight", "arc", "parabola", "catenary", "vee", "scallops", "points"]


class LowerEdge(Spec):
    """The trim line: a `profile` that rises `rise` mm (an arch, above 0) or falls (a point)."""

    profile: Profile = "straight"
    rise: SignedLength = Fraction(0)
    count: Count | None = None
    at: tuple[tuple[Share, Share], ...] | None = None

    @model_validator(mode="after")
    def _check(self) -> LowerEdge:
        if (self.profile == "scallops") != (self.count is not None):
            if self.count is None:
                raise wrong("scallops without a count", "give 'count', as 5")
            raise wrong(f"a count with profile {self.profile}", "use it with scallops only")
        if self.count is not None and self.count > MOST_SCALLOPS:
            raise wrong(f"{self.count} scallops", f"use {MOST_SCALLOPS} at most")
        if (self.profile == "points") != (self.at is not None):
            if self.at is None:
                raise wrong("points without 'at'", "give 'at', as [[0, 0], [0.5, 1], [1, 0]]")
            raise wrong(f"'at' with profile {self.profile}", "use it with points only")
        if self.at is not None:
            self._check_points(self.at)
        return self

    @staticmethod
    def _check_points(at: tuple[tuple[float, float], ...]) -> None:
        xs, fs = [x for x, _ in at], [f for _, f in at]
        if len(at) < 2 or (xs[0], xs[-1]) != (0.0, 1.0):
            raise wrong("points that don't reach both ends", "begin 'at' with x 0, end with x 1")
        if any(not b > a for a, b in pairwise(xs)):
            raise wrong("x doesn't rise from point to point", "put the points in order of x")
        if (min(fs), max(fs)) != (0.0, 1.0):
            raise wrong("points that don't reach f 0 and f 1", "let f run from 0 to 1")

    @property
    def straight(self) -> bool:
        """Tell whether it is a straight edge: no profile, or no rise."""
        return self.profile == "straight" or self.rise == 0


class Allowance(Spec):
    """How sure the cut lengths are: the chance that all cords of one piece are long enough."""

    confidence: Confidence = 0.99

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
    """The cut list: at most `groups` lengths a role, kind and colour, in whole `step`s (mm).

    `auto` is the fewest of 1 to 8 with which neither the spools of that kind and colour nor, by
    more than 5 %, the cord is more than with 8.
    """

    groups: CountOrAuto = "auto"
    step: Length = Field(default_factory=_default_step)


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
    """What the piece hangs on, for its sag (mm): a rod on two brackets `span` apart.

    `material` is a name that `stock` knows, `wall` a tube's, `price` the rod's for one piece.
    """

    material: Material
    diameter: UnitLength
    span: Length
    wall: UnitLength | None = None
    price: Price | None = None


class Work(Spec):
    """What an hour costs, what comes on top (shares), and the maker's own minutes a knot."""

    rate: Price
    overhead: Percent = Fraction(0)
    markup: Percent = Fraction(0)
    tax: Percent = Fraction(0)
    minutes: dict[str, Positive] = Field(default_factory=dict)


ROLES = ("working", "filler", "leader", "knotting", "wrap", "mount")


def _role(value: object) -> str:
    if value not in ROLES:
        raise Refusal("unknown role", hint(value, ROLES))
    return str(value)


Role = Annotated[str, Written(_role, None, {"type": "string", "enum": list(ROLES)})]
CordUse = dict[str, dict[Role, Positive]]


def rise_fault(edge: LowerEdge, width: Fraction, drop: Fraction) -> tuple[str, str] | None:
    """Return (problem, remedy) where the rise doesn't suit a piece so wide and deep (mm)."""
    rise = abs(edge.rise)
    if edge.straight:
        return None
    if rise >= drop:
        return ("a rise as tall as the drop", "give a rise below the drop, or a longer drop")
    if edge.profile == "arc" and rise > width / 2:
        return ("a rise over half the width, more than an arc has", "use a parabola, or less rise")
    return None
