"""Bounds of each shape, and what cropping keeps."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.drawing import metrics
from knotplot.drawing.bounds import bounds, meet
from knotplot.drawing.crop import crop
from knotplot.drawing.shapes import (
    Anchor,
    Disc,
    Fill,
    Group,
    Link,
    Mark,
    Stroke,
    Style,
    Symbol,
    Text,
)

PEN = Style("ink", 1.0)
DOT = Symbol("dot", (Disc(Style(fill="ink"), [(0.0, 0.0)], 2.0),))


@pytest.mark.parametrize(
    ("item", "box"),
    [
        (Stroke(PEN, lines=[(0.0, 1.0, 10.0, 5.0)]), (-0.5, 0.5, 10.5, 5.5)),
        (Stroke(PEN, curves=[(0.0, 0, 9, 0, 0, 7, 1, 1)]), (-0.5, -0.5, 9.5, 7.5)),
        (Fill(Style(fill="ink"), polygons=[(0.0, 0, 4, 0, 4, 3)]), (0, 0, 4, 3)),
        (Fill(PEN, outlines=[(0.0, 0, 4, 0, 4, 3, 0, 0)]), (-0.5, -0.5, 4.5, 3.5)),
        (Fill(Style("ink", 1.0, join="miter"), polygons=[(0.0, 0, 4, 0, 4, 3)]), (-2, -2, 6, 5)),
        (Disc(PEN, [(0.0, 0.0), (10.0, 2.0)], 1.0), (-1.5, -1.5, 11.5, 3.5)),
        (Mark(DOT, [(5.0, 5.0), (9.0, 5.0)]), (3, 3, 11, 7)),
        (Group([Mark(DOT, [(5.0, 5.0)])], 1.0, 2.0, 0.5), (2.5, 3.5, 4.5, 5.5)),
        (Group([Mark(DOT, [(5.0, 5.0)])], clip=(4.0, 0.0, 90.0, 90.0)), (4, 3, 7, 7)),
        (Mark(Symbol("two", (Mark(DOT, [(1.0, 0.0)]),)), [(5.0, 5.0)]), (4, 3, 8, 7)),
    ],
)
def test_bounds_of_a_shape(item, box):
    assert bounds([item]) == pytest.approx(box)


@pytest.mark.parametrize(
    "item",
    [
        Stroke(PEN),
        Text(5.0, 5.0, "", 4.0),
        Mark(DOT, []),
        Mark(Symbol("none", ()), [(3.0, 3.0)]),
        Group([Mark(DOT, [(5.0, 5.0)])], clip=(50.0, 0.0, 9.0, 9.0)),
        Link((5.0, 5.0, 5.0, 5.0), "#a"),
        Anchor("a", 50.0),
    ],
)
def test_what_paints_nothing_has_no_bounds(item):
    assert bounds([item]) == (0.0, 0.0, 0.0, 0.0)
    assert bounds([item, Mark(DOT, [(9.0, 9.0)])]) == (7, 7, 11, 11)


def test_bounds_of_text_follow_anchor_and_turn():
    wide, up, down = metrics.width("row", 4.0), 4 * metrics.ASCENT, 4 * metrics.DESCENT
    at = {anchor: bounds([Text(10.0, 20.0, "row", 4.0, anchor)]) for anchor in ("start", "end")}
    assert at["start"] == pytest.approx((10, 20 - up, 10 + wide, 20 + down))
    assert at["end"] == pytest.approx((10 - wide, 20 - up, 10, 20 + down))
    turned = bounds([Text(10.0, 20.0, "row", 4.0, "middle", turn=90.0)])
    assert turned == pytest.approx((10 - down, 20 - wide / 2, 10 + up, 20 + wide / 2))


COORDINATE = st.floats(-50, 50)
ITEMS = st.lists(
    st.one_of(
        st.lists(st.tuples(*[COORDINATE] * 4), max_size=4).map(lambda c: Stroke(PEN, lines=c)),
        st.lists(st.tuples(COORDINATE, COORDINATE), max_size=4).map(lambda c: Mark(DOT, c)),
        st.lists(st.tuples(COORDINATE, COORDINATE), max_size=4).map(lambda c: Disc(PEN, c, 3.0)),
        st.lists(st.tuples(*[COORDINATE] * 6), max_size=3).map(lambda c: Fill(PEN, polygons=c)),
        st.tuples(COORDINATE, COORDINATE).map(lambda p: Text(*p, "row", 4.0, turn=30.0)),
        st.tuples(COORDINATE, COORDINATE).map(
            lambda p: Group([Mark(DOT, [p])], 3.0, -4.0, 0.5, (-20.0, -20.0, 50.0, 30.0))
        ),
    ),
    max_size=6,
)


@given(ITEMS, st.tuples(COORDINATE, COORDINATE), st.floats(0, 40), st.floats(0, 40))
def test_cropping_keeps_all_a_window_shows_and_whole_things_only(items, corner, w, h):
    window = (*corner, corner[0] + w, corner[1] + h)
    kept = crop(items, window)
    everything = bounds(items)
    assert crop(items, everything) == crop(items, (-1e6, -1e6, 1e6, 1e6))
    for item in kept:
        assert meet(bounds([item]), window) is not None
    for item in items:
        single = crop([item], window)
        if meet(bounds([item]), window) is None:
            assert single == ()


def test_cropping_looks_into_runs_and_groups():
    marks = Mark(DOT, [(0.0, 0.0), (50.0, 0.0), (10.9, 0.0)])
    near, far, across = (0.0, 0.0, 1.0, 1.0), (30.0, 0.0, 30.0, 9.0), (-9.0, -9.0, 40.0, 40.0)
    lines = Stroke(PEN, lines=[near, far, across])
    group = Group([marks, lines, Anchor("a", 0.0)], 100.0, 0.0, 2.0)
    (kept,) = crop([group, Anchor("b", 0.0), Text(0.0, 0.0, "far", 3.0)], (90.0, -5.0, 119.0, 5.0))
    assert kept == Group(
        (
            Mark(DOT, ((0.0, 0.0), (10.9, 0.0))),
            Stroke(PEN, (), (near, across)),
        ),
        100.0,
        0.0,
        2.0,
    )


def test_cropping_leaves_out_places_and_links_to_them_and_keeps_links_to_the_web():
    web = Link((0.0, 0.0, 5.0, 5.0), "https://example.org")
    away = Link((50.0, 0.0, 5.0, 5.0), "https://example.org")
    within = Link((0.0, 0.0, 5.0, 5.0), "#a")
    assert crop([Anchor("a", 1.0), within, web, away], (0.0, 0.0, 9.0, 9.0)) == (web,)
