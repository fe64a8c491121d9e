"""What cord a tie takes: solved lengths, the maker's own figures, and what a swatch measured."""

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

    Parameters
    ----------
    own
        The maker's figures by knot and role, in diameters. They win over the solved ones.
    factors
        By section number the factor on the excess of working and knotting strands, from a swatch
        whose cord was measured (contract, 5: κ).
    otherwise
        The factor of all other sections; None where nobody measured it: the excess is then the
        usual one, and follows the height of the knots (`CordUse.at_height`).

    """

    own: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    factors: Mapping[int, float] = field(default_factory=dict)
    otherwise: float | None = None
    # What was asked before: kept with the piece, so that it can be copied and sent as all of it.
    _taken: dict[tuple[str, Manner, float | None], CordUse] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __call__(self, name: str, manner: Manner, section: int) -> CordUse:
        """Return what a tie takes in that section."""
        asked = name, manner, self.factors.get(section, self.otherwise)
        if asked not in self._taken:
            self._taken[asked] = self._take(*asked)
        return self._taken[asked]

    def _take(self, name: str, manner: Manner, factor: float | None) -> CordUse:
        use = knot(name).cord(manner)
        own = self.own.get(name, {})
        if factor is not None:
            return _with_own(use, own).scaled(factor)
        return _with_own(use.at_height(manner.tall), own)


def _with_own(use: CordUse, own: Mapping[str, float]) -> CordUse:
    """Return the use with the maker's own lengths in place of the solved; none below its way."""
    if not own:
        return use
    excess = {role: max(0.0, own[role] - way) for role, way in use.way.items() if role in own}
    return CordUse(use.way, {**use.excess, **excess}, use.sigma)
