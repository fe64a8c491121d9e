"""What a piece hangs on, behind the front of the work: a rod or branch, or a ring."""

from __future__ import annotations

import math

from knotplot.drawing.shapes import Disc, Fill, Item, Style
from knotplot.knots import form
from knotplot.tying.piece import Piece
from knotplot.tying.shape import ShapeTie

EDGE = 0.09  # outline, cord diameters
RING = 2.0  # thickness of a ring, cord diameters
# A rod in the same light as the cord: bands from its top to its foot, in shares of its thickness.
BANDS = (
    ("wood-light", 0.10, 0.52),
    ("wood-glint", 0.18, 0.34),
    ("wood-shade", 0.72, 1.0),
    ("wood-dark", 0.90, 1.0),
)


def on_rod(piece: Piece) -> bool:
    """Tell whether the first row is tied on the support itself."""
    tie = _first_of_mount(piece)
    return tie is not None and (_hitched(tie) or form(tie.knot, tie.manner).rod is not None)


def _first_of_mount(piece: Piece) -> ShapeTie | None:
    """Return the first tie of the mounting, None where it ties nothing."""
    if not piece.rows or piece.rows[0].section:
        return None
    return piece.rows[0].placements[0].shape.ties[0]


def _hitched(tie: ShapeTie) -> bool:
    """Tell whether a mounting's tie goes round the support, its middle on the support's own."""
    return tie.manner.leader == -1


def support(piece: Piece, over: float) -> list[Item]:
    """Return a piece's support, `over` mm longer at each side; nothing where it has none."""
    rod = piece.mounting.rod
    if not rod:
        return []
    edge = EDGE * piece.gauge.diameter
    if piece.mounting.support == "ring":
        return _ring(piece, 2.0 * edge)
    tie = _first_of_mount(piece)
    middle = tie.y if tie is not None and _hitched(tie) else rod / 2.0
    top = middle - rod / 2.0
    return wooden(-over, piece.gauge.width + over, top, rod, edge)


def wooden(left: float, right: float, top: float, thick: float, edge: float) -> list[Item]:
    """Return a round rod lying across, from `left` to `right`, lit from above (mm)."""

    def band(high: float, low: float) -> tuple[float, ...]:
        y0, y1 = top + high * thick, top + low * thick
        return (left, y0, right, y0, right, y1, left, y1)

    items: list[Item] = [
        Fill(Style(fill=ink), polygons=(band(high, low),))
        for ink, high, low in (("wood", 0.0, 1.0), *BANDS)
    ]
    return [*items, Fill(Style("cord-edge", edge), polygons=(band(0.0, 1.0),))]


def ring_inside(piece: Piece, x: float) -> float:
    """Return where the inner edge of a ring lies above a place at its foot (mm)."""
    ring = piece.mounting.rod
    inner = ring / 2.0 - RING * piece.gauge.diameter
    aside = min(abs(x - piece.gauge.width / 2.0), inner)
    return ring / 2.0 + math.sqrt(inner * inner - aside * aside)


def _ring(piece: Piece, edge: float) -> list[Item]:
    """Return a ring, its lowest outer edge where the strands begin."""
    thick, ring = RING * piece.gauge.diameter, piece.mounting.rod
    at = ((piece.gauge.width / 2.0, ring / 2.0),)
    radius = ring / 2.0 - thick / 2.0
    return [
        Disc(Style("cord-edge", thick + edge), at, radius),
        Disc(Style("wood", thick), at, radius),
        Disc(Style("wood-light", 0.5 * thick), at, radius),
        Disc(Style("wood-glint", 0.16 * thick), at, radius),
    ]
