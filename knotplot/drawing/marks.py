"""Chart marks: a placed shape drawn in thin lines, every line a piece of its knots' own curves.

A knot is a pale ground as wide as its cord with its strands on it as lines, working strands
stronger than fillers; where one strand passes over another, the lower line stops short. A hitch
is a bar along its leader's curve, notched once for each turn that lies in front.
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import groupby

from knotplot.curves.space import SpaceCurve, at, line
from knotplot.drawing.cord_symbols import placed
from knotplot.drawing.shapes import Curve, Item, Stroke, Style, Symbol
from knotplot.drawing.weave import crossings, weave
from knotplot.geometry.inner import inner_runs
from knotplot.knots import form, knot
from knotplot.knots.base import Manner
from knotplot.tying.shape import Shape, ShapeTie

SMALLEST = 0.5  # mm a cord is thick in a chart at the least: all knots are still told apart

# Pens in cord diameters: a chart is read at a sixth of its size and less.
STRONG = 0.2  # a strand that works
THIN = 0.13  # a strand that is only led through, and every free run
GAP = 0.72  # how wide a line keeps clear of the one that passes over it
GROUND = 1.25  # the pale ground about a knot's strands
BAR = 0.86  # a hitch's leader
NOTCH = 0.3  # a turn in front of it


def strand_style(diameter: float) -> Style:
    """Return the style of a free run, for a cord of that diameter (mm)."""
    return Style("line", THIN * diameter)


def mark_symbol(shape: Shape, name: str, diameter: float) -> Symbol:
    """Return the chart mark of a shape about its own origin, in mm; `name` is the symbol's."""
    items: list[Item] = []
    runs = tuple(each.curve for each in inner_runs(shape, diameter))
    if runs:
        items.append(Stroke(strand_style(diameter), runs))
    for tie in shape.ties:
        items += _tie(tie, diameter)
    return Symbol(name, tuple(items))


def _tie(tie: ShapeTie, diameter: float) -> list[Item]:
    """Return the items of one tie where it stands in its shape."""
    return [
        Stroke(Style(ink, pen * diameter), tuple(placed(curve, tie, diameter) for curve in curves))
        for ink, pen, curves in knot_mark(tie.knot, tie.manner, tie.carried is not None)
    ]


Layers = tuple[tuple[str, float, tuple[Curve, ...]], ...]


@lru_cache(maxsize=512)
def knot_mark(name: str, manner: Manner, carried: bool = False) -> Layers:
    """Return a knot's mark as layers from below to above: ink, pen and curves, in diameters.

    Where it is `carried`, what it is tied on is a strand that passes through.
    """
    if manner.leader is not None:
        return _hitch(name, manner)
    if name == "cross":
        return _lines(name, manner, ground="paper")
    return _lines(name, manner, ground="ground", carried=carried)


def _paths(
    name: str, manner: Manner, carried: bool = False
) -> tuple[tuple[SpaceCurve, ...], tuple[str, ...]]:
    """Return the curves of a knot with its separate cords, and the role of each."""
    made = form(name, manner)
    extra = [(made.leader, "leader"), (made.wrap, "wrap")]
    if carried:
        extra.append((made.rod, "filler"))
    there = [(curve, role) for curve, role in extra if curve is not None]
    paths = (*made.paths, *(curve for curve, _ in there))
    return paths, (*knot(name).roles(manner), *(role for _, role in there))


def _lines(name: str, manner: Manner, ground: str, carried: bool = False) -> Layers:
    paths, roles = _paths(name, manner, carried)
    rod = None if carried else form(name, manner).rod
    arcs, seen = weave(paths), tuple(_flat(path) for path in paths)
    if rod is not None:  # what lies behind the rod isn't seen
        arcs = tuple(
            arc for arc in weave((*paths, rod)) if arc.strand < len(paths) and arc.height >= 0.0
        )
        seen = tuple(arc.curve for arc in arcs)
    layers: list[tuple[str, float, tuple[Curve, ...]]] = []
    if ground != "paper":
        layers.append((ground, GROUND, seen))
    # Neighbours in the painting order that belong to one strand never cross: one layer.
    for strand, group in groupby(arcs, key=lambda arc: arc.strand):
        curves = tuple(arc.curve for arc in group)
        quiet = roles[strand] == "filler"
        layers.append((ground, GAP, curves))
        layers.append(("line" if quiet else "ink", THIN if quiet else STRONG, curves))
    return tuple(layers)


def _hitch(name: str, manner: Manner) -> Layers:
    """Return a hitch: its two ends, the bar on them, and a notch for every turn in front of it."""
    paths, roles = _paths(name, manner)
    worker = roles.index("knotting")
    # Only the strand's first and last parts, from its ports to where it goes behind the bar.
    ends = (_flat(paths[worker][:1]), _flat(paths[worker][-1:]))
    rod = form(name, manner).rod
    if rod is not None:
        shown = (*ends[1:], *_turns(paths[worker], rod))
        return (("ground", 1.0, shown), ("ink", STRONG, shown))
    bar = paths[roles.index("leader")]
    front = [
        _notch(paths[worker], met.over_at)
        for met in crossings((paths[worker], bar))
        if met.over == 0 and met.under == 1
    ]
    return (
        ("ink", STRONG, ends),
        ("ink", BAR, (_flat(bar),)),
        ("paper", NOTCH, tuple(front)),
    )


def _turns(worker: SpaceCurve, rod: SpaceCurve) -> tuple[Curve, ...]:
    """Return what of a strand lies before the rod."""
    arcs = weave((worker, rod))
    under = next(i for i, arc in enumerate(arcs) if arc.strand == 1)
    return tuple(arc.curve for arc in arcs[under + 1 :] if arc.strand == 0)


def _notch(worker: SpaceCurve, where: float) -> Curve:
    """Return a short straight line across the bar, as the strand runs there."""
    k = min(int(where), len(worker) - 1)
    x, y, _ = at(worker[k], where - k)
    step = 0.02 if where - k < 0.5 else -0.02
    x1, y1, _ = at(worker[k], where - k + step)
    size = math.hypot(x1 - x, y1 - y) / (0.5 * BAR + 0.05)
    dx, dy = (x1 - x) / size, (y1 - y) / size
    return _flat(line((x - dx, y - dy, 0.0), (x + dx, y + dy, 0.0)))


def _flat(path: SpaceCurve) -> Curve:
    """Return a space curve as seen from the front."""
    flat: list[float] = [path[0][0], path[0][1]]
    for cubic in path:
        flat += (cubic[3], cubic[4], cubic[6], cubic[7], cubic[9], cubic[10])
    return tuple(flat)
