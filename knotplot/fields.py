"""The types of what a maker writes: pydantic fields that say what is wrong and what would do.

Lengths are held as exact `Fraction`s of mm and dumped as text that reads back the same. A bare
number is in the pattern's `units`, which `in_units` carries while a pattern is validated.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    ValidationError,
    ValidationInfo,
    model_validator,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from knotplot import quantities
from knotplot import units as read
from knotplot.brief import fit_line
from knotplot.descriptions import described
from knotplot.errors import Fault, PatternError, Refusal
from knotplot.quantities import Money, Spool
from knotplot.units import WrittenFloat, WrittenInt
from knotplot.wording import ANYTHING_ELSE, faults_of, plain

_UNITS: ContextVar[str | None] = ContextVar("units", default=None)
MOST_STRANDS = 20_000
LARGEST_COUNT = 2_000_000  # the most ties a piece may have, so nothing is counted beyond it


@contextmanager
def in_units(units: str | None) -> Iterator[None]:
    """Read bare numbers as lengths in `units` inside this block."""
    token = _UNITS.set(units)
    try:
        yield
    finally:
        _UNITS.reset(token)


def current_units() -> str | None:
    """Return the units bare numbers are in now, None outside a pattern."""
    return _UNITS.get()


def wrong(problem: str, remedy: str) -> PydanticCustomError:
    """Return the error a validator raises: what is wrong and what would do."""
    # Braces in the two would be read as places to fill, hence the context.
    return PydanticCustomError(
        "wrong", "{problem}; {remedy}", {"problem": problem, "remedy": remedy}
    )


@dataclass(frozen=True, slots=True, eq=False)  # told apart by identity: typing hashes it
class Written:
    """Marks `Annotated[T, Written(read, write, schema)]`: how T is read, dumped and described.

    `read` returns T or raises `Refusal`; values that are already a `kept` type pass.
    """

    read: Callable[[object], Any]
    write: Callable[[Any], object] | None
    schema: Mapping[str, Any]
    kept: tuple[type, ...] = ()

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        def validate(value: object) -> Any:
            if self.kept and isinstance(value, self.kept):
                return value
            try:
                return self.read(value)
            except Refusal as refusal:
                raise wrong(refusal.fault.problem, refusal.fault.remedy) from None

        dumped = (
            core_schema.plain_serializer_function_ser_schema(self.write) if self.write else None
        )
        return core_schema.no_info_plain_validator_function(validate, serialization=dumped)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return dict(self.schema)


# JSON Schema patterns are ECMA-262's, searched for, hence the anchors.
_N = r"([0-9]+ +[0-9]+[/⁄][0-9]+|[0-9]+[/⁄][0-9]+|[0-9]*\.?[0-9]+\.?|[0-9]* *[½¼¾⅛⅜⅝⅞⅓⅔])"
_F, _I = "(ft|['′’‘ʹ])", '(in|["″”“ʺ])'
_WITH_UNIT = rf"{_N} *(mm|cm|m|yd|{_F}|{_I})|{_N} *{_F} *{_N} *{_I}"


def _text_schema(pattern: str, example: str, unit: str = "") -> dict[str, Any]:
    text = {"type": "string", "pattern": rf"^ *({pattern}) *$", "examples": [example]}
    return text | ({"description": unit} if unit else {})


def _length_schema(signed: bool, zero: bool) -> dict[str, Any]:
    sign = "[+−-]? *" if signed else ""
    text = _text_schema(rf"{sign}({_WITH_UNIT}|{_N})", "92 cm")
    least = {} if signed else {"minimum": 0} if zero else {"exclusiveMinimum": 0}
    unit = "A length (a bare number is in the pattern's units)."
    return {"anyOf": [text, {"type": "number", **least}], "description": unit}


def _length(signed: bool = False, zero: bool = False) -> Written:
    def parse(value: object) -> Fraction:
        return read.parse_length(value, _UNITS.get(), signed, zero)

    return Written(parse, read.length_text, _length_schema(signed, zero))


Length = Annotated[Fraction, _length()]
SignedLength = Annotated[Fraction, _length(signed=True, zero=True)]
LengthOrZero = Annotated[Fraction, _length(zero=True)]
UnitLength = Annotated[
    Fraction,
    Written(
        lambda value: read.parse_length(value, example="mm"),
        read.length_text,
        _text_schema(_WITH_UNIT, "20 mm", "A length with its unit, such as mm or in."),
    ),
]
Angle = Annotated[
    float,
    Written(
        quantities.parse_angle,
        None,
        {
            "anyOf": [
                {"type": "number", "minimum": 0, "exclusiveMaximum": 90},
                _text_schema(rf"{_N} *(°|deg)?", "45°"),
            ],
            "description": "An angle, in degrees.",
        },
    ),
]
MassPerLength = Annotated[
    Fraction,
    Written(
        quantities.parse_mass_per_length,
        lambda g_per_m: f"{g_per_m} g/m",
        _text_schema(rf"{_N} *g/m", "9.6 g/m", "A mass per length, in g/m."),
    ),
]
SpoolSize = Annotated[
    Spool,
    Written(
        quantities.parse_spool,
        str,
        _text_schema(
            rf"{_WITH_UNIT}|{_N} *k?g", "100 m", "A length with its unit, or a mass in g or kg."
        ),
        (Spool,),
    ),
]
Price = Annotated[
    Money,
    Written(
        quantities.parse_money,
        str,
        _text_schema(
            r"[0-9]{1,12}(\.[0-9]{1,6})? *[A-Z]{3}",
            "18.50 EUR",
            "An amount and its currency, in three capital letters.",
        ),
        (Money,),
    ),
]
Percent = Annotated[
    Fraction,
    Written(
        quantities.parse_percent,
        quantities.percent_text,
        _text_schema(rf"{_N} *%", "15 %", "A percentage, with its sign."),
    ),
]


def whole_number(value: object, least: int, most: int) -> int:
    """Return a whole number from `least` to `most`, or refuse it: text and bools are none."""
    if isinstance(value, bool) or not isinstance(value, int):
        near = ""
        if isinstance(value, float) and abs(value) < 1e9 and value == value:
            whole = int(value // 1)
            near = f", {whole}" if whole == value else f", {whole} or {whole + 1}"
        raise Refusal("not a whole number", f"use a whole number{near}")
    if value < least:
        problem = "zero" if value == 0 else "negative" if value < 0 else "too few"
        raise Refusal(problem, f"use {least} or more")
    if value > most:
        raise Refusal("too many", f"use {most:,} at most".replace(",", "\u202f"))
    return int(value)


def _count(least: int, most: int) -> Written:
    schema = {"type": "integer", "minimum": least, "maximum": most}
    return Written(lambda value: whole_number(value, least, most), None, schema)


Count = Annotated[int, _count(1, LARGEST_COUNT)]
StrandCount = Annotated[int, _count(1, MOST_STRANDS)]
Turns = Annotated[int, _count(1, 3)]  # 1 single, 2 double, 3 triple
Workers = Annotated[int, _count(1, 2)]  # working strands a side
Lane = StrandCount  # a place across the piece, counted from 1 at the left


def at_most(most: int) -> BeforeValidator:
    """Refuse a list or mapping of more than `most`, before each thing in it is looked at."""

    def check(value: Any) -> Any:
        if isinstance(value, list | tuple | dict) and len(value) > most:
            raise wrong("too many", f"give {most} at most")
        return value

    return BeforeValidator(check)


def number_in(value: object, above: float, most: float, open_end: bool = False) -> float:
    """Return a finite number above `above` and up to `most` (below it, where `open_end`)."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise Refusal("not a number", "write a plain number")
    number = float(value) if abs(value) < 1e300 else float("inf")
    if not abs(number) < float("inf"):
        raise Refusal("not a finite number", f"use a number above {above:g}")
    if number <= above or number > most or (open_end and number == most):
        limit = "below" if open_end else "up to"
        raise Refusal("out of range", f"use a number above {above:g}, {limit} {most:g}")
    return number


