"""Strips on pages: nothing lost, nothing parted that belongs together, heads said again."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from knotplot.drawing.metrics import bound
from knotplot.drawing.shapes import Group, Item, Text
from knotplot.sheet.flow import Strip, carried, compose, led, tied
from knotplot.sheet.paper import BODY
from knotplot.sheet.setting import labelled, lines_of, paragraph, shortened
from knotplot.sheet.table import Column, table

ROOM = 100.0


def strip(name: str, height: float = 10.0, **more: object) -> Strip:
    return Strip(height, (Text(0.0, 5.0, name, 4.0),), **more)


def names(page: tuple[Item, ...]) -> list[str]:
    return [
        item.text
        for group in page
        if isinstance(group, Group)
        for item in group.items
        if isinstance(item, Text)
    ]


@given(
    st.lists(
        st.tuples(st.floats(0.0, 60.0, allow_nan=False), st.floats(0.0, 9.0), st.booleans()),
        max_size=60,
    )
)
def test_every_strip_is_placed_once_in_order_and_inside_the_page(drawn):
    strips = [
        strip(str(i), height, space=space, tied=tied_)
        for i, (height, space, tied_) in enumerate(drawn)
    ]
    pages = compose(strips, ROOM)
    assert [name for page in pages for name in names(page)] == [str(i) for i in range(len(drawn))]
    for page in pages:
        low = 0.0
        for group in page:
            assert group.dy >= low - 1e-6
            low = group.dy + strips[int(group.items[0].text)].height
        assert low <= ROOM + 1e-6


def test_a_heading_goes_to_the_next_page_with_what_follows():
    strips = [strip("a", 85.0), *led([strip("heading")]), strip("b")]
    assert [names(page) for page in compose(strips, ROOM)] == [["a"], ["heading", "b"]]


def test_tied_strips_taller_than_a_page_are_parted():
    strips = tied([strip(str(i), 40.0) for i in range(4)])
    assert [names(page) for page in compose(strips, ROOM)] == [["0", "1"], ["2", "3"]]


def test_what_is_said_again_stands_only_where_a_page_begins():
    again = (strip("again", 5.0, tied=True),)
    strips = [strip("head"), *carried([strip(str(i), 30.0) for i in range(5)], again)]
    assert [names(page) for page in compose(strips, ROOM)] == [
        ["head", "0", "1", "2"], ["again", "3", "4"],
    ]  # fmt: skip


def test_space_is_kept_above_but_not_at_the_top_of_a_page():
    pages = compose([strip("a", 10.0, space=7.0), strip("b", 10.0, space=7.0)], ROOM)
    assert [group.dy for group in pages[0]] == [0.0, 17.0]


def test_a_paragraph_leaves_no_single_line_behind():
    strips = paragraph("word " * 60, 60.0)
    assert len(strips) > 3
    assert [each.tied for each in strips] == [True, *[False] * (len(strips) - 3), True, False]


def test_numbers_stay_with_their_units():
    for width in range(12, 60):
        for line in lines_of("it hangs 13 1/2 in below the rod, 34.2 cm wide", float(width), BODY):
            assert not line.startswith(("1/2", "in ", "cm"))
            assert not line.endswith(("13", "34.2", "1/2"))
    assert bound("no number in it") == "no number in it"


def test_a_label_stands_beside_its_text_where_it_has_room():
    first = labelled("Row 1", "knot.", 100.0)[0]
    assert [item.text for item in first.items] == ["Row 1:", "knot."]
    plain = labelled("This label is much too long for its column", "knot.", 100.0)
    assert len(plain[0].items) == 1


def test_a_shortened_text_fits_and_says_so():
    assert shortened("short", 50.0, BODY) == "short"
    assert shortened("a text that is too long for it", 20.0, BODY).endswith("…")
    assert shortened("W" * 200, 20.0, BODY).endswith("…")


def test_a_table_keeps_every_cell_and_its_head():
    columns = (Column("one", 1.0), Column("two", 1.0, "end"))
    rows = [(f"a{i}", "word " * (i % 40)) for i in range(60)]
    pages = compose(table(columns, rows, 120.0), ROOM)
    told = [name for page in pages for name in names(page)]
    assert [f"a{i}" for i in range(60)] == [t for t in told if t.startswith("a")]
    assert sum(t.count("word") for t in told) == sum(i % 40 for i in range(60))
    assert sum(t == "one" for t in told) == len(pages)
