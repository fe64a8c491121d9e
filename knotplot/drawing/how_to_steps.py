"""The stages of a knot as scenes: its cords as they lie after each, and the step that is told.

One set of curves serves both. A strand is shown from where it enters to where it is in place, and
runs on from there in a smooth tail; what the moving strand passes is found where these very curves
cross, in order along it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import groupby

from knotplot.curves.space import SpaceCurve, mirrored
from knotplot.drawing.how_to_cords import (
    Strand,
    cut,
    direction,
    entry,
    folded,
    place,
    start_of,
    tail_of,
    tip,
)
from knotplot.drawing.how_to_names import Key, called, grouped, keys_of
from knotplot.drawing.weave import Crossing, crossings
from knotplot.instructions.how_to import Cords, Pass, Step, Way
from knotplot.knots import knot
from knotplot.knots.base import Form, Manner, Point2, Stage

MOST = 8  # strands a flat knot is shown on
BUNDLE = 4  # and those of a bundle
HANG = 2.6  # diameters cords hang below the knot
_STRAIGHT = ("filler", "leader", "rod", "bundle")  # cords that have no loop to go through


@dataclass(frozen=True, slots=True)
class Scene:
    """A stage: its cords in the order of the knot's curves (a rod last) and what is told of it."""

    strands: tuple[Strand, ...]
    step: Step
    rod: float | None = None


def shown(name: str, manner: Manner) -> Manner:
    """Return the manner in which tying a knot is shown: cords tied as one are one or a few."""
    kind = knot(name)
    if kind.as_one:
        alone = "working" in kind.roles(manner)
        return manner._replace(strands=1 if alone else BUNDLE)
    if kind.faces and manner.strands > MOST:
        manner = manner._replace(strands=MOST)
    if manner.leader is not None:
        manner = manner._replace(reach=3.0)
    return manner


@lru_cache(maxsize=256)
def scenes(name: str, manner: Manner, left_handed: bool = False) -> tuple[Scene, ...]:
    """Return the stages in which a knot is tied in that manner; mirrored for the left hand."""
    drawn = shown(name, manner)
    tying = _Tying(name, manner, drawn, knot(name).stages(drawn), left_handed)
    made: list[Scene] = []
    for i in range(len(tying.stages)):
        scene = tying.scene(i)
        before = made[-1].step if made else None
        again = before is not None and _like(before, scene.step)
        made.append(replace(scene, step=scene.step._replace(again=again)))
    return tuple(made)


def _like(one: Step, other: Step) -> bool:
    return one.moves == other.moves and one.passes[:1] == other.passes[:1] != ()


