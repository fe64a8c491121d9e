"""A few sections worked again and again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar, Literal

from knotplot.errors import Path
from knotplot.fields import Count
from knotplot.motifs.motif import Motif
from knotplot.sections.base import Ask, Section, Sections, meet_all, work_in_turn
from knotplot.tying.job import Job


class Repeat(Section):
    """A few sections worked again and again, one below another.

    Example: `{kind: repeat, times: 2, sections: [{kind: hitch_line}, {kind: square_knot_mesh, rows:
    2}]}`.
    """

    kind: Literal["repeat"] = "repeat"
    holds: ClassVar[bool] = True
    times_key: ClassVar[str | None] = "times"
    times: Count
    """How often they are worked. Example: `2`."""
    sections: Sections
    """The sections, from top to bottom.
    Example: `[{kind: hitch_line}, {kind: square_knot_mesh, rows: 2}]`.
    """

    def inner(self) -> Iterator[tuple[Path, tuple[Section, ...]]]:
        """Yield its sections."""
        yield ("sections",), self.sections

    def held(self, strands: int) -> Iterator[tuple[int, int, tuple[Section, ...]]]:
        """Yield its sections, worked again and again on all its strands."""
        yield self.times, strands, self.sections

    def ask(self, motifs: Mapping[str, Motif]) -> tuple[int, int]:
        """Ask for what all its sections ask; raise ValueError where two of them disagree."""
        met = meet_all(self.asks(motifs, ()))
        if not isinstance(met, Ask):
            raise ValueError(f"{met[0].what} and {met[1].what} disagree")
        return met[:2]

    def least(self, motifs: Mapping[str, Motif]) -> int:
        """Return the least that gives every section one repeat."""
        return max(section.least(motifs) for section in self.sections)

    def asks(self, motifs: Mapping[str, Motif], path: Path) -> Iterator[Ask]:
        """Yield what each of its sections asks, so that a disagreement names them."""
        for i, section in enumerate(self.sections):
            yield from section.asks(motifs, (*path, "sections", i))

    def asks_then(self, motifs: Mapping[str, Motif]) -> tuple[int, int, int]:
        """Ask for nothing itself."""
        return (0, 1, 1)

    def work(self, job: Job) -> None:
        """Work its sections, again and again."""
        for _ in range(self.times):
            work_in_turn(self.sections, job, "sections")
            job = job.now()
