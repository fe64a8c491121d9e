"""The allowance: the contract's formula, its integral, and pieces worked by chance."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import ndtr

from knotplot.materials.allowance import (
    CORD_ERROR,
    SHARED_ERROR_MEASURED,
    SHARED_ERROR_TABLE,
    Draw,
    Margin,
    allowance_mm,
    holding_reserve_mm,
    margin,
)

# Fifty ties of 68 mm, each 5 % its own: the piece a reader simulated with a program of his own.
STRAND = Draw(50 * 68.0, 50 * (0.05 * 68.0) ** 2)


def chance(draws: Sequence[Draw], m: Margin, s: float) -> float:
    """Return the chance that every draw suffices, by scipy's normal distribution."""
    shared = np.linspace(-9.0, 9.0, 20_001)
    found = np.exp(-0.5 * shared**2) / math.sqrt(2.0 * math.pi)
    for each in draws:
        if each.own:
            spare = (m.shared - shared) * s * each.knotted + m.own * each.own
            found = found * ndtr(spare / each.own)
    return float(np.sum(found) * (shared[1] - shared[0]))


def test_own_errors_are_those_of_the_ties_and_of_the_cord_as_a_whole() -> None:
    # τ² = Σσᵢ² + (0.015·knotted)²: contract, 5.
    assert Draw(1000.0, 0.0).own == pytest.approx(15.0)
    assert Draw(1000.0, 400.0).own == pytest.approx(25.0)
    assert CORD_ERROR == 0.015