@dataclass(frozen=True, slots=True)
class _Tying:
    """A knot being tied: the manner it has in the piece, and the one it is drawn in."""

    name: str
    manner: Manner
    drawn: Manner
    stages: tuple[Stage, ...]
    mirrored: bool

    def scene(self, i: int) -> Scene:
        """Return the scene after stage `i`."""
        made = knot(self.name).shape(self.drawn, i)
        roles, curves = self.ropes(made)
        bottom = max(path[-1][10] for path in made.paths) + HANG
        strands = tuple(self._strand(i, j, roles[j], curves[j], bottom) for j in range(len(curves)))
        rod = None if made.rod is None else made.rod[0][1]
        return Scene(strands, self._step(i, strands, made), rod)

    def ropes(self, made: Form) -> tuple[tuple[str, ...], tuple[SpaceCurve, ...]]:
        """Return roles and curves of all cords of a form, for the hand that ties."""
        extra = [("leader", made.leader), ("wrap", made.wrap)]
        there = [(role, curve) for role, curve in extra if curve is not None]
        curves = (*made.paths, *(curve for _, curve in there))
        roles = (*knot(self.name).roles(self.drawn), *(role for role, _ in there))
        if knot(self.name).as_one:
            roles = tuple("bundle" if role == "filler" else role for role in roles)
        return roles, tuple(mirrored(curve) if self.mirrored else curve for curve in curves)

    def pull(self, i: int, j: int) -> Point2 | None:
        """Return where the end of strand `j` is led after stage `i`, None where it hangs."""
        for before, stage in enumerate(reversed(self.stages[: i + 1])):
            if stage.tight and before:
                break
            if j in stage.moves:
                k = stage.moves.index(j)
                x, y = stage.pull[k if len(stage.pull) > 1 else 0]
                size = math.hypot(x, y)
                return ((-x if self.mirrored else x) / size, y / size)
        return None

    def laid(self, i: int, j: int) -> float:
        """Return how much of strand `j` is in place after stage `i`; before the first, nothing."""
        if i < 0:
            return 0.0
        return self.stages[i].laid[j] if j < len(self.stages[i].laid) else math.inf

    def _strand(self, i: int, j: int, role: str, curve: SpaceCurve, bottom: float) -> Strand:
        stage = self.stages[i]
        far = min(self.laid(i, j), float(len(curve)))
        pull, moves, held = self.pull(i, j), j in stage.moves, j in stage.held
        if role == "mount":
            far = far if stage.bight else 0.0
            start = len(curve) - self.laid(i - 1, j) if i else 0.0
            return folded(curve, far, bottom, start if moves and not stage.tight else None)
        if role == "leader":
            end = tip(curve) if moves else None
            return Strand(role, curve, (0.0, float(len(curve))) if moves else None, end, held)
        before = () if role == "wrap" else entry(curve)
        part = cut(curve, far)
        drawn_up = role == "wrap" and stage.tight  # by its first end; the other one is inside
        tail = () if drawn_up else tail_of(part or before, pull, bottom)
        whole = (*before, *part, *tail)
        if not moves:
            return Strand(role, whole, held=held)
        if stage.tight:
            return Strand(role, whole, None, start_of(whole) if drawn_up else tip(whole))
        start = len(before) + max(min(self.laid(i - 1, j), far) if self._moved(i, j) else 0.0, 0.0)
        return Strand(role, whole, (start, float(len(whole))), tip(whole))

    def _moved(self, i: int, j: int) -> bool:
        """Tell whether part of strand `j` was in place before stage `i`."""
        return i > 0 and self.laid(i - 1, j) > 0.0

    # --- what is told ----------------------------------------------------------------------------

    def _step(self, i: int, strands: Sequence[Strand], made: Form) -> Step:
        stage = self.stages[i]
        keys = self._keys(i, tuple(strand.role for strand in strands))
        hidden = self._hidden()
        moves = grouped((keys[j] for j in stage.moves), keys, hidden)
        held = grouped((keys[j] for j in stage.held), keys, hidden)
        moves = tuple(_moving(cords, stage, self) for cords in moves)
        passes, own = self._passes(i, strands, keys, made)
        times = 1
        if len(passes) > 3 and len({*passes[::2]}) == len({*passes[1::2]}) == 1:
            times, passes = (len(passes) + 1) // 2, passes[:2]
        return Step(
            moves, passes, self._way(i), held, times,
            through=None if times > 1 else _through(passes, [keys[j] for j in stage.held]),
            loop=None if own or times > 1 else _loop(strands[stage.moves[0]], stage),
            own=own, back=self._back(i), first=i == 0, bight=stage.bight, tight=stage.tight,
            done=i == len(self.stages) - 1, tied=stage.tied,
        )  # fmt: skip

    def _hidden(self) -> bool:
        """Tell whether fewer cords are drawn than there are."""
        return self.drawn.strands < self.manner.strands

    def _keys(self, i: int, roles: Sequence[str]) -> tuple[Key, ...]:
        """Return how each cord is called in stage `i`: its role and, for those that work, place."""
        drawn_up = [k for k in range(i) if self.stages[k].tight]
        last = drawn_up[-1] if drawn_up else 0
        _, curves = self.ropes(knot(self.name).shape(self.drawn, last))
        hang = [
            place(curve, min(self.laid(last, j), len(curve)) if drawn_up else 0.0)[0]
            for j, curve in enumerate(curves)
        ]
        return called(roles, hang, [stage.moves for stage in self.stages])

    def _passes(
        self, i: int, strands: Sequence[Strand], keys: Sequence[Key], made: Form
    ) -> tuple[tuple[Pass, ...], bool]:
        """Return what the moving strand passes in order, and whether it crosses its new part."""
        stage, mover = self.stages[i], self.stages[i].moves[0]
        new = strands[mover].new
        if new is None:
            return (), False
        curves = [strand.curve for strand in strands]
        if made.rod is not None:
            curves.append(made.rod)
        names = (*keys, Key("rod"))
        found, own = [], False
        for over, at_, other, there in sorted(_met(crossings(curves), mover), key=lambda m: m[1]):
            if not new[0] - 1e-6 < at_ or (other in stage.moves and other != mover):
                continue
            if other == mover:
                if there > at_:
                    continue
                own = own or there > new[0]
            found.append((over, Key("self") if other == mover else names[other], at_))
        made_of: list[Pass] = []
        for over, group in groupby(found, key=lambda event: event[0]):
            events = list(group)
            way = _named(*direction(curves[mover], events[0][2]), 4)
            named = grouped((key for _, key, _ in events), names, self._hidden())
            cords = sorted((_passed(each, stage) for each in named), key=_rank)
            made_of.append(Pass(over, tuple(cords), way))
        return tuple(made_of), own

    def _way(self, i: int) -> Way:
        pulls = [pull for j in self.stages[i].moves if (pull := self.pull(i, j)) is not None]
        xs = [x for x, _ in pulls]
        if min(xs) < -0.1 and max(xs) > 0.1:
            return "sides"
        return _named(sum(xs), sum(y for _, y in pulls))

    def _back(self, i: int) -> bool:
        """Tell whether the cords that move did so before they were last pulled tight."""
        drawn_up = [k for k in range(i) if self.stages[k].tight]
        return bool(drawn_up) and not self.stages[i].tight and any(
            stage.moves == self.stages[i].moves for stage in self.stages[: drawn_up[-1]]
        )  # fmt: skip


