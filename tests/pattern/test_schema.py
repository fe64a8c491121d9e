"""The JSON Schema, tried with a validator of just the keywords that it uses."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from pattern_sample import SMALL, WHOLE, changed

from knotplot.motifs.shipped import shipped_motif, shipped_names
from knotplot.pattern.load import loads
from knotplot.pattern.schema import json_schema

SCHEMA = json_schema()
PATTERNS = sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml"))
SAID = {"title", "description", "default", "discriminator", "examples", "$schema", "$defs"}
TYPES: dict[str, Any] = {
    "string": str, "object": dict, "array": list, "boolean": bool, "null": type(None),
}  # fmt: skip


def is_type(value: Any, name: str) -> bool:
    if name in ("number", "integer"):
        whole = isinstance(value, int) and not isinstance(value, bool)
        return whole or (name == "number" and isinstance(value, float))
    return isinstance(value, TYPES[name])


def good(value: Any, schema: Any) -> bool:
    if isinstance(schema, bool):
        return schema
    return all(holds(value, key, arg, schema) for key, arg in schema.items() if key not in SAID)


def holds(value: Any, key: str, arg: Any, schema: dict[str, Any]) -> bool:
    match key:
        case "$ref":
            return good(value, SCHEMA["$defs"][arg.removeprefix("#/$defs/")])
        case "type":
            return is_type(value, arg)
        case "const":
            return value == arg and type(value) is type(arg)
        case "enum":
            return value in arg
        case "anyOf":
            return any(good(value, choice) for choice in arg)
        case "oneOf":
            return sum(good(value, choice) for choice in arg) == 1
        case "pattern":
            return not isinstance(value, str) or re.search(arg, value) is not None
        case "minimum" | "maximum" | "exclusiveMinimum" | "exclusiveMaximum":
            if not is_type(value, "number"):
                return True
            return {
                "minimum": value >= arg, "maximum": value <= arg,
                "exclusiveMinimum": value > arg, "exclusiveMaximum": value < arg,
            }[key]  # fmt: skip
        case "minLength" | "minItems" | "minProperties":
            return not hasattr(value, "__len__") or len(value) >= arg
        case "maxLength" | "maxItems" | "maxProperties":
            return not hasattr(value, "__len__") or len(value) <= arg
        case "items":
            rest = value[len(schema.get("prefixItems", ())) :] if isinstance(value, list) else ()
            return all(good(item, arg) for item in rest)
        case "prefixItems":
            return all(good(v, s) for v, s in zip(value, arg, strict=False))
        case "required":
            return not isinstance(value, dict) or all(name in value for name in arg)
        case "properties":
            return all(good(value[k], s) for k, s in arg.items() if k in value)
        case "patternProperties":
            return all(
                good(v, s) for k, v in value.items() for p, s in arg.items() if re.search(p, k)
            )
        case "propertyNames":
            return all(good(k, arg) for k in value)
        case "additionalProperties":
            named = set(schema.get("properties", ()))
            others = [k for k in value if k not in named]
            private = schema.get("patternProperties", {})
            others = [k for k in others if not any(re.search(p, k) for p in private)]
            return all(good(value[k], arg) for k in others)
    raise AssertionError(f"unknown keyword {key}")


def plain(text: str) -> Any:
    """Read YAML as an editor does; the samples hold nothing that YAML 1.1 reads otherwise."""
    return yaml.safe_load(text)


@pytest.mark.parametrize("text", [WHOLE, SMALL])
def test_the_samples_are_good(text: str) -> None:
    assert good(plain(text), SCHEMA)
    assert good(loads(text).model_dump(mode="json", exclude_none=True), SCHEMA)


def test_the_shipped_patterns_are_good() -> None:
    bad = [path.name for path in PATTERNS if not good(plain(path.read_text("utf-8")), SCHEMA)]
    assert bad == []


@pytest.mark.parametrize("name", shipped_names())
def test_the_shipped_motifs_are_good(name: str) -> None:
    dumped = shipped_motif(name).model_dump(mode="json", exclude_none=True)
    assert good(dumped, {"$ref": "#/$defs/Motif"})


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("{kind: hitch_line, ", "{"),
        ("{kind: rod_pocket, ", "{"),
        ("{kind: hitch_line, ", "{kind: hitch_lin, "),
        ("knotplot: 1", "knotplot: 2"),
        ("knotplot: 1\n", ""),
        ("width: 92 cm, drop", "width: 92 furlong, drop"),
        ("width: 92 cm, drop", "width: -92, drop"),
        ("width: 92 cm, drop", "width: '9,2 cm', drop"),
        ("width: 92 cm, drop", "widht: 92 cm, drop"),
        ("diameter: 4 mm", "diameter: 4"),
        ("cross: [6, 7]", "cross: [6]"),
        ("cross: [6, 7]", "cros: [6, 7]"),
        ("lead: 6, to: 1", "lead: 6"),
        ("rows: 6, tail", "rows: six, tail"),
        ("length: 6}", "length: full}"),
        ("working: 12.0", "workin: 12.0"),
        ("profile: parabola", "profile: parabla"),
        ("18.50 EUR", "18.50"),
        ("confidence: 0.99", "confidence: 1"),
    ],
)
def test_what_loads_refuses_the_schema_refuses(old: str, new: str) -> None:
    assert not good(plain(changed(old, new)), SCHEMA)


@pytest.mark.parametrize(
    "text",
    ["5 ft 2 1/2 in", "5'2½\"", "5′ 2½″", "36½\"", "½ in", "36 1/2 in", "1.5 m", ".5 m",
     "92", "36 ½", "2 yd", "127/15 mm"],
)  # fmt: skip
def test_lengths_in_the_schema_are_those_that_are_read(text: str) -> None:
    assert good(text, SCHEMA["$defs"]["Size"]["properties"]["width"])


def test_kind_is_required_everywhere_and_private_keys_are_allowed() -> None:
    kinded = [d for d in SCHEMA["$defs"].values() if "kind" in d.get("properties", {})]
    kinds = [d for d in kinded if "const" in d["properties"]["kind"]]
    assert len(kinds) >= 16
    assert all("kind" in d["required"] for d in kinds)
    for d in SCHEMA["$defs"].values():
        assert d.get("additionalProperties", False) is not True
    json.dumps(SCHEMA)
