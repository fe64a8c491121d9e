"""Where the cord goes: of every strand what lies in knots, in runs, in the finish; what is lost.

All lengths in mm. A cord's shares add up to what it is cut for:
used (mount + knots + runs + finish of its strands) + fold + allowance + rounding = cut.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from knotplot.brief import Brief
from knotplot.geometry.layout import Layout, shape_use
from knotplot.materials.cutting import waste_by_groups
from knotplot.materials.groups import alike
from knotplot.materials.lengths import CordLength, Cutting

FLAT = 0.10  # what is commonly added to every cord: common practice


class StrandUse(NamedTuple):
    """Where the cord (mm) of one strand goes; `strand` is None for an end or cord that is none.

    `mount` lies in the knots that hang it (in a rod pocket, those of band and join), `knots` in all
    others, `runs` between knots, `finish` hangs below the last one: fringe, trim, tail, overhang.
    """

    strand: int | None
    mount: float
    knots: float
    runs: float
    finish: float

    @property
    def used(self) -> float:
        """Return all it uses."""
        return self.mount + self.knots + self.runs + self.finish


@dataclass(frozen=True, slots=True, repr=False)
class CordReport(Brief):
    """Where one cord goes: by strand what is used, then what is cut beyond that.

    `fold` is what the shorter side of a cord folded in the middle has too much, `rounding` what
    whole steps and few lengths add.
    """

    cord: str
    strands: tuple[StrandUse, ...]
    fold: float
    allowance: float
    rounding: float

    @property
    def used(self) -> float:
        """Return what its strands use."""
        return sum(strand.used for strand in self.strands)

    @property
    def cut(self) -> float:
        """Return what it is cut for."""
        return self.used + self.fold + self.allowance + self.rounding


class Shares(NamedTuple):
    """Where the cord of some cords goes on the average, each share in mm."""

    mount: float
    knots: float
    runs: float
    finish: float
    allowance: float
    lost: float

    @property
    def total(self) -> float:
        """Return what each is cut for on the average."""
        return sum(self)


class Waste(NamedTuple):
    """Of cords of one role, kind and colour: what is cut (mm) with at most 1, 2, … lengths."""

    role: str
    kind: str
    colour: str | None
    totals: tuple[Fraction, ...]


class Flat(NamedTuple):
    """The allowance of all cords (mm), what a flat tenth would be, and for how many too little."""

    allowance: float
    flat: float
    short: int


def report(layout: Layout, lengths: Iterable[CordLength]) -> tuple[CordReport, ...]:
    """Return where every cord goes, in their order."""
    mount = _mount_knots(layout)
    return tuple(
        CordReport(
            each.cord.id,
            tuple(
                StrandUse(
                    side.strand, hung := mount.get(side.strand or 0, 0.0), side.knots - hung,
                    side.runs, side.finish,
                )
                for side in each.sides
            ),
            each.bare - each.used,
            each.allowance,
            float(each.cut) - each.need,
        )
        for each in lengths
    )  # fmt: skip


def _mount_knots(layout: Layout) -> dict[int, float]:
    """Return what the knots that hang each strand take of it (mm): its mounting, or where added."""
    taken = _added_knots(layout)
    known: dict[int, tuple[tuple[int, float], ...]] = {}
    for row in layout.piece.rows:
        if row.section != 0:  # the mounting is the first of the parts
            break
        for shape, _, strands, _, _ in row.placements:
            if id(shape) not in known:
                uses = shape_use(shape, 0, layout.take, layout.piece.gauge.diameter)
                known[id(shape)] = tuple((who, use.knots) for who, use in uses if who >= 0)
            for who, knots in known[id(shape)]:
                taken[strands[who]] = taken.get(strands[who], 0.0) + knots
    return taken


def _added_knots(layout: Layout) -> dict[int, float]:
    """Return what the knots by which cords are added take of their strands (mm)."""
    taken: dict[int, float] = {}
    diameter = layout.piece.gauge.diameter
    for row in layout.piece.rows:
        for shape, _, strands, _, _ in row.placements:
            if not shape.added:
                continue
            for tie in shape.ties:
                if tie.carried is not None:
                    use = layout.take(tie.knot, tie.manner, row.section).by_role
                    for who, role in zip(tie.who, tie.roles, strict=True):
                        taken[strands[who]] = use[role] * diameter
    return taken


def shares(reports: Iterable[CordReport], lines: Sequence[Cutting]) -> tuple[Shares, ...]:
    """Return where the cord of each line of the cut list goes, on the average of its cords."""
    by_id = {each.cord: each for each in reports}
    return tuple(_mean([by_id[cord] for cord in line.cords]) for line in lines)


def _mean(cords: Sequence[CordReport]) -> Shares:
    strands = [strand for cord in cords for strand in cord.strands]
    n = len(cords)
    return Shares(
        sum(each.mount for each in strands) / n,
        sum(each.knots for each in strands) / n,
        sum(each.runs for each in strands) / n,
        sum(each.finish for each in strands) / n,
        sum(each.allowance for each in cords) / n,
        sum(each.fold + each.rounding for each in cords) / n,
    )


def waste(lengths: Iterable[CordLength], step: Fraction) -> tuple[Waste, ...]:
    """Return what fewer lengths would cost, for the cords alike that are cut in more than one."""
    known = list(lengths)
    found = []
    for of, mine in alike(each.cord for each in known).items():
        cords = [known[i] for i in mine]
        there = len({cord.cut for cord in cords})
        if there > 1:
            needs = [cord.need for cord in cords]
            total = sum((cord.cut for cord in cords), Fraction(0))
            lost = waste_by_groups(needs, step, there)
            found.append(Waste(*of, tuple(total + each - lost[-1] for each in lost)))
    return tuple(found)


def flat_tenth(lengths: Iterable[CordLength]) -> Flat:
    """Return what a flat tenth on every cord comes to beside the allowance."""
    found = list(lengths)
    return Flat(
        sum(each.allowance for each in found),
        sum(FLAT * each.bare for each in found),
        sum(FLAT * each.bare < each.allowance for each in found),
    )
