"""Every knot of the catalogue, tested by being there: its curves say what it does."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from knotplot.drawing.weave import crossings
from knotplot.knots import catalogue, form, knot
from knotplot.knots.base import Manner

MOST = 9  # strands of a knot, here: those with more are alike
HITCHES = [name for name in catalogue() if name.endswith("half_hitch")]
FLAT = ("half_knot", "overhand", "square_knot")


def manners(name: str) -> list[Manner]:
    """Return manners in which a knot is tied, some of each kind it allows."""
    tied = knot(name)
    if name in HITCHES:
        slant = math.sqrt(0.5)
        upright = name.startswith("vertical_")
        angles = [(1.0, 0.0)] if upright else [(1.0, 0.0), (slant, slant), (0.5, math.sqrt(0.75))]
        return [Manner(2, leader=lead, cos=c, sin=s) for c, s in angles for lead in (0, 1)]
    counts = range(tied.least, min(tied.most or MOST, MOST) + 1)
    facings = ("left", "right") if tied.faces else (None,)
    return [
        Manner(count, facing, workers, reach=3.0)
        for count in counts
        for facing in facings
        for workers in ((1, 2) if tied.faces else (1,))
        if tied.fault(count, workers) is None
    ]


CASES = [(name, manner) for name in catalogue() for manner in manners(name)]


@pytest.mark.parametrize(("name", "manner"), CASES)
def test_curves_join_and_stay_between_their_ports(name: str, manner: Manner) -> None:
    made = form(name, manner)
    assert len(made.paths) == manner.strands
    for path in made.paths:
        for one, two in pairwise(path):
            assert one[9:] == pytest.approx(two[:3])
        assert all(math.isfinite(value) for cubic in path for value in cubic)
    if name not in HITCHES and not name.endswith("larks_head"):
        for path in made.paths:
            assert path[0][1] == pytest.approx(-made.height / 2.0)
            assert path[-1][10] == pytest.approx(made.height / 2.0)
            assert abs(path[0][0]) + 0.5 <= made.half_width + 1e-9


@pytest.mark.parametrize(("name", "manner"), CASES)
def test_roles_and_cord_agree(name: str, manner: Manner) -> None:
    roles = knot(name).roles(manner)
    use = knot(name).cord(manner)
    assert len(roles) == manner.strands
    assert set(roles) <= set(use.by_role)
    assert all(taken > 0.0 for taken in use.by_role.values())


@pytest.mark.parametrize("name", FLAT)
@pytest.mark.parametrize("strands", range(2, 10))
@pytest.mark.parametrize("workers", [1, 2])
def test_order_is_what_the_trade_says(name: str, strands: int, workers: int) -> None:
    """Dillmont 516, 531 [CHECK_VALUES 1]: after one crossing the outers have swapped sides; after
    two each is home; fillers never move."""
    tied = knot(name)
    if tied.fault(strands, workers):
        assert workers == 2
        assert strands < 4 or not tied.faces
        return
    order = tied.order(Manner(strands, "left", workers))
    home = tuple(range(strands))
    if name != "half_knot":
        assert order == home
        return
    pair = home[:workers], home[workers : strands - workers], home[strands - workers :]
    assert order == (*pair[2], *pair[1], *pair[0])


@pytest.mark.parametrize(("name", "manner"), [case for case in CASES if case[0] in HITCHES])
def test_a_hitch_swaps_leader_and_knotting_strand(name: str, manner: Manner) -> None:
    assert knot(name).order(manner) == (1, 0)


def sign_sum(name: str, manner: Manner, one: int, two: int) -> int:
    """Return the sum of signs of the crossings between two strands of a knot."""
    paths = form(name, manner).paths
    total = 0
    for c in crossings([paths[one], paths[two]]):
        if c.over == c.under:
            continue
        over, under = (one, two) if c.over == 0 else (two, one)
        ox, oy = _direction(paths[over], c.over_at)
        ux, uy = _direction(paths[under], c.under_at)
        total += 1 if ox * uy - oy * ux > 0 else -1
    return total


def _direction(path: tuple[tuple[float, ...], ...], at: float) -> tuple[float, float]:
    k = min(int(at), len(path) - 1)
    t, cubic, step = at - k, path[k], 1e-4

    def point(u: float) -> tuple[float, float]:
        s = 1.0 - u
        w = (s**3, 3 * s * s * u, 3 * s * u * u, u**3)
        return (
            sum(w[i] * cubic[3 * i] for i in range(4)),
            sum(w[i] * cubic[3 * i + 1] for i in range(4)),
        )

    (x0, y0), (x1, y1) = point(t - step), point(t + step)
    return x1 - x0, y1 - y0


@pytest.mark.parametrize("strands", [2, 3, 4, 6])
@pytest.mark.parametrize("facing", ["left", "right"])
def test_a_square_knot_is_a_reef_and_no_granny(strands: int, facing: str) -> None:
    """Closing each cord on itself, a reef is unlinked, a granny is T(2,6) with |lk| = 3.

    Source: CHECK_VALUES 3 [R, C] (reef linking number 0; granny |lk| = 3).
    """
    assert sign_sum("square_knot", Manner(strands, facing), 0, strands - 1) == 0
    half = sign_sum("half_knot", Manner(strands, facing), 0, strands - 1)
    assert abs(half) == 3
    granny = half + sign_sum("half_knot", Manner(strands, facing), 0, strands - 1)
    assert abs(granny) // 2 == 3


@pytest.mark.parametrize(
    ("name", "turns"), [("half_hitch", 1), ("double_half_hitch", 2), ("triple_half_hitch", 3)]
)
@pytest.mark.parametrize("leader", [0, 1])
def test_a_hitch_winds_its_turns_round_the_leader(name: str, turns: int, leader: int) -> None:
    """Each turn crosses the leader twice with one sign; the strand then passes it once more."""
    slant = math.sqrt(0.5)
    manner = Manner(2, leader=leader, cos=slant, sin=slant)
    assert abs(sign_sum(name, manner, 0, 1)) == 2 * turns + 1


def test_an_overhand_is_a_trefoil_by_its_crossings() -> None:
    """Three crossings that alternate and have one sign: the trefoil (CHECK_VALUES 3)."""
    path = form("overhand", Manner(1)).paths[0]
    found = crossings([path])
    assert len(found) == 3
    events = sorted([(c.over_at, "over") for c in found] + [(c.under_at, "under") for c in found])
    kinds = [kind for _, kind in events]
    assert kinds in (["over", "under"] * 3, ["under", "over"] * 3)
    signs = set()
    for c in found:
        (ox, oy), (ux, uy) = _direction(path, c.over_at), _direction(path, c.under_at)
        signs.add(ox * uy - oy * ux > 0)
    assert len(signs) == 1


def test_a_hitch_takes_a_coil_for_each_turn_and_its_way_over() -> None:
    """A cord coiled round a straight equal one: 6.3643 diameters a turn (CHECK_VALUES 2 [C]).

    Every turn but the first is reached over the others' ends, and the strand goes past the leader.
    """
    for turns, name in enumerate(("half_hitch", "double_half_hitch", "triple_half_hitch"), 1):
        use = knot(name).cord(Manner(2, leader=0)).by_role
        assert 6.3643 * turns < use["knotting"] < 10.0 * turns
