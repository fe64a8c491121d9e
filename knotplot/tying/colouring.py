"""Which colour a piece's cords have: by strand and by cord, and in which order they are hung."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain, cycle, islice, repeat

from knotplot.brief import Brief


@dataclass(frozen=True, slots=True)
class Run:
    """`count` cords of one colour side by side."""

    colour: str
    count: int = 1

    def __str__(self) -> str:
        return self.colour if self.count == 1 else f"{self.colour}*{self.count}"


@dataclass(frozen=True, slots=True, repr=False)
class Colouring(Brief):
    """The inks (`#rrggbb`) of a piece's cords, and the run of colours they were hung by.

    `strands` has an ink for every strand by id (index 0 unused), `cords` by cord id; None stands
    for a cord without a colour, or of a colour that `palette` (ink by name) hasn't got. `unit` is
    what main cords repeat from the left as mounted, up to the middle where `mirror` reflects it;
    it is empty where none is given. A cord's colour by name is `Cord.colour`.
    """

    unit: tuple[Run, ...] = ()
    mirror: bool = False
    palette: Mapping[str, str] = field(default_factory=dict, hash=False)
    strands: tuple[str | None, ...] = ()
    cords: Mapping[str, str | None] = field(default_factory=dict, hash=False)

    def of_strand(self, strand: int) -> str | None:
        """Return the ink of the cord a strand is of, None for the usual one."""
        return self.strands[strand] if strand < len(self.strands) else None

    def of_cord(self, cord: str) -> str | None:
        """Return the ink of a cord by its id (`M1`, `L1`, `W1`), None for the usual one."""
        return self.cords.get(cord)

    @property
    def inked(self) -> bool:
        """Tell whether any cord has an ink of its own."""
        return any(self.cords.values())


#: Of a piece whose cords have no colours.
PLAIN = Colouring()


def order_of(unit: Sequence[Run], mirror: bool, cords: int) -> list[str]:
    """Return the colour of each of so many cords from the left.

    The unit is repeated; with `mirror` it runs so to the middle and is reflected there, a middle
    cord being there once.

    >>> unit = [Run("natural", 2), Run("rust", 1)]
    >>> "".join(colour[0] for colour in order_of(unit, False, 7))
    'nnrnnrn'
    >>> "".join(colour[0] for colour in order_of(unit, True, 7))
    'nnrnrnn'
    """
    half = (cords + 1) // 2 if mirror else cords
    endless = chain.from_iterable(repeat(run.colour, run.count) for run in cycle(unit))
    found = list(islice(endless, half))
    return found + found[: cords - half][::-1]
