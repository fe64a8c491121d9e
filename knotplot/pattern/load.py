"""Reading a pattern: from text to a checked model, with all faults of the file at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from os import PathLike
from pathlib import Path as FilePath
from typing import Any

from pydantic import ValidationError

from knotplot.discovery import hint, likely
from knotplot.errors import Fault, Path, PatternError, shown
from knotplot.fields import Reading
from knotplot.mounts.base import MOUNTS
from knotplot.pattern.checks import form_faults, model_faults
from knotplot.pattern.examples import example, form
from knotplot.pattern.models import Pattern
from knotplot.pattern.not_built import not_built
from knotplot.pattern.overrides import with_set, with_size
from knotplot.pattern.source import MOST_BYTES, decode, read
from knotplot.pattern.tree import UNREAD, Source, Table, quoted, size_of
from knotplot.sections.base import SECTIONS

# Faults of pydantic's own that can come up, in the maker's words.
_SAID: dict[str, tuple[str, str]] = {
    "too_short": ("empty", "put at least one in it"),
    "tuple_type": ("not a list", "write a list: […], or a line with '- ' for each"),
    "frozen_instance": ("can't be changed", "make another"),
}
_NO_MAPPING = ("model_type", "model_attributes_type", "dict_type")
_NEAR = 0.7  # how like a known key an unknown one is, of 1, to be taken for it
_MOST_FAULTS = 500  # said at once: nobody reads more, and a suggestion for each takes time
_MOST_LOOKED_OVER = 100_000  # keys and items, those of each named size anew
_DROPPED = ("missing", "extra_forbidden")  # faults whose path ends in a key that isn't in the file


def load(path: str | PathLike[str], size: str | None = None, sets: Iterable[str] = ()) -> Pattern:
    """Read the pattern in a file, with one of its named sizes and `path=value` overrides.

    Raises `PatternError` with every fault, and `UsageError` for an unknown size or an override
    that isn't one.
    """
    return read_as(source_in(path), size, sets)


def source_in(path: str | PathLike[str]) -> Source:
    """Read the text in a file, which may be a pipe; no more of it than a pattern may have.

    Raises `PatternError` where there is none, or nothing more can be read.
    """
    origin = str(path)
    try:
        with FilePath(path).open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        why = (error.strerror or "no such place").lower()
        fault = Fault((), f"can't be read: {why}", "give a pattern's file", None, origin)
        raise PatternError((fault,)) from None
    except ValueError:
        fault = Fault((), "no path of a file", "give a pattern's file", None, shown(origin))
        raise PatternError((fault,)) from None
    return read(decode(data, origin), origin)


def loads(
    text: str, size: str | None = None, sets: Iterable[str] = (), origin: str = "pattern"
) -> Pattern:
    """Read a pattern from text; like `load`. `origin` stands for the file in messages."""
    return read_as(read(text, origin), size, sets)


def verify(pattern: Pattern) -> Pattern:
    """Return the pattern, or raise `PatternError`: for one that was made in Python.

    What `load` checks beyond the single fields is checked here: names, `fill`, motifs, the edge,
    and what isn't built yet.
    """
    document = pattern.model_dump(mode="json")
    for faults in (form_faults(document), model_faults(pattern), not_built(pattern)):
        # Each looks up what the one before found to be there.
        found = list(islice(faults, _MOST_FAULTS))
        if found:
            break
    if found:
        raise PatternError(pattern.located(fault) for fault in found)
    return pattern


def read_as(source: Source, size: str | None = None, sets: Iterable[str] = ()) -> Pattern:
    """Return the pattern of a text that is read, which can be used again; like `load`."""
    if not isinstance(source.root, Table):
        fault = Fault((), "not a pattern", "begin it with 'knotplot: 1'")
        raise PatternError(source.faults or (source.located(fault),))
    plain = source
    if size is not None:
        source = with_size(source, size)
    for assignment in sets:
        source = with_set(source, assignment)
    pattern = _validated(source)
    if size is None:
        _check_sizes(plain, pattern)
    return pattern


def _validated(source: Source) -> Pattern:
    found = [source.located(fault) for fault in islice(form_faults(source.root), _MOST_FAULTS)]
    reading = Reading()
    pattern = None
    try:
        pattern = Pattern.model_validate(source.root, context=reading)
    except ValidationError as error:
        found += _faults(error, source, reading)
    if pattern is not None:
        pattern._source = source
        if not found:
            wrong = islice(model_faults(pattern), _MOST_FAULTS)
            found += [source.located(source.as_written(fault)) for fault in wrong]
        if not found and not source.faults:
            found += [source.located(fault) for fault in not_built(pattern)]
    if source.faults or found or pattern is None:
        raise PatternError(_ordered((*source.faults, *found)))
    return pattern


def _check_sizes(source: Source, pattern: Pattern) -> None:
    """Refuse named sizes that can't be laid over the pattern, though none was asked for."""
    most = _MOST_LOOKED_OVER // size_of(source.root)
    if len(pattern.sizes) > max(1, most):
        problem = f"{len(pattern.sizes)} sizes of so long a pattern are too many to look over"
        fault = Fault(("sizes",), problem, f"give {max(1, most)} at most, or ask for one by --size")
        raise PatternError((source.located(fault),))
    found: list[Fault] = []
    for size in pattern.sizes:
        try:
            _validated(with_size(source, size))
        except PatternError as error:
            found += error.faults
    if found:
        raise PatternError(_ordered(found))


