"""What is drawn as cord, as symbols: placed shapes about their own origin, and free runs alike.

A curtain repeats a few shapes, and a few runs between them, a thousand times: each is drawn once
and used where it stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import chain
from typing import NamedTuple

from knotplot.curves.space import SpaceCurve
from knotplot.drawing.ends import KNOTTED, End, end_knot, finished, knot_place
from knotplot.drawing.shapes import Curve, Item, Mark, Point, Symbol
from knotplot.drawing.stroke import Surface, cord, surface
from knotplot.drawing.weave import Arc, weave
from knotplot.geometry.inner import inner_runs
from knotplot.knots import form, tight
from knotplot.knots.base import Manner
from knotplot.tying.piece import Piece, Placement
from knotplot.tying.shape import Shape, ShapeTie

FINEST = 1.0  # mm: on thinner cord as it is shown nothing of its texture could be seen


class Run(NamedTuple):
    """A free run (mm) of a strand, by its number, or of a separate cord, by its id.

    Its end may be combed out or knotted.
    """

    of: int | str
    curve: Curve
    end: End | None = None


@lru_cache(maxsize=512)
def knot_arcs(name: str, manner: Manner, carried: bool = False) -> tuple[Arc, ...]:
    """Return a knot's arcs in cord diameters, in the order in which to paint them.

    Where it is `carried`, what it is tied on is a strand as thick as its own, the last one.
    """
    made = tight(name, manner)
    strands: list[SpaceCurve] = list(made.paths)
    strands += [extra for extra in (made.leader, made.wrap) if extra is not None]
    if made.rod is None:
        return weave(strands)
    if carried:
        return weave([*strands, made.rod])
    # The rod takes part, so that strands are split between what lies before it and behind it.
    return tuple(arc for arc in weave([*strands, made.rod]) if arc.strand < len(strands))


class Cords(NamedTuple):
    """How a placed shape's strands look, and the separate cord it is tied with."""

    strands: tuple[Surface, ...]
    separate: Surface

    def of(self, who: int) -> Surface:
        """Return the look of a strand, or of the separate cord (-1)."""
        return self.separate if who < 0 else self.strands[who]


@dataclass(frozen=True, slots=True)
class Looks:
    """How every strand (by number) and separate cord (by id) of a piece looks."""

    known: dict[int | str, Surface]
    fine: bool

    @classmethod
    def of(cls, piece: Piece, scale: float) -> Looks:
        """Return the looks of a piece shown at that scale."""
        fine = shows_texture(piece, scale)
        known: dict[int | str, Surface] = {}
        for each in piece.cords:
            ink = piece.colours.of_cord(each.id)
            look = surface(each.construction if fine else None, ink)
            known[each.id] = look
            known |= dict.fromkeys(each.strands, look)
        return cls(known, fine)

    def cords(self, placement: Placement) -> Cords:
        """Return how the cords of a placed shape look."""
        separate = surface() if placement.cord is None else self.known[placement.cord]
        return Cords(tuple(self.known[strand] for strand in placement.strands), separate)


