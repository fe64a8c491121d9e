from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.errors import PatternError
from knotplot.pattern.source import read, read_value, resolve
from knotplot.units import WrittenFloat


# YAML 1.2.2, chapter 10.3.2: the core schema's tag resolution
@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("null", None), ("Null", None), ("NULL", None), ("~", None), ("", None),
        ("true", True), ("True", True), ("TRUE", True), ("false", False),
        ("0", 0), ("-19", -19), ("+12", 12), ("0o14", 12), ("0x3A", 58),
        ("0.", 0.0), ("-0.0", -0.0), (".5", 0.5), ("+12e03", 12000.0), ("-2E+05", -200000.0),
        (".inf", float("inf")), ("-.Inf", -float("inf")),
        # text here, something else in YAML 1.1
        ("on", "on"), ("no", "no"), ("yes", "yes"), ("y", "y"), ("1:30", "1:30"),
        ("1_000", "1_000"), ("0b1", "0b1"), ("2024-05-06", "2024-05-06"), ("nUll", "nUll"),
        ("tRUE", "tRUE"), ("inf", "inf"), ("-", "-"), (".", "."), ("1e", "1e"), ("<<", "<<"),
    ],
)  # fmt: skip
def test_plain_scalars_follow_the_core_schema(text: str, value: object) -> None:
    found = resolve(text)
    assert found == value
    assert isinstance(found, type(value))


def test_numbers_keep_how_they_are_written() -> None:
    number = resolve("1e3")
    assert isinstance(number, WrittenFloat)
    assert number.text == "1e3"
    assert resolve("007") == 7
    assert resolve("007").text == "007"


def test_quoted_scalars_are_text() -> None:
    root = read("a: '1'\nb: \"true\"\nc: |\n  1\nd: on\n").root
    assert root == {"a": "1", "b": "true", "c": "1\n", "d": "on"}


def test_keys_are_text_whatever_they_look_like() -> None:
    assert read("1: a\non: b\nnull: c\n").root == {"1": "a", "on": "b", "null": "c"}


TEXT = """\
knotplot: 1
size:
  width: 3
  drop:
    4
list:
- a
-
  b: 1
"""


@pytest.mark.parametrize(
    ("path", "line"),
    [
        ((), 1),
        (("knotplot",), 1),
        (("size",), 2),
        (("size", "width"), 3),
        (("size", "drop"), 5),
        (("size", "nothing"), 2),
        (("list", 0), 7),
        (("list", 1), 9),
        (("list", 1, "b"), 9),
        (("list", 7), 6),
        (("nothing", "at", "all"), 1),
    ],
)
def test_lines_are_found(path: tuple[str | int, ...], line: int) -> None:
    assert read(TEXT, "f.yaml").locate(path) == ("f.yaml", line)


def test_what_can_be_read_past_is_gathered() -> None:
    source = read("a: &x 1\nb: *x\nc: !t 2\nc: 3\n---\nd: 1\n", "f")
    said = [(fault.line, fault.problem) for fault in source.faults]
    assert said == [
        (1, "an anchor '&x'"),
        (2, "an alias '*x'"),
        (3, "a tag '!t'"),
        (4, "the key 'c' again, first on line 3"),
        (5, "a second document"),
    ]
    assert source.root["c"] == "2"


def test_one_value_is_a_scalar_or_flow() -> None:
    assert read_value("120 cm", "o") == "120 cm"
    assert read_value("{a: [1, 2]}", "o") == {"a": [1, 2]}
    assert read_value("", "o") is None
    for text in ("a: b", "- a", "{a: 1", "*a", "&a 1", "a\n---\nb", "{a: 1, a: 2}", "\x00"):
        with pytest.raises(PatternError):
            read_value(text, "o")


plain = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(st.characters(codec="ascii"), max_size=8),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text("abc", min_size=1), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(plain)
def test_json_is_read_as_it_is(value: object) -> None:
    assert read("[" + json.dumps(value) + "]").root == [value]
