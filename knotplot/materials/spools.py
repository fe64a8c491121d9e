"""Filling spools: which cords to cut from which spool, and how many spools that takes.

Two plain ways are tried and the better kept: the longest piece first into the first spool it fits
(first fit decreasing), and spool after spool filled as full as the pieces left allow (subset sum).
Neither is always least, so the lower bound ⌈total ÷ spool⌉ stands beside: where the two agree
nothing better exists. Both work on how many pieces there are of a length, not on single pieces.
"""

from __future__ import annotations

import math
from collections import defaultdict, deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, groupby

from knotplot.brief import Brief
from knotplot.errors import Refusal
from knotplot.materials.cutting import Length, exact

Pieces = Iterable[tuple[str, Length, int]]
Counts = dict[int, int]  # how many pieces there are of each length, in units
Fills = list[Counts]  # what comes off each spool in turn

Way = Callable[[Counts, Sequence[int]], tuple[Fills, Counts]]

# Beyond this many units to a spool a subset sum is taken in coarser ones, pieces rounded up;
# beyond this many different lengths it isn't taken at all. Both keep it within a second.
_MOST_UNITS = 20_000
_MOST_LENGTHS = 100


@dataclass(frozen=True, slots=True)
class Spool:
    """What is cut from one spool: its length, (label, how many) from the longest, and the rest."""

    length_mm: Fraction
    pieces: tuple[tuple[str, int], ...]
    left_mm: Fraction


@dataclass(frozen=True, slots=True, repr=False)
class Spools(Brief):
    """The spools a cut list takes, in the order used.

    No way of cutting takes fewer than `lower_bound`. `total_mm` is the length of all pieces.
    `joins` is how many cords would fall on a spool's end, and have to be joined, were they cut in
    the order of the list, spool after spool to its last end; cut as planned, none does.
    """

    spools: tuple[Spool, ...]
    lower_bound: int
    total_mm: Fraction
    joins: int = 0

    @property
    def alike(self) -> tuple[tuple[Spool, int], ...]:
        """Neighbouring spools cut alike, as (spool, how many): how a sheet lists them."""
        return tuple((spool, len(list(same))) for spool, same in groupby(self.spools))


def fill(pieces: Pieces, spool_mm: Length) -> Spools:
    """Return how to cut `pieces`, (label, length in mm, count), from spools all of one length.

    Raises Refusal for a piece longer than a spool, ValueError for lengths that are not above 0.

    >>> filled = fill([("A", 6000, 3), ("B", 4000, 3)], 10_000)
    >>> filled.lower_bound, [(spool.pieces, times) for spool, times in filled.alike]
    (3, [((('A', 1), ('B', 1)), 3)])
    """
    stock = _Stock(pieces)
    spool = _positive(spool_mm)
    if stock.longest > spool:
        raise Refusal(
            f"a cord of {_metres(stock.longest)} is longer than a spool of {_metres(spool)}",
            f"use spools of {_metres(stock.longest)} or more",
            value=_metres(spool),
        )
    room = stock.units(spool)
    enough = sum(stock.counts.values())
    best = min((way(stock.counts, [room] * enough)[0] for way in _ways(stock.counts)), key=len)
    bound = math.ceil(stock.total / spool)
    return Spools(
        stock.labelled(best, [spool] * len(best)), bound, stock.total,
        joins_in_order(stock.listed, [spool] * bound),
    )  # fmt: skip


