from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.curves import bezier

KAPPA = 4 / 3 * (math.sqrt(2) - 1)  # the usual control points of a quarter circle
QUARTER = (1.0, 0.0, 1.0, KAPPA, KAPPA, 1.0, 0.0, 1.0)
PARABOLA = (0.0, 0.0, 2 / 3, 4 / 3, 4 / 3, 4 / 3, 2.0, 0.0)  # y = 2x − x², x from 0 to 2
CUSP = (0.0, 0.0, 10.0, 10.0, 0.0, 10.0, 10.0, 0.0)

places = st.floats(-1000, 1000)
cubics = st.tuples(*[places] * 8)


def in_space(curve, z):
    x0, y0, c1x, c1y, c2x, c2y, x1, y1 = curve
    return (x0, y0, z[0], c1x, c1y, z[1], c2x, c2y, z[2], x1, y1, z[3])


def test_a_straight_line_has_its_chord_for_length():
    line = (1.0, 2.0, 2.0, 10 / 3, 3.0, 14 / 3, 4.0, 6.0)
    assert bezier.length(line) == pytest.approx(5.0, rel=1e-14)
    assert bezier.length3(in_space(line, (0, 4, 8, 12))) == pytest.approx(13.0, rel=1e-14)


def test_a_parabola_against_its_closed_form():
    # Span 2, height 1: sqrt(a² + 4h²) + a²/2h·asinh(2h/a) with a = h = 1.
    exact = math.sqrt(5) + math.asinh(2) / 2
    assert bezier.length(PARABOLA) == pytest.approx(exact, rel=2e-5)  # it turns by 127°
    assert bezier.length_within(PARABOLA, 1e-9) == pytest.approx(exact, abs=1e-9)


@pytest.mark.parametrize(("height", "accuracy"), [(0.25, 1e-11), (0.5, 2e-8), (1.0, 2e-5)])
def test_the_accuracy_that_is_stated(height, accuracy):
    # Parabolas that turn by 53°, 90° and 127° against the closed form.
    bow = (0.0, 0.0, 2 / 3, 4 / 3 * height, 4 / 3, 4 / 3 * height, 2.0, 0.0)
    exact = math.hypot(1, 2 * height) + math.asinh(2 * height) / (2 * height)
    assert bezier.length(bow) == pytest.approx(exact, rel=accuracy)


@pytest.mark.parametrize("across", [1.0, 5.0, 20.0])
def test_a_free_run_against_fine_halving(across):
    chord = math.hypot(across, 5.0)
    run = (0.0, 0.0, 0.0, 0.4 * chord, across, 5.0 - 0.4 * chord, across, 5.0)
    assert bezier.length(run) == pytest.approx(bezier.length_within(run, 1e-9), rel=2e-5)


def test_a_quarter_circle():
    # The cubic itself is 2.2e-4 longer than the circle it approximates; the quadrature is finer.
    assert bezier.length(QUARTER) == pytest.approx(math.pi / 2, rel=2e-4)
    fine = bezier.length_of(bezier.flatten(QUARTER, 20_000))
    assert bezier.length(QUARTER) == pytest.approx(fine, rel=1e-9)


def test_the_long_way_round_a_cusp_needs_halving():
    fine = bezier.length_of(bezier.flatten(CUSP, 20_000))
    assert bezier.length_within(CUSP, 1e-6) == pytest.approx(fine, abs=1e-5)
    assert abs(bezier.length(CUSP) - fine) > 0.1


def test_a_helix_turn_in_space():
    # An eighth of a turn of a helix, radius 1, rise 0.3 a radian, as a Hermite cubic.
    angle, rise = math.pi / 4, 0.3
    third, handle = angle / 3, 4 / 3 * math.tan(angle / 4)
    c, s = math.cos(angle), math.sin(angle)
    curve = (
        *(1.0, 0.0, 0.0),
        *(1.0, handle, rise * third),
        *(c + s * handle, s - c * handle, rise * (angle - third)),
        *(c, s, rise * angle),
    )
    assert bezier.length3(curve) == pytest.approx(angle * math.hypot(1, rise), rel=1e-5)


@given(cubics)
def test_a_curve_lies_in_a_plane_of_space_as_long_as_it_is(curve):
    assert bezier.length3(in_space(curve, (7, 7, 7, 7))) == pytest.approx(bezier.length(curve))


@given(cubics)
def test_length_lies_between_chord_and_control_polygon(curve):
    polygon = list(zip(curve[::2], curve[1::2], strict=True))
    length = bezier.length_within(curve, 1e-3)
    assert math.dist(polygon[0], polygon[-1]) <= length + 2e-3
    assert length <= bezier.length_of(polygon) + 2e-3


@given(cubics)
def test_both_ways_along_are_equally_long(curve):
    x0, y0, c1x, c1y, c2x, c2y, x1, y1 = curve
    back = (x1, y1, c2x, c2y, c1x, c1y, x0, y0)
    assert bezier.length(back) == pytest.approx(bezier.length(curve), abs=1e-9)


@given(cubics, st.floats(0, 1))
def test_halves_run_along_the_same_curve(curve, t):
    first, second = bezier.halves(curve)
    assert bezier.point(first, t) == pytest.approx(bezier.point(curve, t / 2), abs=1e-9)
    assert bezier.point(second, t) == pytest.approx(bezier.point(curve, (1 + t) / 2), abs=1e-9)


@given(cubics, st.integers(1, 40))
def test_flattening_keeps_the_ends_and_the_steps(curve, n):
    points = bezier.flatten(curve, n)
    assert (len(points), points[0], points[-1]) == (n + 1, curve[:2], curve[6:])
    assert points[n // 2] == pytest.approx(bezier.point(curve, (n // 2) / n), abs=1e-9)


def test_a_curve_cannot_be_flattened_into_nothing():
    with pytest.raises(ValueError, match="1 stretch or more, not 0"):
        bezier.flatten(QUARTER, 0)


def test_one_point_has_no_length():
    assert bezier.length_of([(3.0, 4.0)]) == bezier.length_of([]) == 0
