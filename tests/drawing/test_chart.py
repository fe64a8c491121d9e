from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from views_sample import (
    CURTAIN,
    HANGING,
    PIECES,
    POINT,
    flat,
    laid,
    lay_out,
    marks,
    outside,
    overlapping,
    words,
)

from knotplot.drawing.chart import chart, chart_key, chart_part, chart_repeat, repeat_lanes
from knotplot.drawing.chart_key import used
from knotplot.drawing.chart_scene import scene
from knotplot.drawing.shapes import Stroke
from knotplot.drawing.view_words import view_words
from knotplot.errors import UsageError
from knotplot.geometry.layout import Layout
from knotplot.knots import knot
from knotplot.renderers import svg


@pytest.mark.parametrize("name", PIECES)
def test_no_label_lies_on_another_or_outside(name: str) -> None:
    for drawing in (chart(laid(name)), chart_repeat(laid(name)), chart_key(laid(name).piece)):
        assert overlapping(drawing) == []
        assert outside(drawing) == []


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(["curtain", "hanging", "point"]),
    st.integers(2, 9),
    st.floats(6.0, 9.0),
    st.floats(2.0, 60.0),
)
def test_labels_keep_apart_at_any_width_and_size(
    kind: str, repeats: int, pitch: float, text: float
) -> None:
    sections, lanes = {
        "curtain": (CURTAIN, 12), "hanging": (HANGING, 8), "point": (POINT, 32)
    }[kind]  # fmt: skip
    strands = lanes * repeats + (16 if kind == "hanging" else 0)
    layout = lay_out(sections, round(pitch * strands), 1400, strands)
    drawing = chart(layout, text)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def ties_shown(layout: Layout) -> int:
    """Count the ties a chart shows: of each mark its places, times the ties of its shape."""
    shapes = {id(p.shape): p.shape for row in layout.piece.rows for p in row.placements}
    ties = {f"mark-{i}": s.tie_count for i, s in enumerate(shapes.values(), start=1)}
    return sum(ties[mark.symbol.name] * len(mark.at) for mark in marks(chart(layout)))


@pytest.mark.parametrize("name", PIECES)
def test_every_tie_has_its_mark_once(name: str) -> None:
    piece = laid(name).piece
    assert ties_shown(laid(name)) == piece.tie_count == sum(1 for _ in piece.ties())


@pytest.mark.parametrize("name", PIECES)
def test_every_placed_shape_stands_where_it_was_worked(name: str) -> None:
    piece = laid(name).piece
    placed = Counter(
        (p.lane * piece.gauge.pitch, p.y) for row in piece.rows for p in row.placements
    )
    assert placed == Counter(at for mark in marks(chart(laid(name))) for at in mark.at)


@pytest.mark.parametrize("name", PIECES)
def test_every_free_run_is_drawn(name: str) -> None:
    layout = laid(name)
    runs = {run.curve for run in layout.free_runs if run.strand <= layout.piece.gauge.strands}
    drawn = {
        curve
        for item, _, _ in flat(chart(layout).items)
        if isinstance(item, Stroke)
        for curve in item.curves
    }
    assert runs <= drawn


@pytest.mark.parametrize("name", PIECES)
def test_every_row_or_one_beside_it_is_numbered(name: str) -> None:
    """A row's number is shown, or that of one within two lines, or its section names its rows."""
    layout = laid(name)
    piece = layout.piece
    drawing = chart(layout)
    said = words(drawing)
    numbers = {int(text) for text in said if text.isdigit()}
    size = max(
        t for t in {item.size for item, _, _ in flat(drawing.items) if hasattr(item, "size")}
    )
    ys = {place.row.number: place.first for place in scene(layout).rows}
    for row in piece.rows:
        near = [n for n in numbers if abs(ys[n] - ys[row.number]) <= 2.5 * size]
        rows = [r.number for r in piece.rows if r.section == row.section]
        named = any(f"rows {rows[0]}–{rows[-1]}" in text for text in said)
        assert row.number in numbers or near or named


def test_numbers_stand_on_both_sides() -> None:
    said = Counter(text for text in words(chart(laid("point"))) if text.isdigit())
    assert said == {str(row): 2 for row in range(1, 16)}


def test_a_rod_pocket_is_charted_unfolded() -> None:
    layout = laid("curtain")
    shown, pocket = scene(layout), layout.piece.mounting.pocket
    assert pocket is not None
    assert shown.line == pytest.approx(pocket.join - pocket.band)
    assert shown.fold is not None
    assert shown.fold - shown.line == pytest.approx(pocket.band / 2)
    ys = [row.placements[0].y for row in layout.piece.rows if row.layer != "tails"]
    assert ys == sorted(ys)
    assert min(ys) >= shown.line
    said = " ".join(words(chart(layout)))
    for what in ("temporary line", "fold", "join: short ends", "on the short", "lower edge"):
        assert what in said