def fill_given(pieces: Pieces, spools_mm: Sequence[Length]) -> Spools:
    """Return how to cut `pieces` from the very spools there are; those not needed are left out.

    The spools are tried as given, from the longest and from the shortest; the way that touches
    fewest is taken. `lower_bound` is the fewest of these spools that hold the total. Raises
    Refusal, with a length of one spool more that would do, where no way tried places every piece
    (a cleverer one may still).
    """
    stock = _Stock(pieces)
    given = [_positive(length) for length in spools_mm]
    best: tuple[Fills, list[Fraction]] | None = None
    fewest, missing = len(given) + 1, stock.total
    for spools in (given, sorted(given, reverse=True), sorted(given)):
        rooms = [stock.units(spool) for spool in spools]
        for way in _ways(stock.counts):
            fills, unplaced = way(stock.counts, rooms)
            missing = min(missing, stock.unit * _sum(unplaced))
            used = sum(map(bool, fills))
            if not unplaced and used < fewest:
                best, fewest = (fills, spools), used
    if best is None:
        raise _too_little(stock, given, missing)
    held = accumulate(sorted(given, reverse=True), initial=Fraction(0))
    bound = next(n for n, length in enumerate(held) if length >= stock.total)
    joins = joins_in_order(stock.listed, given)
    return Spools(stock.labelled(*best), bound, stock.total, joins)


