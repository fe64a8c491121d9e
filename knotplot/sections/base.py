"""A section of a piece: one stretch of work from top to bottom, and what it asks of the strands."""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import accumulate
from typing import Annotated, ClassVar, NamedTuple

from pydantic import Field

from knotplot.discovery import Registry, Tagged, models
from knotplot.errors import Path, Refusal
from knotplot.fields import Line, at_most
from knotplot.kind import Kind
from knotplot.motifs.motif import Motif
from knotplot.tying.bench import MOST_SECTIONS
from knotplot.tying.job import Job
from knotplot.tying.names import counted


class Ask(NamedTuple):
    """What one part asks: plus + k·repeat strands, `least` at the least; `what` names it."""

    plus: int
    repeat: int
    least: int
    path: Path
    what: str


class Section(Kind):
    """One stretch of work; each file of this package adds one kind."""

    name: Line | None = None
    """What this section is called: in words and figures, in `swatch.of`, and where a named size or
    `--set` changes it. Without a name it goes by its kind. Each name may stand once.
    Example: `net`.
    """
    kind: str
    """Which kind of section it is."""

    #: Nothing is tied in it: its cords hang bare.
    bare_cords: ClassVar[bool] = False
    #: Nothing is worked below it but what may hang `below_end`.
    ends_work: ClassVar[bool] = False
    below_end: ClassVar[bool] = False
    #: A line of hitches that every second cord may pass behind.
    skips_cords: ClassVar[bool] = False
    #: The key whose value is the bare cord between its rows, if it has any.
    bare_key: ClassVar[str | None] = None
    #: The key that says how many of what it ties one below another, and what those are called.
    counts: ClassVar[tuple[str, str]] = ("rows", "row")
    #: The keys whose values name motifs, and those that name knots.
    motif_keys: ClassVar[tuple[str, ...]] = ()
    knot_keys: ClassVar[tuple[str, ...]] = ()
    #: The key that says how often it works the sections that it holds, if it works them again.
    times_key: ClassVar[str | None] = None
    #: What is looked for where its `length` fills the drop.
    number_of_length: ClassVar[str] = "length"

    @property
    def label(self) -> str:
        """Return its name, else its kind."""
        return self.name or self.kind

    def inner(self) -> Iterator[tuple[Path, tuple[Section, ...]]]:
        """Yield the lists of sections it holds, each with its path from here."""
        yield from ()

    def held(self, strands: int) -> Iterator[tuple[int, int, tuple[Section, ...]]]:
        """Yield the lists of sections it holds, how often each is worked, and on how many strands.

        `strands` is how many it is worked on itself.
        """
        for _, sections in self.inner():
            yield 1, strands, sections

    def begun(self, strands: int) -> int:
        """Return on how many strands sections are begun in all where it is worked on `strands`."""
        if not self.holds:
            return strands
        return sum(
            times * sum(section.begun(share) for section in sections)
            for times, share, sections in self.held(strands)
        )

    @property
    def motifs(self) -> tuple[str, ...]:
        """Return the names of the motifs that it works."""
        return tuple(getattr(self, key) for key in self.motif_keys)

    @property
    def own_colour(self) -> str | None:
        """Return the colour that it names for a cord of its own, if any."""
        return None

    @property
    def stands_out(self) -> float:
        """Return how far (mm) a cord of its own stands out at each side."""
        return 0.0

    def fills(self) -> str | None:
        """Return the key of the number to be found where it takes what the drop leaves."""
        if getattr(self, "rows", None) == "fill":
            return "rows"
        return self.number_of_length if getattr(self, "length", None) == "fill" else None

    def sample(self, rows: int) -> tuple[Section, ...]:
        """Return sections that are worked as so many rows of it; for kinds with a swatch rank."""
        return (self.model_copy(update={"rows": rows}),)

    def refusals(self, motifs: Mapping[str, Motif], path: Path) -> Iterator[Refusal]:
        """Yield what is wrong with its measures, `path` being its own."""
        yield from ()

    def ask(self, motifs: Mapping[str, Motif]) -> tuple[int, int]:
        """Return (plus, repeat): it can be worked on plus + k·repeat strands, 0 ≤ plus < repeat."""
        return (0, 1)

    def least(self, motifs: Mapping[str, Motif]) -> int:
        """Return the least count of strands that gives it one repeat."""
        plus, repeat = self.ask(motifs)
        return plus or repeat

    def asks(self, motifs: Mapping[str, Motif], path: Path) -> Iterator[Ask]:
        """Yield what it and the sections in it ask, `path` being its own."""
        yield Ask(*self.ask(motifs), self.least(motifs), path, self.label)

    def asks_then(self, motifs: Mapping[str, Motif]) -> tuple[int, int, int]:
        """Return what it asks of the lanes it is begun on: plus, repeat, and the least.

        Where it holds others, what it asks itself: they are looked at when they are begun, since
        strands may be added or end before.
        """
        return (*self.ask(motifs), self.least(motifs))

    @abstractmethod
    def work(self, job: Job) -> None:
        """Tie the section on the job's lanes."""

    def bare(self, job: Job) -> float:
        """Return the bare cord (mm) it keeps below what was tied before it, at the least."""
        return 0.0


