from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.curves.edge_profiles import PROFILES, catenary_bend
from knotplot.curves.lower_edge import LowerEdge, circle_radius, trim_offsets, trim_places
from knotplot.curves.pchip import Pchip

STEPS = ((0.0, 0.2), (0.1, 0.0), (0.3, 0.55), (0.45, 1.0), (0.8, 0.7), (1.0, 0.9))
WHOLE = ("arc", "catenary", "parabola", "vee")  # 0 at the sides, 1 in the middle

sizes = {
    "width": st.floats(10, 5000),
    "drop": st.floats(10, 5000),
    "steepness": st.floats(1e-6, 1),
    "sign": st.sampled_from([-1, 1]),
}


def edge_of(profile, width, drop, steepness, sign, count=5):
    at = STEPS if profile == "points" else ()
    return LowerEdge(width, drop, sign * steepness * width / 2, profile, count, at)


def measured(edge, n=20_000):
    """Measure the edge as a polyline: from below, and near."""
    xs = [edge.width_mm * i / n for i in range(n + 1)]
    return math.fsum(math.dist(a, b) for a, b in zip(
        [(x, edge.y(x)) for x in xs], [(x, edge.y(x)) for x in xs[1:]], strict=False
    ))  # fmt: skip


# --- outside values ---------------------------------------------------------------------------


def test_radius_of_a_segment():
    # Machinery's Handbook, 31st ed. (2020), "segments of circles".
    assert circle_radius(59.867, 8) == pytest.approx(60, abs=1e-3)
    assert circle_radius(16, 6) == pytest.approx(8 + 1 / 3, abs=1e-12)
    assert circle_radius(13.27, 2) == pytest.approx(12, abs=6e-3)


def test_arc_of_a_segment():
    # Machinery's Handbook, 31st ed. (2020), "segments of circles": R 12, depth 2, chord 13.27,
    # angle 67.115°, arc 14.056, area 18.006.
    chord = 2 * math.sqrt(2 * 12 * 2 - 4)
    edge = LowerEdge(chord, 100, 2, "arc")
    assert chord == pytest.approx(13.27, abs=5e-3)
    assert edge.length_mm() == pytest.approx(14.056, abs=5e-4)
    assert math.degrees(edge.length_mm() / 12) == pytest.approx(67.115, abs=5e-3)
    n = 4000
    area = math.fsum(100 - edge.y(chord * (i + 0.5) / n) for i in range(n)) * chord / n
    assert area == pytest.approx(18.006, abs=2e-3)


def test_arc_of_a_parabola():
    # Machinery's Handbook, 31st ed. (2020), p. 80, by its formula: x 2, y 24 is half an edge.
    assert LowerEdge(48, 100, 2, "parabola").length_mm() / 2 == pytest.approx(24.1107, abs=5e-5)


# Span 1: sag, chain's parameter, its length, parabola's length, circle's radius and length;
# recomputed for this project from the closed forms.
@pytest.mark.parametrize(
    ("sag", "parameter", "chain", "parabola", "radius", "circle"),
    [
        (0.10, 1.266324, 1.026187, 1.026061, 1.300, 1.026457),
        (0.50, 0.309380, 1.495834, 1.478943, 0.5, 1.570796),
    ],
)
def test_one_span_three_curves(sag, parameter, chain, parabola, radius, circle):
    def length(profile):
        return LowerEdge(1, 10, sag, profile).length_mm()

    assert 0.5 / catenary_bend(sag / 0.5) == pytest.approx(parameter, abs=5e-7)
    assert length("catenary") == pytest.approx(chain, abs=5e-7)
    assert length("parabola") == pytest.approx(parabola, abs=5e-7)
    assert circle_radius(1, sag) == pytest.approx(radius, abs=5e-7)
    assert length("arc") == pytest.approx(circle, abs=5e-7)


