"""Hitching ends side by side onto a rod: what mounts by double half hitches share."""

from __future__ import annotations

from knotplot.knots.base import Manner
from knotplot.tying.moves import Move
from knotplot.tying.rack import Ask, Rack
from knotplot.tying.shape import Shape


def hitch_on(rack: Rack, rod: float) -> Shape:
    """Return the double half hitch of one strand onto what is so thick (mm)."""
    manner = Manner(1, leader=-1, reach=1.0, rod=rod / rack.gauge.diameter)
    return rack.single(Move("double_half_hitch", (0,), leader=-1), manner)


def hitch_all(rack: Rack, kind: str, shape: Shape) -> None:
    """Hitch every strand that hangs, left to right, as the mounting of that kind."""
    rack.begin("mount", kind, 0, rack.gauge.strands)
    rack.tie([Ask(shape, lane) for lane in range(rack.gauge.strands)], at=0.0)
    rack.end()
