"""Laying one part of a pattern over another: named sizes, and `--set path=value`.

Mappings merge, lists are replaced, `null` takes a key away; sections are found by name wherever
they stand. Of size and opening, swatch and swatches, cord and cords the one laid over takes the
other away.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from knotplot.discovery import hint
from knotplot.errors import Fault, Path, PatternError, UsageError, shortened, shown
from knotplot.pattern.source import DEEPEST, is_plain, read_value
from knotplot.pattern.tree import Items, Place, Source, Table, parts_of
from knotplot.units import WrittenFloat, WrittenInt

_PAIRS = (("size", "opening"), ("swatch", "swatches"), ("cord", "cords"))
_RIVALS = dict([*_PAIRS, *((b, a) for a, b in _PAIRS)])
_PART = re.compile(r"([^.\[\]=]+)|\[([0-9]{1,9})\]")
_TOLD = 100  # of an assignment, in messages: its path, and how its value begins


def with_size(source: Source, size: str) -> Source:
    """Return the source with one of its named sizes laid over it.

    Raises `UsageError` for a size that isn't there, `PatternError` for one that can't be laid over.
    """
    sizes = source.root.get("sizes") if isinstance(source.root, Table) else None
    named = sizes if isinstance(sizes, Table) else Table()
    if size not in named:
        raise UsageError(f"the pattern has no size {shown(size)}; {hint(size, named)}")
    over = named[size]
    path: Path = ("sizes", size)
    if not isinstance(over, Table):
        fault = Fault(path, "not a part of a pattern", "write keys of a pattern under it")
        raise PatternError((source.located(fault),))
    return _laid(source, over, path)


def with_set(source: Source, assignment: str) -> Source:
    """Return the source with one `path=value` laid over it.

    Raises `UsageError` where it doesn't read `path=value`, and `PatternError` where the value
    can't be read or the path leads nowhere.
    """
    path_text, equals, value_text = assignment.partition("=")
    path = _split(path_text.strip())
    origin = f"--set {shortened(assignment, _TOLD)}"
    if not equals or path is None:
        raise UsageError(f'{origin}: not a path and a value; write --set size.width="120 cm"')
    _check_parts(path, origin)
    value = read_value(value_text, origin)
    over: Any = _placed(value, origin)
    for part in reversed(path):
        over = _wrap(part, over, origin)
    if isinstance(over, _At):
        raise UsageError(f"{origin}: begin with a key, as size.width")
    return _laid(source, over, None)


def _split(text: str) -> list[str | int] | None:
    """Return the parts of `sections.net.rows` or `swatches[0].width`, None if it is neither."""
    parts: list[str | int] = []
    at = 0
    while at < len(text):
        if parts and text[at] == ".":
            at += 1
        match = _PART.match(text, at)
        if not match or (match[1] and parts and text[at - 1] != "."):
            return None
        parts.append(int(match[2]) if match[2] else match[1].strip())
        at = match.end()
    return parts if parts and not text.endswith(".") else None


def _check_parts(path: list[str | int], origin: str) -> None:
    """Refuse a path that leads deeper than a file may, or by a key that a file can't have."""
    if len(path) > DEEPEST:
        problem, remedy = f"a path of more than {DEEPEST} parts", "name a key of a pattern"
        raise PatternError((Fault((), problem, remedy, None, origin),))
    for key in path:
        if isinstance(key, str) and not is_plain(key):
            raise UsageError(f"{origin}: the key {shown(key)}; use a plain word as the key")


class _At(Table):
    """An override of single items of a list, by index."""


def _wrap(part: str | int, value: Any, origin: str) -> Table:
    table = _At() if isinstance(part, int) else Table()
    key = str(part)
    table[key] = value
    table.places[key] = Place(origin)
    return table


def _placed(value: Any, origin: str) -> Any:
    """Return a value read from an override with the override as every part's place."""
    if isinstance(value, Table):
        value.places = dict.fromkeys(value, Place(origin))
    elif isinstance(value, Items):
        value.places = [Place(origin)] * len(value)
    for _, part in parts_of(value):
        _placed(part, origin)
    return value


def _laid(source: Source, over: Table, path: Path | None) -> Source:
    laying = _Laying(path)
    root = source.root if isinstance(source.root, Table) else Table()
    merged = laying.mapping(root, over, path or (), top=True)
    if laying.faults:
        raise PatternError(source.located(fault) if path else fault for fault in laying.faults)
    return Source(merged, source.origin, source.faults)


