"""In how many lengths cords that are alike are cut: as asked, or as few as are worth it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from knotplot.materials.cutting import choices
from knotplot.tying.piece import Cord

MOST_GROUPS = 8  # lengths a role is cut in where the pattern leaves the number open: contract, 5
WORTH_A_LENGTH = Fraction(5, 100)  # of the cord: what more lengths must save (contract, 5)

#: How many spools of a kind of cord hold some pieces (length in mm, how many), None if unknown.
SpoolCount = Callable[[str, Sequence[tuple[Fraction, int]]], int | None]


class Alike(NamedTuple):
    """What cords share that are cut in few lengths together."""

    role: str
    kind: str
    colour: str | None


def alike(cords: Iterable[Cord]) -> dict[Alike, list[int]]:
    """Return which cords, by their number from 0, are of one role, kind and colour."""
    found: dict[Alike, list[int]] = {}
    for i, cord in enumerate(cords):
        found.setdefault(Alike(cord.role, cord.kind, cord.colour), []).append(i)
    return found


def cut_lengths(
    cords: Sequence[Cord],
    needs: Sequence[float],
    step: Fraction,
    groups: int | None,
    spools: SpoolCount,
) -> dict[int, Fraction]:
    """Return the length to cut of each cord by its number (mm), in few lengths for those alike.

    `needs` is what each needs at the least (mm). Each role, kind and colour is cut in at most
    `groups` lengths, or, for None, in as few as are worth it.
    """
    together: dict[tuple[str, str | None], list[list[int]]] = {}
    for of, mine in alike(cords).items():
        together.setdefault((of.kind, of.colour), []).append(mine)
    cut: dict[int, Fraction] = {}
    for (kind, _), roles in together.items():
        most = MOST_GROUPS if groups is None else groups
        ways = [choices([needs[i] for i in mine], step, most) for mine in roles]
        few = _worthwhile(kind, ways, spools) if groups is None else most
        for mine, way in zip(roles, ways, strict=True):
            cut |= dict(zip(mine, way[min(few, len(way)) - 1], strict=True))
    return cut


def _worthwhile(
    kind: str, ways: Sequence[Sequence[tuple[Fraction, ...]]], spools: SpoolCount
) -> int:
    """Return the fewest lengths (a role) that take no more spools and hardly more cord.

    `ways` has for each role of one kind and colour the lengths with at most 1, 2, … of them.
    """

    def lengths(groups: int) -> list[Fraction]:
        return [cut for way in ways for cut in way[min(groups, len(way)) - 1]]

    def taken(cuts: list[Fraction]) -> int:
        return spools(kind, list(Counter(cuts).items())) or 0

    best = lengths(MOST_GROUPS)
    most_cord, most_spools = sum(best) * (1 + WORTH_A_LENGTH), taken(best)
    return next(
        groups
        for groups in range(1, MOST_GROUPS + 1)
        if sum(cuts := lengths(groups)) <= most_cord and taken(cuts) <= most_spools
    )
