"""What pydantic finds wrong, in a maker's words: each error as a fault with its path and remedy."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, TypeAlias

from pydantic import BaseModel, ValidationError

from knotplot.discovery import hint, likely
from knotplot.errors import Fault, Path, shown
from knotplot.examples import example, form
from knotplot.units import WrittenFloat, WrittenInt

#: The model that each mapping was read as, by its id.
Models: TypeAlias = Mapping[int, type[BaseModel]]

# Faults of pydantic's own that can come up, in the maker's words.
_SAID: dict[str, tuple[str, str]] = {
    "too_short": ("empty", "put at least one in it"),
    "tuple_type": ("not a list", "write a list: […], or a line with '- ' for each"),
    "frozen_instance": ("can't be changed", "make another"),
}
#: Never pydantic's own words: they speak of another language's types.
ANYTHING_ELSE = ("not what belongs here", "compare it with the format of patterns")
_NO_MAPPING = ("model_type", "model_attributes_type", "dict_type")
_NEAR = 0.7  # how like a known key an unknown one is, of 1, to be taken for it
_DROPPED = ("missing", "extra_forbidden")  # faults whose path ends in a key that isn't in the file


class _Unread:
    """Stands where an alias stood; what is said about it is said already."""

    def __reduce__(self) -> str:
        return "UNREAD"  # there is one: a copy is the same


UNREAD = _Unread()


def faults_of(
    error: ValidationError, root: Any, models: Models, most: int, whole: bool = False
) -> Iterator[Fault]:
    """Yield pydantic's errors as faults, `most` of them at the most.

    `root` is what was validated, `models` the model that each mapping in it was read as. Of a
    `whole` pattern, what is wrong with it in sum is left out, since `form_faults` says it.
    """
    details = error.errors(include_url=False)[:most]
    for detail in details:
        if detail["type"] == "too_short" and _deeper(detail, details):
            continue  # what was in the list is at fault, not that nothing was
        path, owner = _path(detail["loc"], detail["type"], root)
        value, context = detail["input"], detail.get("ctx") or {}
        if detail["type"] == "union_tag_invalid":
            path, value = (*path, "kind"), value.get("kind", context["tag"])
        if value is UNREAD or (whole and detail["type"] == "wrong" and not detail["loc"]):
            continue  # said already: where the alias stood, and by `form_faults`
        problem, remedy = _words(detail, context, owner, models)
        told = None if detail["type"] in _DROPPED else quoted(value)
        yield Fault(path, problem, remedy, told)


def _deeper(detail: Any, details: Iterable[Any]) -> bool:
    """Tell whether some other fault lies under the place of this one."""
    loc = detail["loc"]
    return any(d["loc"][: len(loc)] == loc and len(d["loc"]) > len(loc) for d in details)


def _path(loc: tuple[int | str, ...], kind: str, root: Any) -> tuple[Path, Any]:
    """Return the path in the file of pydantic's location, and the mapping it leads to.

    Parts that stand for the choice of a union, or for a field whose value stands without a key,
    aren't in the file and are left out.
    """
    here: Any = root
    owner: Any = root
    path: list[str | int] = []
    for i, part in enumerate(loc):
        inside = isinstance(here, dict) and part in here
        within = isinstance(here, list) and isinstance(part, int) and part < len(here)
        last = i == len(loc) - 1
        if inside or within:
            owner = here
            here = here[part]
            path.append(part)
        elif last and kind in _DROPPED:
            owner = here
            path.append(part)
    return tuple(path), owner


def _words(detail: Any, context: dict[str, Any], owner: Any, models: Models) -> tuple[str, str]:
    """Return what is wrong and what would do, for one error of pydantic's."""
    kind = detail["type"]
    if kind == "wrong":
        return context["problem"], context["remedy"]
    if kind in _NO_MAPPING:
        return _no_mapping(detail)
    if kind == "missing" and not isinstance(detail["loc"][-1], int):
        return _missing(str(detail["loc"][-1]), owner, models)
    if kind == "extra_forbidden":
        return _unknown_key(str(detail["loc"][-1]), owner, models)
    if kind == "literal_error":
        return _unknown_word(detail["input"], str(context["expected"]))
    if kind == "union_tag_invalid":
        return _unknown_word(context["tag"], str(context["expected_tags"]), "kind")
    if kind == "union_tag_not_found":
        return _no_mapping(detail)
    if kind == "too_long":
        return "too many", f"give {context['max_length']} at most"
    if kind == "missing" and isinstance(detail["loc"][-1], int):
        return "too few items", "give one more"
    said = _SAID.get(kind)
    return said or ANYTHING_ELSE


def _no_mapping(detail: Any) -> tuple[str, str]:
    """Say that keys belong here, and show them where that is known."""
    loc: tuple[Any, ...] = ("", "", *detail["loc"])
    shape = form(f"{loc[-2]}[]" if isinstance(loc[-1], int) else loc[-1], detail["input"])
    return "not a mapping", f"write {shape}" if shape else "write its keys under it, or in {…}"


def _missing(key: str, owner: Any, models: Models) -> tuple[str, str]:
    """Say that a key is missing, and what to add, as an example."""
    model = models.get(id(owner))
    line = example(key, model.__name__ if model else "")
    return "missing", f"add {line}" if line else "add it"


def _unknown_key(key: str, owner: Any, models: Models) -> tuple[str, str]:
    model = models.get(id(owner))
    known = list(model.model_fields) if model else []
    near = likely(key, known, least=_NEAR)
    if near:
        return "unknown key", f"did you mean '{near[0]}'?"
    if 0 < len(known) <= 12:
        return "unknown key", f"use one of {', '.join(known)}, or leave it out"
    return "unknown key", "leave it out, or begin it with x-"


def _unknown_word(value: object, expected: str, what: str = "word") -> tuple[str, str]:
    known = [word.strip("'") for word in expected.replace(" or ", ", ").split(", ")]
    problem = f"unknown {what}" if isinstance(value, str) else "not one of the choices"
    return problem, hint(value, known)


def plain(value: Any) -> Any:
    """Return what was given in Python as it would stand in a file: models as mappings."""
    if isinstance(value, BaseModel):
        return plain(value.model_dump(mode="json", exclude_unset=True))
    if isinstance(value, Mapping):
        return {key: plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain(each) for each in value]
    return value


def quoted(value: object) -> str | None:
    """Return a value as it is quoted in a message, None for one that is nested or long."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, WrittenFloat | WrittenInt):
        return value.text
    if isinstance(value, dict) or (
        isinstance(value, list | tuple) and any(isinstance(v, dict | list) for v in value)
    ):
        return None
    return shown(list(value) if isinstance(value, tuple | list) else value)
