"""What cord a tie takes: solved lengths, the maker's own figures, and what a swatch measured."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from knotplot.knots import knot
from knotplot.knots.base import CordUse, Manner

#: Where the lengths come from, as the figures name it.
SOURCE = "solved rope"
MOST_KEPT = 4096  # manners of knots in one piece whose cord is remembered


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

    def __init__(
        self,
        own: Mapping[str, Mapping[str, float]] | None = None,
        factors: Mapping[int, float] | None = None,
        otherwise: float | None = None,
    ) -> None:
        self._own = own or {}
        self._factors = factors or {}
        self._otherwise = otherwise
        self._taken = lru_cache(MOST_KEPT)(self._take)

    def __call__(self, name: str, manner: Manner, section: int) -> CordUse:
        """Return what a tie takes in that section."""
        return self._taken(name, manner, self._factors.get(section, self._otherwise))

    def _take(self, name: str, manner: Manner, factor: float | None) -> CordUse:
        use = knot(name).cord(manner)
        own = self._own.get(name, {})
        if factor is not None:
            return _with_own(use, own).scaled(factor)
        return _with_own(use.at_height(manner.tall), own)


def _with_own(use: CordUse, own: Mapping[str, float]) -> CordUse:
    """Return the use with the maker's own lengths in place of the solved; none below its way."""
    if not own:
        return use
    excess = {role: max(0.0, own[role] - way) for role, way in use.way.items() if role in own}
    return CordUse(use.way, {**use.excess, **excess}, use.sigma)
