"""A way of mounting: what the cords hang on, and how many strands it asks for."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar

from knotplot.discovery import Registry, Tagged, models
from knotplot.kind import Kind, KindWords
from knotplot.sections.base import Section
from knotplot.tying.gauge import Gauge
from knotplot.tying.piece import Mounting, Support
from knotplot.tying.rack import Rack


@dataclass(frozen=True, slots=True, kw_only=True)
class MountWords(KindWords):
    """What a mount is called, and how cords are hung by it, in one language.

    `support` is the place that depths are measured from. In `hang`, {cut} stands for the cords cut,
    {cords} for the strands that hang, {rod}, {tail}, {loop} and {stands} for its lengths.
    `hang_uneven` says it of cords that are folded already, each at its own place, and
    `fault_uneven` what goes wrong then; without it `fault` does.
    """

    support: str
    hang: str
    hang_uneven: str = ""
    fault_uneven: str = ""


class Mount(Kind):
    """How cords are hung; each file of this package adds one kind."""

    kind: str
    """Which mount it is."""
    words: ClassVar[Mapping[str, MountWords]] = {}
    own_width: ClassVar[bool] = True
    strands_per_cord: ClassVar[int]
    support: ClassVar[Support] = "rod"
    #: Its work goes round the rod, so that brackets stand outside it.
    encloses_rod: ClassVar[bool] = False

    def ask(self) -> tuple[int, int]:
        """Return (plus, repeat): it can be worked on plus + k·repeat strands."""
        return (0, self.strands_per_cord)

    def check_room(self, gauge: Gauge) -> None:
        """Raise `Refusal` where it has no room for the strands."""

    def sample(self) -> Section | None:
        """Return the section that its rows are worked as, None where it has no rows of knots."""
        return None

    @abstractmethod
    def hang(self, rack: Rack) -> Mounting:
        """Cut the main cords and hang their strands on the rack, tying what mounting ties."""


MOUNTS: Registry[type[Mount]] = Registry("knotplot.mounts", models(Mount))
AnyMount = Annotated[Mount, Tagged(MOUNTS)]
