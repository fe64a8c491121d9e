"""How a technique is worked, in pictures: its tiny piece drawn as cord, as far as it is worked.

Cords in the hand are picked out as in the pictures of single knots (`how_to.py`), and numbered.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from knotplot.curves.space import SpaceCurve, line, mapped
from knotplot.drawing.cord_symbols import knot_arcs, placed
from knotplot.drawing.how_to import Frame, head, heads, painted
from knotplot.drawing.shapes import Curve, Item, Text
from knotplot.drawing.technique_scene import Scene, lowest, scene
from knotplot.drawing.technique_steps import last_tie, shown_frames
from knotplot.drawing.weave import weave
from knotplot.geometry.runs import run
from knotplot.instructions.techniques import sentence
from knotplot.knots import form
from knotplot.techniques import worked
from knotplot.techniques.deeds import Deed, deeds
from knotplot.tying.piece import Piece
from knotplot.tying.ports import Port

NUMBER = 1.6  # size of a cord's number, diameters
IN_BACK = 0.5  # height at which a worked-in end passes: before fillers, behind what crosses there


@lru_cache(maxsize=128)
def technique_frames(
    name: str, left_handed: bool = False, language: str = "en"
) -> tuple[Frame, ...]:
    """Return a technique as pictures (in cord diameters) and sentences; mirrored if left-handed."""
    piece, shown = worked(name), shown_frames(name, left_handed)
    done = deeds(piece)
    low = lowest(piece, done, shown)
    found = []
    for frame in shown:
        back = frame.look == "back"
        pen = _Pen(piece, left_handed != back, back)
        seen = scene(piece, done, frame, low)
        items = [*pen.items(seen), *(pen.worked_in(done) if back else ())]
        found.append(Frame(tuple(items), sentence(frame.steps, language)))
    return tuple(found)


class _Pen:
    """Draws in diameters about the middle of a piece; mirrored, or seen from the back."""

    def __init__(self, piece: Piece, mirrored: bool, back: bool) -> None:
        self.diameter = piece.gauge.diameter
        self.middle = piece.gauge.width / 2.0
        self.sign = -1.0 if mirrored else 1.0
        self.back = back

    def at(self, curve: Sequence[float]) -> Curve:
        """Return a curve of the piece where it is drawn."""
        return tuple(
            value / self.diameter if i % 2 else self.sign * (value - self.middle) / self.diameter
            for i, value in enumerate(curve)
        )

    def items(self, seen: Scene) -> Iterator[Item]:
        """Yield all of a scene: cords, knots on them, arrows, numbers."""
        parts = sorted(seen.below, key=lambda part: part.moving)
        for part in (*parts, *seen.leaders):
            yield from painted(self.at(part.curve), part.moving)
        for deed, movers in seen.knots:
            for curve, start, strand in self._arcs(deed):
                yield from painted(self.at(curve), strand in movers, start, (True, True))
        ends = [(self.at(point), (self.sign * way[0], way[1])) for point, way in seen.ends]
        yield from heads([((x, y), way) for (x, y), way in ends])
        for number, point in seen.names:
            x, y = self.at(point)
            yield Text(x, y, str(number), NUMBER, "middle", "bold")

    def _arcs(self, deed: Deed) -> Iterator[tuple[Curve, float, int]]:
        """Yield the arcs of a knot, where they start and of which strand, in painting order."""
        tie = deed.tie
        assert tie is not None
        here = tie._replace(x=deed.x, y=deed.y)
        if self.back:
            arcs = weave([_turned(curve) for curve in form(tie.knot, tie.manner).paths])
        else:
            arcs = knot_arcs(tie.knot, tie.manner, deed.carried)
        whose = (*deed.strands, deed.leader if isinstance(deed.leader, int) else -1)
        for arc in arcs:
            curve = tuple(-v if self.back and i % 2 == 0 else v for i, v in enumerate(arc.curve))
            yield placed(curve, here, self.diameter), arc.start, whose[arc.strand]

    def worked_in(self, done: Sequence[Deed]) -> Iterator[Item]:
        """Yield the ends of cords that ended, drawn up at the back through their last knots."""
        for strand in (s for deed in done if deed.tie is None for s in deed.strands):
            deed = last_tie(done, strand)
            yield from self._through(deed, deed.strands.index(strand))

    def _through(self, deed: Deed, who: int) -> Iterator[Item]:
        """Yield an end from where it leaves a knot, round and up under what crosses at its back."""
        tie, diameter = deed.tie, self.diameter
        assert tie is not None
        made = form(tie.knot, tie.manner)
        back = [_turned(path) for path in made.paths]
        x = back[who][-1][9] + 0.5  # between two cords of the knot
        half = made.height / 2.0
        end = line((x, half + 0.6, IN_BACK), (x, -half - 1.6, IN_BACK))
        here = tie._replace(x=deed.x, y=deed.y)
        strands = [*back, end]
        for arc in weave(strands):
            curve = tuple(-v if i % 2 == 0 else v for i, v in enumerate(arc.curve))
            new = arc.strand == len(back)
            joined = (not arc.first, not arc.last)
            yield from painted(self.at(placed(curve, here, diameter)), new, arc.start, joined)
        port = dict(deed.leave)[deed.strands[who]]
        foot = Port(deed.x - x * diameter, deed.y + (half + 0.6) * diameter, 0.0, -1.0, "knot")
        turn = run(port, foot, 2.0 * diameter)
        yield from painted(self.at(turn), True)
        top = self.at((foot.x, deed.y - (half + 1.6) * diameter))
        yield head((top[0], top[1]), (0.0, -1.0))


def _turned(curve: SpaceCurve) -> SpaceCurve:
    """Return a curve as it is seen from behind."""
    return mapped(curve, lambda x, y, z: (-x, y, -z))
