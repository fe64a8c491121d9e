"""Hanging folded cords by their loops: what both lark's heads share."""

from __future__ import annotations

from knotplot.knots.base import Manner
from knotplot.tying.moves import Move
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import Ask, Rack


def hang_by_loops(rack: Rack, kind: str, rod: float, fold: str) -> Mounting:
    """Hang a cord for every two lanes on a rod (mm thick) by a knot of that kind."""
    gauge = rack.gauge
    strands = range(1, gauge.strands + 1)
    starts = (None,) * (gauge.strands + 1)
    for first in strands[::2]:
        rack.cut("main", strands=(first, first + 1))
    rack.hang("body", strands, starts)
    manner = Manner(2, reach=rod / gauge.diameter / 2.0)
    shape = rack.single(Move(kind, (0, 1)), manner)
    rack.begin("mount", kind, 0, gauge.strands)
    rack.tie([Ask(shape, lane) for lane in range(0, gauge.strands, 2)], at=0.0)
    rack.end()
    return Mounting(kind, rod, 2, 0.0, starts, fold=fold)
