"""Every key of a pattern file says what it is, with an example that is good."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import BaseModel, TypeAdapter
from test_schema import good

from knotplot.curves.edge_profiles import PROFILES
from knotplot.descriptions import Said, said_of, said_of_fields
from knotplot.fields import Spec, in_units
from knotplot.motifs.step import STEPS
from knotplot.mounts.base import MOUNTS
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import LowerEdge
from knotplot.pattern.schema import json_schema
from knotplot.sections.base import SECTIONS

SCHEMA = json_schema()


def properties() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield every property of the schema with its place, those within steps too."""
    todo = [("Pattern", SCHEMA), *SCHEMA["$defs"].items()]
    while todo:
        where, body = todo.pop()
        for name, schema in body.get("properties", {}).items():
            yield f"{where}.{name}", schema
            todo.append((f"{where}.{name}", schema))


def models(base: type[BaseModel] = Spec) -> Iterator[type[BaseModel]]:
    """Yield every model of the pattern file, with those that share a base after it."""
    for model in base.__subclasses__():
        yield model
        yield from models(model)


PROPERTIES = dict(properties())
MODELS = [model for model in models() if model.model_fields and model.__name__ in SCHEMA["$defs"]]


def test_no_property_lacks_a_description_or_an_example() -> None:
    assert len(PROPERTIES) > 150
    bare = [where for where, schema in PROPERTIES.items() if not schema.get("description")]
    assert bare == []
    assert [where for where, schema in PROPERTIES.items() if not schema.get("examples")] == []


@pytest.mark.parametrize("where", PROPERTIES)
def test_its_examples_are_good(where: str) -> None:
    assert [e for e in PROPERTIES[where]["examples"] if not good(e, PROPERTIES[where])] == []


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_what_a_model_gives_as_examples_is_read_as_it(model: type[BaseModel]) -> None:
    body = SCHEMA["$defs"][model.__name__]
    assert body["description"] == said_of(model).text
    assert body["examples"]
    for example in body["examples"]:
        assert good(example, body)
        with in_units("cm"):
            assert isinstance(model.model_validate(example), model)


@pytest.mark.parametrize("model", [Pattern, *MODELS], ids=lambda model: model.__name__)
def test_what_a_field_gives_as_examples_is_read(model: type[BaseModel]) -> None:
    said = said_of_fields(model)
    for name, info in model.model_fields.items():
        annotation: Any = info.rebuild_annotation()
        with in_units("cm"):
            for example in said[name].examples:
                TypeAdapter(annotation).validate_python(example)


def test_each_kind_tells_what_it_is_by_its_own_docstring() -> None:
    kinds = {**SECTIONS, **MOUNTS, **STEPS}
    assert len(kinds) > 25
    told = [said_of(kind).text for kind in kinds.values()]
    assert "" not in told
    assert len(set(told)) == len(told)


@pytest.mark.parametrize(
    ("where", "part"),
    [
        ("Size.width", "A length (a bare number is in the pattern's units)."),
        ("Cord.diameter", "A length with its unit, such as mm or in."),
        ("Free.length", "a bare number is in the pattern's units)."),
        ("Cord.spools", "A length with its unit, or a mass in g or kg."),
        ("Work.tax", "A percentage, with its sign."),
        ("HitchStep.hitch.angle", "An angle, in degrees."),
        ("Cord.mass_per_length", "A mass per length, in g/m."),
        ("Swatch.minutes", "How many minutes it took."),
    ],
)
def test_a_measure_says_its_unit(where: str, part: str) -> None:
    assert part in PROPERTIES[where]["description"]


def test_defaults_are_told_as_they_are_written() -> None:
    for where, schema in PROPERTIES.items():
        if schema.get("default") is not None:
            assert good(schema["default"], schema), where
    assert PROPERTIES["HitchLine.overhang"]["default"] == "50 mm"
    assert PROPERTIES["Work.tax"]["default"] == "0 %"


def test_a_model_without_source_says_nothing_and_still_has_a_schema() -> None:
    scope: dict[str, Any] = {"Spec": Spec, "__name__": "nowhere"}
    exec("class Bare(Spec):\n    '''It says so.'''\n    a: int = 1\n", scope)
    assert said_of(scope["Bare"]) == Said()
    assert scope["Bare"].model_json_schema()["properties"]["a"]["default"] == 1


def test_a_step_that_is_read_alone_first_is_dumped_as_it_is_written() -> None:
    code = (
        "from knotplot.motifs.steps import RepeatStep\n"
        "step = {'repeat': {'times': 2, 'steps': [{'gap': '3 mm'}]}}\n"
        "assert RepeatStep.model_validate(step).model_dump(mode='json') == step\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_the_schema_is_json() -> None:
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA


def test_every_profile_is_an_example_that_may_be_written() -> None:
    assert set(SCHEMA["$defs"]["LowerEdge"]["properties"]["profile"]["enum"]) == set(PROFILES)
    assert LowerEdge(profile="vee").profile == "vee"
