"""Shapes as symbols: a placed shape's ties drawn as cord, about the shape's own origin."""

from __future__ import annotations

from functools import cache

from knotplot.curves.space import SpaceCurve
from knotplot.drawing.shapes import Curve, Item, Symbol
from knotplot.drawing.stroke import cord
from knotplot.drawing.weave import Arc, weave
from knotplot.geometry.inner import inner_runs
from knotplot.knots import form, tight
from knotplot.knots.base import Manner
from knotplot.tying.shape import Shape, ShapeTie


@cache
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


def cord_symbols(shape: Shape, name: str, diameter: float) -> tuple[Symbol | None, Symbol]:
    """Return a shape drawn as cord of that diameter (mm): its runs below, its knots on them.

    A shape tied on a rod comes in two: what lies behind the rod, and what lies before it. Others
    have nothing behind.
    """
    behind: list[Item] = []
    before: list[Item] = list(cord([each.curve for each in inner_runs(shape, diameter)], diameter))
    for tie in shape.ties:
        carried = tie.carried is not None
        on_rod = form(tie.knot, tie.manner).rod is not None and not carried
        for arc in knot_arcs(tie.knot, tie.manner, carried):
            layer = behind if on_rod and arc.height < 0.0 else before
            layer += cord((placed(arc.curve, tie, diameter),), diameter)
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
