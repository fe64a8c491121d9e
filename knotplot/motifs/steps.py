"""The steps of a motif: what the maker does, one thing after another, in lanes counted from 1.

In a file a step is a mapping with one key that names it (`- hitch: {lead: 6, to: 1}`); here it is
a model with plain fields. Each knows how it reads in a mirror, what is wrong with its lanes, and
how many lanes there are after it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from knotplot.errors import Path
from knotplot.fields import (
    MOST_STRANDS,
    Angle,
    Count,
    Flag,
    Lane,
    Length,
    LengthOrZero,
    Line,
    Turns,
    Workers,
    at_most,
)
from knotplot.motifs.step import LaneFault, Step, Steps

SeveralLanes = Annotated[
    tuple[Lane, ...], Field(min_length=1, max_length=MOST_STRANDS), at_most(MOST_STRANDS)
]


def _missing(path: Path, lane: int, lanes: int) -> Iterator[LaneFault]:
    if not 1 <= lane <= lanes:
        remedy = f"use a lane from 1 to {lanes}"
        yield LaneFault(path, lane, f"lane {lane} isn't there, of {lanes}", remedy)


def _run(lead: int, to: int, names: tuple[str, str], lanes: int) -> Iterator[LaneFault]:
    """Yield the faults of a step that runs from one lane to another."""
    yield from _missing((names[0],), lead, lanes)
    yield from _missing((names[1],), to, lanes)
    if lead == to:
        problem = f"'{names[0]}' and '{names[1]}' are one lane"
        yield LaneFault((names[1],), to, problem, "run it to another lane")


def _several(lanes_in: tuple[int, ...], path: Path, lanes: int) -> Iterator[LaneFault]:
    """Yield the faults of a list of lanes: not there, or taken twice."""
    for i, lane in enumerate(lanes_in):
        yield from _missing((*path, i), lane, lanes)
    if len(set(lanes_in)) < len(lanes_in):
        twice = min(lane for lane, times in Counter(lanes_in).items() if times > 1)
        yield LaneFault(path, list(lanes_in), f"lane {twice} twice", "take each lane once")


def _flip(lanes_in: Iterable[int], lanes: int) -> tuple[int, ...]:
    return tuple(sorted(lanes + 1 - lane for lane in lanes_in))


class CrossStep(Step):
    """Two neighbours change places, the right one over the left.

    Nothing is tied.

    Example: `{cross: [2, 3]}`.
    """

    key: ClassVar[str] = "cross"
    payload: ClassVar[str | None] = "lanes"
    beside: ClassVar[tuple[str, ...]] = ("under",)
    lanes: tuple[Lane, Lane]
    """The two lanes, side by side. Example: `[2, 3]`."""
    under: Flag = False
    """`true` for the right one under the left. Example: `true`."""

    def mirrored(self, lanes: int) -> CrossStep:
        """Return it with its lanes mirrored and the other strand on top."""
        update = {"lanes": _flip(self.lanes, lanes), "under": not self.under}
        return self.model_copy(update=update)

    def faults(self, lanes: int) -> Iterator[LaneFault]:
        """Yield lanes that aren't there or aren't neighbours."""
        for i, lane in enumerate(self.lanes):
            yield from _missing((i,), lane, lanes)
        if abs(self.lanes[0] - self.lanes[1]) != 1:
            problem = f"lanes {self.lanes[0]} and {self.lanes[1]} aren't neighbours"
            yield LaneFault((), list(self.lanes), problem, "cross two lanes side by side")


class HitchStep(Step):
    """A bar of hitches: the strand in lane `lead` leads to lane `to`.

    It is held taut, and each strand it passes is hitched onto it.

    Example: `{hitch: {lead: 1, to: 4}}`.
    """

    key: ClassVar[str] = "hitch"
    lead: Lane
    """The lane that the leader hangs in. Example: `1`."""
    to: Lane
    """The lane it is led to. Example: `4`."""
    turns: Turns = 2
    """How often each strand is turned round the leader: 1 a half hitch, 2 a double, 3 a triple.
    Example: `2`.
    """
    times: Count = 1
    """How many bars are worked over the same lanes, each led by the strand that hangs in `lead` by
    then.
    Example: `2`.
    """
    angle: Angle | None = None
    """How steeply the leader falls below level, in degrees from 0 up to 90; without it the drawing
    chooses (45 or steeper where strands hang wide).
    Example: `30`.
    """

    def mirrored(self, lanes: int) -> HitchStep:
        """Return it with its lanes mirrored."""
        return self.model_copy(update={"lead": lanes + 1 - self.lead, "to": lanes + 1 - self.to})

    def faults(self, lanes: int) -> Iterator[LaneFault]:
        """Yield lanes that aren't there, or lead and to alike."""
        yield from _run(self.lead, self.to, ("lead", "to"), lanes)


class VerticalStep(Step):
    """Vertical hitches: the strand in lane `worker` works its way to lane `to`.

    It is hitched upright onto each strand it passes.

    Example: `{vertical: {worker: 1, to: 4}}`.
    """

    key: ClassVar[str] = "vertical"
    worker: Lane
    """The lane that the working strand hangs in. Example: `1`."""
    to: Lane
    """The lane it goes to. Example: `4`."""
    turns: Turns = 2
    """How often it is turned round each strand: 1 a half hitch, 2 a double, 3 a triple.
    Example: `2`.
    """

    def mirrored(self, lanes: int) -> VerticalStep:
        """Return it with its lanes mirrored."""
        return self.model_copy(
            update={"worker": lanes + 1 - self.worker, "to": lanes + 1 - self.to}
        )

    def faults(self, lanes: int) -> Iterator[LaneFault]:
        """Yield lanes that aren't there, or worker and to alike."""
        yield from _run(self.worker, self.to, ("worker", "to"), lanes)


