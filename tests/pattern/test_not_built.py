"""What isn't built yet is named wherever it is offered: README, JSON Schema, help."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pattern_sample import SMALL

import knotplot
from knotplot.errors import PatternError
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.pattern.not_built import NOT_BUILT, OPTIONS, NotBuilt
from knotplot.pattern.schema import json_schema

README = (Path(knotplot.__file__).parents[1] / "README.md").read_text("utf-8")
OTHER = {"worked": "round", "kits": "2", "language": "de"}


def listed() -> list[str]:
    """Return the lines of README's list of what isn't built."""
    (part,) = re.findall(r"^## Not built yet\n(.*?)^## ", README, re.MULTILINE | re.DOTALL)
    return [line for line in part.splitlines() if line.startswith("- ")]


def test_readme_lists_what_is_not_built_and_nothing_else() -> None:
    wanted = [(each.what, f"`{each.key}") for each in NOT_BUILT]
    wanted += [(what, f"sheet {option}`") for option, what in OPTIONS.items()]
    found = listed()
    assert len(found) == len(wanted)
    for line, (what, written) in zip(found, wanted, strict=True):
        assert line.startswith(f"- {what} (")
        assert written in line


@pytest.mark.parametrize("each", NOT_BUILT, ids=lambda each: each.key)
def test_the_schema_marks_it_and_the_pattern_refuses_it(each: NotBuilt) -> None:
    told = json_schema()["properties"][each.key]["description"]
    assert told == f"Not built yet: {each.what}; {each.remedy}."
    with pytest.raises(PatternError, match=f"not built yet: {each.what}; {each.remedy}"):
        loads(f"{SMALL}{each.key}: {OTHER[each.key]}\n")


def test_no_other_key_is_marked() -> None:
    marked = {
        key for key, value in json_schema()["properties"].items()
        if "ot built" in value.get("description", "")
    }  # fmt: skip
    assert marked == {each.key for each in NOT_BUILT} <= set(Pattern.model_fields)


def test_help_of_the_sheet_says_which_options_are_not_built(run) -> None:
    told = " ".join(run("sheet", "--help")[1].split())
    for option, what in OPTIONS.items():
        assert f"{option} not built yet: {what}" in told
    assert "--kits N cut cord for so many pieces; not built yet: kits for more" in told
