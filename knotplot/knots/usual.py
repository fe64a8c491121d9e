"""In which manner a knot is shown, and solved on request, where nothing else is said."""

from __future__ import annotations

from knotplot.knots.base import Knot, Manner

USUAL = 4  # strands a flat knot is tied on
REACH = 2.0  # diameters a leader or a wrap is shown to each side


def usual_manner(knot: Knot) -> Manner:
    """Return the least manner in which a knot looks like itself.

    >>> from knotplot.knots import catalogue
    >>> usual_manner(catalogue()["square_knot"]).strands
    4
    """
    strands = knot.least if knot.by_name and not knot.faces else max(knot.least, USUAL)
    if knot.most is not None:
        strands = min(strands, knot.most)
    facing = "left" if knot.faces else None
    leads = "leader" in knot.roles(Manner(strands))
    return Manner(strands, facing, leader=0 if leads else None, reach=REACH)
