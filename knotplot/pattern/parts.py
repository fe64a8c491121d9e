"""The parts of a pattern beside its work: size, cord, swatches, edge, cutting, cost."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from knotplot import stock
from knotplot.curves.edge_profiles import PROFILES
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
    at_most,
    colour_name,
    current_units,
    number_in,
    wrong,
)
from knotplot.tying.colouring import Run

MOST_SCALLOPS = 1000
MOST_RUNS = 1000
MOST_SWATCHES = 200
LEAST_CONFIDENCE = 0.01
_LONGEST_RUN = 200  # characters of a colour and its count
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


class Cord(Spec):
    """A cord: how thick it is and how it is made; what a spool of it holds and costs.

    Example: `{diameter: 4 mm, construction: braided, spool: 100 m}`.
    """

    diameter: UnitLength
    """How thick it is in a knot: wind it ten times round a pencil, turns touching but not squeezed,
    and take a tenth of their width.
    Example: `4 mm`.
    """
    construction: Literal["twisted", "braided", "single"] = "twisted"
    """How it is made: `twisted` of plies, `braided`, or `single`, one loose strand that combs out.
    Example: `braided`.
    """
    fibre: Line | None = None
    """What it is made of, as sold; its weight is estimated from that, as cotton's where it isn't
    said.
    Example: `cotton`.
    """
    mass_per_length: MassPerLength | None = None
    """What a metre weighs, in grams: weigh 10 m and take a tenth. Without it the weight is
    estimated.
    Example: `9.6 g/m`.
    """
    spool: SpoolSize | None = None
    """What one spool holds, by length or by weight; as many as needed are bought.
    Example: `100 m`, `1 kg`.
    """
    spools: Annotated[tuple[SpoolSize, ...], Field(min_length=1)] | None = None
    """The very spools at hand, in place of `spool`. Example: `[100 m, 37 m]`."""
    price_per_spool: Price | None = None
    """What one spool costs. Example: `18.50 EUR`."""

    @model_validator(mode="after")
    def _one_of_spool_and_spools(self) -> Cord:
        if self.spool is not None and self.spools is not None:
            raise wrong("both spool and spools", "give one of the two")
        return self


class Cords(Spec):
    """Cords by what they are for, in place of `cord`.

    Example: `{main: {diameter: 4 mm}, wrap: {diameter: 3 mm}}`.
    """

    main: Cord
    """The cord that is knotted, and that leaders are cut from. Example: `{diameter: 4 mm}`."""
    wrap: Cord | None = None
    """The cord that gathers and tassels are wrapped with; without it, the main cord.
    Example: `{diameter: 3 mm}`.
    """


def _run(value: object) -> Run:
    text = value if isinstance(value, str) and len(value) <= _LONGEST_RUN else "*"
    colour, star, count = (part.strip(" ") for part in text.partition("*"))
    counted = re.fullmatch("[0-9]{1,5}", count) if star else None
    if not colour or (star and (not counted or not int(count))):
        raise Refusal("not a run of one colour", "write a colour and a count, like 'natural*6'")
    return Run(colour_name(colour), int(count) if star else 1)


def _hex(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"#[0-9a-fA-F]{6}", value):
        raise Refusal("not a colour", 'write six hexadecimal digits in quotes, like "#a4502f"')
    return value.lower()


ColourRun = Annotated[
    Run, Written(_run, str, {"type": "string", "pattern": r"^[^*]+(\* *[0-9]+)?$"}, (Run,))
]
Hex = Annotated[str, Written(_hex, None, {"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"})]


class Colours(Spec):
    """The colours of the main cords, from the left.

    Example: `{order: [natural*6, rust*2], mirror: true}`.
    """

    order: Annotated[
        tuple[ColourRun, ...], Field(min_length=1, max_length=MOST_RUNS), at_most(MOST_RUNS)
    ]
    """The colours of the cords as they are mounted, from the left, again and again; `rust*2` is two
    cords of rust. Both strands of a folded cord have one colour.
    Example: `[natural*6, rust*2]`.
    """
    mirror: Flag = False
    """`true` runs the order up to the middle and back from there. Example: `true`."""
    palette: Annotated[dict[Colour, Hex], Field(max_length=MOST_RUNS), at_most(MOST_RUNS)] = Field(
        default_factory=dict
    )
    """The ink that a colour is drawn in, as six hexadecimal digits in quotes; one that is not given
    is drawn as plain cord.
    Example: `{natural: "#e9e1d3", rust: "#a4502f"}`.
    """


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


def _share(value: object) -> float:
    number = -1.0
    if isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value) if abs(value) < 2 else -1.0
    if not 0.0 <= number <= 1.0:
        raise Refusal("not a number from 0 to 1", "write a number from 0 to 1")
    return number


Share = Annotated[float, Written(_share, None, {"type": "number", "minimum": 0, "maximum": 1})]


def _profile(value: object) -> str:
    if not isinstance(value, str) or value not in PROFILES:
        problem = "unknown word" if isinstance(value, str) else "not one of the choices"
        raise Refusal(problem, hint(value, PROFILES))
    return value


Profile = Annotated[str, Written(_profile, None, {"type": "string", "enum": list(PROFILES)})]


class LowerEdge(Spec):
    """The line that the piece is trimmed along.

    Example: `{profile: parabola, rise: 9 cm}`.
    """

    profile: Profile = "straight"
    """The shape of the line; with `straight`, or without a rise, it is level.
    Example: `parabola`.
    """
    rise: SignedLength = Fraction(0)
    """How far the line rises from the lowest to the highest place: above 0 an arch, highest in the
    middle; below 0 a point, lowest in the middle.
    Example: `9 cm`, `-30 cm`.
    """
    count: Count | None = None
    """How many scallops stand side by side; only with `profile: scallops`, which needs it.
    Example: `5`.
    """
    at: tuple[tuple[Share, Share], ...] | None = None
    """The places that a line of your own goes through; only with `profile: points`, which needs it.
    Each is [x, f]: x from 0 at the left side to 1 at the right, f from 0 at the lowest to 1 at the
    highest; both ends of each are reached.
    Example: `[[0, 0], [0.5, 1], [1, 0]]`.
    """

    @model_validator(mode="after")
    def _check(self) -> LowerEdge:
        for profile, key, example in (
            ("scallops", "count", "count: 5"),
            ("points", "at", "at: [[0, 0], [0.5, 1], [1, 0]]"),
        ):
            mine = getattr(self, key) is not None
            if self.profile == profile and not mine:
                other = {"count": "at", "at": "count"}[key]
                extra = getattr(self, other) is not None
                problem = f"{profile} without '{key}'" + f", but with '{other}'" * extra
                raise wrong(problem, f"give '{example}'" + f" and leave '{other}' out" * extra)
            if mine and self.profile != profile and self.profile not in ("scallops", "points"):
                remedy = f"leave '{key}' out, or use 'profile: {profile}'"
                raise wrong(f"'{key}' with profile {self.profile}", remedy)
        if self.count is not None and self.at is not None:
            other = "at" if self.profile == "scallops" else "count"
            raise wrong(f"'{other}' with profile {self.profile}", f"leave '{other}' out")
        if self.count is not None and self.count > MOST_SCALLOPS:
            raise wrong(f"{self.count} scallops", f"use {MOST_SCALLOPS} at most")
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


def rise_fault(edge: LowerEdge, width: Fraction, drop: Fraction) -> tuple[str, str] | None:
    """Return (problem, remedy) where the rise doesn't suit a piece so wide and deep (mm)."""
    rise = abs(edge.rise)
    if edge.straight:
        return None
    if rise >= drop:
        remedy = f"give a rise of less than {_cm(drop, 0)}, or a drop of more than {_cm(rise, 1)}"
        return ("a rise as tall as the drop", remedy)
    if edge.profile == "arc" and rise > width / 2:
        remedy = f"use a rise of {_cm(width / 2, 0)} at most, or 'profile: parabola'"
        return ("a rise over half the width, more than an arc has", remedy)
    return None


def _cm(mm: Fraction, up: int) -> str:
    """Write a length as a limit in cm, to a tenth of a millimetre; rounded up or down."""
    tenths = math.ceil(mm * 10) if up else math.floor(mm * 10)
    return f"{tenths / 100:.10g} cm"
