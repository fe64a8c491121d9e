"""What a section is given to work: the rack, its lanes, and what stands around it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from knotplot.curves.lower_edge import LowerEdge
from knotplot.errors import Path, Refusal
from knotplot.tying.rack import Rack


@dataclass(frozen=True, slots=True)
class Job:
    """A section's work: lanes `first` (from 0) to `first + count - 1` of the rack.

    `below` (mm) is the bare cord that free and fringe sections keep under it; `numbers` gives the
    values found for what was `fill`, by path; `path` is the section's own; `motifs` are all there
    are, by name (given as Any, since motifs are read above this ground). Of the rack's lanes
    `others` are not the job's: all that are added or end while it is worked are its own.
    """

    rack: Rack
    first: int
    count: int
    path: Path
    edge: LowerEdge
    below: float
    numbers: Mapping[Path, float]
    motifs: Any
    others: int = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "others", len(self.rack.lanes["body"]) - self.count)

    def number(self, key: str, asked: float | Fraction | str) -> float:
        """Return the value of a field that may be `fill`: the one found for it, or as asked."""
        found = self.numbers.get((*self.path, key))
        if found is not None:
            return found
        return 0.0 if isinstance(asked, str) else float(asked)

    def now(self) -> Job:
        """Return the job on the lanes it has now, after strands were added or ended in it."""
        count = len(self.rack.lanes["body"]) - self.others
        return self if count == self.count else replace(self, count=count)

    def on(self, first: int, count: int, *path: str | int) -> Job:
        """Return the job for a part of the lanes (of the rack) and a longer path."""
        return replace(self, first=first, count=count, path=self.path + path)

    def refusal(self, problem: str, remedy: str, *path: str | int, value: object = None) -> Refusal:
        """Return a refusal that names a field of this section."""
        return Refusal(problem, remedy, self.path + path, value)
