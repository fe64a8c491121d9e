"""What is told of each frame of a technique: records read off what is done in its piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

from knotplot.drawing.how_to_steps import scenes, shown
from knotplot.drawing.weave import crossings
from knotplot.geometry.layout import ENDED
from knotplot.instructions.how_to import Side, Way
from knotplot.instructions.techniques import (
    Add,
    Cross,
    End,
    Hitch,
    Lay,
    More,
    Passing,
    Push,
    Step,
    Tie,
    Upright,
    WorkIn,
)
from knotplot.knots import form, knot
from knotplot.knots.base import Manner
from knotplot.techniques import Technique, techniques, worked
from knotplot.techniques.deeds import Deed, deeds


class Shown(NamedTuple):
    """A frame: the deeds done before it (`since`) and by its end (`upto`), and how it is looked at.

    `look` is "lay", "low" or "back" as in the technique's file, None for work done; `pushed` tells
    that its first deed was shown low before.
    """

    since: int
    upto: int
    look: str | None
    pushed: bool
    steps: tuple[Step, ...]


@lru_cache(maxsize=128)
def shown_frames(name: str, left_handed: bool = False) -> tuple[Shown, ...]:
    """Return the frames of a technique; for the left hand left and right change over."""
    technique, done = techniques()[name], deeds(worked(name))
    planned = sum(count for count in technique.frames if isinstance(count, int))
    if planned != len(done):
        raise ValueError(
            f"technique {name}: its frames have {planned} deeds, its piece {len(done)}"
        )
    return tuple(_frames(technique, done, left_handed))


def _frames(technique: Technique, done: Sequence[Deed], left_handed: bool) -> Iterator[Shown]:
    telling = _Telling(done, left_handed)
    at, low = 0, False
    for each in technique.frames:
        if isinstance(each, int):
            steps = tuple(telling.work(at, at + each, low))
            yield Shown(at, at + each, None, low, steps)
            at, low = at + each, False
        else:
            low = each == "low"
            yield Shown(at, at, each, False, (telling.look(each, at),))


def led(done: Sequence[Deed], at: int) -> tuple[Deed, ...]:
    """Return the hitches of the row that deed `at` is of, from it on."""
    first = done[at]
    row = []
    for deed in done[at:]:
        if not deed.hitch or (deed.bar, deed.leader) != (first.bar, first.leader):
            break
        row.append(deed)
    return tuple(row)


def knotter(deed: Deed) -> int:
    """Return the strand that is hitched onto another."""
    roles = deed.tie.roles if deed.tie else ()
    return next(s for s, role in zip(deed.strands, roles, strict=True) if role == "knotting")


class _Telling:
    """The deeds of a piece as they are told, for one hand."""

    def __init__(self, done: Sequence[Deed], mirrored: bool) -> None:
        self.done = done
        self.mirrored = mirrored

    def work(self, since: int, upto: int, pushed: bool) -> Iterator[Step]:
        """Yield what is told of deeds: those of a row of hitches, and knots alike, together."""
        if pushed:
            yield _push(self.done, since)
            since += 1
        at = since
        while at < upto:
            same = 1
            while at + same < upto and self._key(at + same) == self._key(at):
                same += 1
            yield from self._group(at, same, upto - since)
            at += same

    def _key(self, at: int) -> tuple[object, ...]:
        """Return what deeds share that are told together."""
        deed = self.done[at]
        if deed.hitch and deed.vertical:
            return (_name(deed), deed.bar, knotter(deed))
        if deed.hitch:
            return (_name(deed), deed.bar, deed.leader)
        return (_name(deed), *sorted(deed.strands), 0 if deed.tie and not deed.carried else at)

    def _group(self, at: int, count: int, frame: int) -> Iterator[Step]:
        deed = self.done[at]
        group = self.done[at : at + count]
        if deed.tie is None:
            yield End(deed.strands, ENDED)
        elif deed.carried:
            yield self._add(deed)
        elif deed.hitch and deed.vertical:
            yield self._upright(at, group)
        elif deed.hitch:
            again = at > 0 and self._key(at - 1) == self._key(at)
            yield Hitch(_name(deed), tuple(map(knotter, group)), _cord(deed.leader), again)
        elif deed.tie.knot == "cross":
            yield self._cross(deed)
        elif at and self._key(at - 1) == self._key(at) and count > 1:
            yield self._more(at, count)
        else:
            yield self._tie(at, frame)
            if deed.tie.picot:
                yield _push(self.done, at)
            if count > 1:
                yield self._more(at + 1, count - 1)

    def _more(self, at: int, count: int) -> More:
        sides = [self._tie(k, 1).side for k in range(at, at + count)]
        return More(_name(self.done[at]), count, sides[0], turns=len(set(sides)) > 1)

    def _tie(self, at: int, frame: int) -> Tie:
        deed = self.done[at]
        tie = deed.tie
        assert tie is not None
        below = at > 0 and self._key(at - 1) == self._key(at)
        wrapped = form(tie.knot, tie.manner).wrap is not None
        plain = Tie(tie.knot, deed.strands, wrapped=wrapped, below=below, bare=tie.picot)
        above, idle = (None, ()) if frame > 1 else self._joined(at)
        if knot(tie.knot).as_one or wrapped:
            return plain._replace(above=above, idle=idle)
        mover, passes = first_passes(tie.knot, tie.manner)
        first = deed.strands[mover]
        told = tuple(Passing(over, tuple(deed.strands[k] for k in who)) for over, who in passes)
        side: Side = "left" if 2 * mover < len(deed.strands) else "right"
        return plain._replace(
            first=first, passes=told, side=self._side(side), pulled=_ones(deed, "working"),
            above=above, idle=idle,
        )  # fmt: skip

    def _joined(self, at: int) -> tuple[int | None, tuple[int, ...]]:
        """Return how many cords a knot takes of each of several above, and which hang beside it."""
        deed = self.done[at]
        came: dict[int, int] = {}
        for strand in deed.strands:
            from_ = [k for k in range(at) if strand in self.done[k].strands]
            if not from_:
                return None, ()
            came[from_[-1]] = came.get(from_[-1], 0) + 1
        counts = set(came.values())
        if len(came) < 2 or len(counts) > 1 or any(self.done[k].carried for k in came):
            return None, ()
        return counts.pop(), tuple(s for s in deed.order if s not in deed.strands)

    def _upright(self, at: int, group: Sequence[Deed]) -> Upright:
        deed, worker = group[0], knotter(group[0])
        assert deed.tie is not None
        leaders = tuple(s for each in group for s in each.strands if s != worker)
        _, passes = first_passes(deed.tie.knot, deed.tie.manner)
        before = self.done[at - 1] if at else None
        same = before is not None and before.vertical and knotter(before) == worker
        again = same and before is not None and before.bar == deed.bar
        way: Way = "right" if deed.strands[0] == worker else "left"
        return Upright(
            _name(deed), worker, leaders, passes[0][0], self._way(way), again, same and not again
        )

    def _add(self, deed: Deed) -> Add:
        assert deed.tie is not None
        fold = form(deed.tie.knot, deed.tie.manner).paths[0][0]
        side: Side = "right" if deed.tie.turn > 0 else "left"
        on = _cord(deed.leader)
        assert on is not None
        return Add(_name(deed), on, deed.strands, self._side(side), fold[2] > 0.0)

    def _cross(self, deed: Deed) -> Cross:
        assert deed.tie is not None
        met = crossings(form(deed.tie.knot, deed.tie.manner).paths)[0]
        return Cross(deed.strands[met.over], deed.strands[met.under])

    # --- looks -----------------------------------------------------------------------------------

    def look(self, look: str, at: int) -> Step:
        """Return what is told of a look that works nothing, before deed `at`."""
        if look == "lay":
            return self.lay(at)
        return self.low(at) if look == "low" else self.back(at)

    def lay(self, at: int) -> Lay:
        """Return how the leader of the coming row is laid."""
        row = led(self.done, at)
        leader = _cord(row[0].leader)
        way: Way = "right"
        if leader is not None:
            port = dict(row[-1].leave)[leader]
            side = "right" if port.tx > 0.0 else "left"
            down = port.ty > 0.15  # a lay of some 9 degrees is no longer called level
            way = f"down {side}" if down else side  # type: ignore[assignment]
        return Lay(leader, tuple(map(knotter, row)), self._way(way))

    def low(self, at: int) -> Tie:
        """Return how the coming knot is tied, before it is pushed up."""
        return self._tie(at, 1)._replace(below=False)

    def back(self, at: int) -> WorkIn:
        """Return how strands that ended are worked in."""
        gone = tuple(s for deed in self.done if deed.tie is None for s in deed.strands)
        return WorkIn(gone, _name(last_tie(self.done[:at], gone[0])))

    def _side(self, side: Side) -> Side:
        return ("left" if side == "right" else "right") if self.mirrored else side

    def _way(self, way: Way) -> Way:
        if not self.mirrored:
            return way
        swap = {"left": "right", "right": "left"}
        return " ".join(swap.get(word, word) for word in way.split())  # type: ignore[return-value]


def last_tie(done: Sequence[Deed], strand: int) -> Deed:
    """Return the last deed in which a strand was tied."""
    return next(deed for deed in reversed(done) if deed.tie is not None and strand in deed.strands)


@lru_cache(maxsize=256)
def first_passes(
    name: str, manner: Manner
) -> tuple[int, tuple[tuple[bool, tuple[int, ...]], ...]]:  # fmt: skip
    """Return which strand begins a knot, and whom it passes in order: over or under, and numbers.

    Found where the curves of the knot's first picture cross.
    """
    stage, scene = knot(name).stages(shown(name, manner))[0], scenes(name, manner)[0]
    mover = stage.moves[0]
    new = scene.strands[mover].new
    start = new[0] if new else 0.0
    crossed = crossings([strand.curve for strand in scene.strands])
    met = [(c.over_at, True, c.under) for c in crossed if c.over == mover]
    met += [(c.under_at, False, c.over) for c in crossed if c.under == mover]
    found = [(over, who) for at, over, who in sorted(met) if at > start and who != mover]
    return mover, tuple(
        (over, tuple(who for _, who in group))
        for over, group in groupby(found, key=lambda each: each[0])
    )


def _push(done: Sequence[Deed], at: int) -> Push:
    deed, above = done[at], done[at - 1].tie if at else None
    again = above is not None and above.picot > 0.0
    return Push(_name(deed), _ones(deed, "working"), _ones(deed, "filler"), again)


def _name(deed: Deed) -> str:
    return deed.tie.knot if deed.tie else ""


def _cord(leader: int | str | None) -> int | None:
    return leader if isinstance(leader, int) else None


def _ones(deed: Deed, role: str) -> tuple[int, ...]:
    """Return the strands of a deed in that role."""
    roles = deed.tie.roles if deed.tie else ()
    return tuple(s for s, each in zip(deed.strands, roles, strict=True) if each == role)