def test_points_are_joined_as_by_a_known_interpolator():
    # scipy.interpolate.PchipInterpolator 1.17.1 through STEPS.
    curve = Pchip(STEPS)
    known = {
        0.05: 0.055208333333333345,
        0.2: 0.20311203319502083,
        0.37: 0.8097881051175656,
        0.4: 0.915283540802213,
        0.6: 0.8819241982507289,
        0.95: 0.8216314935064934,
    }
    assert {x: curve(x) for x in known} == pytest.approx(known, abs=1e-14)
    slopes = [-3.58333333, 0, 2.87551867, 0, 0, 1.67532468]
    assert curve.slopes == pytest.approx(slopes, abs=1e-8)


# --- shape ------------------------------------------------------------------------------------


@pytest.mark.parametrize("profile", WHOLE)
@given(steepness=sizes["steepness"])
def test_f_is_0_at_the_sides_and_1_in_the_middle(profile, steepness):
    shape = PROFILES[profile].shaped(steepness, 1, ())
    ends = [shape.f(u) for u in (-1.0, 0.0, 1.0)]
    assert ends == pytest.approx([0, 1, 0], abs=1e-12)


@pytest.mark.parametrize("profile", [*WHOLE, "scallops"])
@given(**sizes, across=st.floats(0, 1))
def test_edges_are_symmetric(profile, width, drop, steepness, sign, across):
    edge = edge_of(profile, width, drop, steepness, sign)
    assert edge.y(width * across) == pytest.approx(edge.y(width * (1 - across)), abs=width * 1e-9)


@pytest.mark.parametrize("profile", sorted(PROFILES))
@given(**sizes, across=st.floats(0, 1))
def test_no_place_is_beyond_the_rise(profile, width, drop, steepness, sign, across):
    edge = edge_of(profile, width, drop, steepness, sign)
    rise = 0 if profile == "straight" else abs(edge.rise_mm)
    assert (edge.highest(), edge.lowest()) == pytest.approx((drop - rise, drop), abs=1e-9)
    assert edge.highest() - 1e-9 <= edge.y(width * across) <= edge.lowest() + 1e-9


@pytest.mark.parametrize(("rise", "sides", "middle"), [(20, 80, 60), (-20, 60, 80)])
@pytest.mark.parametrize("profile", WHOLE)
def test_arch_and_point(profile, rise, sides, middle):
    edge = LowerEdge(100, 80, rise, profile)
    assert [edge.y(x) for x in (0, 50, 100)] == pytest.approx([sides, middle, sides])


def test_an_arc_lies_on_its_circle():
    edge = LowerEdge(100, 80, 30, "arc")
    radius = circle_radius(100, 30)
    centre = (50, 50 + radius)
    for x in (0, 7, 33, 50, 91):
        assert math.dist((x, edge.y(x)), centre) == pytest.approx(radius, abs=1e-9)


def test_a_catenary_is_steeper_at_its_sides_than_a_parabola():
    chain, parabola = (LowerEdge(100, 80, 60, p) for p in ("catenary", "parabola"))
    assert chain.y(10) < parabola.y(10)


def test_a_half_circle_that_division_has_touched():
    width = 0.1 + 0.2
    assert LowerEdge(width, 1, 0.15 + 1e-12, "arc").length_mm() == pytest.approx(0.15 * math.pi)


def test_scallops_meet_at_the_drop_and_rise_between():
    edge = LowerEdge(90, 80, 6, "scallops", count=3)
    assert [edge.y(x) for x in (0, 15, 30, 45, 60, 75, 90)] == [80, 74, 80, 74, 80, 74, 80]
    assert edge.y(22.5) == pytest.approx(80 - 6 * 0.75)


def test_points_are_met_and_never_overshot():
    edge = LowerEdge(100, 80, 20, "points", at=STEPS)
    assert [edge.y(100 * x) for x, _ in STEPS] == [80 - 20 * f for _, f in STEPS]
    for (x0, f0), (x1, f1) in pairwise(STEPS):
        inside = [Pchip(STEPS)(x0 + (x1 - x0) * i / 50) for i in range(51)]
        assert inside == sorted(inside, reverse=f1 < f0)


def test_two_points_are_a_slope():
    edge = LowerEdge(100, 80, 20, "points", at=((0.0, 0.0), (1.0, 1.0)))
    assert [edge.y(x) for x in (0, 25, 100)] == [80, 75, 60]