def joins_in_order(pieces: Pieces, spools_mm: Iterable[Length]) -> int:
    """Return how many cords a spool's end falls on if they are cut in order, spool after spool.

    A cord that goes over several spools counts once.

    >>> joins_in_order([("A", 6000, 3), ("B", 4000, 3)], [10_000, 10_000, 10_000])
    2
    """
    ends = list(accumulate(map(exact, spools_mm)))
    at, joins = Fraction(0), 0
    for _, piece_mm, count in pieces:
        length = exact(piece_mm)
        within = [end for end in ends if at < end < at + length * count]
        # On which of these cords, counted from 0; an end between two cords falls on none.
        joins += len({(end - at) // length for end in within if (end - at) % length})
        at += length * count
    return joins


def _too_little(stock: _Stock, given: Sequence[Fraction], missing: Fraction) -> Refusal:
    """Return the refusal where the spools there are don't do."""
    held = _metres(sum(given, Fraction(0)))
    return Refusal(
        f"the cords take {_metres(stock.total)} and the spools hold {held}: "
        f"{_metres(missing)} of cords can't be cut from them",
        f"add a spool of {_metres(missing)} or more",
        value=", ".join(_metres(spool) for spool in given),
    )


class _Stock:
    """The pieces to cut, counted by length in a unit that divides them all."""

    def __init__(self, pieces: Pieces) -> None:
        self.listed = tuple(pieces)
        self.labels: defaultdict[Fraction, list[tuple[str, int]]] = defaultdict(list)
        for label, length, count in self.listed:
            if count < 0:
                raise ValueError(f"pieces are counted from 0, not {count}")
            if count:
                self.labels[_positive(length)].append((label, count))
        bottom = math.lcm(*(length.denominator for length in self.labels))
        self.unit = Fraction(math.gcd(*(int(x * bottom) for x in self.labels)) or 1, bottom)
        self.counts: Counts = {
            int(length / self.unit): sum(count for _, count in self.labels[length])
            for length in sorted(self.labels, reverse=True)
        }
        self.longest = max(self.labels, default=Fraction(0))
        self.total = self.unit * _sum(self.counts)

    def units(self, spool: Fraction) -> int:
        """Return how many whole units a spool holds."""
        return math.floor(spool / self.unit)

    def labelled(self, fills: Fills, spools: Sequence[Fraction]) -> tuple[Spool, ...]:
        """Return the spools with every piece under its label, in the order of the list."""
        waiting = {int(length / self.unit): deque(self.labels[length]) for length in self.labels}
        made = []
        for fill, spool in zip(fills, spools, strict=False):
            if not fill:
                continue
            taken: dict[str, int] = {}
            for length in sorted(fill, reverse=True):
                for label, count in _take(waiting[length], fill[length]):
                    taken[label] = taken.get(label, 0) + count
            made.append(Spool(spool, tuple(taken.items()), spool - self.unit * _sum(fill)))
        return tuple(made)


def _take(waiting: deque[tuple[str, int]], wanted: int) -> Iterator[tuple[str, int]]:
    """Take `wanted` pieces of one length off those that wait, in their order."""
    while wanted:
        label, there = waiting.popleft()
        count = min(there, wanted)
        yield label, count
        wanted -= count
        if count < there:
            waiting.appendleft((label, there - count))


def _sum(counts: Counts) -> int:
    """Return the length of all these pieces together, in units."""
    return sum(length * count for length, count in counts.items())


def _positive(length_mm: Length) -> Fraction:
    """Return a length as an exact fraction, if it is above 0."""
    length = exact(length_mm)
    if length <= 0:
        raise ValueError(f"a piece or a spool is longer than 0, not {length_mm} mm")
    return length


def _metres(length_mm: Fraction) -> str:
    """Write a length in metres, rounded up to whole centimetres: never too little to buy."""
    return f"{math.ceil(length_mm / 10) / 100:.2f} m"


def _ways(counts: Counts) -> tuple[Way, ...]:
    """Return the ways to try: a subset sum only where there are few different lengths."""
    return (_first_fit, _fullest) if len(counts) <= _MOST_LENGTHS else (_first_fit,)


def _first_fit(counts: Counts, rooms: Sequence[int]) -> tuple[Fills, Counts]:
    """Fill spools of those rooms, longest piece first, each into the first spool it fits.

    Returns the fills up to the last spool touched, and the pieces that fit nowhere.
    """
    fills: Fills = []
    left: list[int] = []
    open_spools: list[int] = []
    unplaced: Counts = {}
    shortest = min(counts, default=0)
    for length in sorted(counts, reverse=True):
        waiting = counts[length]
        for number in open_spools:
            if count := min(waiting, left[number] // length):
                fills[number][length] = count
                left[number] -= count * length
                waiting -= count
        open_spools = [number for number in open_spools if left[number] >= shortest]
        while waiting and len(fills) < len(rooms):
            room = rooms[len(fills)]
            count = min(waiting, room // length)
            open_spools.append(len(fills))
            fills.append({length: count} if count else {})
            left.append(room - count * length)
            waiting -= count
        if waiting:
            unplaced[length] = waiting
    return fills, unplaced


def _fullest(counts: Counts, rooms: Sequence[int]) -> tuple[Fills, Counts]:
    """Fill spool after spool of those rooms as full as the pieces left allow.

    The same fill is used again as long as its pieces and spools of that room last.
    """
    fills: Fills = []
    waiting = dict(counts)
    for room, alike in groupby(rooms):
        spools = len(list(alike))
        while waiting and spools:
            best = _fullest_one(waiting, room)
            times = min([spools, *(waiting[length] // count for length, count in best.items())])
            fills += [best] * times
            spools -= times
            for length, count in best.items():
                waiting[length] -= times * count
                if not waiting[length]:
                    del waiting[length]
    return fills, waiting


def _fullest_one(counts: Counts, room: int) -> Counts:
    """Return the pieces that leave least of one spool, the longer ones where there is a choice.

    The bit n of `reached` says whether pieces can sum to n; pieces of a length are offered in
    bundles of 1, 2, 4, …, so that any number of them can be had.
    """
    grain = max(1, -(-room // _MOST_UNITS))
    top = room // grain
    everything = (1 << (top + 1)) - 1
    reached, history = 1, []
    for length in sorted(counts, reverse=True):
        size = -(-length // grain)
        offered, bundle = min(counts[length], top // size), 1
        while offered > 0:
            bundle = min(bundle, offered)
            history.append((reached, length, size, bundle))
            reached |= (reached << (size * bundle)) & everything
            offered -= bundle
            bundle *= 2
    at = reached.bit_length() - 1
    best: Counts = {}
    for before, length, size, bundle in reversed(history):
        if not before >> at & 1:
            best[length] = best.get(length, 0) + bundle
            at -= size * bundle
    return best