@pytest.mark.parametrize(("confidence", "cords"), [(0.5, 1), (0.9, 7), (0.99, 90), (0.999, 20_000)])
def test_the_own_quantile_keeps_the_root_of_the_confidence(confidence: float, cords: int) -> None:
    # z₂ = Φ⁻¹(c^(1/2n)): contract, 5.
    own = margin(confidence, [STRAND] * cords, 0.08).own
    assert ndtr(own) ** (2 * cords) == pytest.approx(confidence, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(
    st.floats(0.02, 0.999),
    st.lists(st.tuples(st.floats(0.0, 9000.0), st.floats(0.0, 9000.0)), min_size=1, max_size=6),
    st.sampled_from([SHARED_ERROR_MEASURED, SHARED_ERROR_TABLE]),
)
def test_every_cord_suffices_with_just_the_confidence(
    confidence: float, cords: list[tuple[float, float]], s: float
) -> None:
    draws = [Draw(*each) for each in cords]
    m = margin(confidence, draws, s)
    if any(each.knotted > 0.0 for each in draws):
        assert chance(draws, m, s) == pytest.approx(confidence, abs=1e-6)


def test_what_is_not_knotted_cannot_run_short() -> None:
    assert margin(0.99, [Draw(0.0, 0.0)], 0.08).shared == 0.0
    assert allowance_mm(Draw(0.0, 0.0), [], margin(0.99, [Draw(0.0, 0.0)], 0.08), 0.08) == 0.0


@pytest.mark.parametrize(
    ("s", "least", "most"),
    [(SHARED_ERROR_TABLE, 0.200, 0.233), (SHARED_ERROR_MEASURED, 0.111, 0.140)],
)
def test_the_allowance_of_ninety_cords(s: float, least: float, most: float) -> None:
    # A reader's simulation of 40,000 such pieces: 20.0 and 11.1 % of the length in knots are needed
    # for 0.99 if cords don't differ as wholes, and about 13 % (measured) if they do by 1.5 %.
    m = margin(0.99, [STRAND] * 90, s)
    assert least < allowance_mm(STRAND, [], m, s) / STRAND.knotted < most


@given(st.floats(0.05, 0.999), st.integers(1, 2000))
@settings(max_examples=30, deadline=None)
def test_a_cord_more_or_more_confidence_takes_more(confidence: float, cords: int) -> None:
    def allowed(c: float, n: int) -> float:
        m = margin(c, [STRAND] * n, 0.08)
        return m.shared * 0.08 * STRAND.knotted + m.own * STRAND.own

    assert allowed(confidence, cords + 1) > allowed(confidence, cords)
    assert allowed(confidence + 1e-4, cords) > allowed(confidence, cords)


def test_hand_is_what_the_ends_lack() -> None:
    # 12 cm must hang at each free end: contract, 5.
    assert [holding_reserve_mm([]), holding_reserve_mm([120.0, 300.0])] == [0.0, 0.0]
    assert holding_reserve_mm([0.0, 100.0]) == 140.0


def test_the_parts_add_up() -> None:
    m = Margin(2.0, 3.0)
    draw = Draw(1000.0, 400.0)  # τ = 25 mm
    assert allowance_mm(draw, [100.0, 500.0], m, 0.08) == pytest.approx(160.0 + 75.0 + 20.0)


def test_an_allowance_is_never_below_nothing() -> None:
    # At a confidence of 0.1 both margins are negative: what is cut is what is used.
    m = margin(0.1, [STRAND], 0.08)
    assert m.own < 0.0
    assert m.shared < 0.0
    assert allowance_mm(STRAND, [], m, 0.08) == 0.0


# --- pieces worked by chance -----------------------------------------------------------------

PIECES, CORDS, TIES, TIE = 40_000, 12, 25, 68.0
WORKED = Draw(TIES * TIE, TIES * (0.05 * TIE) ** 2)


def share_short(m: Margin, s: float, cord_error: float, alike: float = 0.0) -> float:
    """Work pieces tie by tie, and return the share of them with any cord too short.

    `cord_error` is by how much cords differ as wholes, `alike` the correlation of one tie's error
    with the next along a cord.
    """
    rng = np.random.default_rng(1890)
    spare = m.shared * s * WORKED.knotted + m.own * WORKED.own
    hand = rng.normal(0.0, s, (PIECES, 1)) + rng.normal(0.0, cord_error, (PIECES, CORDS))
    last = rng.normal(0.0, 1.0, (PIECES, CORDS))
    more = np.zeros((PIECES, CORDS))
    for _ in range(TIES):
        more += TIE * (hand + 0.05 * last)
        last = alike * last + math.sqrt(1.0 - alike**2) * rng.normal(0.0, 1.0, (PIECES, CORDS))
    return float((more > spare).any(axis=1).mean())


def off(wrong: float) -> float:
    """Return three standard errors of such a share."""
    return 3.0 * math.sqrt(wrong * (1.0 - wrong) / PIECES)


@pytest.mark.parametrize("s", [SHARED_ERROR_MEASURED, SHARED_ERROR_TABLE])
@pytest.mark.parametrize("wrong", [0.01, 0.1])
def test_cords_that_differ_as_wholes_suffice_with_just_the_confidence(
    s: float, wrong: float
) -> None:
    m = margin(1.0 - wrong, [WORKED] * CORDS, s)
    assert share_short(m, s, CORD_ERROR) == pytest.approx(wrong, abs=off(wrong))


def test_without_the_error_of_a_cord_as_a_whole_too_many_run_short() -> None:
    m = margin(0.99, [WORKED] * CORDS, SHARED_ERROR_MEASURED)
    ties_alone = Margin(m.shared, m.own * math.sqrt(WORKED.tie_errors) / WORKED.own)
    assert share_short(ties_alone, SHARED_ERROR_MEASURED, CORD_ERROR) > 0.01 + off(0.01)


def test_ties_alike_along_a_cord_hardly_lower_the_confidence() -> None:
    # Correlated by 0.7 from tie to tie, their errors add up to 2.3 times as much. A reader who
    # simulated the margin without an error of the cord found 0.986 in place of 0.99.
    m = margin(0.99, [WORKED] * CORDS, SHARED_ERROR_MEASURED)
    assert share_short(m, SHARED_ERROR_MEASURED, 0.0, alike=0.7) < 0.02


def test_taken_as_each_knots_own_the_shared_error_leaves_far_more_short() -> None:
    # The control: among 25 ties a shared error that averaged out would be a fifth of itself.
    m = margin(0.99, [WORKED] * CORDS, SHARED_ERROR_MEASURED)
    averaged = Margin(m.shared / 5.0, m.own)
    assert share_short(averaged, SHARED_ERROR_MEASURED, CORD_ERROR) > 0.1


@pytest.mark.parametrize(
    "call",
    [
        lambda: margin(0, [STRAND], 0.08),
        lambda: margin(1, [STRAND], 0.08),
        lambda: margin(math.nan, [STRAND], 0.08),
        lambda: margin(0.9, [], 0.08),
        lambda: margin(0.9, [Draw(-1.0, 0.0)], 0.08),
        lambda: margin(0.9, [Draw(1.0, math.nan)], 0.08),
        lambda: margin(0.9, [Draw(math.inf, 1.0)], 0.08),
    ],
)
def test_the_impossible_is_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match=r"between 0 and 1|one cord|finite"):
        call()
