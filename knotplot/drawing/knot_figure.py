"""A knot drawn large: its cords run on, its rod or leader in place, as tied in the piece."""

from __future__ import annotations

from collections.abc import Iterator

from knotplot.drawing.bounds import bounds
from knotplot.drawing.cord_symbols import knot_arcs
from knotplot.drawing.marks import knot_mark
from knotplot.drawing.shapes import Curve, Fill, Group, Item, Stroke, Style
from knotplot.drawing.stroke import cord, stretched
from knotplot.drawing.weave import Arc
from knotplot.knots import form, knot
from knotplot.knots.base import Manner

RUN_ON = 2.0  # diameters a cord is shown beyond the knot
REACH = 2.6  # diameters a leader is shown to each side of a hitch
MOST = 8  # strands a flat knot is shown on
THICKEST = 6.5  # mm a cord is drawn thick
MARK = 1.6  # mm a cord is thick in a mark


def shown(name: str, manner: Manner) -> Manner:
    """Return the manner in which a knot is drawn by itself: its leader longer, fewer fillers."""
    kind = knot(name)
    if kind.faces and manner.strands > MOST:
        manner = manner._replace(strands=MOST)
    if manner.leader is not None:
        manner = manner._replace(reach=max(REACH, manner.reach))
    return manner


def knot_cords(name: str, manner: Manner) -> tuple[Item, ...]:
    """Return a knot drawn as cord about its middle, in cord diameters, its strands run on."""
    return tuple(_cords(name, shown(name, manner)))


def knot_picture(name: str, manner: Manner, width: float, height: float) -> Group:
    """Return a knot drawn as cord in the middle of a box at (0, 0), in mm."""
    items = knot_cords(name, manner)
    x0, y0, x1, y1 = bounds(items)
    scale = min(width / (x1 - x0), height / (y1 - y0), THICKEST)
    dx = (width - scale * (x0 + x1)) / 2.0
    return Group(items, dx=dx, dy=(height - scale * (y0 + y1)) / 2.0, scale=scale)


def knot_mark_item(name: str, manner: Manner, height: float) -> tuple[Group, float]:
    """Return a knot's mark as in the chart from (0, 0), at most `height` mm high, and its width."""
    items = tuple(Stroke(Style(ink, pen), curves) for ink, pen, curves in knot_mark(name, manner))
    x0, y0, x1, y1 = bounds(items)
    scale = min(height / (y1 - y0), 2.2 * height / (x1 - x0), MARK)
    dy = (height - scale * (y0 + y1)) / 2.0
    return Group(items, dx=-scale * x0, dy=dy, scale=scale), scale * (x1 - x0)


def _cords(name: str, manner: Manner) -> Iterator[Item]:
    """Yield a knot in diameters: what lies behind its rod, the rod, what lies before it."""
    arcs = knot_arcs(name, manner)
    made = form(name, manner)
    roles = knot(name).roles(manner)
    behind = [arc for arc in arcs if made.rod is not None and arc.height < 0.0]
    for arc in behind:
        yield from _arc(arc, roles)
    if made.rod is not None:
        yield from _rod(made.rod[0][1], manner, name)
    for arc in arcs:
        if arc not in behind:
            yield from _arc(arc, roles)


def _arc(arc: Arc, roles: tuple[str, ...]) -> Iterator[Item]:
    """Yield one arc, run on where a strand enters or leaves."""
    role = roles[arc.strand] if arc.strand < len(roles) else "separate"
    hangs = role not in ("separate", "leader")
    before = RUN_ON if arc.first and hangs and role != "mount" else 0.0
    after = RUN_ON if arc.last and hangs else 0.0
    curve: Curve = arc.curve
    if before or after:
        curve = stretched(curve, before, after)
    yield from cord((curve,), 1.0)


def _rod(y: float, manner: Manner, name: str) -> Iterator[Item]:
    """Yield a stretch of the rod on its axis at `y`."""
    radius = manner.reach if "mount" in knot(name).roles(manner) else manner.rod / 2.0
    across = 3.4 + 0.3 * radius
    top, bottom = y - radius, y + radius
    light = top + 0.36 * radius
    edge = Style("cord-edge", 0.09, "wood")
    box = (-across, top, across, top, across, bottom, -across, bottom)
    dark = light + 0.48 * radius
    lit = (-across, light, across, light, across, dark, -across, dark)
    yield Fill(edge, polygons=(box,))
    yield Fill(Style(fill="wood-light"), polygons=(lit,))