class KnotStep(Step):
    """One knot on lanes side by side.

    Example: `{knot: {kind: square_knot, lanes: [1, 2, 3, 4]}}`.
    """

    key: ClassVar[str] = "knot"
    kind: Line
    """The knot; `knotplot knots` lists those that can be asked for by name.
    Example: `square_knot`.
    """
    lanes: SeveralLanes
    """The lanes it is tied on, side by side. Example: `[1, 2, 3, 4]`."""
    facing: Literal["left", "right"] = "left"
    """Which side the knot begins from. Example: `right`."""
    workers: Workers = 1
    """How many strands work at each side; all others are fillers. Example: `2`."""
    picot: Length | None = None
    """The loop that is left standing at the sides above the knot: how much bare cord it takes.
    Without it there is none.
    Example: `3 cm`.
    """

    def mirrored(self, lanes: int) -> KnotStep:
        """Return it with its lanes mirrored, facing the other way."""
        facing = "right" if self.facing == "left" else "left"
        return self.model_copy(update={"lanes": _flip(self.lanes, lanes), "facing": facing})

    def faults(self, lanes: int) -> Iterator[LaneFault]:
        """Yield lanes that aren't there, are taken twice, or don't hang side by side."""
        found = tuple(_several(self.lanes, ("lanes",), lanes))
        yield from found
        low, high = min(self.lanes), max(self.lanes)
        if not found and high - low + 1 != len(self.lanes):
            remedy = f"use lanes side by side, as {low} to {low + len(self.lanes) - 1}"
            yield LaneFault(("lanes",), list(self.lanes), "lanes not side by side", remedy)


class RepeatStep(Step):
    """Steps worked again and again.

    Example: `{repeat: {times: 2, steps: [{knot: {kind: square_knot, lanes: [1, 2, 3, 4]}}]}}`.
    """

    key: ClassVar[str] = "repeat"
    times: Count
    """How often they are worked. Example: `3`."""
    steps: Steps
    """The steps, in order. Example: `[{knot: {kind: square_knot, lanes: [1, 2, 3, 4]}}]`."""

    @property
    def copies(self) -> int:
        """Return how often its steps are worked."""
        return self.times

    def inner(self) -> tuple[Step, ...]:
        """Return its steps."""
        return self.steps


class MirrorStep(Step):
    """Steps worked once, as they read in a mirror.

    Lanes are counted from the right, and knots face the other way.

    Example: `{mirror: [{hitch: {lead: 1, to: 4}}]}`.
    """

    key: ClassVar[str] = "mirror"
    payload: ClassVar[str | None] = "steps"
    steps: Steps
    """The steps, as they are before they are mirrored. Example: `[{hitch: {lead: 1, to: 4}}]`."""

    def inner(self) -> tuple[Step, ...]:
        """Return its steps."""
        return self.steps


class BothStep(Step):
    """Steps worked as written, then as they read in a mirror.

    Example: `{both: [{hitch: {lead: 1, to: 2}}]}`.
    """

    key: ClassVar[str] = "both"
    payload: ClassVar[str | None] = "steps"
    steps: Steps
    """The steps of the left half. Example: `[{hitch: {lead: 1, to: 2}}]`."""

    @property
    def copies(self) -> int:
        """Return 2: as written, and mirrored."""
        return 2

    def inner(self) -> tuple[Step, ...]:
        """Return its steps."""
        return self.steps


class GapStep(Step):
    """Bare cord before what follows, on all lanes.

    Example: `{gap: 15 mm}`.
    """

    key: ClassVar[str] = "gap"
    payload: ClassVar[str | None] = "length"
    length: LengthOrZero
    """How much bare cord. Example: `15 mm`."""


class AddStep(Step):
    """New cords, each looped onto the strand in lane `after` by a lark's head.

    The two strands of each hang to the right of it (to the left within `mirror`).

    Example: `{add: {after: 2, cords: 1}}`.
    """

    key: ClassVar[str] = "add"
    after: Lane
    """The lane of the strand they are looped onto. Example: `2`."""
    cords: Lane = 1
    """How many cords are added; each brings two strands. Example: `1`."""

    def mirrored(self, lanes: int) -> AddStep:
        """Return it with its lane mirrored (the side is told by the unrolled step)."""
        return self.model_copy(update={"after": lanes + 1 - self.after})

    def faults(self, lanes: int) -> Iterator[LaneFault]:
        """Yield a lane that isn't there."""
        yield from _missing(("after",), self.after, lanes)

    def lanes_after(self, lanes: int) -> int:
        """Return the lanes with two more a cord."""
        return lanes + 2 * self.cords


class EndStep(Step):
    """Strands that end here; the others close up.

    Example: `{end: {lanes: [1, 4]}}`.
    """

    key: ClassVar[str] = "end"
    lanes: SeveralLanes
    """The lanes of the strands that end. Example: `[1, 4]`."""

    def mirrored(self, lanes: int) -> EndStep:
        """Return it with its lanes mirrored."""
        return self.model_copy(update={"lanes": _flip(self.lanes, lanes)})

    def faults(self, lanes: int) -> Iterator[LaneFault]:
        """Yield lanes that aren't there or are taken twice, or none left."""
        found = tuple(_several(self.lanes, ("lanes",), lanes))
        yield from found
        if not found and len(self.lanes) == lanes:
            yield LaneFault(("lanes",), list(self.lanes), "no lane is left", "let one go on")

    def lanes_after(self, lanes: int) -> int:
        """Return the lanes without those that end."""
        return max(1, lanes - len(self.lanes))
