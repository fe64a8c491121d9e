"""The figures of every shipped pattern are what their published schema says, to the key."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from cli_sample import GOOD
from pydantic import TypeAdapter, ValidationError

import knotplot
from knotplot.output import json_text

ROOT = Path(__file__).resolve().parents[1]
FIGURES = TypeAdapter(knotplot.Figures)
QUOTED = GOOD + (
    "work: {rate: 22 EUR, overhead: 15 %, tax: 20 %}\n"
    "support: {material: pine, diameter: 20 mm, span: 25 cm}\n"
)
FOLDED = GOOD.replace("mount: {kind: larks_head, rod: 12 mm}", "mount: {kind: open, tail: 20 cm}")


def said(text: str, rows: bool) -> dict[str, Any]:
    """Return the figures of a pattern as other programs read them."""
    found: dict[str, Any] = json.loads(
        json_text(knotplot.build(knotplot.loads(text)).figures(rows))
    )
    return found


@pytest.mark.parametrize("rows", [False, True], ids=["plain", "rows"])
@pytest.mark.parametrize(
    "text",
    [*(file.read_text("utf-8") for file in sorted(ROOT.glob("patterns/*.yaml"))), QUOTED, FOLDED],
    ids=lambda text: text.partition("title: ")[2][:12],
)
def test_figures_have_the_keys_and_types_of_the_schema(text: str, rows: bool) -> None:
    found = said(text, rows)
    # What the types don't name is dropped, so that the same comes back only where all is named.
    assert FIGURES.validate_python(found, strict=True) == found
    assert ("rows" in found) == rows


def test_the_check_can_fail() -> None:
    found = said(GOOD, False)
    assert FIGURES.validate_python({**found, "more": 1}) != {**found, "more": 1}
    with pytest.raises(ValidationError, match="strands"):
        FIGURES.validate_python({**found, "strands": 24})


def test_the_schema_is_printed_and_tells_of_units(run) -> None:
    code, out, said = run("schema", "--figures")
    assert (code, said) == (0, [])
    assert json.loads(out) == knotplot.figures_schema()
    schema = knotplot.figures_schema()
    assert set(schema["required"]) == set(schema["properties"]) - {"rows"}
    assert set(schema["properties"]) - {"rows"} == set(said_keys())
    assert schema["$defs"]["SupportFigures"]["properties"]["sag_mm"]["description"] == "at once"
    assert run("schema")[1] != out


def said_keys() -> list[str]:
    return list(said(GOOD, False))
