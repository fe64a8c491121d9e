"""How much longer than used a cord is cut, so that a piece seldom runs short.

cut = used + t·s·knotted + z₂·τ + hand, all lengths in millimetres, for a confidence c that no cord
of the piece is too short (contract, 5). Two kinds of error are kept apart. One all knots share (a
tight or a loose hand, s): it doesn't average out, and strikes every cord at once. The other is a
cord's own, τ: each tie's error (σᵢ), whose squares add along the cord, and an error of the cord as
a whole (one pulled harder, a thick stretch of the spool), and every one of the n cords draws it
afresh. z₂ is the quantile at which n cords keep √c; t is then the least at which the chance that
every cord suffices, over the shared error, is c itself: one integral. What hangs below a last knot
must also be long enough to hold: `hand`.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

# The error that all knots of a piece share, as a share of the length in knots: contract, 5.
SHARED_ERROR_MEASURED = 0.04  # a swatch says how much cord it took
SHARED_ERROR_TABLE = 0.08  # the cord use comes from the table
# By how much cords of one piece differ as wholes, as a share of their length in knots: contract, 5.
CORD_ERROR = 0.015
# What must hang free at an end to tie its last knot, millimetres: contract, 5.
HOLD_MM = 120.0

# Of the shared error. A draw's slope is s over 0.015 at the most, 5.4, so that the integrand bends
# no faster than a normal curve a fifth of a standard deviation wide: trapezoids of 1/16 are exact
# to far below 1e-12.
_STEP = 1.0 / 16.0
_REACH = 9.0  # standard deviations beyond which a normal distribution has less than 1e-18
_SURE = 1e-17  # a chance so near 1 is 1
_LEAST, _SURE_ABOVE = 1e-300, 1e-16  # chances nearer to 0 and 1 have no quantile
_TRIALS = 60  # a root takes seven or so
_NONE = -50.0  # the logarithm of a chance that is as good as none
_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Draw:
    """What can run short by itself: a cord, or one side of a folded one.

    `knotted` is its length in knots (mm), `tie_errors` Σσᵢ² of its ties (mm²).
    """

    knotted: float
    tie_errors: float

    @property
    def own(self) -> float:
        """Return τ, the standard deviation of its own error (mm)."""
        return math.sqrt(self.tie_errors + (CORD_ERROR * self.knotted) ** 2)


@dataclass(frozen=True, slots=True)
class Margin:
    """How many standard errors to allow: of the shared error (t), of each cord's own (z₂)."""

    shared: float
    own: float


def margin(confidence: float, draws: Iterable[Draw], shared_error: float) -> Margin:
    """Return the margin at which all draws together suffice with that confidence.

    `shared_error` is s, a share of the length in knots. Where nothing is knotted nothing can run
    short, and t is 0. Raises ValueError for a confidence that is not between 0 and 1, for no draw,
    and for lengths that are not finite or below 0.
    """
    if not 0 < confidence < 1:
        raise ValueError(f"a confidence lies between 0 and 1, not {confidence}")
    known = list(draws)
    if not known:
        raise ValueError("a piece has one cord or more")
    values = [shared_error, *(v for each in known for v in (each.knotted, each.tie_errors))]
    if not all(math.isfinite(value) and value >= 0 for value in values):
        raise ValueError("an allowance is made from finite lengths of 0 or more")
    own = _quantile_of_root(confidence, 2 * len(known))
    # How steeply each draw's chance rises with the shared margin; to nine digits, so that draws
    # that differ by rounding alone are counted together.
    slopes = Counter(
        float(f"{shared_error * each.knotted / each.own:.9g}") for each in known if each.own > 0.0
    )
    return Margin(_shared_margin(confidence, own, tuple(sorted(slopes.items()))), own)


