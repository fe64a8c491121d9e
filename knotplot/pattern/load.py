"""Reading a pattern: from text to a checked model, with all faults of the file at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import islice
from os import PathLike
from pathlib import Path as FilePath
from typing import Any

from pydantic import ValidationError

from knotplot.errors import Fault, PatternError, shown
from knotplot.fields import Reading
from knotplot.pattern.checks import form_faults, model_faults
from knotplot.pattern.models import Pattern
from knotplot.pattern.not_built import not_built
from knotplot.pattern.overrides import with_set, with_size
from knotplot.pattern.source import MOST_BYTES, decode, read
from knotplot.pattern.tree import Source, Table, size_of
from knotplot.wording import ANYTHING_ELSE, faults_of, plain

_MOST_FAULTS = 500  # said at once: nobody reads more, and a suggestion for each takes time
_MOST_LOOKED_OVER = 100_000  # keys and items, those of each named size anew


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


def keyword_faults(given: Mapping[str, Any]) -> PatternError:
    """Return what is wrong with a pattern that is given by its keys in Python, as for a file."""
    first = {key: given[key] for key in ("knotplot",) if key in given}
    try:
        _validated(Source(plain({**first, **given})))
    except PatternError as error:
        # There is no file and no line.
        return PatternError(replace(fault, origin=None, line=None) for fault in error.faults)
    return PatternError((Fault((), *ANYTHING_ELSE),))


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
        wrong = faults_of(error, source.root, reading.models, _MOST_FAULTS, whole=True)
        found += [source.located(fault) for fault in wrong]
        more = error.error_count() - _MOST_FAULTS
        if more > 0:
            found.append(Fault((), f"{more} faults more", "mend these first", None, source.origin))
    if pattern is not None:
        pattern._source = source
        if not found:
            amiss = islice(model_faults(pattern), _MOST_FAULTS)
            found += [source.located(source.as_written(fault)) for fault in amiss]
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
