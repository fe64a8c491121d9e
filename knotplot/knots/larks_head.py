"""Lark's head and reverse lark's head: a folded cord hung on a rod (or on a strand)."""

from __future__ import annotations

from knotplot.curves.space import Point3, SpaceCurve, line, mapped, mirrored, smooth
from knotplot.knots.base import CordUse, Form, Knot, KnotWords, Manner
from knotplot.knots.solved import at_size

LEG = 0.52  # from the middle to where a strand hangs
LOOP = 1.35  # from the middle to the outer side of its loop


class LarksHead(Knot):
    """The loop of a folded cord about a rod, its two ends drawn through; `reach` = rod radius."""

    least = 2
    most = 2
    minutes = 0.4

    def __init__(self, reverse: bool) -> None:
        self.reverse = reverse
        self.name = "reverse_larks_head" if reverse else "larks_head"
        one = "reverse lark's head" if reverse else "lark's head"
        side, bar = ("front", "behind") if reverse else ("back", "in front")
        self.words = {
            "en": KnotWords(
                one,
                one + "s",
                (
                    f"Fold the cord in half and lay the loop over the rod, from the other side to "
                    f"the {side}.",
                    "Draw both ends through the loop and pull down.",
                    f"The bar of the loop lies {bar}.",
                ),
                "If the bar lies on the wrong side, the loop went over the rod the other way.",
            )
        }

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("mount",) * manner.strands

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        left = _left(manner.reach, -1.0 if self.reverse else 1.0)
        height = mount_height(manner.reach)
        middle = manner.reach - height / 2.0
        rod = line((-LOOP - 1.0, middle, 0.0), (LOOP + 1.0, middle, 0.0))
        return Form((left, mirrored(left)), height, LOOP + 0.5, rod=rod)

    def cord(self, manner: Manner) -> CordUse:
        """Return what one strand takes, from the middle of the fold to its port."""
        around = at_size("larks_head/on *", "mount", 2.0 * manner.reach)
        return CordUse({"mount": around + mount_height(manner.reach)})


def mount_height(radius: float) -> float:
    """Return from the rod's top to where a strand leaves the mount, in diameters."""
    return 2.0 * radius + 1.2


def _left(radius: float, front: float) -> SpaceCurve:
    """Return the left strand from the middle of the fold to its port, y from the rod's top."""
    low, deep = 2.0 * radius, radius + 0.5
    points: list[Point3] = [
        (0.0, low - 0.15, front * (deep + 1.2)),
        (-0.85, low - 0.1, front * (deep + 0.6)),
        (-LOOP, low * 0.75, -front * 0.6 * deep),
        (-LOOP, radius, -front * deep),
        (-1.05, -0.45, 0.0),
        (-LEG - 0.1, radius * 0.8, front * deep),
        (-LEG, low, front * deep * 0.8),
        (-LEG, mount_height(radius), 0.0),
    ]
    half = mount_height(radius) / 2.0
    curve = smooth(points, (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    return mapped(curve, lambda x, y, z: (x, y - half, z))


KNOTS = (LarksHead(reverse=False), LarksHead(reverse=True))