@lru_cache(512)
def _shared_margin(confidence: float, own: float, slopes: tuple[tuple[float, int], ...]) -> float:
    """Return the least t at which the mean chance that every draw suffices is `confidence`.

    A draw of slope r (s·knotted/τ) suffices with Φ((t − H)·r + z₂), H being the shared error in
    standard deviations.
    """
    if not slopes or slopes[-1][0] == 0.0:
        return 0.0
    chances: dict[int, float] = {}

    def every(step: int) -> float:
        """Return the chance that every draw suffices, `step` steps above the shared error."""
        if step not in chances:
            chances[step] = _every(step * _STEP, own, slopes)
        return chances[step]

    def mean(steps: int, rest: float) -> float:
        """Return the mean chance at t = (steps + rest)·step."""
        reach = round(_REACH / _STEP)
        return math.fsum(
            _STEP * _density((k + rest) * _STEP) * every(steps - k) for k in range(-reach, reach)
        )

    def lacking(t: float) -> float:
        """Return how far the mean chance at t is from the confidence, as normal quantiles."""
        steps = math.floor(t / _STEP)
        chance = mean(steps, t / _STEP - steps)
        return _NORMAL.inv_cdf(min(max(chance, _LEAST), 1.0 - _SURE_ABOVE)) - wanted

    wanted = _NORMAL.inv_cdf(confidence)
    return _root(lacking)


def _root(rising: Callable[[float], float]) -> float:
    """Return where a rising, nearly straight function is 0: false position, Illinois rule."""
    low, high = -1.0, 3.0
    while (at_low := rising(low)) > 0.0:
        low = 2.0 * low
    while (at_high := rising(high)) < 0.0:
        high *= 2.0
    before = 0.0
    for _ in range(_TRIALS):
        middle = high - at_high * (high - low) / (at_high - at_low)
        at = rising(middle)
        if abs(at) < 1e-12 or high - low < 1e-12:
            return middle
        again = at * before > 0.0  # twice on one side: the other end is drawn in
        if at < 0.0:
            low, at_low, at_high = middle, at, at_high / 2.0 if again else at_high
        else:
            high, at_high, at_low = middle, at, at_low / 2.0 if again else at_low
        before = at
    return high


def _every(above: float, own: float, slopes: tuple[tuple[float, int], ...]) -> float:
    """Return Π Φ(above·r + z₂) over all draws."""
    if above >= 0.0 and _tail(above * slopes[0][0] + own) < _SURE:
        return 1.0
    total = 0.0
    for slope, count in slopes:
        short = _tail(above * slope + own)
        if short >= 1.0:
            return 0.0
        total += count * math.log1p(-short)
        if total < _NONE:
            return 0.0
    return math.exp(total)


def _tail(x: float) -> float:
    """Return 1 − Φ(x)."""
    return 0.5 * math.erfc(x / math.sqrt(2.0))


def _density(x: float) -> float:
    """Return φ(x)."""
    return math.exp(-0.5 * x * x) / math.sqrt(2.0 * math.pi)


def holding_reserve_mm(hanging_mm: Iterable[float], hold_mm: float = HOLD_MM) -> float:
    """Return what the free ends of a cord lack to be held, summed: never below 0 for an end.

    >>> holding_reserve_mm([150.0, 70.0])
    50.0
    """
    return math.fsum(max(0.0, hold_mm - hanging) for hanging in hanging_mm)


def allowance_mm(
    draw: Draw, ends_hanging_mm: Iterable[float], margin: Margin, shared_error: float
) -> float:
    """Return what is added to the used length of a cord (mm), never below 0.

    `ends_hanging_mm` is what hangs at each of its free ends, those that count already (a wrap's)
    left out.
    """
    spread = margin.shared * shared_error * draw.knotted + margin.own * draw.own
    return max(0.0, spread + holding_reserve_mm(ends_hanging_mm))


def _quantile_of_root(confidence: float, root: int) -> float:
    """Return Φ⁻¹(confidence^(1/root)), by its small other side so that nothing is lost near 1."""
    return -_NORMAL.inv_cdf(-math.expm1(math.log(confidence) / root))
