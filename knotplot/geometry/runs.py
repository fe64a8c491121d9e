"""A free run: the one cubic that a strand follows from the port it leaves to the next it enters.

GEOMETRY, rule 12: tangents hang at knots and free ends, follow the leader where a strand leads,
and lean halfway between the chord and the leader's normal where it knots. A run into a picot stands
out in a loop.
"""

from __future__ import annotations

import math
from functools import lru_cache

from knotplot.curves.bezier import Cubic, length
from knotplot.tying.ports import Port

HANDLE = 0.4  # of the chord
LONGEST = 2.5  # diameters
LEANS = ("hitch", "side")  # how strands are held that turn to where they go


def run(a: Port, b: Port, diameter: float, ease: float = 1.0) -> Cubic:
    """Return the curve from `a` to `b`, in the frame of the ports.

    `ease` below 1 shortens its handles: the run is then nearer to a straight line. A loop it has is
    left out: see `shown`.
    """
    dx, dy = b.x - a.x, b.y - a.y
    chord = math.hypot(dx, dy)
    handle = ease * min(HANDLE * chord, LONGEST * diameter)
    ax, ay = _towards(a, dx, dy, chord)
    bx, by = _towards(b, dx, dy, chord)
    return (
        a.x, a.y, a.x + handle * ax, a.y + handle * ay,
        b.x - handle * bx, b.y - handle * by, b.x, b.y,
    )  # fmt: skip


def _towards(port: Port, dx: float, dy: float, chord: float) -> tuple[float, float]:
    """Return the direction (a unit vector) in which a run leaves or enters a port."""
    if port.hold not in LEANS or chord < 1e-9:
        return port.tx, port.ty
    x, y = 2.0 * dx / chord + port.tx, 2.0 * dy / chord + port.ty
    size = math.hypot(x, y)
    return (x / size, y / size) if size > 1e-9 else (port.tx, port.ty)


def run_length(a: Port, b: Port, diameter: float) -> float:
    """Return the length (mm) of the run from `a` to `b`, with its loop if it has one."""
    return length(run(a, b, diameter)) + abs(b.loop)


def shown(a: Port, b: Port, diameter: float) -> Cubic:
    """Return the run from `a` to `b` as it is seen: one with a loop stands out to its side."""
    plain = run(a, b, diameter)
    if not b.loop:
        return plain
    wanted = length(plain) + abs(b.loop)
    out, low = _loop(round(b.x - a.x, 3), round(b.y - a.y, 3), round(wanted, 3))
    out = math.copysign(out, b.loop)
    return (a.x, a.y, a.x + out, a.y + low, b.x + out, b.y - low, b.x, b.y)


@lru_cache(maxsize=4096)
def _loop(dx: float, dy: float, wanted: float) -> tuple[float, float]:
    """Return how far aside and down the handles of a loop of that length (mm) reach.

    Ends that lie close make an ear, wider than its root; those far apart a gentle bow.
    """
    near, far = 0.0, 2.0 * wanted
    wide = 0.5 * max(0.0, 1.0 - 2.0 * dy / wanted)
    for _ in range(40):
        out = (near + far) / 2.0
        low = dy / 3.0 - wide * out
        made = length((0.0, 0.0, out, low, dx + out, dy - low, dx, dy))
        near, far = (out, far) if made < wanted else (near, out)
    return near, dy / 3.0 - wide * near


class RunLengths:
    """Lengths of runs, kept by their shape: a piece repeats a few a thousand times.

    Ports are compared to a thousandth of a millimetre; the length is that of the curve (8-point
    Gauss–Legendre), good to 0.001 mm for runs of a piece.
    """

    def __init__(self, diameter: float) -> None:
        self._diameter = diameter
        self._known: dict[tuple[float, float, Port, Port], float] = {}

    def of(self, a: Port, ax: float, ay: float, b: Port, bx: float, by: float) -> float:
        """Return the length of the run from port `a` in a frame at (ax, ay) to `b` at (bx, by)."""
        key = (round(bx - ax, 3), round(by - ay, 3), a, b)
        found = self._known.get(key)
        if found is None:
            found = run_length(a, b.moved(key[0], key[1]), self._diameter)
            self._known[key] = found
        return found
