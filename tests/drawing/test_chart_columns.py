"""Names above columns: none on another or on other lettering, no pointer through a name."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.api import build
from knotplot.drawing.bounds import meet, of_text
from knotplot.drawing.chart import repeat_rows
from knotplot.drawing.chart_columns import Column, column_names, lifted
from knotplot.drawing.shapes import Stroke, Style, Text
from knotplot.pattern.load import loads

PEN = Style("line", 0.1)
TOUCH = 1e-6


@st.composite
def columns(draw: st.DrawFn) -> list[Column]:
    """Draw columns from left to right, some without a name."""
    x, found = 0.0, []
    for _ in range(draw(st.integers(0, 7))):
        x += draw(st.floats(0.0, 40.0))
        wide = draw(st.floats(1.0, 60.0))
        lines = draw(st.lists(st.text("abc ", min_size=1, max_size=40), max_size=3))
        found.append(Column(x, x + wide, tuple(f"n{line}" for line in lines)))
        x += wide
    return found


def apart(a, b) -> bool:
    shared = meet(a, b)
    return shared is None or min(shared[2] - shared[0], shared[3] - shared[1]) <= TOUCH


@given(
    columns(),
    st.lists(st.tuples(st.floats(-60.0, 200.0), st.floats(-90.0, -5.0)), max_size=4),
)
def test_names_lie_on_nothing_and_no_pointer_crosses_one(drawn, places):
    taken = [(x, y, x + 20.0, y + 4.0) for x, y in places]
    items = column_names(drawn, 0.0, 3.0, PEN, taken)
    boxes = [of_text(item) for item in items if isinstance(item, Text)]
    assert len(boxes) == sum(len(each.lines) for each in drawn)
    for i, box in enumerate(boxes):
        assert box is not None
        assert box[3] <= 0.0
        assert all(apart(box, other) for other in (*taken, *boxes[:i]))
    for line in [line for item in items if isinstance(item, Stroke) for line in item.lines]:
        if len(line) == 4:  # a pointer; brackets have more points, below all names
            x, low, _, high = line
            inside = [
                b for b in boxes if b[0] + TOUCH < x < b[2] - TOUCH and high < b[1] and b[3] < low
            ]
            assert inside == []


def test_close_names_stand_over_their_brackets_without_pointers():
    drawn = [Column(0.0, 40.0, ("one",)), Column(40.0, 80.0, ("two",))]
    items = column_names(drawn, 0.0, 3.0, PEN, [])
    assert [(item.x, item.anchor) for item in items if isinstance(item, Text)] == [
        (20.0, "middle"), (60.0, "middle"),
    ]  # fmt: skip


def test_a_lifted_text_lies_clear_and_others_stay():
    text = Text(0.0, 0.0, "repeat", 3.0)
    box = of_text(text)
    assert box is not None
    assert lifted(text, [(100.0, 0.0, 110.0, 3.0)], 3.0) == text
    moved = of_text(lifted(text, [box], 3.0))
    assert moved is not None
    assert meet(moved, box) is None


def piece_of(mount: str, sections: str, strands: int = 48):
    return build(
        loads(
            f"""
knotplot: 1
size: {{width: 40 cm, drop: 90 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: {strands}}}
mount: {mount}
sections: [{sections}]
"""
        )
    ).layout.piece


ROD = "{kind: larks_head, rod: 20 mm}"
MESH = "{kind: square_knot_mesh, rows: 6}"


@pytest.mark.parametrize(
    ("mount", "sections", "rows"),
    [
        (ROD, MESH, 7),  # the mounting is a row
        (ROD, f"{MESH}, {{kind: gather, wrap: 3 cm}}", 7),  # ends above what binds all
        ("{kind: ring, diameter: 10 cm}", MESH, None),  # a ring would be cut
        (ROD, "{kind: gather, wrap: 3 cm}, {kind: free, length: 9 cm}, " + MESH, None),
    ],
)
def test_the_repeat_ends_above_what_can_t_be_cut(mount, sections, rows):
    assert repeat_rows(piece_of(mount, sections)) == rows
