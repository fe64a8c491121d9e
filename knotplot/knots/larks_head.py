"""Lark's head and reverse lark's head: a folded cord hung on a rod (or on a strand)."""

from __future__ import annotations

from knotplot.curves.space import DOWN, Point3, SpaceCurve, line, mapped, mirrored, smooth
from knotplot.knots.base import CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.solved import at_size

LEG = 0.52  # from the middle to where a strand hangs
LOOSE_OUT = 1.1  # how much further out while it is tied
LOOP = 1.35  # from the middle to the outer side of its loop


class LarksHead(Knot):
    """The loop of a folded cord about a rod, its two ends drawn through; `reach` = rod radius."""

    least = 2
    most = 2
    difficulty = Difficulty.EASY
    minutes = 0.4

    def __init__(self, reverse: bool) -> None:
        self.reverse = reverse
        self.name = "reverse_larks_head" if reverse else "larks_head"
        one = "reverse lark's head" if reverse else "lark's head"
        seen, right = ("before", "behind") if reverse else ("behind", "before")
        self.words = {
            "en": KnotWords(
                one,
                one + "s",
                f"If the bar of the loop is seen {seen} the rod, not {right}, the loop went over "
                "the rod the other way.",
            )
        }

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("mount",) * manner.strands

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        return self._made(manner, loose=False)

    def _made(self, manner: Manner, loose: bool) -> Form:
        side = LOOP + (LOOSE_OUT if loose else 0.0)
        left = _left(manner.reach, -1.0 if self.reverse else 1.0, loose)
        height = mount_height(manner.reach)
        middle = manner.reach - height / 2.0
        rod = line((-side - 1.0, middle, 0.0), (side + 1.0, middle, 0.0))
        return Form((left, mirrored(left)), height, LOOP + 0.5, rod=rod)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: the fold over the rod, the ends through it."""
        both = (0, 1)
        return (
            Stage(both, (2.6, 2.6), bight=True),
            Stage(both, (0.0, 0.0), bight=True),
            Stage(both, tight=True),
        )

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage."""
        tight = self.stages(manner)[stage].tight
        return self.tied(manner) if tight else self._made(manner, loose=True)

    def cord(self, manner: Manner) -> CordUse:
        """Return what one strand takes, from the middle of the fold to its port."""
        around = at_size("larks_head/on *", "mount", 2.0 * manner.reach)
        return CordUse({"mount": around + mount_height(manner.reach)})


def mount_height(radius: float) -> float:
    """Return from the rod's top to where a strand leaves the mount, in diameters."""
    return 2.0 * radius + 1.2


def _left(radius: float, front: float, loose: bool) -> SpaceCurve:
    """Return the left strand from the middle of the fold to its port, y from the rod's top."""
    low, deep = 2.0 * radius, radius + 0.5
    # A bar behind shows below the rod, so that its sides come down to there before it.
    sag, side = (0.0, 0.75 * low) if front > 0.0 else (0.55, low + 0.3)
    out, drop, leg = (LOOSE_OUT, 2.4, 0.9) if loose else (0.0, 0.0, LEG)
    end = mount_height(radius) + 2.0 * drop
    points: list[Point3] = [
        (0.0, low - 0.15 + drop + sag, front * (deep + 1.2)),
        (-0.85 - 0.6 * out, low - 0.1 + 0.8 * drop + sag, front * (deep + 0.6)),
        (-LOOP - out, side + 0.2 * drop, -front * 0.6 * deep),
        (-LOOP - out, radius, -front * deep),
        (-1.05 - out, -0.45, 0.0),
        (-leg - 0.1, radius * 0.8, front * deep),
        (-leg, low, front * deep * 0.8),
        (-leg, end, 0.0),
    ]
    half = mount_height(radius) / 2.0
    curve = smooth(points, (-1.0, 0.0, 0.0), DOWN)
    return mapped(curve, lambda x, y, z: (x, y - half, z))


KNOTS = (LarksHead(reverse=False), LarksHead(reverse=True))
