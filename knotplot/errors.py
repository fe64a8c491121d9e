"""What can go wrong, in one tree.

KnotplotError
├── PatternError      the pattern is at fault: one or more `Fault`s (exit 1)
├── Refusal           one thing that can't be worked, before its line in the file is known
├── OutputError       a place that can't be written (exit 1)
└── UsageError        the command or call is wrong (exit 2)
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

Path = tuple[str | int, ...]


def dotted(path: Path) -> str:
    """Write a path through the pattern as a maker reads it.

    >>> dotted(("sections", 2, "rows"))
    'sections[2].rows'
    """
    text = ""
    for part in path:
        text += f"[{part}]" if isinstance(part, int) else f".{part}" if text else str(part)
    return text


@dataclass(frozen=True, slots=True, repr=False)
class Fault:
    """One fault of a pattern: where it stands, what is there, and what would do.

    `path` runs through the pattern; `origin` is the file (or the override) and `line` the line
    in it, counted from 1, where they are known.
    """

    path: Path
    problem: str
    remedy: str
    value: str | None = None
    origin: str | None = None
    line: int | None = None

    def __str__(self) -> str:
        place = [self.origin or "pattern"]
        if self.line is not None:
            place[0] += f":{self.line}"
        if self.path:
            place.append(dotted(self.path))
        if self.value is not None:
            place.append(self.value)
        return f"{': '.join(place)}: {self.problem}; {self.remedy}"

    def __repr__(self) -> str:
        return f"Fault({shortened(str(self), 80)})"


class KnotplotError(Exception):
    """Any error that knotplot raises on purpose."""

    def __repr__(self) -> str:
        return f"{type(self).__name__}({shortened(str(self), 70)})"


class PatternError(KnotplotError):
    """A pattern that can't be read or worked, with every fault found."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(self.faults)  # what a copy is made of

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)

    def __repr__(self) -> str:
        first = shortened(str(self.faults[0]), 60) if self.faults else "none"
        return f"PatternError({len(self.faults)} faults, the first: {first})"


class Refusal(KnotplotError):  # noqa: N818  # no error yet: it has no place in a file
    """One thing that can't be worked; becomes a `Fault` once its line is known."""

    def __init__(
        self, problem: str, remedy: str, path: Path = (), value: object | None = None
    ) -> None:
        self.fault = Fault(path, problem, remedy, None if value is None else shown(value))
        super().__init__(problem, remedy)  # what a copy is made of, which then gets this `fault`

    def __str__(self) -> str:
        return f"{self.fault.problem}; {self.fault.remedy}"

    def under(self, path: Path) -> Refusal:
        """Return the same refusal with `path` put before its own."""
        moved = type(self)(self.fault.problem, self.fault.remedy)
        moved.fault = replace(self.fault, path=path + self.fault.path)
        return moved


class OutputError(KnotplotError):
    """A place that can't be written; nothing was left half done there."""


class UsageError(KnotplotError):
    """A command or call that doesn't fit: wrong words, not a wrong pattern."""


def shown(value: object, most: int = 60) -> str:
    """Return `value` as it is quoted in a message: one line of printable text, `most` long at most.

    >>> shown("a" * 9, most=6)
    "'aaaa…"
    """
    return shortened(repr(value) if isinstance(value, str) else str(value), most)


def shortened(text: str, most: int) -> str:
    """Return `text` as one line of printable text, `most` characters long at most.

    >>> shortened("size.width=120", most=8)
    'size.wi…'
    """
    text = "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in text[: most + 1])
    return text if len(text) <= most else text[: most - 1] + "…"
