"""What models and their fields say of themselves, read from their source when it is asked for.

A field of a model is followed by a short text for the maker, which ends in an example or several,
each one YAML value; a class says the same in its docstring:

    length: Length
    \"\"\"How long it is, at the least. Example: `8 cm`, `12 in`.\"\"\"

Nobody pays for them but who asks: pydantic's own way to read such texts takes a fifth of a second
whenever a pattern is loaded.
"""

from __future__ import annotations

import ast
import inspect
import re
import sys
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any, NamedTuple

_EXAMPLES = re.compile(r"\s*Examples?: (`[^`]+`(?:, `[^`]+`)*)\.$")


class Said(NamedTuple):
    """What a class or a field says of itself: its text, without the examples, and those."""

    text: str = ""
    examples: tuple[Any, ...] = ()


def said_of(model: type) -> Said:
    """Return what a class says of itself, nothing where it has no docstring."""
    return _told_in(model.__module__).get(model.__qualname__, Said())


def said_of_fields(model: type) -> dict[str, Said]:
    """Return what the fields of a class say, those it inherits too, by name."""
    found: dict[str, Said] = {}
    for base in reversed(model.__mro__):
        own = f"{base.__qualname__}."
        told = _told_in(base.__module__)
        found |= {key.removeprefix(own): said for key, said in told.items() if key.startswith(own)}
    return found


def described(model: type, body: dict[str, Any], default: Mapping[str, object]) -> None:
    """Put descriptions, examples and defaults into the JSON Schema of a model with `properties`.

    `default` has the defaults as they are written in a file. A type that has a description of its
    own, as lengths do, adds it to that of the field as a paragraph: so each says its unit.
    """
    said = said_of(model)
    _put(body, said)
    for name, field in body["properties"].items():
        _put(field, said_of_fields(model).get(name, Said()), unit_of(field))
        if "const" in field:
            field["examples"] = [field["const"]]
        if name in default:
            field["default"] = default[name]


def unit_of(schema: Mapping[str, Any]) -> str:
    """Return what the type of a field says of its unit, nothing where it has none."""
    if "description" in schema:
        return str(schema["description"])
    inner = [*schema.get("anyOf", ()), *([schema["items"]] if "items" in schema else ())]
    return next(filter(None, (unit_of(each) for each in inner if "$ref" not in each)), "")


def _put(schema: dict[str, Any], said: Said, unit: str = "") -> None:
    text = "\n\n".join(filter(None, (said.text, unit)))
    if text:
        schema["description"] = text
    if said.examples:
        schema["examples"] = list(said.examples)


@lru_cache(maxsize=256)
def _told_in(module: str) -> dict[str, Said]:
    """Return what the classes of a module say (by name), and their fields (by class.field)."""
    try:
        source = inspect.getsource(sys.modules[module])
    except (KeyError, OSError, TypeError):  # shipped without its source
        return {}
    return dict(_told(ast.parse(source).body))


def _told(body: list[ast.stmt]) -> Iterator[tuple[str, Said]]:
    for owner in body:
        if not isinstance(owner, ast.ClassDef):
            continue
        text = ast.get_docstring(owner)
        if text:
            yield owner.name, _said(text)
        for field, after in zip(owner.body, owner.body[1:], strict=False):
            if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name):
                below = after.value if isinstance(after, ast.Expr) else None
                if isinstance(below, ast.Constant) and isinstance(below.value, str):
                    yield f"{owner.name}.{field.target.id}", _said(below.value)


def _said(text: str) -> Said:
    """Part a text into what it says, a line a paragraph, and its examples."""
    import yaml

    paragraphs = (" ".join(each.split()) for each in inspect.cleandoc(text).split("\n\n"))
    told = "\n\n".join(paragraphs)
    found = _EXAMPLES.search(told)
    if found is None:
        return Said(told)
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    written = re.findall("`([^`]+)`", found[1])
    values = tuple(yaml.load(each, Loader=loader) for each in written)
    return Said(told[: found.start()], values)
