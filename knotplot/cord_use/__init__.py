"""What cord a tie takes: solved lengths, the maker's own figures, and the swatch's scale."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from knotplot.knots import knot
from knotplot.knots.base import CordUse, Manner

#: Where the lengths come from, as the figures name it.
SOURCE = "solved rope"


class Taking:
    """The cord each tie takes, by role in diameters: a function of knot, manner and section.

    `own` has the maker's figures by knot and role, which win; `scales` a factor by section
    number, from a swatch whose cord was measured.
    """

    def __init__(
        self,
        own: Mapping[str, Mapping[str, float]] | None = None,
        scales: Mapping[int, float] | None = None,
    ) -> None:
        self._own = own or {}
        self._scales = scales or {}
        self._taken = cache(self._take)

    def __call__(self, name: str, manner: Manner, section: int) -> CordUse:
        """Return what a tie takes in that section."""
        return self._taken(name, manner, self._scales.get(section, 1.0))

    def _take(self, name: str, manner: Manner, scale: float) -> CordUse:
        use = knot(name).cord(manner)
        own = self._own.get(name, {})
        if scale == 1.0 and not own:
            return use
        by_role = {role: scale * own.get(role, taken) for role, taken in use.by_role.items()}
        return CordUse(by_role, use.sigma)
