"""A way of mounting: what the cords hang on, and how many strands it asks for."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import Annotated, ClassVar

from knotplot.discovery import Registry, Tagged, models
from knotplot.fields import Kinded
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import Rack


class Mount(Kinded, ABC):
    """How cords are hung; each file of this package adds one kind."""

    kind: str
    """Which mount it is."""
    strands_per_cord: ClassVar[int]

    def ask(self) -> tuple[int, int]:
        """Return (plus, repeat): it can be worked on plus + k·repeat strands."""
        return (0, self.strands_per_cord)

    @abstractmethod
    def hang(self, rack: Rack) -> Mounting:
        """Cut the main cords and hang their strands on the rack, tying what mounting ties."""


MOUNTS: Registry[type[Mount]] = Registry("knotplot.mounts", models(Mount))
AnyMount = Annotated[Mount, Tagged(MOUNTS)]
