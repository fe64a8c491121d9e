"""The machinery that tells knots apart knows knots and links made from braids and formulas."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from closings import by_lanes
from database_knotinfo import link_list
from diagrams import Loop
from invariants import Identity, identity, is_trefoil, is_unknot, is_unlink, of_code

from knotplot.curves.space import Point3, smooth

TWO_TREFOILS = (1, -2, 3, -2, 1)  # (t² − t + 1)² (CHECK_VALUES 3)
DOWN: Point3 = (0.0, 1.0, 0.0)


def braid(word: Sequence[int], strands: int) -> list[Loop]:
    """Return a closed braid: +i where the strand in lane i passes over the one to its right."""
    lanes = list(range(strands))
    points: list[list[Point3]] = [[(2.0 * i, 0.0, 0.0)] for i in range(strands)]
    for row, crossing in enumerate(word):
        left, y = abs(crossing) - 1, 2.0 * row
        over = 1.0 if crossing > 0 else -1.0
        a, b = lanes[left], lanes[left + 1]
        points[a] += [(2.0 * left + 1.0, y + 1.0, over), (2.0 * left + 2.0, y + 2.0, 0.0)]
        points[b] += [(2.0 * left + 1.0, y + 1.0, -over), (2.0 * left, y + 2.0, 0.0)]
        lanes[left], lanes[left + 1] = b, a
    low = 2.0 * len(word) + 1.0
    for lane, who in enumerate(lanes):
        points[who].append((2.0 * lane, low, 0.0))
    return by_lanes([smooth(line, DOWN, DOWN) for line in points], lanes)


KNOWN = [
    # Trefoil: determinant 3, |signature| 2 (CHECK_VALUES 3); right-handed -2 by our convention.
    ("trefoil, left-handed", [1, 1, 1], 2, Identity(1, (), 3, 2, (1, -1, 1))),
    ("trefoil, right-handed", [-1, -1, -1], 2, Identity(1, (), 3, -2, (1, -1, 1))),
    ("figure eight", [1, -2, 1, -2], 3, Identity(1, (), 5, 0, (1, -3, 1))),  # KnotInfo 4_1
    ("Hopf link", [1, 1], 2, Identity(2, (-1,), 2, 1, (1, -1))),  # from memory
    ("Hopf link, other hand", [-1, -1], 2, Identity(2, (1,), 2, -1, (1, -1))),
    # A granny, each cord closed on itself: |lk| = 3, determinant 6 (CHECK_VALUES 3 [R, C]).
    ("T(2,6)", [1] * 6, 2, Identity(2, (-3,), 6, 5, (1, -1, 1, -1, 1, -1))),
    # Carrick mat 8_18 (CHECK_VALUES 3 [R]): determinant 45, signature 0; polynomial of KnotInfo.
    ("8_18", [1, -2] * 4, 3, Identity(1, (), 45, 0, (1, -5, 10, -13, 10, -5, 1))),
    ("unlink", [1, -1, 1, -1], 2, Identity(2, (0,), 0, 0, ())),
    ("two apart", [], 2, Identity(2, (0,), 0, 0, ())),
    ("trefoil and a ring apart", [1, 1, 1], 3, Identity(2, (0,), 0, 2, ())),
    ("reef", [1, 1, 1, -2, -2, -2], 3, Identity(1, (), 9, 0, TWO_TREFOILS)),
    ("granny", [1, 1, 1, 2, 2, 2], 3, Identity(1, (), 9, 4, TWO_TREFOILS)),
]


@pytest.mark.parametrize(("name", "word", "strands", "known"), KNOWN)
def test_known_knots_are_known(name: str, word: list[int], strands: int, known: Identity) -> None:
    assert identity(braid(word, strands)) == known, name


@pytest.mark.parametrize(("bights", "determinant"), [(2, 5), (3, 16), (4, 45), (5, 121)])
def test_turks_heads_of_three_leads(bights: int, determinant: int) -> None:
    """Lucas(2q) − 2, and gcd(3, q) components (CHECK_VALUES 3 [C], [R])."""
    found = identity(braid([1, -2] * bights, 3))
    assert found.determinant == determinant
    assert found.loops == math.gcd(3, bights)


def test_a_turks_head_drawn_by_its_formula() -> None:
    """r = 2 + cos(4t/3), z = sin(8t/3), three times round: 8_18 (CHECK_VALUES 3 [R])."""
    turns = [6.0 * math.pi * i / 360.0 for i in range(360)]
    rims = [2.0 + math.cos(4.0 * t / 3.0) for t in turns]
    loop = [
        (r * math.cos(t), -r * math.sin(t), math.sin(8.0 * t / 3.0))
        for t, r in zip(turns, rims, strict=True)
    ]
    assert identity([loop]) == identity(braid([1, -2] * 4, 3))


def test_knots_of_the_tables_are_found_as_tabled() -> None:
    """Determinant, |signature| and Alexander polynomial of every knot of up to 8 crossings, as
    KnotInfo (its package `database_knotinfo`) has them."""
    rows = [row for row in link_list()[2:] if row["crossing_number"] in tuple("345678")]
    assert len(rows) == 35  # from memory: knots of 3 to 8 crossings
    for row in rows:
        numbers = [int(part) for part in row["pd_notation"].replace(";", ",").translate(
            str.maketrans("", "", "[] ")).split(",")]  # fmt: skip
        found = of_code(tuple(zip(*[iter(numbers)] * 4, strict=True)))
        assert found.determinant == int(row["determinant"])
        assert abs(found.signature) == abs(int(row["signature"]))
        tabled = [int(part) for part in row["alexander_polynomial_vector"].strip("{}[]").split(",")]
        assert list(found.alexander) in (tabled[2:], [-c for c in tabled[2:]])


def test_proofs_tell_knots_from_unknots() -> None:
    assert is_unknot(braid([1, -2], 3)[0])
    assert is_trefoil(braid([1, 1, 1], 2)[0])
    assert not is_unknot(braid([1, 1, 1], 2)[0])
    assert not is_trefoil(braid([1, -2, 1, -2], 3)[0])
    assert is_unlink(braid([1, 2, -2, -1, 1, -1], 3))
    # Borromean rings: no two are linked, all three are (from memory).
    assert not is_unlink(braid([1, -2] * 3, 3))