@pytest.mark.parametrize("profile", sorted(PROFILES))
def test_no_rise_is_straight(profile):
    edge = LowerEdge(100, 80, 0, profile, at=STEPS)
    assert [edge.y(x) for x in (0, 31, 50)] == [80, 80, 80]
    assert edge.length_mm() == 100


def test_beyond_a_side_the_edge_is_as_at_that_side():
    edge = LowerEdge(100, 80, -20, "vee")
    assert [edge.y(-5), edge.y(105)] == [60, 60]


# --- length -----------------------------------------------------------------------------------


@pytest.mark.parametrize("sign", [-1, 1])
@pytest.mark.parametrize("steepness", [0.02, 0.6, 1.0])
@pytest.mark.parametrize("profile", sorted(PROFILES))
def test_length_is_that_of_a_fine_polyline(profile, steepness, sign):
    edge = edge_of(profile, 900.0, 1400.0, steepness, sign)
    assert edge.length_mm() == pytest.approx(measured(edge), abs=0.01)


@pytest.mark.parametrize("tolerance", [10.0, 0.1, 1e-6])
def test_length_keeps_its_tolerance(tolerance):
    edge = LowerEdge(900, 2000, 1500, "points", at=STEPS)
    exact = edge.length_mm(1e-9)
    assert edge.length_mm(tolerance) == pytest.approx(exact, abs=tolerance)


@pytest.mark.parametrize("profile", [*WHOLE, "scallops"])
def test_the_flattest_edge_is_as_long_as_it_is_wide(profile):
    assert LowerEdge(900, 800, 1e-300, profile).length_mm() == pytest.approx(900, abs=1e-9)


# --- trimming ---------------------------------------------------------------------------------


def test_trim_offsets_at_every_step_the_middle_and_the_width():
    edge = LowerEdge(920, 840, 90, "parabola")
    offsets = trim_offsets(edge)
    assert [o.x_mm for o in offsets] == sorted({*range(0, 920, 50), 460, 920})
    middle = next(o for o in offsets if o.x_mm == 460)
    assert (middle.y_mm, middle.offset_mm) == (750, 90)
    assert [offsets[0].offset_mm, offsets[-1].offset_mm] == [0, 0]


@given(width=st.floats(0.5, 3000), step=st.floats(5, 500))
def test_no_trim_place_comes_twice(width, step):
    places = [o.x_mm for o in trim_offsets(LowerEdge(width, 800, 0), step)]
    assert len({round(x, 2) for x in places}) == len(places)
    assert places == sorted(places)
    assert (places[0], places[-1]) == (0, width)


def kinds(edge):
    return [(round(turn.x_mm, 6), turn.what) for turn in edge.turns()]


@pytest.mark.parametrize("profile", WHOLE)
def test_an_arch_has_its_crown_in_the_middle_and_a_swag_its_lowest_place(profile):
    sharp = profile == "vee"
    up, down = (edge_of(profile, 900.0, 1400.0, 0.3, sign) for sign in (1, -1))
    assert kinds(up) == [(0, "side"), (450, "notch" if sharp else "crown"), (900, "side")]
    assert kinds(down) == [(0, "side"), (450, "tip" if sharp else "dip"), (900, "side")]


def test_scallops_meet_in_tips_between_their_crowns():
    # 88 cm in three: 88/3 = 29.33 cm each.
    found = LowerEdge(880, 1980, 80, "scallops", count=3).turns()
    assert [turn.what for turn in found] == [
        "side", "crown", "tip", "crown", "tip", "crown", "side"
    ]  # fmt: skip
    assert [round(turn.x_mm / 10, 1) for turn in found] == [0, 14.7, 29.3, 44, 58.7, 73.3, 88]
    assert [turn.offset_mm for turn in found] == pytest.approx([0, 80, 0, 80, 0, 80, 0], abs=1e-9)
    lowered = LowerEdge(880, 1980, -80, "scallops", count=3).turns()
    assert [turn.what for turn in lowered][1:4] == ["dip", "notch", "dip"]


