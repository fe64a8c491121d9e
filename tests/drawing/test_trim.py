from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from views_sample import PIECES, flat, laid, outside, overlapping, texts, words

from knotplot.curves.lower_edge import LowerEdge, trim_places
from knotplot.drawing.shapes import Stroke, Text
from knotplot.drawing.trim import trim, trim_line
from knotplot.errors import UsageError
from knotplot.renderers import svg
from knotplot.units import inches

edges = st.builds(
    LowerEdge,
    st.floats(60.0, 4000.0),
    st.floats(2000.0, 3000.0),
    st.floats(-500.0, 500.0),
    st.sampled_from(["parabola", "vee", "catenary", "scallops", "straight"]),
    st.integers(1, 5),
)


@settings(max_examples=60, deadline=None)
@given(edges, st.none() | st.floats(2.0, 40.0))
def test_trim_labels_keep_apart_and_inside(edge: LowerEdge, size: float | None) -> None:
    drawing = trim_line(edge, size)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


@given(edges)
@settings(max_examples=40, deadline=None)
def test_every_station_is_ticked(edge: LowerEdge) -> None:
    ticks = {
        line[0]
        for item, _, _ in flat(trim_line(edge).items)
        if isinstance(item, Stroke) and item.style.stroke == "ink"
        for line in item.lines
        if line[0] == line[2] and line[1] == edge.drop_mm
    }
    assert ticks == {offset.x_mm for offset in trim_places(edge)}


@given(edges)
@settings(max_examples=40, deadline=None)
def test_offsets_are_drawn_to_scale(edge: LowerEdge) -> None:
    offsets = {
        line[0]: line[3] - line[1]
        for item, _, _ in flat(trim_line(edge).items)
        if isinstance(item, Stroke) and item.style.stroke == "quiet"
        for line in item.lines
    }
    expected = {o.x_mm: o.offset_mm for o in trim_places(edge) if o.offset_mm > 1e-6}
    assert offsets == pytest.approx(expected)


def test_offsets_are_written_in_cm_and_eighths_of_an_inch() -> None:
    edge = LowerEdge(920.0, 840.0, 90.0, "parabola")
    found = texts(trim_line(edge))
    middle = [text.text for text, _ in found if text.x == 460.0]
    assert middle == ["46", "9", "3 1/2"]
    at_20 = [text.text for text, _ in found if text.x == 200.0]
    rise = 90.0 * (1 - (2 * 200.0 / 920.0 - 1) ** 2)
    assert at_20 == ["20", f"{rise / 10:.1f}", inches(rise).removesuffix(" in")]


def test_ends_and_middle_are_always_written() -> None:
    edge = LowerEdge(2400.0, 2000.0, 120.0, "scallops", 4)
    columns = {text.x for text, _ in texts(trim_line(edge)) if text.anchor == "middle"}
    assert {0.0, 1200.0, 2400.0} <= columns
    assert {600.0, 1800.0} <= columns  # the other tips
    assert len(columns) > 10


@pytest.mark.parametrize(
    ("profile", "count", "told"),
    [
        ("vee", 1, "cut straight from mark to mark"),
        ("parabola", 1, "cut along the curve"),
        ("scallops", 1, "cut along the curve"),
        ("scallops", 3, "cut along each curve, and keep the corners between them sharp"),
    ],
)
def test_the_note_says_where_to_cut_in_a_curve_and_where_straight(profile, count, told) -> None:
    for rise in (40.0, -40.0):
        said = " ".join(words(trim_line(LowerEdge(300.0, 400.0, rise, profile, count))))
        assert f"{told}." in said
        assert said.count(": cut ") == 1


def test_every_corner_is_drawn_where_it_is() -> None:
    edge = LowerEdge(880.0, 1980.0, 80.0, "scallops", 7)
    drawn = {
        x
        for item, _, _ in flat(trim_line(edge).items)
        if isinstance(item, Stroke) and item.style.stroke == "accent"
        for line in item.lines
        for x in line[::2]
    }
    assert {turn.x_mm for turn in edge.turns()} <= drawn


def test_the_note_tells_to_trim_hanging() -> None:
    for edge in (LowerEdge(300.0, 400.0), LowerEdge(300.0, 400.0, 40.0, "vee")):
        said = " ".join(words(trim_line(edge)))
        assert "Trim with the piece hanging" in said
        assert "String line, level at the drop" in said


@pytest.mark.parametrize("name", PIECES)
def test_a_piece_has_the_trim_line_of_its_edge(name: str) -> None:
    assert trim(laid(name)) == trim_line(laid(name).piece.edge)
    assert svg.render(trim(laid(name))) == svg.render(trim(laid(name)))


def test_a_trim_line_refuses_a_size_that_can_not_be() -> None:
    with pytest.raises(UsageError, match="text_mm"):
        trim_line(LowerEdge(300.0, 400.0), 0.0)


def test_words_at_a_station_stand_below_the_string() -> None:
    edge = LowerEdge(300.0, 400.0, -40.0, "vee")
    items = [item for item, _, _ in flat(trim_line(edge).items) if isinstance(item, Text)]
    assert all(item.y > edge.drop_mm for item in items)
