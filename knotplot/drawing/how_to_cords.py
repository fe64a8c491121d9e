"""The cords of a picture of tying: as far as they are in place, and how they run on from there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from knotplot.curves.space import Point3, SpaceCurve, at, line, smooth, split
from knotplot.knots.base import Point2

ENTRY = 2.0  # diameters a strand is shown before it enters the knot
TAIL = 2.4  # and beyond where it is in place, in the hand


@dataclass(frozen=True, slots=True)
class Strand:
    """A cord of a scene: its role, its curve with both run-ons, and which part of it is new.

    `new` is from where to where it was laid in this stage, in cubics of `curve` (None where it
    didn't move); `end` the point and direction of its free end (or start), where it is pulled.
    """

    role: str
    curve: SpaceCurve
    new: tuple[float, float] | None = None
    end: tuple[Point2, Point2] | None = None
    held: bool = False


def place(curve: SpaceCurve, where: float) -> Point3:
    """Return the point of a curve at `where`, in cubics."""
    k = min(int(where), len(curve) - 1)
    return at(curve[k], where - k)


def direction(curve: SpaceCurve, where: float) -> Point2:
    """Return the direction of a curve as seen from the front, a unit vector."""
    low, high = max(where - 0.02, 0.0), min(where + 0.02, float(len(curve)))
    (x0, y0, _), (x1, y1, _) = place(curve, low), place(curve, high)
    size = math.hypot(x1 - x0, y1 - y0) or 1.0
    return ((x1 - x0) / size, (y1 - y0) / size)


def tip(curve: SpaceCurve) -> tuple[Point2, Point2]:
    """Return the end of a curve and the direction in which it leaves."""
    x, y, _ = curve[-1][9:]
    return (x, y), direction(curve, float(len(curve)))


def start_of(curve: SpaceCurve) -> tuple[Point2, Point2]:
    """Return the beginning of a curve and the direction in which it is pulled from there."""
    dx, dy = direction(curve, 0.0)
    return (curve[0][0], curve[0][1]), (-dx, -dy)


def cut(curve: SpaceCurve, far: float) -> SpaceCurve:
    """Return the first `far` cubics of a curve."""
    k = min(int(far), len(curve))
    rest = far - k
    return curve[:k] if rest < 1e-6 else (*curve[:k], split(curve[k], 0.0, rest))


def entry(curve: SpaceCurve) -> SpaceCurve:
    """Return the stretch before a strand's curve: straight on, as it enters."""
    x, y, z = curve[0][:3]
    dx, dy = direction(curve, 0.0)
    return line((x - ENTRY * dx, y - ENTRY * dy, z), (x, y, z))


def tail_of(part: SpaceCurve, pull: Point2 | None, bottom: float) -> SpaceCurve:
    """Return how a strand runs on from where it is in place: led in the hand, or hanging."""
    x, y, z = part[-1][9:]
    tx, ty = direction(part, float(len(part)))
    if pull is None:
        return smooth([(x, y, z), (x, max(bottom, y + 1.0), z)], (tx, ty, 0.0), (0.0, 1.0, 0.0))
    to = (x + TAIL * pull[0] + 0.6 * tx, y + TAIL * pull[1] + 0.6 * ty, z)
    return smooth([(x, y, z), to], (tx, ty, 0.0), (pull[0], pull[1], 0.0))


def folded(curve: SpaceCurve, far: float, bottom: float, start: float | None) -> Strand:
    """Return half of a folded cord from its hanging end to the middle of its fold.

    `start` is where its new part begins, None where its end is pulled.
    """
    back = tuple(
        tuple(value for k in (9, 6, 3, 0) for value in cubic[k : k + 3])
        for cubic in reversed(curve)
    )
    x, y, z = back[0][:3]
    whole: SpaceCurve = line((x, bottom, z), (x, y, z))
    whole += cut(back, len(back) - far)
    if far > 0.0:
        whole += _fold(whole)
    if start is None:
        return Strand("mount", whole, None, start_of(whole))
    return Strand("mount", whole, (1.0 + start, float(len(whole))), tip(whole))


def _fold(part: SpaceCurve) -> SpaceCurve:
    """Return half of the loop of a fold that hangs from where it is in place, to its middle."""
    x, y, z = part[-1][9:]
    towards = -math.copysign(1.0, x)
    points: list[Point3] = [(x, y, z), (0.92 * x, y + 2.6, z), (0.0, y + 4.4, z)]
    return smooth(points, (0.0, 1.0, 0.0), (towards, 0.0, 0.0))