def _positive(most: float, open_end: bool = False) -> Written:
    end = {"exclusiveMaximum" if open_end else "maximum": most}
    schema = {"type": "number", "exclusiveMinimum": 0, **end}
    return Written(lambda value: number_in(value, 0.0, most, open_end), None, schema)


def _or_word(plain: Written, word: str) -> Written:
    """Return the type that also takes one word in place of a measure."""

    def parse(value: object) -> Any:
        if value == word:
            return word
        try:
            return plain.read(value)
        except Refusal as refusal:
            fault = refusal.fault
            raise Refusal(fault.problem, f"{fault.remedy}, or write {word}") from None

    def write(value: Any) -> object:
        return value if value == word or plain.write is None else plain.write(value)

    return Written(parse, write, {"anyOf": [dict(plain.schema), {"const": word}]})


CountOrFill = Annotated[int | Literal["fill"], _or_word(_count(1, LARGEST_COUNT), "fill")]
LengthOrFill = Annotated[Fraction | Literal["fill"], _or_word(_length(), "fill")]
CountOrAuto = Annotated[int | Literal["auto"], _or_word(_count(1, LARGEST_COUNT), "auto")]
StrandsOrRest = Annotated[int | Literal["rest"], _or_word(_count(1, MOST_STRANDS), "rest")]
Positive = Annotated[float, _positive(1_000_000)]
Confidence = Annotated[float, _positive(1, open_end=True)]


def _flag(value: object) -> bool:
    if not isinstance(value, bool):
        raise Refusal("neither true nor false", "write true or false")
    return value


Flag = Annotated[bool, Written(_flag, None, {"type": "boolean"})]


