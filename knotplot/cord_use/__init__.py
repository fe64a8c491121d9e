"""What cord a tie takes: solved lengths, the maker's own figures, and the swatch's scale."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from knotplot.knots import knot
from knotplot.knots.base import CordUse, Manner

#: Where the lengths come from, as the figures name it.
SOURCE = "solved rope"


@dataclass(frozen=True)
class Taking:
    """The cord each tie takes, by role in diameters: a function of knot, manner and section.

    `own` has the maker's figures by knot and role, which win; `scales` a factor by section
    number, from a swatch whose cord was measured.
    """

    own: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    scales: Mapping[int, float] = field(default_factory=dict)
    # What was asked before: kept with the piece, so that it can be copied and sent as all of it.
    _taken: dict[tuple[str, Manner, float], CordUse] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __call__(self, name: str, manner: Manner, section: int) -> CordUse:
        """Return what a tie takes in that section."""
        asked = name, manner, self.scales.get(section, 1.0)
        if asked not in self._taken:
            self._taken[asked] = self._take(*asked)
        return self._taken[asked]

    def _take(self, name: str, manner: Manner, scale: float) -> CordUse:
        use = knot(name).cord(manner)
        own = self.own.get(name, {})
        if scale == 1.0 and not own:
            return use
        by_role = {role: scale * own.get(role, taken) for role, taken in use.by_role.items()}
        return CordUse(by_role, use.sigma)
