from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from pydantic import ValidationError

from knotplot.errors import PatternError
from knotplot.fields import (
    Confidence,
    Count,
    Flag,
    Length,
    LengthOrFill,
    Line,
    Positive,
    Reading,
    SignedLength,
    Spec,
    in_units,
)
from knotplot.units import WrittenFloat


class Sample(Spec):
    length: Length | None = None
    signed: SignedLength | None = None
    fill: LengthOrFill | None = None
    count: Count | None = None
    flag: Flag | None = None
    line: Line | None = None
    positive: Positive | None = None
    confidence: Confidence | None = None


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"count": True}, "not a whole number"),
        ({"count": "3"}, "not a whole number"),
        ({"count": 3.0}, "use a whole number, 3"),
        ({"count": 3.5}, "use a whole number, 3 or 4"),
        ({"count": 0}, "zero; use 1 or more"),
        ({"count": -2}, "negative"),
        ({"count": 10**12}, "too many"),
        ({"flag": 1}, "neither true nor false"),
        ({"flag": "yes"}, "neither true nor false"),
        ({"line": [3]}, "not text"),
        ({"line": "a\nb"}, "more than one line"),
        ({"line": "a\x00b"}, r"U\+0000"),
        ({"line": "a\ud800b"}, r"U\+D800"),
        ({"line": "x" * 999}, "too long"),
        ({"line": "  "}, "empty"),
        ({"positive": 0}, "out of range"),
        ({"positive": "3"}, "not a number"),
        ({"positive": True}, "not a number"),
        ({"positive": float("nan")}, "not a finite number"),
        ({"positive": 10**400}, "not a finite number"),
        ({"confidence": 1}, "out of range"),
        ({"length": 3}, "needs a unit"),
        ({"length": "x{y}"}, "not a length"),
        ({"fill": "fil"}, "or write fill"),
        ({"lenght": "3 cm"}, "lenght: unknown key; did you mean 'length'"),
    ],
)
def test_what_isnt_of_the_type_is_refused(fields: dict[str, Any], said: str) -> None:
    with pytest.raises(PatternError, match=said):
        Sample(**fields)


def test_lengths_dump_as_text_that_reads_back() -> None:
    with in_units("in"):
        made = Sample(length=0.5, signed=-3, fill="fill")
    assert made.length == Fraction(127, 10)
    dumped = made.model_dump(exclude_none=True)
    assert dumped == {"length": "127/10 mm", "signed": "-381/5 mm", "fill": "fill"}
    assert Sample(**dumped) == made
    with pytest.raises(PatternError, match="needs a unit"):
        Sample(length=0.5)  # the units end with their block


def test_text_keeps_numbers_as_they_are_written() -> None:
    assert Sample(line=WrittenFloat(1.2, "1.20")).line == "1.20"
    assert Sample(line=3).line == "3"


def test_private_keys_are_dropped_and_a_reading_notes_models() -> None:
    data = {"count": 3, "x-any": object()}
    reading = Reading()
    made = Sample.model_validate(data, context=reading)
    assert made == Sample(count=3)
    assert reading.models == {id(data): Sample}
    with pytest.raises(ValidationError, match="frozen"):
        made.count = 4
