from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from views_sample import (
    CURTAIN,
    HANGING,
    PIECES,
    flat,
    laid,
    lay_out,
    outside,
    overlapping,
    words,
)

from knotplot.drawing.dimensions import across, down
from knotplot.drawing.outline import outline
from knotplot.drawing.shapes import Fill, Stroke, Text
from knotplot.errors import UsageError
from knotplot.renderers import svg
from knotplot.units import both


@pytest.mark.parametrize("name", PIECES)
def test_outline_labels_keep_apart_and_inside(name: str) -> None:
    drawing = outline(laid(name))
    assert overlapping(drawing) == []
    assert outside(drawing) == []


@settings(max_examples=15, deadline=None)
@given(st.booleans(), st.integers(2, 9), st.floats(6.0, 9.0), st.floats(3.0, 25.0))
def test_outline_labels_keep_apart_at_any_size(
    arch: bool, repeats: int, pitch: float, text: float
) -> None:
    strands = 12 * repeats if arch else 8 * repeats + 16
    layout = lay_out(CURTAIN if arch else HANGING, round(pitch * strands), 1400, strands)
    drawing = outline(layout, text)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def test_width_drop_and_rise_are_told_in_both_units() -> None:
    said = words(outline(laid("curtain")))
    assert both(920.0) in said
    assert f"drop {both(840.0)}" in said
    assert f"rise {both(90.0)}" in said


def test_a_point_tells_its_rise_and_a_straight_edge_none() -> None:
    assert f"rise {both(180.0)}" in words(outline(laid("hanging")))
    assert not [text for text in words(outline(laid("point"))) if text.startswith("rise")]


def test_sections_are_told_from_where_to_where() -> None:
    said = words(outline(laid("curtain")))
    for name in ("rod pocket", "net", "row of double half hitches", "lace", "fringe"):
        assert name in said
    lace = next(row for row in laid("curtain").piece.rows if row.section == 3)
    top = f"{lace.placements[0].y / 10:.1f}"
    assert [text for text in said if text.startswith(f"{top}–") and text.endswith(" cm")]
    assert said[said.index("fringe", said.index("lace") + 1) + 1 :]


@pytest.mark.parametrize("name", PIECES)
def test_the_outline_is_as_wide_and_as_deep_as_the_piece(name: str) -> None:
    piece = laid(name).piece
    lines = [
        line
        for item, _, _ in flat(outline(laid(name)).items)
        if isinstance(item, Stroke) and item.style.stroke == "ink"
        for line in item.lines
    ]
    shape = max(lines, key=len)
    assert (min(shape[::2]), max(shape[::2])) == (0.0, piece.gauge.width)
    assert min(shape[1::2]) == 0.0
    assert max(shape[1::2]) == pytest.approx(piece.edge.lowest())


def test_no_section_is_drawn_below_the_lower_edge() -> None:
    piece = laid("curtain").piece
    for item, _, _ in flat(outline(laid("curtain")).items):
        if isinstance(item, Fill) and item.style.fill in ("tint", "paper"):
            for polygon in item.polygons:
                for x, y in zip(polygon[::2], polygon[1::2], strict=True):
                    assert y <= piece.edge.y(x) + 1e-6


def test_the_same_piece_gives_the_same_outline() -> None:
    sections, width, drop, strands = PIECES["hanging"]
    again = lay_out(sections, width, drop, strands)
    assert svg.render(outline(laid("hanging"))) == svg.render(outline(again))


@pytest.mark.parametrize("size", [0.0, -2.0, float("nan")])
def test_an_outline_refuses_a_size_that_can_not_be(size: float) -> None:
    with pytest.raises(UsageError, match="text_mm"):
        outline(laid("plain"), size)


def test_arrows_point_at_what_they_measure() -> None:
    """Outward between far lines, inward from outside between near ones (ISO 129-1, from memory)."""
    wide = [item for item in across(0.0, 100.0, 0.0, 5.0, 3.0) if isinstance(item, Fill)]
    near = [item for item in across(0.0, 2.0, 0.0, 5.0, 3.0) if isinstance(item, Fill)]
    assert [arrow.polygons[0][0] for arrow in wide] == [0.0, 100.0]
    assert wide[0].polygons[0][2] > 0.0 > near[0].polygons[0][2]
    assert wide[1].polygons[0][2] < 100.0
    assert near[1].polygons[0][2] > 2.0


def test_a_dimension_without_room_is_told_below() -> None:
    label = next(item for item in down(0.0, 0.0, 5.0, (5.0, 5.0), 3.0) if isinstance(item, Text))
    assert label.turn == -90.0
    assert label.y > 5.0
