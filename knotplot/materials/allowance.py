"""How much longer than used a cord is cut, so that a piece seldom runs short.

cut = used + z₁·s·knotted + z₂·√Σσᵢ² + hand, all lengths in millimetres, for a confidence c that no
cord of the piece is too short. Two kinds of error are kept apart. One all knots share (a tight or
a loose hand, s): it doesn't average out, and strikes every cord at once, so z₁ is for one draw.
The other is each tie's own (σᵢ): its squares add along a cord, and every one of the n cords draws
anew, so z₂ is for n draws. Each kind gets √c, and both together keep c. What hangs below a last
knot must also be long enough to hold: `hand`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import NormalDist

# The error that all knots of a piece share, as a share of the length in knots: contract, 5.
SHARED_ERROR_MEASURED = 0.04  # a swatch says how much cord it took
SHARED_ERROR_TABLE = 0.08  # the cord use comes from the table
# What must hang free at an end to tie its last knot, millimetres: contract, 5.
HOLD_MM = 120.0


@dataclass(frozen=True, slots=True)
class Margin:
    """How many standard errors to allow: for the shared error and for each cord's own."""

    shared: float
    own: float


def margin(confidence: float, cords: int) -> Margin:
    """Return the margin at which `cords` cords all suffice with that confidence.

    Below a confidence of about ¼ a margin is negative, as the formula has it. Raises ValueError
    for a confidence that is not between 0 and 1 or for no cord.

    >>> m = margin(0.99, 90)
    >>> round(m.shared, 3), round(m.own, 3)
    (2.575, 3.864)
    """
    if not 0 < confidence < 1:
        raise ValueError(f"a confidence lies between 0 and 1, not {confidence}")
    if cords < 1:
        raise ValueError(f"a piece has one cord or more, not {cords}")
    return Margin(_quantile_of_root(confidence, 2), _quantile_of_root(confidence, 2 * cords))


def hand_mm(hanging_mm: Iterable[float], hold_mm: float = HOLD_MM) -> float:
    """Return what the free ends of a cord lack to be held, summed: never below 0 for an end.

    >>> hand_mm([150.0, 70.0])
    50.0
    """
    return math.fsum(max(0.0, hold_mm - hanging) for hanging in hanging_mm)


def allowance_mm(
    knotted_mm: float,
    shared_error: float,
    tie_sigmas_squared_sum: float,
    ends_hanging_mm: Iterable[float],
    margin: Margin,
) -> float:
    """Return what is added to the used length of a cord.

    `knotted_mm` is its length in knots, `shared_error` s as a share of that,
    `tie_sigmas_squared_sum` Σσᵢ² in mm², `ends_hanging_mm` what hangs at each of its free ends.
    """
    lengths = (knotted_mm, shared_error, tie_sigmas_squared_sum)
    if not all(math.isfinite(value) and value >= 0 for value in lengths):
        raise ValueError(f"an allowance is made from finite lengths of 0 or more, not {lengths}")
    shared = margin.shared * shared_error * knotted_mm
    return shared + margin.own * math.sqrt(tie_sigmas_squared_sum) + hand_mm(ends_hanging_mm)


def cut_length_mm(
    used_mm: float,
    knotted_mm: float,
    shared_error: float,
    tie_sigmas_squared_sum: float,
    ends_hanging_mm: Iterable[float],
    margin: Margin,
) -> float:
    """Return the length to cut for a cord, before it is rounded up to a whole step."""
    if not (math.isfinite(used_mm) and used_mm >= 0):
        raise ValueError(f"a cord's used length is finite and 0 or more, not {used_mm}")
    return used_mm + allowance_mm(
        knotted_mm, shared_error, tie_sigmas_squared_sum, ends_hanging_mm, margin
    )


def _quantile_of_root(confidence: float, root: int) -> float:
    """Return Φ⁻¹(confidence^(1/root)), by its small other side so that nothing is lost near 1."""
    return -NormalDist().inv_cdf(-math.expm1(math.log(confidence) / root))
