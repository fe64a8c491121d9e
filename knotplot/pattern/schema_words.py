"""A JSON Schema in words: what may be written, and the values of a file on one line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import yaml

WIDTH = 88  # of lines of examples, characters
_ENDLESS = 1000  # a limit from there on is there to keep a machine from harm, and is not told


def flat(value: object) -> str:
    """Return a value as YAML on one line.

    >>> flat({"kind": "fringe", "length": "8 cm"}), flat([1, True])
    ('{kind: fringe, length: 8 cm}', '[1, true]')
    """
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
    text: str = yaml.dump(
        value, Dumper=dumper, default_flow_style=True, width=10_000, allow_unicode=True,
        sort_keys=False,
    )  # fmt: skip
    return text.removesuffix("\n").removesuffix("\n...")


def followed(place: str, root: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return the part of the schema `root` that a reference leads to."""
    found: Mapping[str, Any] = root["$defs"][place.removeprefix("#/$defs/")]
    return found


def forms(schema: Mapping[str, Any], root: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """Yield the mappings with keys of their own that a value, or each thing in it, may be."""
    if "$ref" in schema:
        yield from forms(followed(schema["$ref"], root), root)
    elif "properties" in schema:
        yield schema
    else:
        for choice in (*schema.get("anyOf", ()), *schema.get("oneOf", ())):
            yield from forms(choice, root)
        for inner in (schema.get("items"), schema.get("additionalProperties")):
            if isinstance(inner, Mapping):
                yield from forms(inner, root)


def takes(schema: Mapping[str, Any]) -> str:
    """Return what may be written, with the unit of a measure, as a part of a sentence."""
    words = list(dict.fromkeys(_choices(schema)))
    return " or ".join([*[", ".join(words[:-1])][: len(words) > 1], *words[-1:]])


def _choices(schema: Mapping[str, Any]) -> Iterator[str]:
    """Yield in words each thing that a value may be."""
    choices = [each for each in schema.get("anyOf", ()) if each.get("type") != "null"]
    _, parted, unit = str(schema.get("description", "")).rpartition("\n\n")
    if parted:
        yield unit[:1].lower() + unit[1:].rstrip(".")
        choices = [each for each in choices if "const" in each]
    elif "const" in schema:
        yield f"`{flat(schema['const'])}`"
    elif "enum" in schema:
        yield from (f"`{each}`" for each in schema["enum"])
    elif "oneOf" in schema:
        yield "one of its kinds, with its keys"
    elif "$ref" in schema:
        yield "keys of its own"
    elif not choices:
        yield _plain(schema)
    texts = any(each.get("type") == "string" for each in choices)
    for each in choices:
        if not (texts and each == {"type": "number"}):  # a text may look like a number
            yield from _choices(each)


def _plain(schema: Mapping[str, Any]) -> str:
    match schema.get("type"):
        case "boolean":
            return "`true` or `false`"
        case "integer":
            least, most = schema["minimum"], schema["maximum"]
            end = "up" if most >= _ENDLESS else f"to {most}"
            return f"a whole number from {least} {end}"
        case "number":
            return "a number"
        case "array":
            return "a list"
        case "object":
            return "names, each with its own"
        case _:
            return "text"


def block(value: object, indent: str = "", width: int = WIDTH) -> list[str]:
    """Return a value as lines of YAML, each thing in it on one line where it fits into `width`.

    >>> block({"kind": "fringe", "length": "8 cm"}, width=20)
    ['kind: fringe', 'length: 8 cm']
    """
    if len(indent) + len(flat(value)) <= width or not isinstance(value, dict | list):
        return [f"{indent}{flat(value)}"]
    if isinstance(value, list):
        return items(value, indent, width)
    lines = []
    for key, each in value.items():
        one = f"{indent}{key}: {flat(each)}"
        if len(one) <= width or not isinstance(each, dict | list):
            lines.append(one)
        else:
            lines += [f"{indent}{key}:", *block(each, f"{indent}  ", width)]
    return lines


def items(values: list[Any], indent: str = "", width: int = WIDTH) -> list[str]:
    """Return the things of a list as lines of YAML, each begun with a dash.

    >>> items([{"gap": "15 mm"}, {"kind": "free", "length": "4 cm"}])
    ['- gap: 15 mm', '- {kind: free, length: 4 cm}']
    """
    lines = []
    for value in values:
        first, *more = block(value, f"{indent}  ", width)
        text = first.strip()
        if isinstance(value, dict) and len(value) == 1 and not more:
            text = text[1:-1]  # without its braces: how steps are written
        lines += [f"{indent}- {text}", *more]
    return lines
