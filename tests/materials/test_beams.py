"""Beams against what handbooks print, and against the moment integrated step by step."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.materials.beams import (
    Load,
    deflection,
    largest_moment,
    longest_span,
    moment,
    sag,
    section,
    weight,
)

W, L, EI = 37.0, 950.0, 6.2e7  # N, mm, N·mm²


@pytest.mark.parametrize(
    ("diameter", "wall", "area", "inertia", "modulus", "kg_per_m"),
    [
        # Circular hollow sections as tabled after EN 10219-2 (cm², cm⁴, cm³, kg/m).
        (33.7, 2.0, 1.99, 2.51, 1.49, 1.56),
        (42.4, 3.0, 3.71, 7.25, 3.42, 2.91),
        (60.3, 5.0, 8.69, 33.5, 11.10, 6.82),
        (76.1, 2.0, 4.66, 32.0, 8.40, 3.65),
    ],
)
def test_tubes_have_the_sections_that_are_tabled(
    diameter: float, wall: float, area: float, inertia: float, modulus: float, kg_per_m: float
) -> None:
    found = section(diameter, wall)
    assert found.area / 1e2 == pytest.approx(area, rel=0.004)
    assert found.inertia / 1e4 == pytest.approx(inertia, rel=0.004)
    assert found.modulus / 1e3 == pytest.approx(modulus, rel=0.004)
    assert found.area * 7850e-6 == pytest.approx(kg_per_m, rel=0.004)


def test_a_bar_is_a_tube_without_a_hollow() -> None:
    # πd²/4, πd⁴/64, πd³/32: any handbook.
    assert section(20.0) == pytest.approx(
        (math.pi * 100.0, math.pi * 20.0**4 / 64.0, math.pi * 20.0**3 / 32.0)
    )
    assert section(20.0, 10.0) == pytest.approx(section(20.0))
    for wall in (0.0, 10.1, -1.0):
        with pytest.raises(ValueError, match="no tube"):
            section(20.0, wall)


def test_a_worked_example() -> None:
    """6 N/mm over 5 m of a steel beam of 8196 cm⁴, 300 mm high: 2.98 mm, 34.3 MPa.

    A page of worked examples (5wL⁴/384EI, y·wL²/8I); its figures, reckoned by hand.
    """
    load = Load(6.0 * 5000.0, 5000.0)
    assert deflection(load, 5000.0, 200_000.0 * 8.196e7, 0.0) == pytest.approx(2.98, abs=0.005)
    assert moment(load, 5000.0, 0.0) / 8.196e7 * 150.0 == pytest.approx(34.3, abs=0.05)


def test_an_even_load_over_the_whole_span() -> None:
    """Check 5WL³/384EI and WL/8 (American Wood Council, Design Aid 6, figure 1)."""
    load = Load(W, L)
    assert deflection(load, L, EI, 0.0) == pytest.approx(5.0 * W * L**3 / (384.0 * EI))
    assert moment(load, L, 0.0) == pytest.approx(W * L / 8.0)
    assert moment(load, L, L / 4.0) == pytest.approx(W * L * 3.0 / 32.0)  # w·x(L − x)/2


@pytest.mark.parametrize("share", [1e-3, 0.2, 0.5, 0.75, 1.0])
def test_an_even_load_in_the_middle_of_the_span(share: float) -> None:
    """Check W(8L³ − 4Lb² + b³)/384EI and W(2L − b)/8 (Roark's, table 8.1, case 2; from memory)."""
    b = share * L
    load = Load(W, b)
    told = W * (8.0 * L**3 - 4.0 * L * b**2 + b**3) / (384.0 * EI)
    assert deflection(load, L, EI, 0.0) == pytest.approx(told)
    assert moment(load, L, 0.0) == pytest.approx(W * (2.0 * L - b) / 8.0)
    assert moment(load, L, L / 2.0) == pytest.approx(0.0, abs=1e-6)
    if share < 0.01:  # a load in one point: WL³/48EI, WL/4 (Design Aid 6, figure 7)
        assert deflection(load, L, EI, 0.0) == pytest.approx(W * L**3 / 48.0 / EI, rel=1e-5)


@pytest.mark.parametrize("c", [0.0, 50.0, 200.0, 335.9, 475.0, 900.0])
def test_ends_that_overhang_both_supports(c: float) -> None:
    """Check the even load on equal overhangs c (Machinery's Handbook, stresses and deflections in
    beams, case 5; in its words from memory, l the span, L the whole length):
    at the ends Wc/(24EIL)·(3c²(c + 2l) − l³), in the middle Wl²/(384EIL)·(5l² − 24c²);
    moments Wc²/2L over the supports, W/2L·(l²/4 − c²) in the middle.
    """
    whole = L + 2.0 * c
    load = Load(W, whole)
    ends = W * c / (24.0 * EI * whole) * (3.0 * c**2 * (c + 2.0 * L) - L**3)
    middle = W * L**2 / (384.0 * EI * whole) * (5.0 * L**2 - 24.0 * c**2)
    assert deflection(load, L, EI, whole / 2.0) == pytest.approx(ends, abs=1e-9)
    assert deflection(load, L, EI, 0.0) == pytest.approx(middle, abs=1e-9)
    assert moment(load, L, L / 2.0) == pytest.approx(-W * c**2 / (2.0 * whole))
    assert moment(load, L, 0.0) == pytest.approx(W / (2.0 * whole) * (L**2 / 4.0 - c**2))


def test_where_the_handbook_says_that_stresses_are_alike() -> None:
    """Machinery's Handbook: with l = 2.828c those at the supports and in the middle are equal and
    opposite; from l = 2c down, no place between the supports is without stress.
    """
    c = L / 2.828
    load = Load(W, L + 2.0 * c)
    assert moment(load, L, 0.0) == pytest.approx(-moment(load, L, L / 2.0), rel=1e-3)
    assert moment(Load(W, 2.0 * L), L, 0.0) == pytest.approx(0.0, abs=1e-9)


def test_gravity() -> None:
    assert weight(1000.0) == 9.80665  # standard gravity, CGPM 1901


def integrated(
    load: Load, span: float, reach: float, steps: int = 4000
) -> Callable[[float], float]:
    """Return the deflection by statics and two trapezoid sums over the whole bar, EI = 1."""
    dx = 2.0 * reach / steps
    xs = [-reach + i * dx for i in range(steps + 1)]
    even, half = load.newtons / load.length, load.length / 2.0
    bending = []
    for x in xs:
        held = sum(load.newtons / 2.0 * max(0.0, x - at) for at in (-span / 2.0, span / 2.0))
        reached = min(x, half) + half  # of the load, left of x
        bending.append(held - (even * reached * (x + half - reached / 2.0) if reached > 0 else 0.0))
    slope, down = [0.0], [0.0]
    for a, b in pairwise(bending):
        slope.append(slope[-1] - (a + b) / 2.0 * dx)
        down.append(down[-1] + (slope[-2] + slope[-1]) / 2.0 * dx)

    def at(x: float, of: list[float]) -> float:
        i = min(int((x + reach) / dx), steps - 1)
        share = (x - xs[i]) / dx
        return of[i] * (1.0 - share) + of[i + 1] * share

    left, right = at(-span / 2.0, down), at(span / 2.0, down)

    def deflected(x: float) -> float:
        line = left + (right - left) * (x + span / 2.0) / span
        return at(x, down) - line

    return deflected


@pytest.mark.parametrize("share", [0.3, 0.8, 1.0, 1.2, 1.9, 3.0])
def test_the_closed_form_is_the_moment_integrated_twice(share: float) -> None:
    load = Load(W, share * L)
    reach = max(load.length, L) / 2.0 + 50.0
    told = integrated(load, L, reach)
    largest = max(abs(told(0.0)), abs(told(reach)))
    for s in (0.0, 0.2 * L, 0.4 * L, 0.5 * L, share * L / 2.0, reach):
        expected = told(s)
        assert deflection(load, L, 1.0, s) == pytest.approx(expected, abs=2e-5 * largest)


lengths = st.floats(20.0, 4000.0)


@given(span=lengths, length=lengths, newtons=st.floats(0.01, 500.0))
def test_nothing_goes_down_further_than_the_middle_or_the_edge(
    span: float, length: float, newtons: float
) -> None:
    """The rod's own weight beside it is small, and even all along."""
    loads = (Load(newtons, length), Load(0.2 * newtons, max(span, length)))
    edge = max(span, length) / 2.0
    largest = max(map(abs, sag(loads, span, EI, edge)))
    bent = largest_moment(loads, span)
    for i in range(41):
        s = edge * i / 40.0
        here = abs(sum(deflection(load, span, EI, s) for load in loads))
        assert here <= largest * 1.001 + 1e-12
        assert abs(sum(moment(load, span, s) for load in loads)) <= bent * (1 + 1e-9) + 1e-9


@given(span=lengths, newtons=st.floats(0.01, 500.0))
def test_nothing_jumps_where_the_load_is_as_long_as_the_span(span: float, newtons: float) -> None:
    at, above = Load(newtons, span), Load(newtons, span * (1 + 1e-7))
    for s in (0.0, span / 3.0, span / 2.0):
        one, other = deflection(at, span, EI, s), deflection(above, span, EI, s)
        assert one == pytest.approx(other, rel=1e-5, abs=1e-12)
        assert moment(at, span, s) == pytest.approx(moment(above, span, s), rel=1e-5, abs=1e-4)


@given(per_mm=st.floats(1e-4, 1.0), rigidity=st.floats(1e5, 1e10), bending=st.floats(10.0, 1e6))
def test_the_longest_span_just_holds(per_mm: float, rigidity: float, bending: float) -> None:
    span = longest_span(per_mm, rigidity, bending, 1.0 / 200.0)
    load = Load(per_mm * span, span)
    sags = deflection(load, span, rigidity, 0.0) / (span / 200.0)
    bends = moment(load, span, 0.0) / bending
    assert max(sags, bends) == pytest.approx(1.0, rel=1e-6)
