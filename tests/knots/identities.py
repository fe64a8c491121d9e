"""What each knot of the catalogue must be: a check of its curves, by knot, in `IDENTITIES`.

A check takes a form, the manner in which it is tied, and `hand`: -1 for the mirror of a knot that
neither faces nor leads. It fails where the curves are another knot.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import combinations

import pytest
from closings import Join, backwards, by_lanes, polyline, ringed
from crowns import OPPOSITE, of_words
from diagrams import Loop, passes
from invariants import Identity, identity, is_trefoil, is_unknot, is_unlink, linking
from test_catalogue import HITCHES

from knotplot.curves.space import SpaceCurve
from knotplot.knots.base import Form, Manner

# CHECK_VALUES 3 [R, C]: both trefoils in one, (t² − t + 1)² and determinant 9 for reef and granny;
# only the signature tells them apart.
TWO_TREFOILS = (1, -2, 3, -2, 1)
REEF = Identity(1, (), 9, 0, TWO_TREFOILS)

Check = Callable[[Form, Manner, int], None]


def capped(left: SpaceCurve, right: SpaceCurve, *fillers: SpaceCurve) -> list[Loop]:
    """Return two strands joined above, in front, and below, behind; each filler on itself."""
    joins = [Join((0, 0), (1, 0), True, 3.0), Join((0, 1), (1, 1), False, -3.0)]
    joins += [Join((i + 2, 0), (i + 2, 1)) for i in range(len(fillers))]
    return ringed([left, right, *fillers], joins)


def sides(made: Form, manner: Manner) -> list[tuple[SpaceCurve, SpaceCurve]]:
    """Return every pair of a working strand of the left and one of the right."""
    w = manner.workers
    return [(a, b) for a in made.paths[:w] for b in made.paths[len(made.paths) - w :]]


def fillers(made: Form, manner: Manner) -> tuple[SpaceCurve, ...]:
    return made.paths[manner.workers : len(made.paths) - manner.workers]


def a_reef(made: Form, manner: Manner, _hand: int) -> None:
    """Two trefoils of opposite hands; each strand closed on itself, nothing is left."""
    home = range(manner.strands)
    assert {n for row in linking(by_lanes(made.paths, home)) for n in row} == {0}
    assert is_unlink(by_lanes(made.paths, home))
    for left, right in sides(made, manner):
        assert identity(capped(left, right)) == REEF
        for filler in fillers(made, manner):
            # A filler between bars links the whole: 2 · 25; beside the knot it would be a ring
            # about its joined ends, 2 · 9 [computed].
            assert identity(capped(left, right, filler)).determinant == 50
    faces(made, manner)


def faces(made: Form, manner: Manner) -> None:
    """Facing left, the left working strands lie over all fillers, the right ones under (531)."""
    front = manner.facing == "left"
    for left, right in sides(made, manner):
        for filler in fillers(made, manner):
            assert set(passes(polyline(left), polyline(filler))) == {front}
            assert set(passes(polyline(right), polyline(filler))) == {not front}


def a_half_knot(made: Form, manner: Manner, _hand: int) -> None:
    """A trefoil, its ends joined above and below: left-handed where it faces left."""
    lefty = 1 if manner.facing == "left" else -1
    for left, right in sides(made, manner):
        loop = capped(left, right)
        assert is_trefoil(loop[0])
        assert identity(loop).signature == 2 * lefty
        assert all(is_unknot(each) for each in by_lanes([left, right], (1, 0)))
        for filler in fillers(made, manner):
            joins = [Join((0, 0), (1, 0), True, 3.0), Join((0, 1), (1, 1), False, 3.0)]
            about = ringed([left, right, filler], [*joins, Join((2, 0), (2, 1))])
            assert abs(linking(about)[0][1]) == 1  # beside the bars: 0 or 2
    faces(made, manner)


def trefoils(made: Form, _manner: Manner, hand: int) -> None:
    """Each strand a trefoil, determinant 3, |signature| 2 (CHECK_VALUES 3); all parallel."""
    for path in made.paths:
        loop = by_lanes([path], (0,))
        assert is_trefoil(loop[0])
        assert identity(loop).signature == 2 * hand
    for pair in combinations(made.paths, 2):
        # Parallel in the plane: as often linked as the three crossings say, whichever two.
        assert linking(by_lanes(pair, (0, 1)))[0][1] == -3 * hand


def wrapped(made: Form, manner: Manner, hand: int) -> None:
    """The wrap winds as often as it is diameters high, and holds every strand, not itself."""
    assert made.wrap is not None
    turns = max(1, math.floor(2.0 * manner.reach))
    wrap = polyline(made.wrap)
    back = min(z for _, _, z in wrap) - 2.0
    wrap += [(wrap[-1][0], wrap[-1][1], back), (wrap[0][0], wrap[0][1], back)]
    assert is_unknot(wrap)
    for path in made.paths:
        (strand,) = by_lanes([path], (0,), room=2.0 * made.half_width)
        # A coil about a straight strand is T(2, 2·turns): determinant 2·turns [closed form].
        found = identity([wrap, strand])
        assert found.linking == (-turns * hand,)
        assert found.determinant == 2 * turns
    assert is_unlink(by_lanes(made.paths, range(manner.strands)))


# The trade knows: pulled straight, half a knot is a half hitch, a granny two half hitches. So a
# double half hitch has a granny's invariants (CHECK_VALUES 3: determinants 9 and 6, |lk| 3,
# signature ±4); those of three turns are [computed].
HITCHED = {
    1: (Identity(1, (), 1, 0, (1,)), Identity(1, (), 3, 2, (1, -1, 1)), (2, 4)),
    2: (Identity(1, (), 9, -4, TWO_TREFOILS), Identity(1, (), 3, 2, (1, -1, 1)), (3, 6)),
    3: (Identity(1, (), 9, -4, TWO_TREFOILS), Identity(1, (), 15, 2, (4, -7, 4)), (4, 24)),
}


def a_hitch(turns: int, made: Form, manner: Manner, hand: int) -> None:
    """`turns` round the leader, and caught between them: a coil would fall off."""
    leads_left = manner.leader == 1
    lead, knot = made.paths if manner.leader == 0 else (made.leader or made.rod, made.paths[0])
    if leads_left:
        knot, lead = made.paths
        hand = -hand
    assert lead is not None
    near, far, (linked, determinant) = HITCHED[turns]
    ends = [Join((0, 0), (1, 0), not leads_left), Join((0, 1), (1, 1), not leads_left)]
    assert identity(ringed([lead, knot], ends)) == handed(near, hand)
    ends = [Join((0, 0), (1, 1), leads_left), Join((0, 1), (1, 0), leads_left)]
    assert identity(ringed([lead, knot], ends)) == handed(far, hand)
    for depth, times in ((3.0, turns), (-3.0, linked)):
        # The leader joined in front of the hitch takes the last pass away.
        ends = [Join((0, 0), (0, 1), not leads_left, depth), Join((1, 0), (1, 1), not leads_left)]
        loops = ringed([lead, knot], ends)
        assert linking(loops)[0][1] == -times * hand
    assert identity(loops).determinant == determinant
    assert is_unknot(loops[1])


def handed(right: Identity, hand: int) -> Identity:
    return right._replace(signature=right.signature * hand)


def a_bight(front: bool, made: Form, _manner: Manner, _hand: int) -> None:
    """A reef of cord and rod: the trade knows that a square knot, one cord pulled straight, is a
    lark's head. With its ends joined it comes off the rod without cutting, as a luggage tag."""
    assert made.rod is not None
    left, right = made.paths
    assert left[0][:3] == pytest.approx(right[0][:3])
    cord = backwards(left) + right
    own = ringed([made.rod, cord], [Join((1, 0), (1, 1), False), Join((0, 0), (0, 1))])
    assert linking(own)[0][1] == 0
    assert is_unlink(own)
    ends = ringed([made.rod, cord], [Join((1, 0), (0, 0)), Join((1, 1), (0, 1), False)])
    assert identity(ends) == REEF
    for strand in (left, right):  # once round the rod, each
        assert sorted(passes(polyline(strand), polyline(made.rod))) == [False, True]
    # The bar of the bight lies over both strands, or under both in the reverse.
    assert (left[0][2] > 0.0) == front
    half = len(cord) // 2
    bar, stems = polyline(cord[half - 2 : half + 2]), (cord[: half - 3], cord[half + 3 :])
    for stem in stems:
        assert set(passes(bar, polyline(stem))) == {front}


