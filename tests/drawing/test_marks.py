from __future__ import annotations

import pytest
from views_sample import PIECES, laid

from knotplot.drawing.marks import BAR, NOTCH, knot_mark, mark_symbol
from knotplot.drawing.shapes import Stroke
from knotplot.knots import catalogue, form
from knotplot.knots.base import Manner
from knotplot.knots.usual import usual_manner

MANNERS = {
    "square": ("square_knot", Manner(4, "left")),
    "square right": ("square_knot", Manner(4, "right")),
    "square 6": ("square_knot", Manner(6, "left")),
    "half": ("half_knot", Manner(4, "left")),
    "half right": ("half_knot", Manner(4, "right")),
    "overhand": ("overhand", Manner(4)),
    "gathering": ("gathering_knot", Manner(8, reach=3.0)),
    "single": ("half_hitch", Manner(2, leader=0, cos=0.8, sin=0.6)),
    "double": ("double_half_hitch", Manner(2, leader=0, cos=0.8, sin=0.6)),
    "double left": ("double_half_hitch", Manner(2, leader=1, cos=0.8, sin=0.6)),
    "triple": ("triple_half_hitch", Manner(2, leader=0, cos=0.8, sin=0.6)),
    "line": ("double_half_hitch", Manner(1, leader=-1)),
    "rod": ("double_half_hitch", Manner(1, leader=-1, reach=1.0, rod=5.0)),
    "vertical": ("vertical_double_half_hitch", Manner(2, leader=0)),
    "larks": ("larks_head", Manner(2, reach=2.0)),
    "reverse": ("reverse_larks_head", Manner(2, reach=2.0)),
    "cross": ("cross", Manner(2, "right", reach=0.6)),
    "cross under": ("cross", Manner(2, "left", reach=0.6)),
}


_COVERED = {name for name, _ in MANNERS.values()}
MANNERS |= {n: (n, usual_manner(k)) for n, k in catalogue().items() if n not in _COVERED}


def test_marks_of_different_knots_differ() -> None:
    marks = {case: knot_mark(*MANNERS[case]) for case in MANNERS}
    assert len(set(marks.values())) == len(marks)


@pytest.mark.parametrize("case", MANNERS)
def test_lines_lie_within_the_knot_they_are_drawn_from(case: str) -> None:
    name, manner = MANNERS[case]
    made = form(name, manner)
    curves = [*made.paths, *(c for c in (made.leader, made.wrap) if c is not None)]
    xs = [c[k] for path in curves for c in path for k in (0, 3, 6, 9)]
    ys = [c[k] for path in curves for c in path for k in (1, 4, 7, 10)]
    for _, _, drawn in knot_mark(name, manner):
        for curve in drawn:
            assert min(xs) - 0.1 <= min(curve[::2])
            assert max(curve[::2]) <= max(xs) + 0.1
            assert min(ys) - 0.1 <= min(curve[1::2])
            assert max(curve[1::2]) <= max(ys) + 0.1


@pytest.mark.parametrize(("case", "turns"), [("single", 1), ("double", 2), ("triple", 3)])
def test_a_hitch_is_a_bar_with_a_notch_a_turn(case: str, turns: int) -> None:
    layers = knot_mark(*MANNERS[case])
    assert [len(curves) for _, pen, curves in layers if pen == BAR] == [1]
    assert [len(curves) for _, pen, curves in layers if pen == NOTCH] == [turns]


def test_the_bar_lies_on_the_leaders_curve() -> None:
    name, manner = MANNERS["double"]
    bar = next(curves[0] for _, pen, curves in knot_mark(name, manner) if pen == BAR)
    leader = form(name, manner).paths[0]
    assert bar[:2] == leader[0][:2]
    assert bar[-2:] == leader[-1][9:11]


def test_what_lies_over_is_painted_last() -> None:
    over = knot_mark("cross", Manner(2, "right", reach=0.6))[-1][2][0]
    under = knot_mark("cross", Manner(2, "left", reach=0.6))[-1][2][0]
    assert over[0] > over[-2]  # the right strand runs to the left
    assert under[0] < under[-2]


@pytest.mark.parametrize("name", PIECES)
def test_a_symbol_holds_nothing_but_strokes(name: str) -> None:
    shapes = {id(p.shape): p.shape for row in laid(name).piece.rows for p in row.placements}
    for shape in shapes.values():
        symbol = mark_symbol(shape, "mark-1", 4.0)
        assert symbol.items
        assert all(isinstance(item, Stroke) for item in symbol.items)
