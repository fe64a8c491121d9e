"""The piece drawn as cord, as it hangs: what lies on top is painted last.

Body first, then the tails that hang before it; in each layer the support's back, free runs and
leaders, and the knots on them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from knotplot.curves.bezier import straight
from knotplot.drawing.cord_symbols import Looks, Run, Symbols, hung
from knotplot.drawing.ends import CUT, TAIL, ends
from knotplot.drawing.limits import check_ties
from knotplot.drawing.shapes import Curve, Drawing, Group, Item
from knotplot.drawing.support import on_rod, ring_inside, support
from knotplot.geometry.layout import FreeRun, Layout, stands_above, stands_out
from knotplot.geometry.runs import run
from knotplot.tying.piece import Piece
from knotplot.tying.ports import Port

MARGIN = 12.0
OVER = 35.0  # how far the support stands out at each side, mm
LEADER_SHOWN = 22.0
GATHERED = 0.6  # how wide strands lie on a ring's foot, of how they leave it


def cord_view(layout: Layout, scale: float = 1.0) -> Drawing:
    """Return the whole piece drawn as cord, in mm, as it hangs.

    It will be shown at `scale`: what would be too small to see then is left out. Raises `Refusal`
    for a piece of too many ties.
    """
    check_ties(layout.piece)
    piece, diameter = layout.piece, layout.piece.gauge.diameter
    looks = Looks.of(piece, scale)
    symbols = Symbols(looks, diameter, "t" if looks.fine else "s")
    body, tails = _runs(layout)
    items: list[Item] = []
    mount = [p for row in piece.rows[:1] if on_rod(piece) for p in row.placements]
    items += symbols.marks(mount, piece.gauge.pitch, back=True)
    behind, before = _threaded(piece)
    items += hung(symbols, behind)
    items += support(piece, OVER)
    items += hung(symbols, [*before, *body, *_leaders(piece, "body")])
    for row in piece.rows:
        if row.layer != "tails" and row.layer != "back":
            items += symbols.marks(row.placements, row.pitch(piece.gauge), row.shift)
    items += hung(symbols, [*_leaders(piece, "tails"), *tails])
    for row in piece.rows:
        if row.layer == "tails":
            items += symbols.marks(row.placements, row.pitch(piece.gauge))
    side = MARGIN + max(OVER if piece.mounting.rod else LEADER_SHOWN, stands_out(piece))
    top = MARGIN + max(2.0 * diameter, stands_above(piece))
    height = top + piece.edge.lowest() + (TAIL if layout.tied_off else 0.0) + MARGIN
    knots = piece.tie_count + len(layout.tied_off)
    group = Group(tuple(items), dx=side, dy=top)
    return Drawing(
        piece.gauge.width + 2.0 * side, height, (group,),
        "The piece as it hangs",
        f"{piece.gauge.strands} strands, {knots} knots, drawn as cord at full size.",
    )  # fmt: skip


def _runs(layout: Layout) -> tuple[list[Run], list[Run]]:
    """Return the free runs of body and tails as they hang."""
    short, last, finish = layout.piece.tails, len(layout.piece.rows), ends(layout)
    body: list[Run] = []
    tails: list[Run] = []
    looped = layout.piece.mounting.loop > 0.0
    if looped:
        body += _loops([each for each in layout.free_runs if each.above < 0])
    for each in layout.free_runs:
        curve = None if looped and each.above < 0 else _hung(layout.piece, each)
        if curve is not None:
            end = finish.get(each.strand) if each.below == last else None
            (tails if each.strand in short else body).append(Run(each.strand, curve, end))
    if layout.piece.mounting.support == "none" and layout.piece.mounting.tail:  # the top fringe
        for strand, port in enumerate(layout.piece.mounting.starts):
            if port is not None:
                body.append(Run(strand, straight(port.x, 0.0, port.x, port.y)))
    return body, tails


def _loops(halves: Sequence[FreeRun]) -> Iterator[Run]:
    """Yield the loops that stand above the support, each in one from its left foot to its right."""
    for left, right in zip(halves[::2], halves[1::2], strict=True):
        points = zip(left.curve[::2], left.curve[1::2], strict=True)
        up = tuple(value for point in reversed(tuple(points)) for value in point)
        yield Run(left.strand, (*up, *right.curve[2:]))


def _threaded(piece: Piece) -> tuple[list[Run], list[Run]]:
    """Return the strands where they pass over a ring, one of each cord behind it, one before."""
    sides: tuple[list[Run], list[Run]] = ([], [])
    if piece.mounting.support == "ring":
        for strand, port in enumerate(piece.mounting.starts):
            if port is not None:
                middle = piece.gauge.width / 2.0
                x = middle + GATHERED * (port.x - middle)
                top = ring_inside(piece, x)
                bend = (port.y - top) / 2.0
                up = (port.x, port.y, port.x, port.y - bend, x, top + bend, x, top)
                sides[strand % 2].append(Run(strand, up, CUT))
    return sides


def _hung(piece: Piece, each: FreeRun) -> Curve | None:
    """Return a run as it hangs; None where it lies behind the pocket."""
    if piece.mounting.pocket is None:
        return each.curve
    if each.strand in piece.tails:  # they come from behind, where the front joins the back
        return None if each.above < 0 else each.curve
    rows = piece.rows
    if each.below < len(rows) and rows[each.below].layer == "back":
        return None
    below = rows[each.below].shift if each.below < len(rows) else 0.0
    above = rows[each.above].shift if each.above >= 0 else 0.0
    x0, y0, c0x, c0y, c1x, c1y, x1, y1 = each.curve
    if each.above < 0 or rows[each.above].layer == "back":
        entry = Port(x1, y1 + below, x1 - c1x, y1 - c1y, "knot")
        return run(Port((x0 + x1) / 2.0, 0.0, 0.0, 1.0, "knot"), _unit(entry), piece.gauge.diameter)
    return (x0, y0 + above, c0x, c0y + above, c1x, c1y + below, x1, y1 + below)


def _unit(port: Port) -> Port:
    size = (port.tx**2 + port.ty**2) ** 0.5 or 1.0
    return port._replace(tx=port.tx / size, ty=port.ty / size)


def _leaders(piece: Piece, layer: str) -> Iterator[Run]:
    """Yield the separate leaders of a layer's hitch lines, with a little of their ends."""
    cords = {cord.id: cord for cord in piece.cords if cord.role == "leader"}
    for row in piece.rows:
        first, last = row.placements[0], row.placements[-1]
        if row.layer != layer or first.cord not in cords:
            continue
        over = min(LEADER_SHOWN, cords[first.cord].ends[0])
        y = first.y + first.shape.ties[0].y
        x0 = first.lane * row.pitch(piece.gauge) - over
        x1 = (last.lane + 1) * row.pitch(piece.gauge) + over
        middle = (x0 + x1) / 2.0
        for end in (x0, x1):
            yield Run(first.cord or "", straight(middle, y, end, y), CUT)


def cord_at(layout: Layout, scale: float = 1.0) -> Drawing:
    """Return the piece drawn as cord at `scale`, 1 being full size; else like `cord_view`."""
    drawn = cord_view(layout, scale)
    if scale == 1.0:
        return drawn
    return replace(
        drawn,
        width=scale * drawn.width,
        height=scale * drawn.height,
        items=(Group(drawn.items, scale=scale),),
        desc=drawn.desc.replace("at full size", f"at {scale:g} of full size"),
    )


VIEW = ("cord", cord_at)
