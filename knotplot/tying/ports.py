"""Ports: where a strand enters and leaves a tie, and how far apart two ports must hang."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from knotplot.curves.space import SpaceCurve
from knotplot.knots import form, knot
from knotplot.knots.base import Manner

# How a strand is held at a port, by its role in the tie.
HOLDS = {"leader": "lead", "knotting": "hitch", "crossing": "cross"}


class Port(NamedTuple):
    """A place (mm) and direction at which a strand enters or leaves a tie, and how it is held.

    `hold` is "knot", "hitch" (a knotting strand), "lead" (a leader), "cross", "bundle" (a knot
    that ties its strands as one, which leave it close together), or "side" (a cord looped onto
    another, whose strands leave it sideways). `loop` is how much longer than straight (mm) the run
    into it is: a picot, which stands out to the left where it is below 0, else to the right.
    """

    x: float
    y: float
    tx: float
    ty: float
    hold: str
    loop: float = 0.0

    def moved(self, dx: float, dy: float) -> Port:
        """Return the port moved by (dx, dy)."""
        return Port(self.x + dx, self.y + dy, self.tx, self.ty, self.hold, self.loop)

    def turned(self, turn: int) -> Port:
        """Return the port turned about (0, 0): a quarter, so that down goes to the right (1).

        Or to the left (-1); 0 leaves it.
        """
        if not turn:
            return self
        x, y, tx, ty = self.y * turn, -self.x * turn, self.ty * turn, -self.tx * turn
        return Port(x, y, tx, ty, self.hold, self.loop)


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
    if ends == {"side", "knot"}:
        return 0.6
    return 0.6 if ends == {"knot"} else 0.35


@lru_cache(maxsize=1024)
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


#: The knot by which a cord is looped onto a strand, and how: on one as thick as itself.
LOOPED = "larks_head"
LOOPED_MANNER = Manner(2, reach=0.5)


class Looped(NamedTuple):
    """A cord looped onto a hanging strand, about the knot's middle, which lies turned (mm).

    `above` and `below` are where that strand passes, `leave` where the cord's two strands go off,
    left to right as they then hang; `turn` is as in `Port.turned`.
    """

    above: Port
    below: Port
    leave: tuple[Port, Port]
    turn: int


@lru_cache(maxsize=64)
def looped_ports(left: bool, diameter: float) -> Looped:
    """Return the ports of a cord that is added, whose strands hang to the right or `left`.

    The knot lies as on a rod, a quarter turned: its rod is the strand it hangs on.
    """
    made, turn = form(LOOPED, LOOPED_MANNER), -1 if left else 1
    if made.rod is None:
        raise RuntimeError("a lark's head has a rod")
    ends = sorted(
        (_port(x * diameter, y * diameter, 0.0, 0.0, "knot").turned(turn)
         for x, y in (made.rod[0][:2], made.rod[-1][9:11])),
        key=lambda port: port.y,
    )  # fmt: skip
    above, below = (port._replace(tx=0.0, ty=1.0) for port in ends)
    a, b = (_end(path, diameter, "side").turned(turn) for path in made.paths)
    return Looped(above, below, (a, b), turn)


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
