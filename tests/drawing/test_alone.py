"""A view in a file of its own: it names the piece, and holds letters a tenth wider."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

import knotplot
from knotplot.drawing.alone import WIDER, alone
from knotplot.drawing.bounds import bounds
from knotplot.drawing.metrics import width
from knotplot.drawing.shapes import Drawing, Group, Item, Text

PATTERN = """
knotplot: 1
{title}
size: {{width: 12 cm, drop: 20 cm}}
cord: {{diameter: 4 mm, mass_per_length: 9.6 g/m, spool: 100 m}}
strands: {{count: 16}}
mount: {{kind: larks_head, rod: 16 mm, fold: middle}}
sections:
  - {{kind: square_knot_mesh, rows: 3}}
  - {{kind: fringe, length: 6 cm, finish: cut}}
"""
VIEWS = {"chart": "Knotting chart", "cord": "The piece as it hangs",
         "outline": "Outline with dimensions", "trim": "Trim line"}  # fmt: skip


@pytest.mark.parametrize("view", VIEWS)
def test_a_view_is_named_after_its_piece(view):
    named = knotplot.build(knotplot.loads(PATTERN.format(title="title: Pond mat")))
    assert named.draw(view).drawing.title == f"Pond mat – {VIEWS[view]}"
    nameless = knotplot.build(knotplot.loads(PATTERN.format(title="")))
    assert nameless.draw(view).drawing.title == VIEWS[view]


def labels(items: object) -> list[str]:
    return [
        label
        for item in items
        if isinstance(item, Group)
        for label in [*([item.label] if item.label else []), *labels(item.items)]
    ]


@pytest.mark.parametrize("view", VIEWS)
def test_no_part_of_a_view_is_named_as_if_it_were_the_whole(view):
    made = knotplot.build(knotplot.loads(PATTERN.format(title="title: Pond mat")))
    assert labels(made.draw(view).drawing.items) == []


def drawn(*items: Item) -> Drawing:
    return Drawing(50.0, 20.0, items, "A view", "What it shows")


def test_letters_that_reach_a_side_get_room_and_others_none():
    inside = drawn(Text(10.0, 10.0, "inside", 3.0))
    assert alone(inside) == inside
    long = width("to the left edge", 4.0)
    made = alone(drawn(Text(long, 10.0, "to the left edge", 4.0, "end")))
    more = (WIDER - 1.0) * long
    assert (made.width, made.height) == (pytest.approx(50.0 + more), 20.0)
    (group,) = made.items
    assert (group.dx, group.dy) == (pytest.approx(more), 0.0)


@given(
    st.floats(0.0, 50.0), st.floats(5.0, 15.0), st.sampled_from(["start", "middle", "end"]),
    st.sampled_from([0.0, -90.0, 30.0]), st.floats(0.3, 2.0),
)  # fmt: skip
def test_wider_letters_stay_inside(x, y, anchor, turn, scale):
    text = Text(x, y, "some words", 4.0, anchor, turn=turn)
    made = alone(drawn(Group((text,), 3.0, 2.0, scale)))
    (outer,) = made.items
    if not isinstance(outer.items[0], Group):  # it fits as it is
        outer = Group(made.items)
    (inner,) = outer.items
    wide = width("some words", 4.0) * WIDER
    as_wide = Text(x, y, "x", wide / width("x", 1.0), anchor, turn=turn)  # of that width, higher
    x0, _, x1, _ = bounds([Group((Group((as_wide,), inner.dx, inner.dy, scale),), outer.dx)])
    if turn == 0.0:
        assert x0 >= -1e-6
        assert x1 <= made.width + 1e-6
