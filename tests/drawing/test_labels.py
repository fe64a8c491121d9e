from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from knotplot.drawing.bounds import of_text
from knotplot.drawing.labels import (
    Numbered,
    Spanned,
    Wide,
    bracketed,
    levels,
    shown_numbers,
    spread,
)
from knotplot.drawing.shapes import Style, Text

places = st.floats(-1e4, 1e4)
spans = st.tuples(places, st.floats(0.5, 300.0), st.sampled_from(["net", "lace", "a long name"]))


@given(st.lists(st.tuples(places, st.floats(0.1, 100.0)), max_size=20))
def test_spread_leaves_no_overlap_and_keeps_the_order(labels: list[tuple[float, float]]) -> None:
    labels.sort()
    found = spread([want for want, _ in labels], [height for _, height in labels])
    for (a, (_, ha)), (b, (_, hb)) in pairwise(zip(found, labels, strict=True)):
        assert b - a >= (ha + hb) / 2 - 1e-6


@given(st.lists(places, min_size=1, max_size=20, unique=True))
def test_spread_moves_nothing_that_has_room(wanted: list[float]) -> None:
    wanted.sort()
    least = min((b - a for a, b in pairwise(wanted)), default=1.0)
    found = spread(wanted, [least * 0.99] * len(wanted))
    assert all(abs(a - b) < 1e-6 for a, b in zip(found, wanted, strict=True))


@given(st.lists(st.floats(0.0, 100.0), min_size=1, max_size=10))
def test_spread_stays_between_its_ends(wanted: list[float]) -> None:
    wanted.sort()
    found = spread(wanted, [10.0] * len(wanted), 0.0, 100.0)
    assert found[0] >= 5.0 - 1e-6
    assert found[-1] <= 95.0 + 1e-6


@given(
    st.lists(st.floats(0.2, 60.0), min_size=1, max_size=80),
    st.lists(st.booleans(), min_size=80, max_size=80),
)
def test_numbers_never_overlap_and_none_is_far_from_one(
    steps: list[float], begins: list[bool]
) -> None:
    rows, y, section = [], 0.0, 0
    for i, step in enumerate(steps):
        y += step
        section += begins[i] and i > 0
        rows.append(Numbered(i + 1, section, y))
    shown = shown_numbers(rows, 12.0)
    assert shown
    for a, b in pairwise(sorted(shown, key=lambda row: row.y)):
        assert b.y - a.y >= 12.0
    assert rows[0] in shown


def test_rows_with_room_all_show_their_number() -> None:
    rows = [Numbered(i, 0, 20.0 * i) for i in range(1, 30)]
    assert shown_numbers(rows, 12.0) == rows


def test_close_rows_show_the_first_and_every_fifth() -> None:
    rows = [Numbered(i, 0, 3.0 * i) for i in range(1, 31)]
    assert [row.number for row in shown_numbers(rows, 12.0)] == [1, 5, 10, 15, 20, 25, 30]


@given(st.lists(spans, min_size=1, max_size=30))
def test_bracketed_labels_never_overlap(wanted: list[tuple[float, float, str]]) -> None:
    asked = [Spanned(y, y + h, name, (name, "rows 1–2")) for y, h, name in wanted]
    items = bracketed(asked, 0.0, -1, 10.0, Style("line"))
    boxes = [box for item in items if isinstance(item, Text) and (box := of_text(item))]
    assert boxes
    for a, b in pairwise(sorted(boxes, key=lambda box: box[1])):
        assert b[1] + 0.15 * 10.0 >= a[3] - 1e-6


def test_repeated_names_go_first_where_room_is_short() -> None:
    asked = [
        Spanned(10.0 * i, 10.0 * i + 9.0, "ab"[i % 2], ("ab"[i % 2], "rows")) for i in range(40)
    ]
    items = bracketed(asked, 0.0, 1, 10.0, Style("line"))
    said = [item.text for item in items if isinstance(item, Text)]
    assert said == ["a", "rows", "b", "rows"]


@given(st.lists(st.builds(Wide, st.floats(0, 500), st.floats(1, 80)), max_size=15))
def test_levels_keep_labels_apart(labels: list[Wide]) -> None:
    found = levels(labels, 2.0)
    for i, (one, a) in enumerate(zip(labels, found, strict=True)):
        for other, b in zip(labels[:i], found[:i], strict=True):
            apart = abs(one.middle - other.middle) - (one.width + other.width) / 2
            assert a != b or apart >= 2.0 - 1e-6