# CHECK_VALUES 3 [R]: the carrick mat is 8_18, determinant 45, signature 0; polynomial from memory.
CARRICK = Identity(1, (), 45, 0, (1, -5, 10, -13, 10, -5, 1))


def a_josephine(made: Form, manner: Manner, _hand: int) -> None:
    """Each strand of one side joined to one of the other: the carrick mat, 8_18.

    Over and under in turn; facing left, the left loop is laid over the right strands first.
    """
    each = manner.strands // 2
    left, right = made.paths[:each], made.paths[each:]
    for one, other in zip(left, right, strict=True):
        assert identity(capped(one, other)) == CARRICK
        met = passes(polyline(other), polyline(one))
        assert len(met) == 6
        assert met[0] == (manner.facing == "right")
    for bundle in (left, right):
        for pair in combinations(bundle, 2):  # side by side, round one loop
            assert abs(linking(by_lanes(pair, (0, 1)))[0][1]) == 1
    assert all(is_unknot(each) for each in by_lanes(made.paths, range(manner.strands)))


def a_larks_head_on_strands(made: Form, manner: Manner, _hand: int) -> None:
    """A reef of its working strand and each filler: a lark's head about it (as `a_bight`)."""
    left = manner.facing == "left"
    worker = made.paths[0 if left else -1]
    for filler in made.paths[1:] if left else made.paths[:-1]:
        pair = [filler, worker]
        own = ringed(pair, [Join((1, 0), (1, 1), not left), Join((0, 0), (0, 1), left)])
        assert linking(own)[0][1] == 0
        assert is_unlink(own)
        assert identity(capped(worker, filler)) == REEF
        # In front first, round behind, behind again, and back in front.
        assert passes(polyline(worker), polyline(filler)) == (True, False, False, True)


