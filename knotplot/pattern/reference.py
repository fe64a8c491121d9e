"""The reference of the pattern language: what may stand in a file, each thing with its keys.

All of it is read from the JSON Schema and the registries, so that a section, a mount, a step or a
profile that is dropped in appears by itself. An entry that shows something has an example of three
lines, and the whole pattern that these lines stand in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal, TypeAlias

from knotplot.curves.edge_profiles import PROFILES
from knotplot.descriptions import said_of
from knotplot.discovery import hint
from knotplot.errors import Refusal
from knotplot.pattern.schema import json_schema
from knotplot.pattern.schema_words import flat, followed, forms, takes

Schema: TypeAlias = Mapping[str, Any]
Sort: TypeAlias = Literal["key", "mount", "section", "step", "profile"]
SORTS: tuple[Sort, ...] = ("key", "mount", "section", "step", "profile")


@dataclass(frozen=True)
class Entry:
    """One thing that may be written: a key of a file, or a kind of mount, section, step, profile.

    `path` is its name, dotted where it stands in another; `schema` its own part of `root`, the
    JSON Schema of a file. `needed`: what it stands in can't do without it.
    """

    path: str
    sort: Sort
    schema: Schema
    root: Schema
    needed: bool = False

    @property
    def name(self) -> str:
        """Return its name alone, without what it stands in."""
        return self.path.rpartition(".")[2]

    @property
    def text(self) -> str:
        """Return what it is, a line a paragraph."""
        told = str(self.schema.get("description", ""))
        return told.partition("\n\n")[0] if self.sort == "key" else told

    @property
    def takes(self) -> str:
        """Return what may be written as the value of a key, with the unit of a measure."""
        return takes(self.schema) if self.sort == "key" else ""

    @property
    def default(self) -> str:
        """Return what it is where nothing is written, nothing where that is not one value."""
        found = self.schema.get("default")
        return "" if found is None else flat(found)

    @property
    def examples(self) -> tuple[str, ...]:
        """Return values to write, as they stand in a file."""
        return tuple(flat(each) for each in self.schema.get("examples", ()))

    @cached_property
    def keys(self) -> tuple[Entry, ...]:
        """Return the keys that stand in it; none where it is one of several kinds."""
        bodies = list(forms(self._inner(), self.root))
        return tuple(_keys(self, bodies[0])) if len(bodies) == 1 else ()

    @property
    def kinds(self) -> tuple[str, ...]:
        """Return the names of the kinds that its value may be, none where it has one form."""
        bodies = list(forms(self._inner(), self.root))
        return tuple(sorted(map(_named, bodies))) if len(bodies) > 1 else ()

    def _inner(self) -> Schema:
        """Return what has its keys: of a step, the mapping under its name, if there is one."""
        if self.sort == "step":
            under: Schema = self.schema["properties"][self.name]
            return under if "properties" in under else self.schema
        return self.schema

    def within(self, key: str) -> Iterator[Entry]:
        """Yield the keys of that name in it, of every kind where it is one of several."""
        for body in forms(self._inner(), self.root):
            here = Entry(_named(body), self.sort, body, self.root) if self.kinds else self
            yield from (each for each in _keys(here, body) if each.name == key)


def _keys(owner: Entry, body: Schema) -> Iterator[Entry]:
    needed = body.get("required", ())
    for name, schema in body.get("properties", {}).items():
        if "const" not in schema or owner.sort == "key":
            yield Entry(f"{owner.path}.{name}", "key", schema, owner.root, name in needed)


def _named(body: Schema) -> str:
    """Return the name of a kind: of its `kind`, or of a step's one key."""
    kind = body["properties"].get("kind", {})
    return str(kind["const"] if "const" in kind else body["required"][0])


class Reference(Mapping[tuple[Sort, str], Entry]):
    """Every entry by its sort and name: keys of a file, mounts, sections, steps, profiles."""

    def __init__(self) -> None:
        root = json_schema()
        found = list(_entries(root))
        self._entries = {(each.sort, each.name): each for each in found}

    def __getitem__(self, at: tuple[Sort, str]) -> Entry:
        return self._entries[at]

    def __iter__(self) -> Iterator[tuple[Sort, str]]:
        return iter(self._entries)

    def __len__(self) -> int:
        return len(self._entries)

    def of(self, sort: Sort) -> tuple[Entry, ...]:
        """Return the entries of a sort: keys as they follow in a file, all others by name."""
        return tuple(entry for entry in self.values() if entry.sort == sort)

    def find(self, path: str) -> tuple[Entry, ...]:
        """Return the entries of a name, or a dotted path such as `cord.diameter`.

        One name may be two things, as `repeat` is a section and a step. Raises `Refusal` with the
        nearest names for one that there is not.
        """
        first, *rest = path.strip().split(".")
        found = tuple(entry for (_, name), entry in self.items() if name == first)
        if not found:
            names = dict.fromkeys(name for _, name in self)
            raise Refusal("nothing is called that", hint(first, names, 3), value=path)
        for i, key in enumerate(rest):
            inner = tuple(self._kinds(found, key))
            inner = inner or tuple(each for entry in found for each in entry.within(key))
            if not inner:
                known = _keys_of(found)
                where = ".".join([first, *rest[:i]])
                remedy = hint(key, known, 3) if known else f"explain {where} alone"
                raise Refusal(f"{where} has no key of that name", remedy, value=path)
            found = tuple({each.path: each for each in inner}.values())
        return found

    def _kinds(self, entries: tuple[Entry, ...], name: str) -> Iterator[Entry]:
        """Yield the kinds of a name that the value of some keys may be."""
        for entry in entries:
            bodies = list(forms(entry.schema, entry.root))
            for other in self.values():
                if other.name == name and any(other.schema is body for body in bodies):
                    yield other


def _keys_of(entries: tuple[Entry, ...]) -> list[str]:
    """Return the names of all keys that stand in some entries."""
    found: dict[str, None] = {}
    for entry in entries:
        for body in forms(entry._inner(), entry.root):
            found |= dict.fromkeys(each.name for each in _keys(entry, body))
    return list(found)


def _entries(root: Schema) -> Iterator[Entry]:
    top = root["properties"]
    for name, schema in top.items():
        yield Entry(name, "key", schema, root, name in root["required"])
    unions: tuple[tuple[Sort, Schema], ...] = (
        ("mount", top["mount"]), ("section", top["sections"]["items"]),
    )  # fmt: skip
    for sort, union in unions:
        for name, place in sorted(union["discriminator"]["mapping"].items()):
            yield Entry(name, sort, followed(place, root), root)
    motif = root["$defs"]["Motif"]
    steps = (
        followed(each["$ref"], root) for each in motif["properties"]["steps"]["items"]["oneOf"]
    )
    for body in sorted(steps, key=lambda body: str(body["required"])):
        yield Entry(body["required"][0], "step", body, root)
    for name, profile in PROFILES.items():
        said = said_of(profile)
        edge = {"description": said.text, "examples": list(said.examples)}
        yield Entry(name, "profile", edge, root)
