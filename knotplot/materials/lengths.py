"""What every cord of a piece uses, and how long it is cut.

A cord that isn't folded is cut by the contract's formula (`allowance.py`), never shorter than what
it uses. One that is folded has two sides, and the fold parts it before the first knot is tied:
what one side has left can't help the other. The formula over the whole cord is then not enough,
since √(σ₁² + σ₂²) is less than σ₁ + σ₂. So each side gets its own allowance, with a margin for as
many draws as the piece has cords and sides of folded cords; with that all of them suffice at the
stated confidence. A folded cord is cut

- `uneven`: for the sum of what its two sides need;
- `middle`: for twice what the side that needs more does;

and in either case never for less than the formula gives over both strands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from knotplot.brief import Brief
from knotplot.cord_use import SOURCE
from knotplot.geometry.layout import Layout
from knotplot.materials.allowance import Draw, Margin, allowance_mm, margin
from knotplot.materials.folds import Halves, fold_points, least_left
from knotplot.materials.groups import Alike, SpoolCount, alike, cut_lengths
from knotplot.tying.piece import Cord

__all__ = [
    "SOURCE", "Alike", "CordLength", "Cutting", "Side", "Terms", "alike", "cord_lengths",
    "cutting_list", "sides",
]  # fmt: skip

_ROLES = ("main", "leader", "wrap")  # in the order of the cut list


class Terms(NamedTuple):
    """On what terms cords are cut.

    `shared_error` is what all knots share; each role, kind and colour is cut in at most `groups`
    lengths of whole `step`s (mm), or, for None, in as few as are worth it. Folds that aren't in the
    middle lie at whole `grain`s (mm). `spools` counts the spools of some pieces.
    """

    shared_error: float
    confidence: float
    groups: int | None
    step: Fraction
    grain: Fraction = Fraction(10)
    spools: SpoolCount = lambda _kind, _pieces: None


class Side(NamedTuple):
    """What one strand of a cord takes (mm), or an end or a cord that is no strand: None.

    `knots`, `runs` between them, `finish` below the last one; `errors` is Σσ² of its ties (mm²),
    `ends` what hangs at its free ends.
    """

    strand: int | None
    knots: float
    runs: float
    finish: float
    errors: float
    ends: tuple[float, ...]

    @property
    def used(self) -> float:
        """Return all it uses."""
        return self.knots + self.runs + self.finish

    @property
    def draw(self) -> Draw:
        """Return what of it can run short."""
        return Draw(self.knots, self.errors)

    def allowance(self, shared_error: float, m: Margin) -> float:
        """Return what it needs beyond that (mm)."""
        return allowance_mm(self.draw, self.ends, m, shared_error)


@dataclass(frozen=True, slots=True, repr=False)
class CordLength(Brief):
    """One cord: its sides, what it needs to be cut at the least (mm), and is cut.

    `bare` is what it would be cut for without any allowance: what it uses, or twice the longer side
    where it is folded in the middle. `fold` is how far from the end of its left strand (that of
    the lower id) it is folded, None where it isn't.
    """

    cord: Cord
    sides: tuple[Side, ...]
    bare: float
    need: float
    cut: Fraction
    fold: float | None

    @property
    def used(self) -> float:
        """Return what its strands use together (mm)."""
        return sum(side.used for side in self.sides)

    @property
    def knotted(self) -> float:
        """Return its length in knots (mm)."""
        return sum(side.knots for side in self.sides)

    @property
    def allowance(self) -> float:
        """Return how much longer it must be than what it is cut for without any (mm)."""
        return self.need - self.bare


@dataclass(frozen=True, slots=True, repr=False)
class Cutting(Brief):
    """One line of the cut list: so many cords of one length (mm), by label and what they are."""

    label: str
    role: str
    kind: str
    colour: str | None
    length: Fraction
    cords: tuple[str, ...]


# --- what cords use --------------------------------------------------------------------------


def sides(layout: Layout) -> tuple[tuple[Side, ...], ...]:
    """Return the sides of every cord, in the order of the cords."""
    return tuple(
        _main(layout, cord) if cord.role == "main" else (_separate(layout, cord),)
        for cord in layout.piece.cords
    )


def _separate(layout: Layout, cord: Cord) -> Side:
    """Return the side of a leader or a wrap.

    Hitches may take more of a leader than it spans, where they crowd it.
    """
    use = layout.leaders[cord.id]
    if cord.role == "wrap":
        return Side(None, use.knots, 0.0, 0.0, use.errors, ())  # its ends lie in the wrap
    runs = max(0.0, cord.length - use.knots)
    return Side(None, use.knots, runs, sum(cord.ends), use.errors, cord.ends)


def _main(layout: Layout, cord: Cord) -> tuple[Side, ...]:
    mounting = layout.piece.mounting
    found = []
    for strand in cord.strands:
        use, hanging, end = layout.uses[strand], layout.hanging[strand], layout.free_end(strand)
        if strand in layout.piece.tails:
            hanging = end = max(0.0, mounting.tail - use.knots - use.runs)
        found.append(Side(strand, use.knots, use.runs, hanging, use.errors, (end,)))
    if mounting.strands_per_cord == 1 and mounting.pocket is None and not cord.added:
        found.append(Side(None, 0.0, 0.0, mounting.tail, 0.0, (mounting.tail,)))
    return tuple(found)


# --- how long they are cut -------------------------------------------------------------------


class _Need(NamedTuple):
    bare: float
    least: float
    halves: Halves | None


def cord_lengths(
    layout: Layout,
    terms: Terms,
    fold: str | None = None,
    given: Sequence[tuple[Side, ...]] | None = None,
) -> tuple[CordLength, ...]:
    """Return what every cord uses and is cut, in the order of the cords.

    `fold` ("middle" or "uneven") takes the place of the mounting's, `given` of what its sides use:
    so one can ask what another way would take.
    """
    cords = layout.piece.cords
    found = sides(layout) if given is None else given
    folded = [_fold_of(layout, cord, fold) for cord in cords]
    whole, each = _margins(found, folded, terms)
    needs = [
        _plain(mine, terms, whole)
        if how is None
        else _folded(mine, terms, whole, each, how == "uneven")
        for mine, how in zip(found, folded, strict=True)
    ]
    least = [need.least for need in needs]
    cut = cut_lengths(cords, least, terms.step, terms.groups, terms.spools)
    folds = _folds(needs, cut, terms.grain)
    return tuple(
        CordLength(
            cord, mine, need.bare, need.least, cut[i],
            None if folded[i] is None else folds.get(i, float(cut[i]) / 2.0),
        )
        for i, (cord, mine, need) in enumerate(zip(cords, found, needs, strict=True))
    )  # fmt: skip


def _fold_of(layout: Layout, cord: Cord, fold: str | None) -> str | None:
    """Return where a cord is folded, those of the mounting at `fold` if that is given."""
    own = layout.piece.fold_of(cord)
    return own if own is None or cord.added else fold or own


def _margins(
    found: Sequence[Sequence[Side]], folded: Sequence[str | None], terms: Terms
) -> tuple[Margin, Margin]:
    """Return the margin of cords as wholes, and that of all sides of folded cords beside cords."""
    if not found:
        return Margin(0.0, 0.0), Margin(0.0, 0.0)
    cords = [_draw(mine) for mine in found]
    apart = [
        draw
        for mine, cord, how in zip(found, cords, folded, strict=True)
        for draw in ([cord] if how is None else [side.draw for side in mine])
    ]
    whole = margin(terms.confidence, cords, terms.shared_error)
    if len(apart) == len(cords):
        return whole, whole
    return whole, margin(terms.confidence, apart, terms.shared_error)


def _draw(mine: Sequence[Side]) -> Draw:
    """Return what of a whole cord can run short."""
    return Draw(sum(side.knots for side in mine), sum(side.errors for side in mine))


def _plain(mine: Sequence[Side], terms: Terms, m: Margin) -> _Need:
    """Return what a cord needs by the contract's formula."""
    used = sum(side.used for side in mine)
    ends = [end for side in mine for end in side.ends]
    return _Need(used, used + allowance_mm(_draw(mine), ends, m, terms.shared_error), None)