def test_points_turn_where_they_stand_higher_or_lower_than_both_beside():
    at = ((0, 0.2), (0.2, 1), (0.35, 0.5), (0.5, 0.0), (0.7, 0.6), (0.8, 0.6), (0.9, 0.3), (1, 0.3))
    assert kinds(LowerEdge(100, 80, 20, "points", at=at)) == [
        (0, "side"), (20, "crown"), (50, "dip"), (70, "crown"), (80, "crown"), (90, "dip"),
        (100, "side"),
    ]  # fmt: skip
    # A terrace on a slope is no turn.
    steps = ((0, 0), (0.3, 0.5), (0.6, 0.5), (1, 1))
    assert kinds(LowerEdge(100, 80, 20, "points", at=steps)) == [(0, "side"), (100, "side")]


@given(
    profile=st.sampled_from(sorted(PROFILES)),
    count=st.integers(1, 12),
    width=st.floats(20, 3000),
    steepness=sizes["steepness"],
    sign=sizes["sign"],
)
def test_between_its_turns_an_edge_only_rises_or_only_falls(profile, count, width, steepness, sign):
    edge = edge_of(profile, width, 4000.0, steepness, sign, count)
    for a, b in pairwise(edge.turns()):
        ys = [edge.y(a.x_mm + (b.x_mm - a.x_mm) * i / 40) for i in range(41)]
        rounding = 1e-9 * width
        falls = [y1 >= y0 - rounding for y0, y1 in pairwise(ys)]
        rises = [y1 <= y0 + rounding for y0, y1 in pairwise(ys)]
        assert all(falls) or all(rises)


@given(
    profile=st.sampled_from(sorted(PROFILES)),
    count=st.integers(1, 30),
    width=st.floats(20, 3000),
    step=st.floats(5, 200),
)
def test_trim_places_are_every_turn_and_enough_between(profile, count, width, step):
    edge = edge_of(profile, width, 4000.0, 0.5, 1, count)
    places, turns = trim_places(edge, step), edge.turns()
    assert [place for place in places if place.what != "between"] == list(turns)
    xs = [place.x_mm for place in places]
    assert xs == sorted(set(xs))
    assert all(place.y_mm == edge.y(place.x_mm) for place in places)
    for a, b in pairwise(turns):
        inner = [x for x in xs if a.x_mm < x < b.x_mm]
        assert bool(inner) != edge.shape.straight
        gaps = [y - x for x, y in pairwise([a.x_mm, *inner, b.x_mm])]
        assert edge.shape.straight or max(gaps) <= 1.25 * step + 1e-9
        assert edge.shape.straight or min(gaps) >= min(step, b.x_mm - a.x_mm) / 4 - 1e-9


def test_a_vee_needs_three_marks():
    assert [place.x_mm for place in trim_places(LowerEdge(460, 800, -300, "vee"))] == [0, 230, 460]


# --- bad input --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((math.nan, 80, 0), "finite"),
        ((100, math.inf, 0), "finite"),
        ((100, 80, -math.inf), "finite"),
        ((0, 80, 0), "wider than 0"),
        ((100, 80, 5, "wave"), "no profile 'wave'"),
        ((100, 80, 50.01, "arc"), "half its width"),
        ((100, 80, 5, "scallops", 0), "one scallop or more"),
        ((100, 80, 5, "points", 1, ()), "two or more"),
        ((100, 80, 5, "points", 1, ((0, 0), (0.5, 1))), "from x = 0 to x = 1"),
        ((100, 80, 5, "points", 1, ((0, 0), (0, 0.5), (1, 1))), "must rise"),
        ((100, 80, 5, "points", 1, ((0, 0), (1, 1.5))), "from 0 to 1"),
        ((100, 80, 5, "points", 1, ((0, math.nan), (1, 1))), "finite points"),
    ],
)
def test_the_impossible_is_refused(arguments, says):
    with pytest.raises(ValueError, match=says):
        LowerEdge(*arguments)


def test_places_steps_and_tolerances_that_are_none():
    edge = LowerEdge(100, 80, 5, "vee")
    for call in (
        lambda: edge.y(math.nan),
        lambda: edge.length_mm(0),
        lambda: trim_offsets(edge, 0),
        lambda: trim_places(edge, 0),
        lambda: circle_radius(0, 1),
    ):
        with pytest.raises(ValueError, match=r"above 0|finite"):
            call()
