"""A motif: a figure of a few strands, as a list of steps, checked and unrolled."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, TypeAlias

from pydantic import ValidationError, model_validator
from pydantic_core import InitErrorDetails

from knotplot.errors import Path, Refusal
from knotplot.fields import MOST_STRANDS, Count, Line, Spec, StrandCount, wrong
from knotplot.motifs.halves import ALONE, Beside, lanes_beside
from knotplot.motifs.step import MOST_STEPS, Step, Steps
from knotplot.motifs.steps import AddStep, BothStep, EndStep, MirrorStep, RepeatStep

_DEEPEST = 64


_Flat: TypeAlias = tuple[Step, bool, Path]  # a step, whether it is mirrored, and its path


class UnrolledStep(NamedTuple):
    """One step as it is worked: `number` counts from 1, crosses and gaps too.

    Lanes, facing and `under` of `step` are as worked; `mirrored` tells that it came out of a
    mirror (an `add` then goes to the left). `path` leads to it in the motif as written, to the
    mapping or list that holds its own values; `lanes` are there before it, and `beside` are how
    many more at its left and right it goes by, so that both halves of a `both` stand alike.
    """

    number: int
    step: Step
    mirrored: bool
    lanes: int
    path: Path
    beside: Beside = ALONE


class Motif(Spec):
    """A figure worked on a few strands side by side, in steps.

    Example: `{strands: 4, steps: [{hitch: {lead: 1, to: 4}}, {hitch: {lead: 4, to: 1}}]}`.
    """

    title: Line | None = None
    """What it is called in words; without it, its key in `motifs`. Example: `Alder leaf`."""
    strands: StrandCount
    """How many strands it is worked on. Example: `8`."""
    steps: Steps
    """What the maker does, one thing after another; lanes are counted from 1, left to right.
    Example: `[{hitch: {lead: 1, to: 4}}, {hitch: {lead: 4, to: 1}}]`.
    """
    top: Count | None = None
    """How many steps from the first stand alone as a part of the motif where the whole doesn't fit
    above a shaped lower edge, counted as worked; without it nothing is worked there.
    Example: `4`.
    """

    @property
    def recounts(self) -> bool:
        """Tell whether it adds strands or ends some."""
        return any(isinstance(step, AddStep | EndStep) for _, step in steps_within(self.steps))

    @model_validator(mode="after")
    def _check(self) -> Motif:
        found = tuple(faults(self))
        if found:
            raise ValidationError.from_exception_data(
                "Motif",
                [
                    InitErrorDetails(
                        type=wrong(refusal.fault.problem, refusal.fault.remedy),
                        loc=refusal.fault.path,
                        input=value,
                    )
                    for refusal, value in found
                ],
            )
        return self


def unroll(motif: Motif) -> tuple[UnrolledStep, ...]:
    """Return the steps as worked, repeats, mirrors and boths unrolled.

    `times` of a hitch stays in its one step. Raises `Refusal` for more than 100,000 steps.
    """
    return tuple(_worked(motif))


def _worked(motif: Motif) -> Iterator[UnrolledStep]:
    if count_steps(motif.steps) > MOST_STEPS:
        raise _too_many()
    lanes, number = motif.strands, 1
    for flat, both in _in_turn(motif.steps, False, ("steps",)):
        found = []
        for step, mirrored, path in flat:
            worked = step.mirrored(lanes) if mirrored else step
            found.append(UnrolledStep(number, worked, mirrored, lanes, path))
            lanes, number = _lanes_after(step, lanes, path), number + 1
        recounts = both and any(isinstance(each.step, AddStep | EndStep) for each in found)
        yield from _side_by_side(found) if recounts else found


def _side_by_side(both: list[UnrolledStep]) -> Iterator[UnrolledStep]:
    """Yield the steps of a `both`, each on lanes that stand where its mirror image's do."""
    halves = [(each.step, each.mirrored) for each in both]
    for each, beside in zip(both, lanes_beside(halves, both[0].lanes), strict=True):
        yield each._replace(beside=beside)