# --- cords -----------------------------------------------------------------------------------


def _moving(cords: Cords, stage: Stage, tying: _Tying) -> Cords:
    """Return moving cords by the name they have in the hand."""
    if cords.role == "mount":
        return Cords("fold") if stage.bight else Cords("ends", None, 2)
    if cords.role == "working" and knot(tying.name).as_one:
        return cords._replace(number=tying.manner.strands)
    return cords


def _passed(cords: Cords, stage: Stage) -> Cords:
    """Return passed cords by name; those of a folded cord are its ends."""
    if cords.role == "self":
        return Cords("ends", None, 2) if stage.bight else Cords("self", None, len(stage.moves))
    return cords


def _rank(cords: Cords) -> int:
    """Return where cords passed on one side are told: working ones first, its own last."""
    return {"working": 0, "knotting": 0, "self": 2, "ends": 2}.get(cords.role, 1)


def _met(found: Iterable[Crossing], mover: int) -> Iterator[tuple[bool, float, int, float]]:
    """Yield the crossings of one cord: whether it is over, where, which other, and where that."""
    for c in found:
        if c.over == mover:
            yield True, c.over_at, c.under, c.under_at
        if c.under == mover:
            yield False, c.under_at, c.over, c.over_at


def _through(passes: Sequence[Pass], held: Sequence[Key]) -> int | None:
    """Return before which pass the cord goes through a loop: from one side of a cord to the other.

    Cords held straight have none.
    """
    for i in range(1, len(passes)):
        shared = keys_of(passes[i].cords) & keys_of(passes[i - 1].cords)
        if any(key.role not in _STRAIGHT and key not in held for key in shared):
            return i
    return None


def _loop(strand: Strand, stage: Stage) -> Way | None:
    """Return where a loop points that was laid without crossing itself, None where none was."""
    if strand.new is None or stage.bight or strand.role == "leader":
        return None
    x0, y0 = direction(strand.curve, strand.new[0])
    x1, y1 = direction(strand.curve, strand.new[1])
    return _named(x0, y0, 4) if x0 * x1 + y0 * y1 < -0.6 else None


def _named(x: float, y: float, ways: int = 8) -> Way:
    """Return the direction of a vector in words, by the nearest of so many parts of a turn."""
    names: tuple[Way, ...] = (
        "right", "down right", "down", "down left", "left", "up left", "up", "up right",
    )  # fmt: skip
    return names[8 // ways * round(math.atan2(y, x) * ways / math.tau) % 8]
