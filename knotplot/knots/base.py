"""What a knot is: its strands' curves through space, between ports.

A knot's file gives the curves of its strands as a function of the `Manner` in which it is tied,
in cord diameters about the knot's middle (x right, y down, z towards the viewer). Everything
else is derived: the lanes its strands leave in, its crossings, its drawing and its chart mark.
Beside the curve stand only what no curve can tell: roles, the cord it takes, the maker's words.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import IntEnum
from functools import lru_cache
from typing import NamedTuple

from knotplot.curves.bezier import length_of
from knotplot.curves.space import Point3, SpaceCurve, mapped, sample
from knotplot.knots.sizes import lost_height
from knotplot.knots.solved import table

#: The roles whose excess a tight or loose hand changes; others are held straight, or mount.
HANDED = ("working", "knotting")
#: Excess in diameters for each diameter by which a knot is lower than usual: solved stacks of
#: square knots take 13.01 at a pitch of 4.00 and 15.45 at 2.78 (`solved.json`), 2.0 a diameter.
BULGE = 2.0

WHOLE = math.inf  # of a stage: all of a strand is in place

Point2 = tuple[float, float]


class Difficulty(IntEnum):
    """How much practice a knot takes, in three steps; their words are a language's."""

    EASY = 1
    SOME = 2
    MUCH = 3


class Manner(NamedTuple):
    """How a knot is tied: what its curve depends on.

    `strands` counts those that hang; `facing` is "left", "right" or None; `workers` the working
    strands a side; `leader` 0 or 1 for the left or right strand led, -1 for a separate leader,
    None where nothing leads; `cos`, `sin` of the leader's fall below the horizontal; `reach` half
    the length of the leader (or half the spread of a cross) between its ports; `rod` the diameter
    of what it is tied on where that is no cord; both in cord diameters. `tall` is its height as
    tied over its usual one, as a swatch was measured.
    """

    strands: int
    facing: str | None = None
    workers: int = 1
    leader: int | None = None
    cos: float = 1.0
    sin: float = 0.0
    reach: float = 1.25
    rod: float = 1.0
    tall: float = 1.0


