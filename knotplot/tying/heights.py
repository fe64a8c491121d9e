"""How tall knots come out, section by section: what a swatch's height says of the maker's hands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from knotplot.brief import Brief


@dataclass(frozen=True, slots=True, repr=False)
class Heights(Brief):
    """The height of knots over their usual one: by section's name or kind, and of all `others`.

    `swatches` is what the swatches are of whose height was used, in their order.

    >>> Heights({"net": 1.1}).of("net", "square_knot_mesh"), Heights().of("net", "sennits")
    (1.1, 1.0)
    """

    known: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    others: float = 1.0
    swatches: tuple[str | None, ...] = ()

    def of(self, name: str, kind: str) -> float:
        """Return the factor for a section: by its name, else its kind, else as all others."""
        return self.known.get(name, self.known.get(kind, self.others))
