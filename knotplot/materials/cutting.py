"""Into which lengths to cut: few enough to measure out without mistakes, with least cord lost.

Each cord needs a length; it may be cut longer, never shorter. Every need is rounded up to a whole
step, then at most `groups` different lengths are chosen so that their sum over all cords is least.
Among choices of the same sum that with the shorter lengths is taken, compared from the shortest
up. (Of fewest lengths nothing need be said: while two needs share a length, one length more
always saves cord, so the least sum is reached only with all the lengths that are allowed.)

Exact: steps are counted as integers, and the choice is the dynamic programme over the d different
rounded needs, made fast by keeping the lower envelope of its lines: O(groups · d).
"""

from __future__ import annotations

import math
from collections import Counter, deque
from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate

Length = Fraction | float | int

# A need is a sum of floats: so near a whole step it is that step, and rounding costs no other.
_NOISE_MM = Fraction(1, 2 * 10**6)


def group_lengths(needs_mm: Sequence[Length], step_mm: Length, groups: int) -> tuple[Fraction, ...]:
    """Return the cut length for each need, in the order of `needs_mm`, exact millimetres.

    At most `groups` different lengths, each a whole number of `step_mm`, one step at least; a
    float counts to 1e-6 mm. Raises ValueError for a need below 0, a step that is not above 0,
    anything not finite, and no group.

    >>> [int(cut) for cut in group_lengths([810, 830, 1190, 1510], 50, 2)]
    [850, 850, 1550, 1550]
    """
    return choices(needs_mm, step_mm, groups)[-1]


def choices(
    needs_mm: Sequence[Length], step_mm: Length, most: int
) -> tuple[tuple[Fraction, ...], ...]:
    """Return the cut lengths with at most 1, 2, … `most` of them, each as `group_lengths` does.

    It stops where more lengths make no difference.

    >>> [[int(cut) for cut in cuts] for cuts in choices([810, 830, 1190], 50, 8)]
    [[1200, 1200, 1200], [850, 850, 1200]]
    """
    steps = [steps_needed(need, step_mm) for need in needs_mm]
    step = exact(step_mm)
    choice = _Choice(steps, most)
    found = []
    for groups in range(1, max(2, len(choice.best))):
        cut = dict(zip(choice.distinct, choice.cut_steps(groups), strict=True))
        found.append(tuple(cut[count] * step for count in steps))
    return tuple(found)


def waste_by_groups(
    needs_mm: Sequence[Length], step_mm: Length, groups: int
) -> tuple[Fraction, ...]:
    """Return the cord lost, mm over all needs, with at most 1, 2, … `groups` lengths.

    >>> [int(waste) for waste in waste_by_groups([810, 830, 1190, 1510], 50, 4)]
    [1860, 460, 110, 110]
    """
    steps = [steps_needed(need, step_mm) for need in needs_mm]
    step, needed = exact(step_mm), sum(map(exact, needs_mm))
    return tuple(total * step - needed for total in _Choice(steps, groups).totals())


def steps_needed(need_mm: Length, step_mm: Length) -> int:
    """Return the whole steps that cover a need: one at least."""
    need, step = exact(need_mm), exact(step_mm)
    if need < 0 or step <= 0:
        raise ValueError(f"a length to cut is not below 0 and its step above 0: {need}, {step}")
    nearest = round(need / step)
    whole = nearest if abs(nearest * step - need) <= _NOISE_MM else math.ceil(need / step)
    return max(1, whole)


def exact(length_mm: Length) -> Fraction:
    """Return a length as an exact fraction; a float is rounded to 1e-6 mm.

    >>> exact(50.8)
    Fraction(254, 5)
    """
    if not math.isfinite(length_mm):
        raise ValueError(f"a length must be finite, not {length_mm}")
    if isinstance(length_mm, float):
        return Fraction(round(Fraction(length_mm) * 10**6), 10**6)
    return Fraction(length_mm)


class _Choice:
    """The best lengths for some needs (in steps), with each number of lengths up to `groups`."""

    def __init__(self, steps: Sequence[int], groups: int) -> None:
        if groups < 1:
            raise ValueError(f"cords are cut in one length or more, not {groups}")
        counts = Counter(steps)
        self.distinct = sorted(counts)
        self.groups = groups
        # How many cords need no more than the i shortest different lengths.
        self.covered = [0, *accumulate(counts[length] for length in self.distinct)]
        self.best: list[list[int | None]] = [[None] * len(self.distinct) + [0]]
        self.ends: list[list[int]] = [[]]
        for _ in range(min(groups, len(self.distinct))):
            best, ends = self._with_one_more(self.best[-1])
            self.best.append(best)
            self.ends.append(ends)

    def _with_one_more(self, rest: list[int | None]) -> tuple[list[int | None], list[int]]:
        """Return the least sums from each different length on, and where the first group ends.

        From the i-th length on, a first group that ends before the j-th costs
        length_j·(covered_j − covered_i) + rest_j: for each j a line in covered_i. Going down, the
        lines come in order of slope and the places where they are asked fall, so that the best
        line is always at the front of the envelope; of equal ones the shorter first group.
        """
        distinct, covered = self.distinct, self.covered
        best: list[int | None] = [None] * (len(distinct) + 1)
        ends = [0] * len(distinct)
        lines: deque[tuple[int, int, int]] = deque()  # slope, value at 0, j
        for i in range(len(distinct) - 1, -1, -1):
            if (below := rest[i + 1]) is not None:
                longest = distinct[i]
                _add(lines, (-longest, longest * covered[i + 1] + below, i + 1))
            if not lines:
                continue
            at = covered[i]
            while len(lines) > 1 and _value(lines[1], at) <= _value(lines[0], at):
                lines.popleft()
            best[i], ends[i] = _value(lines[0], at), lines[0][2]
        return best, ends

    def cut_steps(self, groups: int) -> list[int]:
        """Return, for each different length, what it is cut to with so many lengths, in steps."""
        cut: list[int] = []
        for left in range(min(groups, len(self.best) - 1), 0, -1):
            end = self.ends[left][len(cut)]
            cut += [self.distinct[end - 1]] * (end - len(cut))
        return cut

    def totals(self) -> list[int]:
        """Return the least sum, in steps, with at most 1, 2, … lengths."""
        sums = [best[0] or 0 for best in self.best[1:]] or [0]
        return sums + [sums[-1]] * (self.groups - len(sums))


def _value(line: tuple[int, int, int], at: int) -> int:
    """Return the height of a line at a place."""
    return line[0] * at + line[1]


def _add(lines: deque[tuple[int, int, int]], new: tuple[int, int, int]) -> None:
    """Put a line at the back of the envelope; lines that are nowhere the best drop out.

    The middle of three is one where the new line meets the first no further left than the middle
    does: even where all three meet, the new one has the shorter group.
    """
    while len(lines) > 1:
        (slope_a, value_a, _), (slope_b, value_b, _) = lines[-2], lines[-1]
        if (value_a - new[1]) * (slope_b - slope_a) < (value_a - value_b) * (new[0] - slope_a):
            break
        lines.pop()
    lines.append(new)
