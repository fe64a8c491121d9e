"""Columns: parts worked side by side, each on strands of its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field, model_validator

from knotplot.errors import Path, Refusal
from knotplot.fields import Count, Spec, StrandsOrRest, wrong
from knotplot.motifs.motif import Motif
from knotplot.sections.base import Ask, Section, Sections, meet_all, work_in_turn
from knotplot.tying.job import Job


class Part(Spec):
    """One column of `columns`: sections worked on strands of its own.

    Example: `{strands: 4, repeat: 2, sections: [{kind: sennits, knot: half_knot, count: 8}]}`.
    """

    strands: StrandsOrRest
    """How many strands each copy of it has, or `rest`: those that the other parts leave, shared
    equally by its copies. One part at the most has the rest.
    Example: `8`, `rest`.
    """
    repeat: Count = 1
    """How many copies of it stand side by side. Example: `2`."""
    sections: Sections
    """What is worked on its strands, from top to bottom.
    Example: `[{kind: square_knot_mesh, rows: 4}]`.
    """

    def together(self, motifs: Mapping[str, Motif], path: Path) -> Ask:
        """Return what its sections ask of one copy; refuse where two disagree."""
        asks = [
            ask
            for i, section in enumerate(self.sections)
            for ask in section.asks(motifs, (*path, "sections", i))
        ]
        met = meet_all(asks)
        if isinstance(met, Ask):
            return met
        raise disagreement(*met)


class Columns(Section):
    """Parts side by side, from left to right, each worked on strands of its own.

    Each is worked to its end; what follows waits for the deepest.

    Example: `{kind: columns, parts: [{strands: 4, sections: [{kind: sennits, knot: half_knot,
    count: 8}]}, {strands: rest, sections: [{kind: square_knot_mesh, rows: 4}]}]}`.
    """

    kind: Literal["columns"] = "columns"
    holds: ClassVar[bool] = True
    parts: Annotated[tuple[Part, ...], Field(min_length=1)]
    """The columns, from left to right.
    Example: `[{strands: 4, sections: [{kind: sennits, knot: half_knot, count: 8}]}, {strands: rest,
    sections: [{kind: square_knot_mesh, rows: 4}]}]`.
    """

    @model_validator(mode="after")
    def _one_rest(self) -> Columns:
        if sum(part.strands == "rest" for part in self.parts) > 1:
            raise wrong("more than one part takes the rest", "give all but one a number of strands")
        return self

    def inner(self) -> Iterator[tuple[Path, tuple[Section, ...]]]:
        """Yield each part's sections."""
        for i, part in enumerate(self.parts):
            yield ("parts", i, "sections"), part.sections

    @property
    def fixed(self) -> int:
        """Return the strands of the parts that name a number, their copies counted."""
        return sum(p.strands * p.repeat for p in self.parts if not isinstance(p.strands, str))

    def shares(self, strands: int) -> tuple[int, ...]:
        """Return the strands of one copy of each part when it is worked on `strands` strands.

        `strands` is a count that it asks for; without a rest the parts follow each other as
        often as the count takes them.
        """
        rest = strands - self.fixed
        return tuple(
            rest // p.repeat if isinstance(p.strands, str) else p.strands for p in self.parts
        )

    def held(self, strands: int) -> Iterator[tuple[int, int, tuple[Section, ...]]]:
        """Yield each part's sections, as often as it has copies, on the strands of one copy."""
        for part, share in zip(self.parts, self.shares(strands), strict=True):
            yield part.repeat, share, part.sections

    def ask(self, motifs: Mapping[str, Motif]) -> tuple[int, int]:
        """Ask for the fixed parts plus what the rest asks; without a rest for their multiple."""
        return self._asked(motifs)[:2]

    def least(self, motifs: Mapping[str, Motif]) -> int:
        """Return the least count: the rest is never empty."""
        return self._asked(motifs)[2]

    def asks(self, motifs: Mapping[str, Motif], path: Path) -> Iterator[Ask]:
        """Yield what it asks, `path` being its own."""
        yield Ask(*self._asked(motifs), path, self.label)

    def _asked(self, motifs: Mapping[str, Motif]) -> tuple[int, int, int]:
        """Return plus, repeat and least, asking the parts within only once."""
        for i, part in enumerate(self.parts):
            if isinstance(part.strands, str):
                plus, repeat, least = part.together(motifs, ("parts", i))[:3]
                lowest = self.fixed + part.repeat * at_least(plus, repeat, least)
                repeat *= part.repeat
                return ((self.fixed + plus * part.repeat) % repeat, repeat, lowest)
        return (0, self.fixed, self.fixed)

    def refusals(self, motifs: Mapping[str, Motif], path: Path) -> Iterator[Refusal]:
        """Yield what is wrong with the strands of each part, `path` being its own."""
        for i, part in enumerate(self.parts):
            here = (*path, "parts", i)
            try:
                ask = part.together(motifs, here)
            except Refusal as refusal:
                yield refusal
                continue
            if isinstance(part.strands, str):
                continue
            if part.strands < ask.least or (part.strands - ask.plus) % ask.repeat:
                near = nearest(part.strands, ask.plus, ask.repeat, ask.least)
                yield Refusal(
                    f"its sections can't be worked on {part.strands} strands",
                    f"use {near}",
                    (*here, "strands"),
                    part.strands,
                )

    def asks_then(self, motifs: Mapping[str, Motif]) -> tuple[int, int, int]:
        """Ask for its fixed parts, and for a rest that can be cut equally."""
        for part in self.parts:
            if isinstance(part.strands, str):
                return (self.fixed % part.repeat, part.repeat, self.fixed + part.repeat)
        return (0, self.fixed, self.fixed)

    def work(self, job: Job) -> None:
        """Work each part to its end, its copies one after another; what follows waits."""
        shares, lane, above = self.shares(job.count), job.first, job.rack.above
        while lane < job.first + job.now().count:
            for i, (part, share) in enumerate(zip(self.parts, shares, strict=True)):
                for _ in range(part.repeat):
                    mine = job.on(lane, share, "parts", i)
                    job.rack.above = above.beside()
                    work_in_turn(part.sections, mine, "sections")
                    lane += mine.now().count
        job = job.now()
        job.rack.above = above
        if job.count:
            job.rack.level(job.first, job.count)


def at_least(plus: int, repeat: int, least: int) -> int:
    """Return the least plus + k·repeat that is `least` or more, and at least 1."""
    least = max(least, 1)
    return plus + -((plus - least) // repeat) * repeat


def nearest(count: int, plus: int, repeat: int, least: int) -> str:
    """Say which counts plus + k·repeat, at least `least`, are nearest to `count`."""
    lowest = at_least(plus, repeat, least)
    above = max(lowest, at_least(plus, repeat, count))
    below = above - repeat
    return f"{below} or {above}" if below >= lowest else f"{above}"


def disagreement(a: Ask, b: Ask) -> Refusal:
    """Say that two parts ask for counts that no number of strands can give."""
    return Refusal(
        f"{b.what} needs {counts(b)} strands, but {a.what} needs {counts(a)}: no count is both",
        "change one of the two",
        b.path,
    )


def counts(ask: Ask) -> str:
    """Write an ask as a maker says it: `a multiple of 8 plus 4`."""
    return f"a multiple of {ask.repeat}" + (f" plus {ask.plus}" if ask.plus else "")