@dataclass(frozen=True, slots=True)
class Form:
    """A knot's shape in cord diameters: one curve a strand, left to right as they enter.

    `leader` is the curve of a separate leader, `wrap` that of a separate wrapping cord, `rod` the
    axis of what it is tied on where that is no cord;
    `height` runs from entry to exit port, `half_width` to the outer edge of the outer cord.
    """

    paths: tuple[SpaceCurve, ...]
    height: float
    half_width: float
    leader: SpaceCurve | None = None
    wrap: SpaceCurve | None = None
    rod: SpaceCurve | None = None

    def mapped(self, move: Callable[[float, float, float], Point3]) -> Form:
        """Return it with every curve's points moved; its height and width stay."""

        def curve(path: SpaceCurve | None) -> SpaceCurve | None:
            return None if path is None else mapped(path, move)

        return replace(
            self, paths=tuple(mapped(path, move) for path in self.paths),
            leader=curve(self.leader), wrap=curve(self.wrap), rod=curve(self.rod),
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class KnotWords:
    """A knot's words in one language: its name, one and many, and what goes wrong with it."""

    one: str
    many: str
    fault: str


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of tying: what a picture of it shows and a sentence about it says.

    Strands are numbered as their curves are: those that hang, then a separate leader, then a
    wrap. `moves` names those in the hand. `laid` says how much of each is in place afterwards, in
    cubics of its own curve; those it doesn't reach are in place whole. A strand that isn't whole
    and hasn't moved hangs straight down from there. `pull` is where the free end of a moving
    strand is led, a direction each (one alone is for all). `held` are held straight. A `bight`
    moves fold first: its strands begin at the fold, and what is in place is what lies from `laid`
    to their ends. A `tight` stage draws up what was laid; then strands have their names anew, by
    where they hang. `tied` names knots that are tied first, and how many: a composite's own.
    """

    moves: tuple[int, ...]
    laid: tuple[float, ...] = ()
    pull: tuple[Point2, ...] = ((0.0, 1.0),)
    held: tuple[int, ...] = ()
    bight: bool = False
    tight: bool = False
    tied: tuple[str, int] | None = None


@dataclass(frozen=True, slots=True)
class CordUse:
    """Cord a knot takes by role, in diameters, from port to port: `way` + `excess`.

    `way` is the straight way past the knot as tied: its height, or its reach along a leader. No
    hand can use less. `excess` is what the strand takes beyond that at the knot's usual height; a
    tight or a loose hand changes the excess of `HANDED` roles only.

    `sigma` is the standard deviation of one tie, as a share of its length: an assumption for
    practised hands, since no measurement was found. A swatch of four ties gives their mean to
    half of that, which is within the error the contract gives a measured swatch. `drawn` marks a
    rough figure: the length of the knot's curves as drawn, where no solved figure exists.
    """

    way: Mapping[str, float] = field(default_factory=dict)
    excess: Mapping[str, float] = field(default_factory=dict)
    sigma: float = 0.05
    drawn: bool = False

    @property
    def by_role(self) -> dict[str, float]:
        """Return the whole length of each role, in diameters."""
        return {role: way + self.excess.get(role, 0.0) for role, way in self.way.items()}

    def scaled(self, factor: float) -> CordUse:
        """Return the use of hands that take `factor` times the usual excess, as a swatch says.

        A wrap never takes less: its turns go round a bundle whose girth no hand changes, and
        thinner cord takes as many more turns as each is shorter.
        """
        factors = dict.fromkeys(HANDED, factor) | {"wrap": max(1.0, factor)}
        return replace(
            self, excess={role: factors.get(role, 1.0) * e for role, e in self.excess.items()}
        )

    def at_height(self, tall: float) -> CordUse:
        """Return the use of a knot `tall` times its usual height where only that was measured.

        A taller row is read as thicker cord than typed, the safe reading: the excess grows in the
        same proportion. In a lower one the loops bulge: solved stacks of square knots, pushed up
        from a pitch of 4.0 to 2.8, take 2 diameters of excess more for each diameter of height
        lost.
        """
        if tall == 1.0:
            return self
        more = {
            role: e * tall if tall > 1.0 else e + BULGE * (1.0 - tall) * self.way[role] / tall
            for role, e in self.excess.items()
            if role in HANDED
        }
        return replace(self, excess={**self.excess, **more})


class Knot(ABC):
    """One kind of knot; its file makes one of these and names it in `KNOTS`."""

    name: str
    words: Mapping[str, KnotWords]
    faces: bool = False  # whether it can face left or right
    as_one: bool = False  # whether it ties its strands as one bundle
    by_name: bool = False  # whether a motif or sennit can ask for it on any lanes side by side
    difficulty: Difficulty = Difficulty.SOME  # where its file doesn't say
    minutes: float = 0.5  # tying one, common practice
    loose: float = 2.4  # how many times as large it is while it is tied
    #: What works instead of strands of both sides, where two a side can't; None where they can.
    alone: str | None = None
    least: int = 2
    most: int | None = 400  # a hand's work: far more than can be held

    def fault(self, strands: int, workers: int) -> tuple[str, str] | None:
        """Say why it can't be tied on so many strands (problem, remedy), or None if it can."""
        if workers > 1 and self.alone is not None:
            return (f"{self.name} has {self.alone}", "leave 'workers' out")
        if strands < self.least:
            return (f"{self.name} needs {self.least} lanes or more", f"give it {self.least} lanes")
        if self.most is not None and strands > self.most:
            return (f"{self.name} takes {self.most} lanes at most", f"give it {self.most} lanes")
        if workers > 1 and not self.faces:
            return (f"{self.name} has no working strands a side", "leave 'workers' out")
        if self.faces and workers * 2 > strands:
            return (f"{workers} working strands a side need {2 * workers} lanes", "use workers: 1")
        return None

    @abstractmethod
    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""

    @abstractmethod
    def form(self, manner: Manner) -> Form:
        """Return the knot's curves at its usual height; `tied` stretches them."""

    def tied(self, manner: Manner) -> Form:
        """Return the knot's curves as tall as it is tied."""
        made = self.form(manner)
        return made if manner.tall == 1.0 else _stretched(made, manner)

    def tight_form(self, manner: Manner) -> Form:
        """Return how it looks pulled tight, at its usual height, between the ports of `form`.

        That is its form, unless its file has a solved shape for it.
        """
        return self.form(manner)

    def tight(self, manner: Manner) -> Form:
        """Return how it looks pulled tight, as tall as it is tied: what pictures of a tie show."""
        made = self.tight_form(manner)
        return made if manner.tall == 1.0 else _stretched(made, manner)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role, in diameters: its way at the height it is tied.

        A knot without figures of its own takes what was solved on request, else the length of its
        own curves.
        """
        roles, height = self.roles(manner), self.form(manner).height
        found = table().get(f"{self.name}/{manner.strands}")
        if found is None:
            return _drawn(self.form(manner), self.tied(manner), roles)
        way = dict.fromkeys([*roles, *found["excess"]], height * manner.tall)
        excess = {role: solved + lost_height(height) for role, solved in found["excess"].items()}
        return CordUse(way, excess)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied, the last of them pulling it tight.

        A knot that says nothing is tied strand by strand, left to right.
        """
        roles = self.roles(manner)
        still = tuple(i for i, role in enumerate(roles) if role in ("filler", "leader"))
        busy = tuple(i for i in range(len(roles)) if i not in still)
        stages = [
            Stage((i,), tuple(WHOLE if j in still or j <= i else 0.0 for j in range(len(roles))))
            for i in busy
        ]
        return (*stages, Stage(busy, held=still, tight=True))

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage: drawn up, or loose in the hand.

        Every shape has the curves' own cubics, one for one, and their crossings; but the last is
        `tight`, of which no stage counts cubics.
        """
        return self.drawn_up(manner, stage) or loosened(self.tied(manner), self.loose)

    def drawn_up(self, manner: Manner, stage: int) -> Form | None:
        """Return its curves after a stage that draws them up, None after another."""
        stages = self.stages(manner)
        if not stages[stage].tight:
            return None
        return self.tied(manner) if stage + 1 < len(stages) else self.tight(manner)

    def order(self, manner: Manner) -> tuple[int, ...]:
        """Return which strand leaves in each lane: read off the ends of the curves.

        Strands whose curves end at one x (they hang one before another) keep their order.
        """
        return _order(self, manner)


@lru_cache(maxsize=4096)
def _order(knot: Knot, manner: Manner) -> tuple[int, ...]:
    ends = [round(path[-1][9], 6) for path in knot.form(manner).paths]
    return tuple(sorted(range(len(ends)), key=ends.__getitem__))


def _stretched(form: Form, manner: Manner) -> Form:
    """Return a form `manner.tall` times as tall: across its leader, for one that leans.

    Along a leader a hitch keeps its length, which is set by the lanes; what looser or tighter
    hands change is how far apart its ports lie across. Where nothing leads, that is straight down.
    """
    more = manner.tall - 1.0
    nx, ny = (manner.sin if manner.leader == 1 else -manner.sin), manner.cos

    def away(x: float, y: float, z: float) -> Point3:
        far = more * (x * nx + y * ny)
        return (x + far * nx, y + far * ny, z)

    ends = [at for path in form.paths for at in (path[0][:2], path[-1][9:11])]
    across = [x * nx + y * ny for x, y in ends]
    height = form.height + more * (max(across) - min(across)) * ny
    return replace(form.mapped(away), height=height)


def _drawn(usual: Form, tied: Form, roles: tuple[str, ...]) -> CordUse:
    """Return the length of the longest curve of each role."""
    lengths, ways = _lengths(usual, roles), _lengths(tied, roles)
    excess = {role: max(0.0, lengths[role] - usual.height) for role in lengths if role in HANDED}
    way = {role: tied.height if role in HANDED else length for role, length in ways.items()}
    return CordUse(way, excess, drawn=True)


def _lengths(form: Form, roles: tuple[str, ...]) -> dict[str, float]:
    """Return the length of the longest curve of each role."""
    curves = [*zip(roles, form.paths, strict=True), ("leader", form.leader), ("wrap", form.wrap)]
    taken: dict[str, float] = {}
    for role, curve in curves:
        if curve is not None:
            taken[role] = max(taken.get(role, 0.0), length_of(sample(curve, 12)))
    return taken


def loosened(form: Form, by: float) -> Form:
    """Return a form `by` times as large: its cords lie further apart."""
    larger = form.mapped(lambda x, y, z: (by * x, by * y, by * z))
    return replace(larger, height=by * form.height, half_width=by * form.half_width)
