"""The first 2,000 cases of the fuzzer, and that it finds what it is there to find."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import yaml

from fuzz import case, faults, sense
from fuzz.bases import SAMPLES
from fuzz.case import Case, examine
from fuzz.run import KINDS, case_of
from fuzz.shrink import shrunk
from knotplot.errors import Fault, PatternError
from knotplot.pattern.schema import json_schema

RUN = Path(__file__).with_name("run.py")
GOOD = SAMPLES[2].encode()


@pytest.mark.parametrize("first", [0, 1000])
def test_two_thousand_cases_are_made_or_refused_in_plain_words(first: int) -> None:
    words = [sys.executable, str(RUN), "--cases", "1000", "--from", str(first), "--whole"]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, ""), done.stdout + done.stderr


@pytest.mark.parametrize("kind", KINDS)
def test_a_case_is_the_same_on_every_run(kind: str) -> None:
    assert case_of(17, 5, kind) == case_of(17, 5, kind)
    assert case_of(17, 5, kind) != case_of(18, 5, kind)
    assert case_of(17, 5, kind) != case_of(17, 6, kind)


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_samples_are_good(sample: str) -> None:
    assert examine(Case(sample.encode(), drawn=True)) == case.Outcome("good")


def test_the_samples_hold_every_key() -> None:
    held: set[str] = set()

    def hold(part: Any) -> None:
        for key, value in part.items() if isinstance(part, dict) else ():
            held.add(key)
            hold(value)
        for value in part if isinstance(part, list) else ():
            hold(value)

    for sample in SAMPLES:
        hold(yaml.safe_load(sample))
    schema = json_schema()
    models = [schema, *schema["$defs"].values()]
    keys = {key for model in models for key in model.get("properties", ())}
    # Of mounts that aren't in the samples; `valid.py` writes those.
    assert keys - held == {"diameter"} - held


# --- each kind of find is found ------------------------------------------------------------------


def found(monkeypatch: pytest.MonkeyPatch, load: Any, data: bytes = GOOD) -> list[str]:
    monkeypatch.setattr(case, "load", load)
    return [what for what, _ in examine(Case(data)).finds]


def refusing(**changes: Any) -> Any:
    def load(path: str, *_: object) -> None:
        given = {"path": ("size", "drop"), "value": "30", "origin": str(path), "line": 2} | changes
        raise PatternError([Fault(problem="too short", remedy="use more", **given)])

    return load


def test_a_refusal_in_plain_words_is_no_find(monkeypatch: pytest.MonkeyPatch) -> None:
    assert found(monkeypatch, refusing()) == []


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"path": ("?", "drop")}, "? in a path"),
        ({"line": 99}, "a line that isn't in the file"),
        ({"line": 3}, "a line without the key it is about"),
        ({"origin": None}, "a fault of no file"),
        ({"value": "Fraction(1, 2)"}, "words of a library: Fraction("),
        ({"value": "a\nb"}, "a message of more than one line of plain text"),
        ({"value": "x" * 2000}, "a message too long to read"),
    ],
)
def test_a_fault_that_is_ill_told_is_found(
    monkeypatch: pytest.MonkeyPatch, changes: dict[str, Any], what: str
) -> None:
    assert found(monkeypatch, refusing(**changes)) == [what]


def test_an_error_of_its_own_is_found_and_made_small(monkeypatch: pytest.MonkeyPatch) -> None:
    def load(path: str, size: object, sets: object) -> None:
        if b"larks_head" in Path(path).read_bytes():
            raise KeyError("mount")
        refusing()(path, size, sets)

    assert found(monkeypatch, load) == ["KeyError in no file of knotplot"]
    small = shrunk(Case(GOOD, sets=("a=1",)), "KeyError in no file of knotplot")
    assert small == Case(b"mount: {kind: larks_head, rod: 2 cm, fold: middle}\n")


def test_what_never_ends_is_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(case, "SECONDS", 0.1)

    def load(*_: object) -> None:
        while True:
            pass

    monkeypatch.setattr(case, "load", load)
    assert examine(Case(GOOD)).verdict == "late"


def test_what_takes_all_memory_is_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(case, "load", lambda *_: bytearray(case.MEMORY))
    assert examine(Case(GOOD)).verdict == "memory"


FIGURES: dict[str, Any] = {
    "size": {"width_mm": 100.0, "drop_mm": 300.0},
    "strands": {"count": 2, "repeat": 2, "plus": 0},
    "knots": {"square_knot": 1},
    "cords": [
        {
            "cord": "M1", "strands": [1, 2], "used_mm": 900.0, "cut_mm": 950.0,
            "use": {"knots_mm": 9.0},
        }
    ],
    "cutting": [
        {"cord_type": "main", "colour": None, "length_mm": 950.0, "count": 1, "cords": ["M1"]}
    ],
    "shopping": [
        {"cord_type": "main", "colour": None, "total_m": 0.95, "spools": 1, "lower_bound": 1}
    ],
    "hours": 0.02,
    "hours_by_knot": [
        {"what": "square_knot", "count": 1, "hours": 0.01}, {"what": "cutting", "hours": 0.01}
    ],
    "quote": {"lines": [{"amount": 3.0}], "net": 3.0, "tax": 0.6, "total": 3.6},
    "lower_edge": [{"x_mm": 0.0, "y_mm": 300.0}],
    "rows": [
        {
            "row": 1, "order_after": [1, 2],
            "ties": [
                {
                    "knot": "square_knot", "lanes": [1, 2], "strands": [1, 2], "leader": None,
                    "roles": ["working", "working"], "x_mm": 50.0, "y_mm": 10.0,
                }
            ],
        }
    ],
    "warnings": [],
}  # fmt: skip


class Sample:
    """Stands for a piece: it has these figures and words."""

    def __init__(self, figures: dict[str, Any], words: str = "Tie it.") -> None:
        self._figures, self._words = figures, words
        self.layout = SimpleNamespace(tied_off=())

    def figures(self, rows: bool) -> dict[str, Any]:
        return self._figures

    def words(self) -> str:
        return self._words


def finds(figures: dict[str, Any], words: str = "Tie it.") -> list[str]:
    return [what for what, _ in sense.sense_finds(Sample(figures, words), "given")]  # type: ignore[arg-type]


def test_sound_figures_are_no_find() -> None:
    assert finds(FIGURES) == []


@pytest.mark.parametrize(
    ("path", "value", "what"),
    [
        ("cords.0.cut_mm", 899.0, "a cord cut shorter than used"),
        ("cords.0.strands", [1], "a strand twice or lost in a row"),
        ("cords.0.strands", [1, 3], "a strand in no cord, or in two"),
        ("cords.0.use.knots_mm", -1.0, "a negative use of cord"),
        ("cutting.0.cords", ["M2"], "a cord not in the cut list once"),
        ("cutting.0.length_mm", 960.0, "a cord cut otherwise than listed"),
        ("shopping.0.total_m", 1.0, "cord to buy isn't cord to cut"),
        ("shopping.0.lower_bound", 2, "fewer spools than can be"),
        ("strands.count", 3, "a count that doesn't suit its repeat"),
        ("knots.square_knot", 2, "knots other than ties"),
        ("hours_by_knot.0.count", 2, "hours for other knots than tied"),
        ("hours", 0.04, "hours that don't add up"),
        ("quote.net", 4.0, "a quote that doesn't add up"),
        ("quote.total", 4.0, "a quote that doesn't add up"),
        ("lower_edge.0.y_mm", 301.0, "a lower edge outside the piece"),
        ("rows.0.order_after", [1, 1], "a strand twice or lost in a row"),
        ("rows.0.ties.0.roles", ["working"], "lanes, strands and roles that aren't parallel"),
        ("rows.0.ties.0.x_mm", 101.0, "a tie beside the piece"),
        ("rows.0.ties.0.y_mm", 301.0, "a tie below the piece"),
    ],
)
def test_figures_that_disagree_are_found(path: str, value: object, what: str) -> None:
    figures = json.loads(json.dumps(FIGURES))
    here: Any = figures
    *parts, last = (int(part) if part.isdigit() else part for part in path.split("."))
    for part in parts:
        here = here[part]
    here[last] = value
    assert what in finds(figures)


@pytest.mark.parametrize("text", ["Tie None.", "Tie nan times.", "Tie {knot}."])
def test_gaps_in_words_are_found(text: str) -> None:
    (what,) = {what.partition(" ")[2] for what in finds(FIGURES, text)}
    assert what == "in words"


def test_words_of_libraries() -> None:
    assert list(faults.line_finds("f.yaml:1: rows: zero; use 1 or more")) == []
    assert [what for what, _ in faults.line_finds("an error of its own …; please report it")] == [
        "words of a library: please report"
    ]
