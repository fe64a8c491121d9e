"""Half hitch chain (single chain): two strands, each the leader of the other in turn."""

from __future__ import annotations

from types import MappingProxyType

from knotplot.curves.space import DOWN, Point3, SpaceCurve, line, mapped, mirrored, smooth
from knotplot.knots.base import WHOLE, CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.sizes import SOFTNESS, lost_height
from knotplot.knots.solved import excess

HITCH = 2.0013 * SOFTNESS  # of a strand that one hitch takes (half_hitch/bar, solved)
PORT = 0.65  # from the middle to each strand


class HalfHitchChain(Knot):
    """One link: a half hitch of one strand about the other, and one of the other about it.

    Facing left, the left strand hitches first.
    """

    name = "half_hitch_chain"
    faces = True
    by_name = True
    most = 2
    loose = 2.8
    difficulty = Difficulty.EASY
    minutes = 0.3
    words = MappingProxyType(
        {
            "en": KnotWords(
                "half hitch chain link",
                "half hitch chain links",
                "If the chain turns to one side, one cord hitched twice running: they take turns.",
            )
        }
    )

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("working", "working")

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        first = mapped(_hitch(), lambda x, y, z: (x, y - HITCH, z))
        first += line((-PORT, 0.0, 0.0), (-PORT, HITCH, 0.0))
        second = line((PORT, -HITCH, 0.0), (PORT, 0.0, 0.0)) + mirrored(_hitch())
        paths = (first, second)
        if manner.facing == "right":
            paths = (mirrored(second), mirrored(first))
        return Form(paths, 2.0 * HITCH, PORT + 1.6)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: one hitches, then the other."""
        one, two = (1, 0) if manner.facing == "right" else (0, 1)
        way = 1.0 if one else -1.0

        def laid(first: float, second: float) -> tuple[float, ...]:
            return (second, first) if one else (first, second)

        turns = float(len(_hitch()))
        return (
            Stage((one,), laid(turns, 1.0), ((way, 0.7),), (two,)),
            Stage((one,), laid(turns, 1.0), ((way, 0.7),), (two,), tight=True),
            Stage((two,), laid(WHOLE, WHOLE), ((-way, 0.7),), (one,)),
            Stage((two,), laid(WHOLE, WHOLE), ((-way, 0.7),), (one,), tight=True),
        )

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role: a half hitch each, solved on a taut leader."""
        usual = 2.0 * HITCH
        taken = excess("half_hitch/alone", "knotting") + lost_height(usual)
        return CordUse({"working": usual * manner.tall}, {"working": taken})


def _hitch() -> SpaceCurve:
    """Return the left strand's half hitch about the right one, from the top down to y = `HITCH`.

    Before the leader, round behind it and out above, then down over its own beginning.
    """
    way: list[Point3] = [
        (-PORT, 0.0, 0.0),
        (-PORT + 0.1, 0.5, -0.1),
        (-0.1, 1.15, 0.7),
        (PORT, 1.2, 1.05),
        (PORT + 1.05, 0.9, 0.0),
        (PORT, 0.5, -1.05),
        (-0.05, 0.42, -0.75),
        (-PORT - 0.35, 0.62, 0.75),
        (-PORT - 0.35, 1.15, 0.7),
        (-PORT, HITCH, 0.0),
    ]
    return smooth(way, DOWN, DOWN)


KNOTS = (HalfHitchChain(),)
