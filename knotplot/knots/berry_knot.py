"""Berry knot (bobble, bead knot): square knots rolled up by their own fillers, and tied off.

A composite: its inner knots are those of the square knot's own file; only the outer ports show.
"""

from __future__ import annotations

import math
from types import MappingProxyType

from knotplot.curves.space import DOWN, Point3, SpaceCurve, mapped, smooth
from knotplot.knots.base import CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage, loosened
from knotplot.knots.solved import excess
from knotplot.knots.square_knot import KNOTS as SQUARE_KNOTS

KNOTS_ROLLED = 3  # and one that closes it (Dillmont 536)
SQUARE = SQUARE_KNOTS[0]
PITCH = SQUARE.form(Manner(4, "left")).height
LONG = KNOTS_ROLLED * PITCH
ROUND = 1.5 * math.pi  # of the turn the sennit makes
RADIUS = LONG / ROUND
TOP = -RADIUS - 1.9  # of the whole, from the middle of the ball
CLOSE = RADIUS + 1.4  # where the last knot begins
OPEN = 1.25  # how much larger its sennit is drawn while the fillers are led round it
SIDES = ((-1.0, 0.7), (1.0, 0.7))


class BerryKnot(Knot):
    """Three square knots, their fillers led up before them, through above, and down behind.

    `facing` is that of its square knots.
    """

    name = "berry_knot"
    faces = True
    by_name = True
    alone = "one working strand a side"
    least = 4
    most = 4
    difficulty = Difficulty.MUCH
    minutes = 3.0
    words = MappingProxyType(
        {
            "en": KnotWords(
                "berry knot",
                "berry knots",
                "If it sags and shows a gap below its top, the fillers were not pulled tight "
                "before the closing square knot.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("working", "filler", "filler", "working")

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        return _made(manner, rolled=True)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: fillers up, through, pulled; closed."""
        knots = float(WORKED)
        return (
            Stage(
                (0, 3), (knots, 8.0, 8.0, knots), SIDES, (1, 2), tight=True,
                tied=(SQUARE.name, KNOTS_ROLLED),
            ),
            Stage((1, 2), (knots, 11.0, 11.0, knots), ((0.0, -1.0),)),
            Stage((1, 2), (knots, 14.0, 14.0, knots)),
            Stage((1, 2), (knots, 14.0, 14.0, knots), tight=True),
            Stage((0, 3), pull=SIDES, held=(1, 2), tight=True, tied=(SQUARE.name, 1)),
        )  # fmt: skip

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage: the sennit hanging, or rolled up."""
        if stage > 2:
            return self.tied(manner)
        made = _made(manner, rolled=False)
        return loosened(made, OPEN) if stage else made

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role: solved, knots and way there and back in one."""
        roles, way = ("working", "filler"), (CLOSE + PITCH - TOP) * manner.tall
        return CordUse(
            dict.fromkeys(roles, way),
            {role: excess(f"berry/{KNOTS_ROLLED}", role) for role in roles},
        )


def _made(manner: Manner, rolled: bool) -> Form:
    """Return its curves, the sennit rolled up or hanging."""
    top, close = (TOP, CLOSE) if rolled else (-2.4, LONG + 2.4)
    inner = SQUARE.form(Manner(4, manner.facing)).paths
    left, right = (_working(inner[i], rolled, top, close) for i in (0, 3))
    fillers = [_filler(side, rolled, top, close) for side in (-1.0, 1.0)]
    middle = (top + close + PITCH) / 2.0
    paths = tuple(
        mapped(path, lambda x, y, z: (x, y - middle, z)) for path in (left, *fillers, right)
    )
    return Form(paths, close + PITCH - top, 3.4)


def _bent(x: float, s: float, z: float, rolled: bool) -> Point3:
    """Return where a point of the sennit lies that is `s` below its top."""
    if not rolled:
        return (x, s, z)
    turn, r = 0.25 * math.pi + ROUND * s / LONG, RADIUS - z
    return (x, -r * math.cos(turn), -r * math.sin(turn))


def _joints(path: SpaceCurve) -> list[Point3]:
    """Return where the cubics of a square knot's strand join, from its top down."""
    return [(cubic[0], cubic[1] + PITCH / 2.0, cubic[2]) for cubic in path]


def _working(path: SpaceCurve, rolled: bool, top: float, close: float) -> SpaceCurve:
    """Return a working strand: three square knots, then past the ball, and a last one."""
    side = math.copysign(1.0, path[0][0])
    x = path[0][0]
    points: list[Point3] = [(x, top, 0.0)]
    for k in range(KNOTS_ROLLED):
        points += [_bent(a, k * PITCH + s, z, rolled) for a, s, z in _joints(path)]
    points.append(_bent(x, LONG, 0.0, rolled))
    if rolled:
        points += [(2.7 * side, -1.7, 0.9), (2.9 * side, 0.4, 0.5), (2.8 * side, 2.4, 0.2)]
    else:
        points += [(x, LONG + 0.6 * i, 0.0) for i in (1, 2, 3)]
    points += [(a, close + s, z) for a, s, z in _joints(path)]
    return smooth([*points, (x, close + PITCH, 0.0)], DOWN, DOWN)


def _filler(side: float, rolled: bool, top: float, close: float) -> SpaceCurve:
    """Return a filler: through the knots, up before them, between the fillers above, and down."""
    points: list[Point3] = [(1.0, top, 0.0), (1.6, top + 1.0, 0.0)]
    points += [_bent(0.5, LONG * i / 6.0, 0.0, rolled) for i in range(7)]
    if rolled:
        points += [
            (0.7, -2.3, 1.2),
            (0.9, -2.9, 0.2),
            (0.9, -2.8, -1.8),
            (0.9, -0.8, -4.1),
            (0.9, 2.2, -4.1),
            (0.7, RADIUS + 1.0, -2.2),
        ]
    else:
        points += [
            (0.8, LONG + 1.0, 1.2),
            (1.05, LONG / 2.0, 2.6),
            (0.8, -0.9, 1.8),
            (0.8, -0.9, -1.8),
            (1.05, LONG / 2.0, -2.6),
            (0.7, LONG + 1.6, -1.5),
        ]
    points += [(0.5, close, 0.0), (0.5, close + PITCH, 0.0)]
    return smooth([(side * x, y, z) for x, y, z in points], DOWN, DOWN)


WORKED = KNOTS_ROLLED * len(SQUARE.form(Manner(4, "left")).paths[0]) + 1

KNOTS = (BerryKnot(),)
