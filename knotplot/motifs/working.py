"""A motif worked: its steps as moves on the lanes that are there, and the shapes they make.

A whole motif is solved once; the parts at the sides of an offset row, and the part motif that
stands alone at a shaped edge, are cut out of the solved whole and keep its heights. Lanes that are
not there count on: what is added to or ended on them changes the numbering of the others.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from knotplot.errors import Path, Refusal
from knotplot.geometry.inner import crossing_runs
from knotplot.motifs.motif import Motif, UnrolledStep, unroll
from knotplot.motifs.shipped import shipped_motif, shipped_names
from knotplot.motifs.steps import (
    AddStep,
    CrossStep,
    EndStep,
    GapStep,
    HitchStep,
    KnotStep,
    VerticalStep,
)
from knotplot.tying.assembling import assemble
from knotplot.tying.moves import Add, End, Gap, Move, Moves, There
from knotplot.tying.placing import place
from knotplot.tying.rack import Rack
from knotplot.tying.shape import Shape, make_shape

# Times the usual drop, tried in turn until no runs of a motif cross where no strands do.
EASES = (1.0, 1.6, 2.5, 4.0, 7.0)
MOST_MOVES = 5_000  # of one motif, which is solved as a whole
HITCHES = {1: "half_hitch", 2: "double_half_hitch", 3: "triple_half_hitch"}


def moves(motif: Motif, first: int, last: int, top: int | None = None, even: bool = True) -> Moves:
    """Return what is worked of a motif where only lanes `first` to `last` (from 1) are there.

    Lanes of the moves are the whole motif's, from 0. With `top`, only its first steps. What is
    added or ended where no lane is there is among them, since the others then count anew. Unless
    `even`, both halves of a `both` stand on the lanes there as each is worked.
    """
    found: list[Move | Gap | Add | End] = []
    there = There(first - 1, last, motif.strands)
    line = ties = 0
    for worked in unroll(motif):
        if top is not None and worked.number > top:
            break
        for move in _step(worked, there):
            if isinstance(move, Move) and move.line >= 0:
                move = move._replace(line=line + move.turn)
            if even and isinstance(move, Move | Add) and any(worked.beside):
                move = move._replace(beside=worked.beside)
            found.append(move)
            ties += move.cords if isinstance(move, Add) else 1
            if ties > MOST_MOVES:
                raise Refusal(
                    f"a motif of more than {MOST_MOVES:,} ties", "repeat its steps less often",
                    worked.path,
                )  # fmt: skip
        match worked.step:
            case HitchStep():
                line += worked.step.times
            case AddStep():
                there.add(worked.step.after - 1, worked.step.cords)
            case EndStep():
                there.end(lane - 1 for lane in worked.step.lanes)
            case _:
                line += 1
    return tuple(found)


def _step(worked: UnrolledStep, there: There) -> Iterator[Move | Gap | Add | End]:
    step, number = worked.step, worked.number
    match step:
        case CrossStep():
            left, right = sorted(lane - 1 for lane in step.lanes)
            if left in there and right in there:
                over = "left" if step.under else "right"
                yield Move("cross", (left, right), over, step=number)
        case HitchStep():
            for turn in range(step.times):
                name = HITCHES[step.turns]
                angle = None if step.angle is None else float(step.angle)
                yield from _bar(name, step.lead, step.to, there, number, turn, angle)
        case VerticalStep():
            name = "vertical_" + HITCHES[step.turns]
            yield from _bar(name, step.worker, step.to, there, number, 0, None)
        case KnotStep():
            lanes = tuple(lane - 1 for lane in sorted(step.lanes) if lane - 1 in there)
            if len(lanes) >= 2 or lanes == tuple(lane - 1 for lane in step.lanes):
                workers = min(step.workers, max(1, len(lanes) // 2))
                picot = float(step.picot or 0)
                yield Move(step.kind, lanes, step.facing, workers, step=number, picot=picot)
        case GapStep():
            yield Gap(float(step.length), number)
        case AddStep():
            yield Add(step.after - 1, step.cords, worked.mirrored, number)
        case EndStep():
            yield End(tuple(lane - 1 for lane in sorted(step.lanes)), number)
        case _:
            raise Refusal(f"step {number} can't be worked yet", "leave it out", worked.path)


def _bar(
    name: str, start: int, to: int, there: There, step: int, turn: int, angle: float | None
) -> Iterator[Move]:
    """Yield the ties of a bar over the lanes between its ends that are there, from its start."""
    low, high = max(min(start, to), there.first + 1), min(max(start, to), there.last)
    vertical = name.startswith("vertical_")
    rightward = start < to
    lefts = range(low - 1, high - 1) if rightward else range(high - 2, low - 2, -1)
    # In a vertical hitch the strand that is passed leads; else the one that travels does.
    leader = int(rightward) if vertical else int(not rightward)
    for left in lefts:
        yield Move(name, (left, left + 1), None, 1, leader, step, 0, angle, turn)


class Squeezed(Refusal):
    """A motif whose strands would cross, on lanes nearer to each other than its cord is thick."""


@dataclass(frozen=True, slots=True)
class MotifShapes:
    """The shapes of one motif on one rack, made when first asked for.

    `asked` is the path where a section names it: that is at fault in a motif that is shipped.
    """

    rack: Rack
    name: str
    motif: Motif
    asked: Path = ()

    def shape(self, first: int, last: int, top: bool = False) -> Shape:
        """Return the motif's lanes `first` to `last` (from 1), whole or only its top steps."""
        key = ("motif", self.name, first, last, top, self.rack.tall, self.rack.gauge.strands)
        try:
            return self.rack.shape(key, lambda: self._made(first, last, top))
        except Refusal as refusal:
            fault, given = refusal.fault, self.name in shipped_names()
            if given and self.motif is shipped_motif(self.name):
                again = type(refusal)(fault.problem, fault.remedy, self.asked, self.name)
                raise again from None
            raise refusal.under(("motifs", self.name)) from None

    def _made(self, first: int, last: int, top: bool) -> Shape:
        """Return a part of the motif, with the drop at which no runs of it or the whole cross."""
        whole, least, even = self._clear()
        if (first, last, top) == (1, self.motif.strands, False):
            return whole
        for ease in EASES[EASES.index(least) :]:
            shape = self._part(first, last, top, ease, even)
            if not crossing_runs(shape, self.rack.gauge.diameter):
                return shape
        raise self._crossing()

    def _clear(self) -> tuple[Shape, float, bool]:
        """Return the whole motif's shape with the least drop at which its runs keep apart.

        With it comes whether the halves of what is worked on both sides stand alike; where their
        runs would cross so, they stand as they are worked.
        """
        whole = moves(self.motif, 1, self.motif.strands)
        self.rack.check(whole, self.motif.strands)
        if not any(map(_ties, whole)):
            raise Refusal("the motif ties nothing", "give it a knot or a hitch")
        uneven = any(any(move.beside) for move in whole if isinstance(move, Move | Add))
        for even in (True, False) if uneven else (True,):
            for ease in EASES:
                shape = self._part(1, self.motif.strands, False, ease, even)
                if not crossing_runs(shape, self.rack.gauge.diameter):
                    return shape, ease, even
                if ease == EASES[0] and self._squeezed and self._cross_at(EASES[-1], even):
                    break
        raise self._crossing()

    @property
    def _squeezed(self) -> bool:
        """Tell whether the lanes are nearer to each other than the cord is thick."""
        return self.rack.gauge.pitch < self.rack.gauge.diameter

    def _cross_at(self, ease: float, even: bool) -> bool:
        shape = self._part(1, self.motif.strands, False, ease, even)
        return crossing_runs(shape, self.rack.gauge.diameter) > 0

    def _part(self, first: int, last: int, top: bool, ease: float, even: bool) -> Shape:
        motif, gauge = self.motif, self.rack.gauge
        whole = moves(motif, 1, motif.strands, even=even)
        places = place(whole, motif.strands, gauge, ease, self.rack.tall)
        level = min(tie.top for tie in assemble(whole, places, motif.strands, gauge).ties)
        some = moves(motif, first, last, motif.top if top else None, even)
        span = last - first + 1
        if span < motif.strands:
            self._check_part(some)
        tied = assemble(some, places, span, gauge, first - 1, motif.strands)
        of = (self.name, motif.strands, first - 1)
        return make_shape(tied, span, gauge.diameter, of, level)

    def _check_part(self, some: Moves) -> None:
        """Refuse a part at a side in which too few lanes of a knot are there to tie it."""
        try:
            self.rack.check(some, self.motif.strands)
        except Refusal as refusal:
            raise Refusal(
                f"only a part of {self.name} is worked at the side of an offset row, and "
                f"{refusal.fault.problem}",
                "use 'edges: free' in the band, or leave 'offset' out",
            ) from None

    def _crossing(self) -> Refusal:
        kind = Squeezed if self._squeezed else Refusal
        return kind(
            f"strands of {self.name} are pulled so far aside that their runs would cross",
            "put a gap between its steps, or knot on lanes that are nearer",
        )


def _ties(move: Move | Gap | Add | End) -> bool:
    return isinstance(move, Add) or (isinstance(move, Move) and move.knot != "cross")


class LeadTwice(NamedTuple):
    """A step that leads a lane straight after a bar that led the lane `before` (all from 1)."""

    step: int
    lane: int
    before: int


def lead_twice(motif: Motif) -> LeadTwice | None:
    """Return the bar that leads lane 2 straight after one that led lane 1 the same way, if any.

    A maker who counts strands, not lanes, would write so; the leader of the second bar then is
    the strand that the first one moved there.
    """
    before: HitchStep | None = None
    for worked in unroll(motif):
        step = worked.step
        if isinstance(step, HitchStep) and before is not None:
            m = worked.lanes
            right = (before.lead, step.lead) == (1, 2) and before.to > 1 and step.to > 2
            left = (before.lead, step.lead) == (m, m - 1) and before.to < m and step.to < m - 1
            if right or left:
                return LeadTwice(worked.number, step.lead, before.lead)
        before = step if isinstance(step, HitchStep) else None
    return None