def _folded(mine: Sequence[Side], terms: Terms, whole: Margin, each: Margin, uneven: bool) -> _Need:
    """Return what a folded cord needs, each side by itself; never less than by the formula."""
    formula = _plain(mine, terms, whole)
    over = [side.allowance(terms.shared_error, each) for side in mine]
    left, right = (side.used + more for side, more in zip(mine, over, strict=True))
    if not uneven:
        bare = 2.0 * max(side.used for side in mine)
        return _Need(bare, max(formula.least, 2.0 * max(left, right)), None)
    share = over[0] / sum(over) if sum(over) > 0.0 else 0.5
    least = max(formula.least, least_left(left, terms.grain) + right)
    return _Need(formula.bare, least, Halves(left, right, share))


def _folds(needs: Sequence[_Need], cut: dict[int, Fraction], grain: Fraction) -> dict[int, float]:
    """Return where each cord that isn't folded in the middle is folded (mm), by its number."""
    same: dict[Fraction, list[tuple[int, Halves]]] = {}
    for i, need in enumerate(needs):
        if need.halves is not None:
            same.setdefault(cut[i], []).append((i, need.halves))
    found: dict[int, float] = {}
    for length, mine in same.items():
        places = fold_points([halves for _, halves in mine], length, grain)
        found |= dict(zip((i for i, _ in mine), places, strict=True))
    return found


# --- the cut list ----------------------------------------------------------------------------


def cutting_list(lengths: tuple[CordLength, ...]) -> tuple[Cutting, ...]:
    """Return the cut list: mains, leaders, wraps, each from long to short, labelled from A.

    Colours of a role and kind come in the order of their first cords.
    """
    sorts = alike([each.cord for each in lengths])
    lines: list[tuple[Alike, Fraction, tuple[str, ...]]] = []
    for sort in sorted(sorts, key=lambda sort: (_ROLES.index(sort.role), sort.kind)):
        by_length: dict[Fraction, list[str]] = {}
        for i in sorts[sort]:
            by_length.setdefault(lengths[i].cut, []).append(lengths[i].cord.id)
        lines += [(sort, cut, tuple(by_length[cut])) for cut in sorted(by_length, reverse=True)]
    return tuple(
        Cutting(_label(i), *sort, length, cords) for i, (sort, length, cords) in enumerate(lines)
    )


def _label(i: int) -> str:
    """Return the label of a number: letters, as columns are named.

    >>> _label(0), _label(27)
    ('A', 'AB')
    """
    return (_label(i // 26 - 1) if i >= 26 else "") + chr(ord("A") + i % 26)
