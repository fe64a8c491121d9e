"""Every knot's curves are the knot its name says: its loose ends joined, by invariants.

Every knot of the catalogue in every manner, both hands, tied and half tied; then curves that are
wrong, to see that they are found out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from closings import Join, backwards, by_lanes, ringed
from crowns import of_words
from diagrams import NotGenericError
from identities import (
    IDENTITIES,
    TWO_TREFOILS,
    Check,
    a_bight,
    a_half_knot,
    a_hitch,
    a_reef,
    capped,
    faces,
    sides,
    trefoils,
    wrapped,
)
from invariants import Identity, identity, is_trefoil
from test_catalogue import CASES, HITCHES

from knotplot.curves.space import Point3, SpaceCurve, mapped, mirrored, smooth
from knotplot.knots import catalogue, form
from knotplot.knots.base import Form, Manner

DOWN: Point3 = (0.0, 1.0, 0.0)
FLAT = ("half_knot", "square_knot")
OTHERS = [
    *((name, Manner(1, leader=-1, rod=rod)) for name in HITCHES[:3] for rod in (1.0, 5.0)),
    *(("gathering_knot", Manner(3, reach=reach)) for reach in (0.6, 1.0, 2.5, 7.0)),
    *((name, Manner(2, reach=4.0)) for name in ("larks_head", "reverse_larks_head")),
    *(("square_knot", Manner(4, facing, tall=1.2)) for facing in ("left", "right")),
    *((name, Manner(n, "left", w)) for name in FLAT for n in (10, 12) for w in (1, 2)),
    ("overhand", Manner(24)),
]


def test_every_knot_has_an_identity() -> None:
    """A knot added to the catalogue says here what its curves must be."""
    assert set(IDENTITIES) == set(catalogue())


@pytest.mark.parametrize(("name", "manner"), [*CASES, *OTHERS])
def test_a_knot_is_what_its_name_says(name: str, manner: Manner) -> None:
    IDENTITIES[name](form(name, manner), manner, 1)


@pytest.mark.parametrize(("name", "manner"), CASES)
def test_a_left_handed_knot_is_its_mirror(name: str, manner: Manner) -> None:
    """Facing and leader change over with left and right; what has neither changes its hand."""
    other, made = seen_in_a_mirror(form(name, manner), manner)
    IDENTITIES[name](made, other, -1 if other == manner else 1)


@pytest.mark.parametrize(("name", "manner"), [c for c in CASES if c[1].workers == 1])
def test_it_is_the_same_knot_while_it_is_tied(name: str, manner: Manner) -> None:
    """Loose shapes, from which the how-to is drawn, are the knot too: its ends joined across."""
    tied = catalogue()[name]
    for stage in range(len(tied.stages(manner))):
        made = tied.shape(manner, stage)
        if name in FLAT:
            ((left, right),) = sides(made, manner)
            whole = form(name, manner).paths
            assert identity(capped(left, right)) == identity(capped(whole[0], whole[-1]))
            faces(made, manner)
        elif name == "overhand":
            ends = ([Join((0, 0), (0, 1))] for _ in made.paths)
            loops = [ringed([p], join)[0] for p, join in zip(made.paths, ends, strict=True)]
            assert all(is_trefoil(loop) for loop in loops)
        elif name != "gathering_knot":  # while it is tied, its wrap has a loop that is pulled in
            IDENTITIES[name](made, manner, 1)


def seen_in_a_mirror(made: Form, manner: Manner) -> tuple[Manner, Form]:
    changed = {"left": "right", "right": "left", None: None}
    leader = 1 - manner.leader if manner.leader in (0, 1) else manner.leader
    flipped = replace(
        made,
        paths=tuple(mirrored(path) for path in reversed(made.paths)),
        wrap=made.wrap and mirrored(made.wrap),
        rod=made.rod and backwards(mirrored(made.rod)),
    )
    return manner._replace(facing=changed[manner.facing], leader=leader), flipped


# ---- Two half knots make a square knot or a granny ----


def stacked(first: str, second: str, strands: int) -> Form:
    """Return two half knots, one below the other: who leaves in a lane enters the next there."""
    one, two = form("half_knot", Manner(strands, first)), form("half_knot", Manner(strands, second))
    order = catalogue()["half_knot"].order(Manner(strands, first))
    low = [mapped(path, lambda x, y, z: (x, y + one.height, z)) for path in two.paths]
    lane = {who: i for i, who in enumerate(order)}
    return replace(one, paths=tuple(path + low[lane[i]] for i, path in enumerate(one.paths)))


@pytest.mark.parametrize("strands", [2, 3, 6])
@pytest.mark.parametrize(("first", "second"), [("left", "right"), ("right", "left")])
def test_half_knots_of_both_hands_are_a_square_knot(strands: int, first: str, second: str) -> None:
    a_reef(stacked(first, second, strands), Manner(strands, first), 1)


@pytest.mark.parametrize("strands", [2, 3, 6])
@pytest.mark.parametrize(("facing", "hand"), [("left", 1), ("right", -1)])
def test_half_knots_of_one_hand_are_a_granny(strands: int, facing: str, hand: int) -> None:
    """Signature ±4; each cord closed on itself |lk| = 3, determinant 6 (CHECK_VALUES 3 [R, C])."""
    paths = stacked(facing, facing, strands).paths
    left, right = paths[0], paths[-1]
    assert identity(capped(left, right)) == Identity(1, (), 9, 4 * hand, TWO_TREFOILS)
    found = identity(by_lanes([left, right], (0, 1)))
    assert (found.linking, found.determinant) in (((3,), 6), ((-3,), 6))
    with pytest.raises(AssertionError):
        a_reef(stacked(facing, facing, strands), Manner(strands, facing), 1)


# ---- Crowns one below another ----


def crowns(facings: tuple[str, ...]) -> tuple[list[SpaceCurve], list[int]]:
    """Return the strands of crown knots one below another, and who leaves in each lane."""
    lines: list[SpaceCurve] = [() for _ in range(4)]
    lane = list(range(4))
    for n, facing in enumerate(facings):
        manner = Manner(4, facing)
        made, order = form("crown_knot", manner), catalogue()["crown_knot"].order(manner)
        for k in range(4):
            low = n * made.height
            lines[k] += mapped(made.paths[lane[k]], lambda x, y, z, low=low: (x, y + low, z))
        lane = [order.index(at) for at in lane]
    return lines, [lane.index(at) for at in range(4)]


@pytest.mark.parametrize(
    "facings",
    [("left", "left"), ("right", "right"), ("left", "right"), ("right", "left"), ("left",) * 3,
     ("left", "right", "left")],
)  # fmt: skip
def test_crowns_below_each_other_are_what_their_words_give(facings: tuple[str, ...]) -> None:
    strands, order = crowns(facings)
    assert identity(by_lanes(strands, order)) == of_words(facings)


def test_crowns_of_one_hand_twist_and_of_both_hands_do_not() -> None:
    """Reversed at every layer, the section is square, always the same way it is round (The Boy
    Mechanic, vol. 1, 1913 [CHECK_VALUES 1]): opposite strands stay side by side, or wind round
    each other. Determinants and signatures [computed], of curves built from the words alone."""
    two, both = (identity(by_lanes(*crowns(f))) for f in (("left",) * 2, ("left", "right")))
    assert sorted(map(abs, two.linking)) == [1] * 6
    assert (two.determinant, abs(two.signature)) == (384, 3)
    assert set(both.linking) == {0}
    assert (both.determinant, both.signature) == (0, 0)
    other = identity(by_lanes(*crowns(("right",) * 2)))
    assert other.signature == -two.signature
    three = [identity(by_lanes(*crowns(f))) for f in (("left",) * 3, ("left", "right", "left"))]
    assert [each.determinant for each in three] == [13068, 900]


# ---- Curves that are wrong are found out ----


def test_a_crown_that_misses_its_last_loop_is_found_out() -> None:
    """The last strand over the first as well, not through its loop."""
    manner = Manner(4, "left")
    made = form("crown_knot", manner)
    over = bent(made.paths[3], lambda p: (p[0], p[1] + (1.0 if abs(p[1]) < 0.7 else 0.0), p[2]))
    with pytest.raises((AssertionError, NotGenericError)):
        IDENTITIES["crown_knot"](replace(made, paths=(*made.paths[:3], over)), manner, 1)
    with pytest.raises(AssertionError):
        IDENTITIES["crown_knot"](made, Manner(4, "right"), 1)


def bent(path: SpaceCurve, move: Callable[[Point3], Point3]) -> SpaceCurve:
    """Return a curve with every control point moved by a map that need not be affine."""
    return tuple(
        tuple(value for k in (0, 3, 6, 9) for value in move((cubic[k], cubic[k + 1], cubic[k + 2])))
        for cubic in path
    )


def flipped_below(point: Point3) -> Point3:
    x, y, z = point
    return (x, y, -z if y > 0.0 else z)


@pytest.mark.parametrize("strands", [2, 3, 4])
def test_a_granny_called_a_square_knot_is_found_out(strands: int) -> None:
    manner = Manner(strands, "left")
    made = form("square_knot", manner)
    swapped = tuple(bent(path, flipped_below) for path in made.paths)
    with pytest.raises(AssertionError):
        a_reef(replace(made, paths=swapped), manner, 1)


@pytest.mark.parametrize("depth", [-4.0, 4.0])
@pytest.mark.parametrize(("name", "check"), [("square_knot", a_reef), ("half_knot", a_half_knot)])
def test_a_filler_that_is_left_out_is_found_out(name: str, check: Check, depth: float) -> None:
    manner = Manner(3, "left")
    made = form(name, manner)
    left, filler, right = made.paths
    beside = mapped(filler, lambda x, y, z: (x, y, z + depth))
    with pytest.raises(AssertionError):
        check(replace(made, paths=(left, beside, right)), manner, 1)


def test_a_knot_that_faces_the_other_way_is_found_out() -> None:
    for name in ("square_knot", "half_knot"):
        with pytest.raises(AssertionError):
            IDENTITIES[name](form(name, Manner(4, "left")), Manner(4, "right"), 1)


def test_an_overhand_that_is_none_is_found_out() -> None:
    made = form("overhand", Manner(1))
    steps = iter(range(10**6))
    always_above = bent(made.paths[0], lambda p: (p[0], p[1], next(steps) / 20.0))
    with pytest.raises(AssertionError):
        trefoils(replace(made, paths=(always_above,)), Manner(1), 1)
    with pytest.raises(AssertionError):
        trefoils(replace(made, paths=(mirrored(made.paths[0]),)), Manner(1), 1)


def test_strands_of_a_bundle_that_change_places_are_found_out() -> None:
    made = form("overhand", Manner(3))
    aside = [mapped(made.paths[1], lambda x, y, z, s=s: (x + s, y, z)) for s in (-2.2, 0.0, 2.2)]
    with pytest.raises((AssertionError, NotGenericError)):
        trefoils(replace(made, paths=tuple(aside)), Manner(3), 1)


def test_a_coil_called_a_hitch_is_found_out() -> None:
    manner = Manner(2, leader=0)
    lead, _ = form("double_half_hitch", manner).paths
    coil: list[Point3] = [(-0.6, -1.1, 0.0), (-0.6, 0.0, -1.0)]
    for x in (-0.5, 0.5):
        coil += [(x - 0.1, 0.82, 0.0), (x, 0.0, 1.0), (x + 0.1, -0.82, 0.0), (x + 0.4, 0.0, -1.0)]
    path = smooth([*coil, (0.9, 1.1, 0.0)], DOWN, DOWN)
    with pytest.raises(AssertionError):
        a_hitch(2, Form((lead, path), 2.2, 1.6), manner, 1)
    with pytest.raises(AssertionError):
        a_hitch(2, form("half_hitch", manner), manner, 1)


def test_a_larks_head_wound_one_way_is_found_out() -> None:
    """A clove hitch is what it becomes if one side of the bight goes round the other way."""
    made = form("larks_head", Manner(2, reach=3.0))
    left, right = made.paths
    other = bent(right, lambda p: (p[0], p[1], -p[2]))
    other = ((*left[0][:3], *other[0][3:]), *other[1:])
    with pytest.raises(AssertionError):
        a_bight(True, replace(made, paths=(left, other)), Manner(2, reach=3.0), 1)
    with pytest.raises(AssertionError):
        a_bight(False, made, Manner(2, reach=3.0), 1)


def test_a_wrap_of_too_few_turns_is_found_out() -> None:
    with pytest.raises(AssertionError):
        wrapped(form("gathering_knot", Manner(3, reach=2.0)), Manner(3, reach=3.0), 1)
