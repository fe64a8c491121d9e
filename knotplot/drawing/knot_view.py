"""One knot drawn as cord, by itself: what a maker looks at while learning it."""

from __future__ import annotations

from knotplot.discovery import hint
from knotplot.drawing.bounds import bounds
from knotplot.drawing.knot_figure import knot_cords
from knotplot.drawing.shapes import Drawing, Group
from knotplot.errors import Refusal
from knotplot.knots import catalogue
from knotplot.knots.base import Knot, Manner

MARGIN = 4.0  # mm
USUAL = 4  # strands a flat knot is tied on, where nothing else is said
REACH = 2.0  # diameters a leader or a wrap is shown to each side


def knot_view(name: str, diameter: float) -> Drawing:
    """Return a knot of the catalogue drawn as cord of that diameter (mm).

    Raises `Refusal` for a name that isn't in the catalogue.
    """
    if name not in catalogue():
        raise Refusal("there is no such knot", hint(name, catalogue()), value=name)
    knot = catalogue()[name]
    items = knot_cords(name, usual_manner(knot))
    words = knot.words["en"]
    x0, y0, x1, y1 = (diameter * value for value in bounds(items))
    group = Group(items, MARGIN - x0, MARGIN - y0, scale=diameter, label=words.one)
    return Drawing(
        x1 - x0 + 2.0 * MARGIN,
        y1 - y0 + 2.0 * MARGIN,
        (group,),
        words.one.capitalize(),
        " ".join(words.how),
    )


def usual_manner(knot: Knot) -> Manner:
    """Return the least manner in which a knot looks like itself.

    >>> usual_manner(catalogue()["square_knot"]).strands
    4
    """
    strands = knot.least if knot.by_name and not knot.faces else max(knot.least, USUAL)
    if knot.most is not None:
        strands = min(strands, knot.most)
    facing = "left" if knot.faces else None
    leads = "leader" in knot.roles(Manner(strands))
    return Manner(strands, facing, leader=0 if leads else None, reach=REACH)