SECTIONS: Registry[type[Section]] = Registry("knotplot.sections", models(Section))
AnySection = Annotated[Section, Tagged(SECTIONS)]
Sections = Annotated[
    tuple[AnySection, ...], Field(min_length=1, max_length=MOST_SECTIONS), at_most(MOST_SECTIONS)
]


def walk(sections: Iterable[Section], path: Path = ("sections",)) -> Iterator[tuple[Path, Section]]:
    """Yield every section with its path, those inside others after the one they are in."""
    for i, section in enumerate(sections):
        here = (*path, i)
        yield here, section
        for steps, held in section.inner():
            yield from walk(held, here + steps)


def meet(a: tuple[int, int], b: tuple[int, int]) -> tuple[int, int] | None:
    """Return the (plus, repeat) of the counts two asks share, None if there are none.

    Chinese remainder theorem for moduli that need not be coprime.

    >>> meet((2, 4), (0, 6))
    (6, 12)
    """
    (p, m), (q, n) = a, b
    common = math.gcd(m, n)
    if (q - p) % common:
        return None
    repeat = m // common * n
    steps = (q - p) // common * pow(m // common, -1, n // common) % (n // common)
    return ((p + m * steps) % repeat, repeat)


def meet_all(asks: Iterable[Ask]) -> Ask | tuple[Ask, Ask]:
    """Return what all `asks` together ask, or the first two of them that disagree.

    Moduli agree all together exactly where they agree two by two, so two can always be named.
    """
    so_far: list[Ask] = []
    together = Ask(0, 1, 1, (), "")
    for ask in asks:
        met = meet(together[:2], ask[:2])
        if met is None:
            return next((a, ask) for a in so_far if meet(a[:2], ask[:2]) is None)
        least = max(together.least, ask.least)
        together = Ask(*met, least, (), "")
        so_far.append(ask)
    return together


def work_in_turn(sections: Sequence[Section], job: Job, *path: str | int) -> None:
    """Work sections one below another, each on the lanes that are there then.

    A refusal gets the path of the section it comes from.
    """
    jobs = [job.on(job.first, job.count, *path, i) for i in range(len(sections))]
    bare = (section.bare(each) for section, each in zip(sections[:0:-1], jobs[:0:-1], strict=True))
    below = [*accumulate(bare, initial=job.below)][::-1]
    for section, each, room in zip(sections, jobs, below, strict=True):
        now = each.now()
        try:
            if now.rack.recounted:
                _check_lanes(section, now)
            section.work(replace(now, below=room))
        except Refusal as refusal:
            if refusal.fault.path:
                raise
            raise refusal.under(each.path) from None


def _check_lanes(section: Section, job: Job) -> None:
    """Refuse a section that doesn't suit the lanes there once strands were added or ended."""
    if job.count < 1:
        raise job.refusal("all its strands have ended", "let some of them go on")
    plus, repeat, least = section.asks_then(job.motifs)
    if (job.count - plus) % repeat or job.count < least:
        needs = f"a multiple of {repeat}{f' plus {plus}' * (plus > 0)}" if repeat > 1 else "more"
        raise job.refusal(
            f"{counted(job.count, 'strand')} hang here, once strands were added or ended, and "
            f"{section.label} needs {needs}, {least} at the least",
            "add or end strands so that they suit, or change this section",
        )