class _Laying:
    """One laying over. `where` is the path of the part laid over in its own file, if any."""

    def __init__(self, where: Path | None) -> None:
        self.from_file = where is not None
        self.faults: list[Fault] = []

    def mapping(self, base: Table, over: Table, path: Path, top: bool = False) -> Table:
        made = _copy(base)
        for key, value in over.items():
            here = (*path, key)
            if top and key == "sizes" and self.from_file:
                self._fault(over.places[key], here, "sizes within a size", "put them side by side")
                continue
            if top and key in _RIVALS and value is not None:
                made.pop(_RIVALS[key], None)
                made.places.pop(_RIVALS[key], None)
            if value is None:
                made.pop(key, None)
                made.places.pop(key, None)
                continue
            made[key] = self._value(made.get(key), value, key, over.places[key], here)
            made.places[key] = self._place(over.places[key], here)
        return made

    def _value(self, base: Any, value: Any, key: str, place: Place, path: Path) -> Any:
        if isinstance(value, _At):
            return self._items(base, value, path)
        if not isinstance(value, Table):
            return self._moved(value, path)
        if key == "sections":
            if isinstance(base, Items):
                return self._sections(base, value, path)
        elif isinstance(base, Items):
            self._fault(place, path, "a list can't be merged with keys", "give a whole list")
            return base
        return self.mapping(base if isinstance(base, Table) else Table(), value, path)

    def _items(self, base: Any, over: _At, path: Path) -> Any:
        (text, value), *_ = over.items()
        index = int(text)
        if not isinstance(base, Items) or index >= len(base):
            count = len(base) if isinstance(base, Items) else 0
            self._fault(over.places[text], path, f"no item {index} there", f"there are {count}")
            return base
        made = _copy_items(base)
        if value is None:
            del made[index], made.places[index]
            return made
        made[index] = self._value(made[index], value, "item", over.places[text], (*path, index))
        made.places[index] = self._place(over.places[text], (*path, index))
        return made

    def _sections(self, base: Items, over: Table, path: Path) -> Items:
        """Lay over sections by their names, wherever they stand in `base`."""
        made = _copy_items(base)
        left = dict(over)
        self._into(made, left, over, path)
        names = sorted(set(_names(base)))
        for name in left:
            problem, remedy = "no section has this name", hint(name, names)
            self._fault(over.places[name], (*path, name), problem, remedy)
        return made

    def _into(self, made: Items, left: dict[str, Any], over: Table, path: Path) -> None:
        for i in reversed(range(len(made))):
            section = made[i]
            if not isinstance(section, Table):
                continue
            name = _name(section)
            if name is not None and name in left:
                value = left.pop(name)
                if value is None:
                    del made[i], made.places[i]
                    continue
                if not isinstance(value, Table):
                    problem, remedy = "not keys of a section", "write {rows: 12}"
                    self._fault(over.places[name], (*path, name), problem, remedy)
                    continue
                section = made[i] = self.mapping(section, value, (*path, name))
            for key, held in section.items():
                if left and isinstance(held, Items) and key in ("sections", "parts"):
                    made[i] = section = _copy(section)
                    section[key] = deeper = _copy_items(held)
                    self._into(deeper, left, over, path)

    def _moved(self, value: Any, path: Path) -> Any:
        """Return a value with its parts placed where they stand in their own file."""
        if not self.from_file or not isinstance(value, Table | Items):
            return value
        made: Table | Items = _copy(value) if isinstance(value, Table) else _copy_items(value)
        for key, part in parts_of(value):
            made[key] = self._moved(part, (*path, key))  # type: ignore[index]
            made.places[key] = self._place(value.places[key], (*path, key))  # type: ignore[index]
        return made

    def _place(self, place: Place, path: Path) -> Place:
        return place._replace(path=path) if self.from_file else place

    def _fault(self, place: Place, path: Path, problem: str, remedy: str) -> None:
        self.faults.append(Fault(path, problem, remedy, None, place.origin, place.line))


def _copy(table: Table) -> Table:
    made = Table()
    made.update(table)
    made.places = dict(table.places)
    return made


def _copy_items(items: Items) -> Items:
    made = Items()
    made.extend(items)
    made.places = list(items.places)
    return made


def _name(section: Table) -> str | None:
    """Return the name of a section as it is written, a number too; None where it has none."""
    name = section.get("name")
    if isinstance(name, WrittenFloat | WrittenInt):
        return name.text
    if isinstance(name, bool) or not isinstance(name, str | int | float):
        return None
    return str(name)


def _names(items: Items) -> Iterator[str]:
    for section in items:
        if isinstance(section, Table):
            name = _name(section)
            if name is not None:
                yield name
            for key in ("sections", "parts"):
                if isinstance(section.get(key), Items):
                    yield from _names(section[key])
