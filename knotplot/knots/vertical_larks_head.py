"""Vertical lark's head: one outer strand tied about all others; repeated, a sennit with an edge."""

from __future__ import annotations

import math
from dataclasses import replace
from types import MappingProxyType

from knotplot.curves.space import DOWN, Point3, SpaceCurve, line, mapped, smooth
from knotplot.knots.base import WHOLE, CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.overhand import bundle_diameter
from knotplot.knots.sizes import SOFTNESS, filler_places, lost_height, outer_port
from knotplot.knots.solved import excess

ENTRY = "larks_head_chain/1"
HALF = 3.9998 * SOFTNESS / 2.0  # half of what one takes of a chain of them (ENTRY, solved)
PORT = 1.7  # of the working strand, beyond the outer filler's edge
OPEN = 2.2  # how much further apart it lies while it is tied
FIRST = 8.0  # cubics of its first half hitch


class VerticalLarksHead(Knot):
    """Facing left, the left strand works; facing right, the right one. All others are fillers."""

    name = "vertical_larks_head"
    faces = True
    by_name = True
    alone = "one working strand"
    difficulty = Difficulty.SOME
    minutes = 0.4
    words = MappingProxyType(
        {
            "en": KnotWords(
                "vertical lark's head",
                "vertical lark's heads",
                "If the working cord winds round without a bar on its side, the second half "
                "went over the fillers first, as the first half does.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        fillers = ("filler",) * (manner.strands - 1)
        return (*fillers, "working") if manner.facing == "right" else ("working", *fillers)

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        return self._made(manner, HALF, 1.0)

    def _made(self, manner: Manner, half: float, wide: float) -> Form:
        """Return its curves so high to each side of the middle, turns so much wider."""
        fillers = manner.strands - 1
        edge = 0.5 if fillers == 1 else outer_port(fillers) - 1.0
        aside = (PORT - 0.7) / 2.0  # so that knot and strands hang about one middle
        sign = 1.0 if manner.facing == "right" else -1.0
        places = filler_places(fillers, 2.0 * edge)
        straight = [line((x, -half, 0.0), (x, half, 0.0)) for x in places]
        worker = mapped(_worker(edge, half, wide), lambda x, y, z: (sign * x, y, z))
        paths = (*straight, worker) if sign > 0.0 else (worker, *straight)
        moved = tuple(mapped(p, lambda x, y, z: (x - sign * aside, y, z)) for p in paths)
        return Form(moved, 2.0 * half, edge + PORT - aside + 0.5)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: two half hitches, the second the first's mirror.

        Each ends out at the working strand's own side.
        """
        right = manner.facing == "right"
        who = manner.strands - 1 if right else 0
        others = tuple(i for i in range(manner.strands) if i != who)
        ahead = 1.0 if right else -1.0

        def laid(far: float) -> tuple[float, ...]:
            return tuple(far if i == who else WHOLE for i in range(manner.strands))

        return (
            Stage((who,), laid(FIRST), ((ahead, 0.5),), others),
            Stage((who,), laid(FIRST), ((ahead, 0.5),), others, tight=True),
            Stage((who,), laid(WHOLE), ((ahead, 0.6),), others),
            Stage((who,), laid(WHOLE), ((ahead, 0.6),), others, tight=True),
        )

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage: open, or drawn up."""
        if drawn := self.drawn_up(manner, stage):
            return drawn
        made = self._made(manner, OPEN * HALF, OPEN)
        return replace(made, half_width=made.half_width + OPEN)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role.

        Solved on one filler. On more, each of its two turns is longer by what the fillers' girth
        is more: in a row, or as a round bundle, whichever is less (closed forms).
        """
        fillers, usual = manner.strands - 1, 2.0 * HALF
        round_ = math.pi * (bundle_diameter(fillers) - 1.0)
        more = 2.0 * min(2.0 * (fillers - 1), round_)
        taken, way = excess(ENTRY, "working") + more + lost_height(usual), usual * manner.tall
        return CordUse({"working": way, "filler": way}, {"working": taken})


def _worker(edge: float, half: float, wide: float) -> SpaceCurve:
    """Return the working strand at the right of fillers whose outer edges lie at ±`edge`.

    Under its own bar and before the fillers, round behind them and out above, down as the bar;
    then the same backwards.
    """
    y, out = half / HALF, 0.55 * wide
    bar = edge + (1.0 if wide == 1.0 else 0.9 * wide)
    port = edge + PORT
    way: list[Point3] = [
        (port, -half, 0.0),
        (bar + 0.3 * wide, -0.85 * y, 0.0),
        (edge + 0.2, -0.45 * y, 0.75),
        (0.0, -0.42 * y, 1.05),
        (-edge - out, -0.78 * y, 0.0),
        (0.0, -1.2 * y, -1.05),
        (edge + 0.5, -1.3 * y, 0.0),
        (bar, -0.85 * y, 1.5),
    ]
    back = [(x, -y_, z) for x, y_, z in reversed(way)]
    return smooth([*way, (bar, 0.0, 1.9), *back], DOWN, DOWN)


KNOTS = (VerticalLarksHead(),)
