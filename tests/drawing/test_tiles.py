"""A drawing cut into pages holds together: everything is shown, neighbours fit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.drawing.bounds import bounds
from knotplot.drawing.shapes import (
    Anchor,
    Disc,
    Drawing,
    Fill,
    Group,
    Mark,
    Stroke,
    Style,
    Symbol,
    Text,
)
from knotplot.drawing.tiles import Tile, tile, tile_count
from knotplot.renderers import pdf

A4 = (210.0, 297.0)
DOT = Symbol("dot", (Disc(Style(fill="ink"), [(0.0, 0.0)], 1.0),))


def net(width: float, height: float) -> Drawing:
    across, down = range(0, int(width), 20), range(0, int(height), 20)
    knots = Mark(DOT, [(x + 0.5, y + 0.5) for x in across for y in down])
    return Drawing(width, height, [knots, Anchor("net", 0.0, "Net")], "Net", "A net")


def window(page: Tile) -> Group:
    """Return the group that shows a page's share of the drawing."""
    (group,) = [item for item in page.drawing.items if isinstance(item, Group)]
    return group


def test_a_drawing_that_fits_is_one_page_without_seams():
    (page,) = tile(net(180.0, 250.0), A4)
    assert (page.col, page.row, page.name) == (0, 0, "A1")
    assert (page.drawing.width, page.drawing.height) == A4
    assert (page.drawing.title, page.drawing.desc) == ("Net A1", "A net")
    assert [type(item) for item in window(page).items] == [Mark]
    assert (window(page).dx, window(page).dy) == (10.0, 10.0)


@given(st.floats(20, 900), st.floats(20, 900), st.floats(0, 30), st.floats(5, 20))
def test_pages_cover_all_with_the_overlap_asked(width, height, overlap, margin):
    pages = tile(net(width, height), A4, overlap, margin)
    clips = {(p.col, p.row): window(p).clip for p in pages}
    cols, rows = max(c for c, _ in clips) + 1, max(r for _, r in clips) + 1
    assert len(pages) == cols * rows
    for (col, row), (x, y, w, h) in clips.items():
        group = window(next(p for p in pages if (p.col, p.row) == (col, row)))
        assert (x + group.dx, y + group.dy) == pytest.approx((margin, margin))
        assert w == pytest.approx(A4[0] - 2 * margin)
        assert y + h + group.dy < A4[1] - margin
        if col:
            left = clips[col - 1, row]
            assert left[0] + left[2] - x == pytest.approx(overlap)
        if row:
            above = clips[col, row - 1]
            assert above[1] + above[3] - y == pytest.approx(overlap)
    assert clips[0, 0][:2] == (0.0, 0.0)
    last = clips[cols - 1, rows - 1]
    assert last[0] + last[2] >= width - 1e-6
    assert last[1] + last[3] >= height - 1e-6
    if cols > 1:  # and no page more than needed
        assert clips[cols - 2, 0][0] + last[2] < width + 1e-6


def test_every_mark_is_on_some_page_and_pages_carry_only_their_own():
    drawing = net(600.0, 500.0)
    (everywhere, _) = drawing.items
    pages = tile(drawing, A4)
    shown = [set(item.at) for p in pages for item in window(p).items if isinstance(item, Mark)]
    assert set().union(*shown) == set(everywhere.at)
    assert all(len(places) < len(everywhere.at) / 3 for places in shown)


def crosses(page: Tile) -> set[tuple[float, float]]:
    discs = [item for item in window(page).items if isinstance(item, Disc)]
    return {(round(x, 6), round(y, 6)) for disc in discs for x, y in disc.at}


def test_register_crosses_stand_at_the_same_points_on_both_pages():
    pages = {(p.col, p.row): p for p in tile(net(300.0, 400.0), A4)}
    assert sorted(pages) == [(0, 0), (0, 1), (1, 0), (1, 1)]
    for one, other in (((0, 0), (1, 0)), ((0, 0), (0, 1)), ((1, 0), (1, 1))):
        assert len(crosses(pages[one]) & crosses(pages[other])) == 2
    assert crosses(pages[0, 0]) & crosses(pages[1, 1]) == set()


def test_the_map_fills_the_page_it_is_on():
    pages = tile(net(300.0, 400.0), A4)
    spots = []
    for page in pages:
        whole, here = [item for item in page.drawing.items if isinstance(item, Fill)]
        (between,) = [item for item in page.drawing.items if isinstance(item, Stroke)]
        assert len(whole.polygons) == 1
        (down, across) = between.lines  # two pages each way
        x, y = here.polygons[0][:2]
        spots.append((x >= down[0], y >= across[1]))
        (name,) = [item for item in page.drawing.items if isinstance(item, Text)]
        assert name.text == page.name
        x0, y0, x1, y1 = bounds(page.drawing.items)
        assert min(x0, y0) >= 9
        assert x1 <= A4[0] - 9
        assert y1 <= A4[1] - 9
    assert spots == [(False, False), (True, False), (False, True), (True, True)]
    assert [page.name for page in pages] == ["A1", "A2", "B1", "B2"]


def shapes_in_map(page: Tile) -> int:
    outside = [item for item in page.drawing.items if not isinstance(item, Group)]
    return sum(len(item.polygons) for item in outside if isinstance(item, Fill)) + sum(
        len(item.lines) for item in outside if isinstance(item, Stroke)
    )


def test_the_map_of_many_pages_grows_with_their_rows_not_with_the_pages():
    some, more = (tile(net(20.0 * n, 20.0 * n), (60.0, 60.0), 10.0, 5.0) for n in (20, 40))
    assert len(more) > 3.5 * len(some)
    assert shapes_in_map(more[0]) < 2.2 * shapes_in_map(some[0])


@given(st.floats(20, 900), st.floats(20, 900))
def test_pages_are_counted_before_they_are_cut(width, height):
    assert tile_count((width, height), A4) == len(tile(net(width, height), A4))


def test_items_alone_are_cut_by_their_bounds():
    line = Stroke(Style("ink", 1.0), lines=[(-100.0, -50.0, 150.0, 60.0)])
    pages = tile([line], A4)
    assert len(pages) == 2
    assert window(pages[0]).clip[:2] == (-100.5, -50.5)


def test_pages_print_together():
    made = pdf.render([page.drawing for page in tile(net(300.0, 400.0), A4)], "Net")
    assert made.startswith(b"%PDF")


@pytest.mark.parametrize(
    ("page", "overlap", "margin"),
    [((20.0, 297.0), 10.0, 10.0), ((210.0, 30.0), 10.0, 10.0), (A4, -1.0, 10.0), (A4, 150.0, 10.0)],
)
def test_pages_without_room_are_refused(page, overlap, margin):
    with pytest.raises(ValueError, match="no room"):
        tile(net(300.0, 300.0), page, overlap, margin)