def _ordered(faults: Iterable[Fault]) -> list[Fault]:
    """Return faults in the order of their lines, each once."""
    return sorted(dict.fromkeys(faults), key=lambda fault: (fault.line is None, fault.line or 0))


def _faults(error: ValidationError, source: Source, reading: Reading) -> Iterator[Fault]:
    details = error.errors(include_url=False)[:_MOST_FAULTS]
    for detail in details:
        if detail["type"] == "too_short" and _deeper(detail, details):
            continue  # what was in the list is at fault, not that nothing was
        path, owner = _path(detail["loc"], detail["type"], source.root)
        value, context = detail["input"], detail.get("ctx") or {}
        if detail["type"] == "union_tag_invalid":
            path, value = (*path, "kind"), value.get("kind", context["tag"])
        if value is UNREAD or (detail["type"] == "wrong" and not detail["loc"]):
            continue  # said already: where the alias stood, and by `form_faults`
        problem, remedy = _words(detail, context, owner, reading)
        told = None if detail["type"] in _DROPPED else quoted(value)
        yield source.located(Fault(path, problem, remedy, told))
    more = error.error_count() - _MOST_FAULTS
    if more > 0:
        yield Fault((), f"{more} faults more", "mend these first", None, source.origin)


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


def _words(detail: Any, context: dict[str, Any], owner: Any, reading: Reading) -> tuple[str, str]:
    """Return what is wrong and what would do, for one error of pydantic's."""
    kind = detail["type"]
    if kind == "wrong":
        return context["problem"], context["remedy"]
    if kind in _NO_MAPPING:
        return _no_mapping(detail)
    if kind == "missing" and not isinstance(detail["loc"][-1], int):
        return _missing(str(detail["loc"][-1]), owner, reading)
    if kind == "extra_forbidden":
        return _unknown_key(str(detail["loc"][-1]), owner, reading)
    if kind == "literal_error":
        return _unknown_word(detail["input"], str(context["expected"]))
    if kind == "union_tag_invalid":
        return _unknown_word(context["tag"], str(context["expected_tags"]), "kind")
    if kind == "union_tag_not_found":
        kinds = MOUNTS if detail["loc"] == ("mount",) else SECTIONS
        if isinstance(detail["input"], dict):
            return "'kind' is missing", f"add 'kind', one of {', '.join(kinds)}"
        return _no_mapping(detail)
    if kind == "too_long":
        return "too many", f"give {context['max_length']} at most"
    if kind == "missing" and isinstance(detail["loc"][-1], int):
        return "too few items", "give one more"
    said = _SAID.get(kind)
    # Never pydantic's own words: they speak of another language's types.
    return said or ("not what belongs here", "compare it with the format of patterns")


def _no_mapping(detail: Any) -> tuple[str, str]:
    """Say that keys belong here, and show them where that is known."""
    loc: tuple[Any, ...] = ("", "", *detail["loc"])
    shape = form(f"{loc[-2]}[]" if isinstance(loc[-1], int) else loc[-1], detail["input"])
    return "not a mapping", f"write {shape}" if shape else "write its keys under it, or in {…}"


def _missing(key: str, owner: Any, reading: Reading) -> tuple[str, str]:
    """Say that a key is missing, and what to add, as an example."""
    model = reading.models.get(id(owner))
    line = example(key, model.__name__ if model else "")
    return "missing", f"add {line}" if line else "add it"


def _unknown_key(key: str, owner: Any, reading: Reading) -> tuple[str, str]:
    model = reading.models.get(id(owner))
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
