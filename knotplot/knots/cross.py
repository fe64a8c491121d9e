"""A cross: two strands laid over each other. No knot, so it is in no list; the rack knows it."""

from __future__ import annotations

from knotplot.curves.space import smooth
from knotplot.knots.base import CordUse, Form, Knot, Manner


class Cross(Knot):
    """Two strands that change places; `facing` "right": the right one lies over the left."""

    name = "cross"
    faces = True
    by_name = True
    most = 2
    minutes = 0.03

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        return ("crossing", "crossing")

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        w, over = manner.reach, 0.6
        z = -over if manner.facing == "right" else over
        there, back = (2.0 * w, 1.0, 0.0), (-2.0 * w, 1.0, 0.0)
        left = smooth([(-w, -0.5, 0.0), (0.0, 0.0, z), (w, 0.5, 0.0)], there, there)
        right = smooth([(w, -0.5, 0.0), (0.0, 0.0, -z), (-w, 0.5, 0.0)], back, back)
        return Form((left, right), 1.0, w + 0.5)

    def cord(self, manner: Manner) -> CordUse:
        """Return the cord it takes by role."""
        return CordUse({"crossing": (4.0 * manner.reach**2 + 1.0) ** 0.5}, sigma=0.0)


CROSS = Cross()