def test_the_repeat_is_bracketed() -> None:
    assert repeat_lanes(laid("curtain").piece) == 12
    assert "repeat 12 cords" in words(chart(laid("curtain")))
    assert "repeat 12 cords" in words(chart_repeat(laid("curtain")))
    assert repeat_lanes(laid("point").piece) == 4
    assert repeat_lanes(laid("runner").piece) == 8


@pytest.mark.parametrize("name", ["hanging", "tassels", "plain"])
def test_columns_and_lone_knots_do_not_repeat(name: str) -> None:
    assert repeat_lanes(laid(name).piece) is None


def test_one_repeat_shows_both_edges() -> None:
    drawing = chart_repeat(laid("curtain"))
    assert {"left edge", "right edge"} <= set(words(drawing))
    pitch = laid("curtain").piece.gauge.pitch
    lanes = [at[0] / pitch for mark in marks(drawing) for at in mark.at]
    assert min(lanes) == 0.0
    assert max(lanes) > 130
    assert not [lane for lane in lanes if 25.0 < lane < 107.0]


def test_a_decrease_is_shown_as_far_as_it_repeats() -> None:
    drawing = chart_repeat(laid("point"))
    assert "rows 11–15: see" in words(drawing)
    assert {text for text in words(drawing) if text.isdigit()} == {str(n) for n in range(1, 11)}


def test_a_part_holds_its_own_share_only() -> None:
    layout = laid("curtain")
    drawing = chart_part(layout, (25, 36), (14, 16))
    assert overlapping(drawing) == []
    assert {text for text in words(drawing) if text.isdigit()} == {"14", "15", "16"}
    whole = sum(len(mark.at) for mark in marks(chart(layout)))
    assert 0 < sum(len(mark.at) for mark in marks(drawing)) < whole / 10


@pytest.mark.parametrize("lanes", [(0, 3), (5, 4), (1, 133)])
def test_lanes_that_are_not_there_are_refused(lanes: tuple[int, int]) -> None:
    with pytest.raises(UsageError, match="there are 1 to 132"):
        chart_part(laid("curtain"), lanes)


def test_rows_that_are_not_there_are_refused() -> None:
    with pytest.raises(UsageError, match="there are 1 to 16"):
        chart_part(laid("curtain"), (1, 12), (3, 17))


@pytest.mark.parametrize("size", [0.0, -1.0, float("nan"), float("inf")])
def test_a_size_that_can_not_be_is_refused(size: float) -> None:
    with pytest.raises(UsageError, match="text_mm"):
        chart(laid("plain"), size)
    with pytest.raises(UsageError, match="text_mm"):
        chart_key(laid("plain").piece, size)


def test_text_has_the_size_asked_for() -> None:
    sizes = {
        round(item.size, 6)
        for item, _, _ in flat(chart(laid("curtain"), 12.0).items)
        if hasattr(item, "size")
    }
    assert sizes == {12.0, 10.8}


@pytest.mark.parametrize("name", PIECES)
def test_the_key_lists_exactly_the_knots_used(name: str) -> None:
    piece = laid(name).piece
    tied = {tie.knot for tie in piece.ties()}
    crossed = any(
        tie.knot == "cross" for row in piece.rows for p in row.placements for tie in p.shape.ties
    )
    assert {each for each, _ in used(piece)} == tied | ({"cross"} if crossed else set())
    lines = view_words("en")
    expected = {knot(each).words["en"].one for each in tied}
    expected |= {lines["cross"]} if crossed else set()
    expected |= {lines["cord"], lines["edge"]}
    expected |= {lines["tail"]} if piece.mounting.pocket else set()
    assert set(words(chart_key(piece))) == expected


def test_a_knot_that_faces_both_ways_is_shown_in_both() -> None:
    manners = dict(used(laid("hanging").piece))["square_knot"]
    assert {manner.facing for manner in manners} == {"left", "right"}


@pytest.mark.parametrize("name", ["curtain", "hanging"])
def test_the_same_piece_gives_the_same_bytes(name: str) -> None:
    sections, width, drop, strands = PIECES[name]
    again = lay_out(sections, width, drop, strands)
    assert svg.render(chart(laid(name))) == svg.render(chart(again))
    assert svg.render(chart_repeat(laid(name))) == svg.render(chart_repeat(again))
    assert svg.render(chart_key(laid(name).piece)) == svg.render(chart_key(again.piece))


def test_sections_have_trade_names() -> None:
    said = " ".join(words(chart(laid("runner"))))
    assert "alternating" in said
    assert "_" not in said


def test_an_unknown_language_is_an_error() -> None:
    with pytest.raises(UsageError, match="no words in 'tlh'"):
        chart(laid("plain"), language="tlh")
