"""What becomes of the ends that hang below the work: cut, combed, or each tied in a knot.

A knotted fringe is tied at the trim line: an overhand knot in every end, its lower edge at the
line, the tail below it cut once all are tied.
"""

from __future__ import annotations

from knotplot.knots import form
from knotplot.knots.base import Manner
from knotplot.tying.piece import Piece

KNOT = "overhand"  # what is tied in every end of a knotted fringe
MANNER = Manner(1)
#: How long (mm) the tails below those knots are cut: common practice. Cord is there for the longer.
SHORTEST_TAIL, LONGEST_TAIL = 10.0, 20.0
ROOM = 0.5  # diameters of bare cord between the last knot of the work and that in the end


def knot_height(diameter: float) -> float:
    """Return how tall the knot in an end is (mm), in cord of that diameter (mm)."""
    return form(KNOT, MANNER).height * diameter


def least_knotted(diameter: float) -> float:
    """Return the shortest knotted fringe (mm) in cord of that diameter (mm): its knot has room."""
    return knot_height(diameter) + ROOM * diameter


def finishes(piece: Piece) -> dict[int, tuple[str, int]]:
    """Return the finish of every strand that hangs in a fringe, and the number of that section."""
    width, gauge = piece.gauge.width, piece.last_gauge
    return {
        strand: (part.finish, number)
        for number, part in enumerate(piece.parts)
        if part.finish and part.hangs
        for lane, strand in enumerate(piece.lanes)
        if part.spans(gauge.x(lane), width)
    }


def knotted(piece: Piece) -> dict[int, int]:
    """Return the strands whose ends are knotted, each with the number of its fringe's section."""
    found = finishes(piece).items()
    return {strand: section for strand, (finish, section) in found if finish == "knotted"}