def plain_text(value: object) -> str | None:
    """Return text, or a number as it is written, as in `name: 24`; None for anything else."""
    if isinstance(value, WrittenFloat | WrittenInt):
        return value.text
    if isinstance(value, int | float) and not isinstance(value, bool):
        return str(value)
    return value if isinstance(value, str) else None


def _clean_text(value: object, most: int, lines: bool) -> str:
    """Return text that can be written in every output: no control characters, not endless."""
    value = plain_text(value)
    if value is None:
        raise Refusal("not text", "write text (in quotes, where it looks like something else)")
    if len(value) > most:
        raise Refusal("too long", f"use {most} characters at most")
    allowed = "\n\t" if lines else ""
    for character in value:
        bad = unicodedata.category(character) in ("Cc", "Cs") or character in "\ufffe\uffff"
        if bad and character not in allowed:
            what = "more than one line" if character == "\n" else f"U+{ord(character):04X}"
            raise Refusal(f"{what} in the text", "leave it out")
    if not value.strip():
        raise Refusal("empty text", "write something, or leave the key out")
    return value


def _text(most: int, lines: bool) -> Written:
    schema = {"anyOf": [{"type": "string", "minLength": 1, "maxLength": most}, {"type": "number"}]}
    return Written(lambda value: _clean_text(value, most, lines), None, schema)


Text = Annotated[str, _text(20_000, lines=True)]
Line = Annotated[str, _text(200, lines=False)]


def colour_name(value: object) -> str:
    """Return the name of a colour as it is told; refuse one that can't stand in a run of them."""
    name = _clean_text(value, 60, lines=False).strip()
    if "*" in name:
        raise Refusal("a colour with a star in its name", "leave the star out")
    return name


Colour = Annotated[
    str, Written(colour_name, None, {"type": "string", "pattern": r"^[^*]+$", "maxLength": 60})
]


@dataclass(slots=True)
class Reading:
    """What is noted while a file is validated: which model each mapping was read as, by id."""

    models: dict[int, type[BaseModel]] = field(default_factory=dict)


class Spec(BaseModel):
    """A part of a pattern: frozen, strict; unknown keys are refused, `x-…` ones dropped.

    Made in Python from the keys of a file as keywords, their values as there or as models. Raises
    `PatternError` with every fault.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        defer_build=True,
        allow_inf_nan=False,
        json_schema_extra={"patternProperties": {"^x-": {}}},
    )

    if not TYPE_CHECKING:  # a type checker knows the keywords by the fields

        def __init__(self, /, **given: Any) -> None:
            try:
                super().__init__(**given)
            except ValidationError:
                raise type(self)._keyword_faults(given) from None

        __init__.__pydantic_base_init__ = True  # what is in a model is validated in one go with it

    @classmethod
    def _keyword_faults(cls, given: Mapping[str, Any]) -> PatternError:
        """Return what is wrong with a part that is given by its keys in Python."""
        reading, root = Reading(), plain(given)
        try:
            cls.model_validate(root, context=reading)
        except ValidationError as error:
            return PatternError(faults_of(error, root, reading.models, error.error_count()))
        return PatternError((Fault((), *ANYTHING_ELSE),))

    @model_validator(mode="before")
    @classmethod
    def _drop_private_keys(cls, data: Any, info: ValidationInfo) -> Any:
        if isinstance(data, dict):
            if isinstance(info.context, Reading):
                info.context.models[id(data)] = cls
            if any(isinstance(key, str) and key.startswith("x-") for key in data):
                return {k: v for k, v in data.items() if not str(k).startswith("x-")}
        return data

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        made = handler(schema)
        described(cls, handler.resolve_ref_schema(made), dict(_defaults(cls)))
        return made

    def __repr__(self) -> str:
        given = self.model_dump(mode="json", exclude_unset=True)
        told = ", ".join(f"{key}={value!r}" for key, value in given.items())
        return fit_line(f"{type(self).__name__}({told})")

    def __str__(self) -> str:
        return repr(self)


def _defaults(model: type[BaseModel]) -> Iterator[tuple[str, object]]:
    """Yield the defaults of fields that are written otherwise than they are held."""
    for name, info in model.model_fields.items():
        if info.is_required() or info.default_factory is not None or info.default is None:
            continue
        for mark in info.metadata:
            if isinstance(mark, Written) and mark.write is not None:
                yield name, mark.write(info.default)


class Kinded(Spec):
    """A part told by its `kind`: a mount or a section."""

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        made = super().__get_pydantic_json_schema__(schema, handler)
        body = handler.resolve_ref_schema(made)
        # A default lets Python leave `kind` out; in a file it is what tells the parts apart.
        body["required"] = ["kind", *(k for k in body.get("required", ()) if k != "kind")]
        body["properties"]["kind"].pop("default", None)
        return made