@dataclass(frozen=True, slots=True)
class Symbols:
    """The symbols of a drawing, made as they are asked for; their names begin with `prefix`."""

    looks: Looks
    diameter: float
    prefix: str
    shapes: dict[tuple[int, Cords], tuple[Symbol | None, Symbol]] = field(default_factory=dict)
    runs: dict[tuple[Curve, End | None, Surface], Symbol] = field(default_factory=dict)
    knots: dict[Surface, Symbol] = field(default_factory=dict)

    def marks(
        self, placements: Sequence[Placement], pitch: float, shift: float = 0.0, back: bool = False
    ) -> list[Item]:
        """Return placed shapes `shift` mm further down, or what of them lies behind the support."""
        shown = ((self._shape(each)[0 if back else 1], each) for each in placements)
        return _gathered(
            (symbol, (each.lane * pitch, each.y + shift)) for symbol, each in shown if symbol
        )

    def _shape(self, placement: Placement) -> tuple[Symbol | None, Symbol]:
        key = (id(placement.shape), self.looks.cords(placement))
        found = self.shapes.get(key)
        if found is None:
            name = f"{self.prefix}{len(self.shapes)}"
            found = cord_symbols(placement.shape, name, self.diameter, key[1])
            self.shapes[key] = found
        return found

    def run(self, run: Run) -> tuple[Symbol, Point]:
        """Return the symbol of a run, and where it stands."""
        x, y = run.curve[:2]
        xs = [round(value - x, 2) + 0.0 for value in run.curve[::2]]
        ys = [round(value - y, 2) + 0.0 for value in run.curve[1::2]]
        curve = tuple(chain.from_iterable(zip(xs, ys, strict=True)))
        look = self.looks.known[run.of]
        key = (curve, run.end, look)
        if key not in self.runs:
            items: tuple[Item, ...]
            if run.end:
                items = finished(curve, self.diameter, look, run.end)
            else:
                items = cord(curve, self.diameter, look)
            self.runs[key] = Symbol(f"{self.prefix}r{len(self.runs)}", items)
        return self.runs[key], (x, y)

    def knot(self, look: Surface) -> Symbol:
        """Return the symbol of the knot in an end of a knotted fringe."""
        if look not in self.knots:
            items = end_knot(knot_arcs(*KNOTTED), self.diameter, look)
            self.knots[look] = Symbol(f"{self.prefix}k{len(self.knots)}", items)
        return self.knots[look]


def shows_texture(piece: Piece, scale: float) -> bool:
    """Tell whether cord is thick enough, shown at that scale, to see how it is made."""
    return scale * piece.gauge.diameter >= FINEST


def hung(symbols: Symbols, runs: Iterable[Run]) -> list[Item]:
    """Return free runs drawn as cord."""
    drawn = list(runs)
    knots = (
        (symbols.knot(symbols.looks.known[run.of]), knot_place(run.curve, symbols.diameter))
        for run in drawn
        if run.end and run.end.finish == "knotted"
    )
    return _gathered((*map(symbols.run, drawn), *knots))  # knots lie on all runs


def _gathered(found: Iterable[tuple[Symbol, Point]]) -> list[Item]:
    """Return symbols where they stand, each once with all its places, in the order first met."""
    places: dict[str, tuple[Symbol, list[Point]]] = {}
    for symbol, at in found:
        places.setdefault(symbol.name, (symbol, []))[1].append(at)
    return [Mark(symbol, tuple(at)) for symbol, at in places.values()]


def cord_symbols(
    shape: Shape, name: str, diameter: float, cords: Cords
) -> tuple[Symbol | None, Symbol]:
    """Return a shape drawn as cord of that diameter (mm): its runs below, its knots on them.

    A shape tied on a rod comes in two: what lies behind the rod, and what lies before it. Others
    have nothing behind.
    """
    behind: list[Item] = []
    before: list[Item] = []
    for each in inner_runs(shape, diameter):
        before += cord(each.curve, diameter, cords.of(each.who))
    for tie in shape.ties:
        carried = tie.carried is not None
        on_rod = form(tie.knot, tie.manner).rod is not None and not carried
        led = tie.leader if carried and tie.leader is not None else -1
        who = (*tie.who, led)  # a curve more than there are strands is what they are tied on
        for arc in knot_arcs(tie.knot, tie.manner, carried):
            layer = behind if on_rod and arc.height < 0.0 else before
            curve, start = placed(arc.curve, tie, diameter), arc.start * diameter
            look = cords.of(who[arc.strand])
            layer += cord(curve, diameter, look, start, layer is before, (True, True))
    back = Symbol(f"{name}-back", tuple(behind)) if behind else None
    return back, Symbol(name, tuple(before))


def placed(curve: Curve, tie: ShapeTie, diameter: float) -> Curve:
    """Return a curve in diameters about a tie's middle, in mm in the shape's frame."""
    at = (tie.x, tie.y)
    if tie.turn:  # (x, y) becomes (y, -x), or its opposite
        sign = (tie.turn, -tie.turn)
        return tuple(
            sign[i % 2] * curve[i + 1 - 2 * (i % 2)] * diameter + at[i % 2]
            for i in range(len(curve))
        )
    return tuple(value * diameter + at[i % 2] for i, value in enumerate(curve))
