"""Folding: finding what is worked again and again in a sequence, so that it is told once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple, TypeVar

T = TypeVar("T")


class Fold(NamedTuple):
    """A stretch of a sequence: `period` items from `start`, `times` times in all."""

    start: int
    period: int
    times: int

    @property
    def end(self) -> int:
        """Return the index after its last item."""
        return self.start + self.period * self.times


def folds(
    items: Sequence[T], longest: int, alike: Callable[[T, T, T, T], bool] | None = None
) -> Iterator[Fold]:
    """Yield the stretches of a sequence, each repeated as often as it goes; times 1 where it isn't.

    Of all periods up to `longest` the one that covers most is taken, the shortest of equals.
    `alike(a, b, base, first)` tells whether b, one period after a, is the same again; `base` and
    `first` are the first item of the stretch and of its first repetition. Equality is the default.

    >>> [tuple(fold) for fold in folds("abababc", 3)]
    [(0, 2, 3), (6, 1, 1)]
    """
    same = alike or (lambda a, b, _base, _first: a == b)
    at = 0
    while at < len(items):
        best = Fold(at, 1, 1)
        for period in range(1, min(longest, (len(items) - at) // 2) + 1):
            end = at + period
            while end < len(items) and same(
                items[end - period], items[end], items[at], items[at + period]
            ):
                end += 1
            times = (end - at) // period
            if times > 1 and period * times > best.period * best.times:
                best = Fold(at, period, times)
        yield best
        at = best.end