def a_chain(made: Form, manner: Manner, _hand: int) -> None:
    """Two half hitches, the second the mirror of the first: pulled flat, the halves of a reef."""
    left, right = made.paths
    assert identity(capped(left, right)) == REEF
    assert is_unlink(by_lanes(made.paths, (0, 1)))
    first, second = (right, left) if manner.facing == "right" else (left, right)
    # Each goes before the other and out behind it, above: the first one, then the second.
    assert passes(polyline(first), polyline(second)) == (True, False, True, False)


def a_berry(made: Form, manner: Manner, _hand: int) -> None:
    """Its working strands tie four reefs; its fillers go through between themselves, on top."""
    left, one, two, right = made.paths
    found = identity(capped(left, right))
    assert (found.determinant, found.signature) == (REEF.determinant**4, 0)
    assert linking(by_lanes([left, right], (0, 1)))[0][1] == 0
    assert is_unlink(by_lanes([one, two], (0, 1)))
    # What encloses the gap above the first knot: the fillers from their ports to where they meet.
    gap = polyline(one[:3]) + polyline(two[:3])[::-1]
    for filler in (one, two):
        assert is_unknot(by_lanes([filler], (0,))[0])
        rest = polyline(filler[4:])
        (_, top, _), (_, low, _) = rest[0], rest[-1]
        rest += [(9.0, low + 2.0, 7.0), (9.0, top + 0.3, 7.0)]  # joined far in front
        assert abs(linking([gap, rest])[0][1]) == 1
    front = manner.facing == "left"  # as its square knots: the first bar is that side's
    assert passes(polyline(one[:4]), polyline(left[:12]))[0] != front


def a_crown(made: Form, manner: Manner, _hand: int) -> None:
    """Closed by lanes, what the words of a crown give as curves (`crowns.py`) [computed]."""
    assert identity(by_lanes(made.paths, OPPOSITE)) == of_words((manner.facing,))
    assert all(is_unknot(ringed([path], [Join((0, 0), (0, 1))])[0]) for path in made.paths)


def a_switched_knot(made: Form, manner: Manner, _hand: int) -> None:
    """The inner strands come out before the outer ones, and tie a reef about them."""
    one, two, three, four = made.paths
    for worker, filler in ((two, one), (three, four)):
        assert passes(polyline(worker[:2]), polyline(filler[:2])) == (True,)
    assert identity(capped(two, three)) == REEF
    a_reef(replace(made, paths=(two[2:], one[2:], four[2:], three[2:])), manner, 1)


IDENTITIES: dict[str, Check] = {
    "crown_knot": a_crown,
    "switched_square_knot": a_switched_knot,
    "berry_knot": a_berry,
    "half_hitch_chain": a_chain,
    "vertical_larks_head": a_larks_head_on_strands,
    "josephine_knot": a_josephine,
    "square_knot": a_reef,
    "half_knot": a_half_knot,
    "overhand": trefoils,
    "gathering_knot": wrapped,
    "larks_head": partial(a_bight, True),
    "reverse_larks_head": partial(a_bight, False),
    **{
        name: partial(a_hitch, {"half": 1, "double": 2, "triple": 3}[kind.split("_")[0]])
        for name in HITCHES
        for kind in [name.removeprefix("vertical_")]
    },
}
