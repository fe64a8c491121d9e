"""Ports: where a strand enters and leaves a tie, and how far apart two ports must hang."""

from __future__ import annotations

import math
from functools import cache
from typing import NamedTuple

from knotplot.curves.space import SpaceCurve
from knotplot.knots import form, knot
from knotplot.knots.base import Manner

# How a strand is held at a port, by its role in the tie.
HOLDS = {"leader": "lead", "knotting": "hitch", "crossing": "cross"}


class Port(NamedTuple):
    """A place (mm) and direction at which a strand enters or leaves a tie, and how it is held.

    `hold` is "knot", "hitch" (a knotting strand), "lead" (a leader), "cross", or "bundle" (a knot
    that ties its strands as one, which leave it close together).
    """

    x: float
    y: float
    tx: float
    ty: float
    hold: str

    def moved(self, dx: float, dy: float) -> Port:
        """Return the port moved by (dx, dy)."""
        return Port(self.x + dx, self.y + dy, self.tx, self.ty, self.hold)


def steepness(above: str, below: str) -> float:
    """Return the least drop for a run, as a share of how far it goes aside.

    GEOMETRY's rule 4, but steeper where a leader meets a knot (1 for 0.35) and where a knotting
    strand does (0.5): a bar's leader and the first strand it meets, both drawn from one knot
    far aside, would cross otherwise.
    """
    ends = {above, below}
    if ends <= {"lead", "hitch"}:
        return 0.0
    if "lead" in ends:
        return 1.0
    if "hitch" in ends:
        return 1.0 if "bundle" in ends else 0.5
    if "bundle" in ends:
        return 0.8
    return 0.6 if ends == {"knot"} else 0.35


@cache
def tie_ports(
    name: str, manner: Manner, roles: tuple[str, ...], diameter: float
) -> tuple[tuple[Port, ...], tuple[Port, ...]]:
    """Return entry and exit ports of each strand about the knot's middle, read off its curves."""
    paths = form(name, manner).paths
    plain = "bundle" if knot(name).as_one else "knot"
    holds = [HOLDS.get(role, plain) for role in roles]
    enter = tuple(_start(path, diameter, hold) for path, hold in zip(paths, holds, strict=True))
    leave = tuple(_end(path, diameter, hold) for path, hold in zip(paths, holds, strict=True))
    return enter, leave


def _start(path: SpaceCurve, diameter: float, hold: str) -> Port:
    x0, y0, _, x1, y1, *_ = path[0]
    return _port(x0 * diameter, y0 * diameter, x1 - x0, y1 - y0, hold)


def _end(path: SpaceCurve, diameter: float, hold: str) -> Port:
    x0, y0, _, x1, y1, _ = path[-1][6:]
    return _port(x1 * diameter, y1 * diameter, x1 - x0, y1 - y0, hold)


def _port(x: float, y: float, dx: float, dy: float, hold: str) -> Port:
    size = math.hypot(dx, dy)
    # A mount starts at the fold, where a strand comes from nowhere: it counts as hanging.
    return Port(x, y, dx / size, dy / size, hold) if size > 1e-9 else Port(x, y, 0.0, 1.0, hold)