def _in_turn(
    steps: tuple[Step, ...], mirrored: bool, path: Path
) -> Iterator[tuple[list[_Flat], bool]]:
    """Yield the steps that work strands, those of an outermost `both` together (True)."""
    for i, step in enumerate(steps):
        here = (*path, i, step.key)
        match step:
            case RepeatStep():
                for _ in range(step.times):
                    yield from _in_turn(step.steps, mirrored, (*here, "steps"))
            case MirrorStep():
                yield from _in_turn(step.steps, not mirrored, here)
            case BothStep():
                first = _flat(step.steps, mirrored, here)
                yield [*first, *_flat(step.steps, not mirrored, here)], True
            case _:
                yield [(step, mirrored, here)], False


def _flat(steps: tuple[Step, ...], mirrored: bool, path: Path) -> Iterator[_Flat]:
    """Yield every step that works strands."""
    for i, step in enumerate(steps):
        here = (*path, i, step.key)
        match step:
            case RepeatStep():
                for _ in range(step.times):
                    yield from _flat(step.steps, mirrored, (*here, "steps"))
            case MirrorStep():
                yield from _flat(step.steps, not mirrored, here)
            case BothStep():
                yield from _flat(step.steps, mirrored, here)
                yield from _flat(step.steps, not mirrored, here)
            case _:
                yield step, mirrored, here


def steps_within(steps: tuple[Step, ...], path: Path = ("steps",)) -> Iterator[tuple[Path, Step]]:
    """Yield every step that works strands once, as written, with its path."""
    for i, step in enumerate(steps):
        here = (*path, i, step.key)
        inner = step.inner()
        if inner is None:
            yield here, step
        else:
            yield from steps_within(inner, (*here, "steps") if step.payload is None else here)


def count_steps(steps: tuple[Step, ...], depth: int = 1) -> int:
    """Return how many steps there are once unrolled."""
    if depth > _DEEPEST:
        raise Refusal("steps nested too deep", f"nest them at most {_DEEPEST} deep", ("steps",))
    total = 0
    for step in steps:
        inner = step.inner()
        total += 1 if inner is None else step.copies * count_steps(inner, depth + 1)
    return total


def faults(motif: Motif) -> Iterator[tuple[Refusal, object]]:
    """Yield what is wrong with its lanes and its `top`, each place once, with the value there."""
    try:
        count = count_steps(motif.steps)
        if count > MOST_STEPS:
            raise _too_many()
        checker = _LaneChecker(motif.strands)
        checker.visit(motif.steps, ("steps",))
    except Refusal as refusal:
        yield refusal, None
        return
    yield from checker.found.values()
    if motif.top is not None and motif.top > count:
        problem = f"'top' is {motif.top}, but there are {count} steps"
        yield Refusal(problem, f"use {count} at most", ("top",), motif.top), motif.top


class _LaneChecker:
    """Checks the lanes of steps as written (a mirror has the same lanes), without unrolling."""

    def __init__(self, lanes: int) -> None:
        self.lanes = lanes
        self.visited = 0
        self.found: dict[Path, tuple[Refusal, object]] = {}

    def visit(self, steps: tuple[Step, ...], path: Path) -> None:
        for i, step in enumerate(steps):
            here = (*path, i, step.key)
            inner = step.inner()
            if inner is None:
                self._check(step, here)
                continue
            for _ in range(step.copies):
                before = self.lanes
                self.visit(inner, (*here, "steps") if step.payload is None else here)
                if self.lanes == before:
                    break  # every further copy meets the same lanes

    def _check(self, step: Step, path: Path) -> None:
        self.visited += 1
        if self.visited > MOST_STEPS:
            raise _too_many()
        for steps, value, problem, remedy in step.faults(self.lanes):
            place = path + steps
            self.found.setdefault(place, (Refusal(problem, remedy, place, value), value))
        self.lanes = _lanes_after(step, self.lanes, path)


def _lanes_after(step: Step, lanes: int, path: Path) -> int:
    lanes = step.lanes_after(lanes)
    if lanes > MOST_STRANDS:
        raise Refusal("more than 20 000 strands", "add fewer cords", path)
    return lanes


def _too_many() -> Refusal:
    return Refusal(
        "more than 100 000 steps once repeats are unrolled", "repeat it less often", ("steps",)
    )
