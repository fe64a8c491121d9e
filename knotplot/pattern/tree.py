"""A pattern as plain data with positions: which file, or which override, each part comes from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from knotplot.brief import Brief
from knotplot.errors import Fault, Path
from knotplot.wording import UNREAD as UNREAD
from knotplot.wording import quoted


class Place(NamedTuple):
    """Where a part stands: a file or an override, its line from 1, and its path there if other."""

    origin: str | None = None
    line: int | None = None
    path: Path | None = None


class Table(dict[str, Any]):
    """A mapping with the place of each of its keys."""

    __slots__ = ("places",)

    def __init__(self) -> None:
        super().__init__()
        self.places: dict[str, Place] = {}

    def __repr__(self) -> str:
        return f"Table(<{len(self)}>)"


class Items(list[Any]):
    """A sequence with the place of each of its items."""

    __slots__ = ("places",)

    def __init__(self) -> None:
        super().__init__()
        self.places: list[Place] = []


@dataclass(frozen=True, slots=True, repr=False)
class Source(Brief):
    """A pattern's text as read: the root of its tree, where it came from, and its faults so far."""

    root: Any = None
    origin: str | None = None
    faults: tuple[Fault, ...] = ()

    def place(self, path: Path) -> Place:
        """Return where `path` stands, or the nearest part above it that stands somewhere."""
        here, place = self.root, Place(self.origin, 1 if self.root is not None else None)
        for i, part in enumerate(path):
            if isinstance(here, Table) and part in here.places:
                found = here.places[str(part)]
            elif isinstance(here, Items) and isinstance(part, int) and part < len(here.places):
                found = here.places[part]
            else:
                return place._replace(path=place.path and place.path + path[i:])
            deeper = place.path and (*place.path, part)
            place = found._replace(path=found.path or deeper)
            here = here[part]
        return place

    def locate(self, path: Path) -> tuple[str | None, int | None]:
        """Return the origin and line of `path`, or of the nearest part above it."""
        place = self.place(path)
        return place.origin, place.line

    def as_written(self, fault: Fault) -> Fault:
        """Return a fault that quotes its value as it is written at its path, if it is there."""
        here = self.root
        for part in fault.path:
            inside = isinstance(here, dict) and part in here
            if not inside and not (
                isinstance(here, list) and isinstance(part, int) and part < len(here)
            ):
                return fault
            here = here[part]
        if fault.value is None or not isinstance(here, str | int | float):
            return fault
        return replace(fault, value=quoted(here))

    def located(self, fault: Fault) -> Fault:
        """Return a fault with its origin, its line, and its path there."""
        place = self.place(fault.path)
        path = place.path or fault.path
        return replace(fault, origin=place.origin, line=place.line, path=path)


def parts_of(node: Any) -> Iterator[tuple[str | int, Any]]:
    """Yield the keys or indices of a mapping or sequence with their values, else nothing."""
    if isinstance(node, dict):
        yield from node.items()
    elif isinstance(node, Sequence) and not isinstance(node, str):
        yield from enumerate(node)


def size_of(node: Any) -> int:
    """Return how many keys and items there are in it, at every depth."""
    total, open_ = 0, [node]
    while open_:
        parts = [part for _, part in parts_of(open_.pop())]
        total += len(parts)
        open_ += parts
    return total
