"""Parts on pages: joined where that saves a page or fills one; closer where that saves one."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheet_sample import PATTERNS, anchors, made, said, sheet

from knotplot.drawing.shapes import Anchor, Group, Item, Text
from knotplot.sheet.cover import cover
from knotplot.sheet.document import PAPERS
from knotplot.sheet.flow import Strip
from knotplot.sheet.joining import Page, laid
from knotplot.sheet.pages import ALL_PARTS, subject_of
from knotplot.sheet.paper import Paper
from knotplot.sheet.setting import in_two
from knotplot.sheet.subject import Part

PAPER = Paper(*PAPERS["a4"])


def part(key: str, *heights: float, space: float = 0.0, more: int = 0) -> Part:
    """Return a part of strips of those heights, the first with the part's anchor."""
    strips = [
        Strip(height, (Text(0.0, 3.0, f"{key}{i}", 3.0),), space)
        for i, height in enumerate(heights)
    ]
    first = strips[0]
    strips[0] = Strip(first.height, (Anchor(key, 0.0, key.title(), 0), *first.items), 0.0, True)
    known = ALL_PARTS.get(key)
    alone, tall = (known.alone, known.tall) if known else (False, False)
    return Part(key, key.title(), tuple(strips), ((),) * more, alone, tall)


def told(items: tuple[Item, ...]) -> list[str]:
    found: list[str] = []
    for item in items:
        if isinstance(item, Group):
            found += told(tuple(item.items))
        elif isinstance(item, Text):
            found.append(item.text)
    return found


def titles(pages: list[Page]) -> list[tuple[str, ...]]:
    return [page.titles for page in pages]


def test_a_part_begins_below_another_where_that_saves_a_page():
    pages = laid(PAPER, [part("one", 60.0), part("two", 60.0)])
    assert titles(pages) == [("One", "Two")]
    assert pages[0].begun == ("one", "two")


def test_a_part_of_a_page_that_saves_none_begins_on_its_own():
    pages = laid(PAPER, [part("one", 60.0), part("two", 100.0, 100.0)])
    assert titles(pages) == [("One",), ("Two",)]


def test_a_part_of_several_pages_fills_the_one_before_where_that_costs_none():
    two = (100.0, 100.0, 200.0)  # two pages alone, three below the other
    assert titles(laid(PAPER, [part("one", 60.0), part("two", *two)]))[:2] == [
        ("One", "Two"),
        ("Two",),
    ]
    assert titles(laid(PAPER, [part("one", 60.0), part("chart", *two)]))[0] == ("One",)


def test_a_part_does_not_begin_at_the_foot_of_a_page():
    low = 0.7 * PAPER.room
    assert titles(laid(PAPER, [part("one", low), part("two", 10.0, 10.0)])) == [("One",), ("Two",)]


@pytest.mark.parametrize("key", [key for key, each in ALL_PARTS.items() if each.alone])
def test_some_parts_always_begin_a_page(key):
    pages = laid(PAPER, [part("one", 20.0), part(key, 20.0)])
    assert titles(pages) == [("One",), (key.title(),)]


def test_nothing_is_put_below_pages_of_a_part_s_own():
    pages = laid(PAPER, [part("one", 20.0), part("two", 20.0, more=2), part("three", 20.0)])
    assert titles(pages) == [("One", "Two"), ("Two",), ("Two",), ("Three",)]


def test_a_page_with_two_parts_that_goes_on_names_the_one_that_goes_on():
    pages = laid(PAPER, [part("one", 200.0, 60.0), part("two", 60.0, 60.0, 200.0)])
    assert titles(pages) == [("One",), ("One", "Two"), ("Two",)]


def test_strips_stand_closer_where_that_saves_a_page():
    heights = [20.0] * 11  # 220 mm and ten spaces on a page of 244 mm
    assert len(laid(PAPER, [part("one", *heights, space=4.0)])) == 1
    assert len(laid(PAPER, [part("one", *heights, space=9.0)])) == 2


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["sizes", "knots", "chart", "finishing", "rows"]),
            st.lists(st.floats(5.0, 90.0), min_size=1, max_size=9),
            st.integers(0, 2),
        ),
        min_size=1,
        max_size=5,
        unique_by=lambda each: each[0],
    )
)
def test_everything_is_put_once_in_order_on_no_more_pages_than_apart(drawn):
    parts = [part(key, *heights, more=more) for key, heights, more in drawn]
    pages = laid(PAPER, parts)
    expected = [f"{key}{i}" for key, heights, _ in drawn for i in range(len(heights))]
    assert [text for page in pages for text in told(page.items)] == expected
    assert [key for page in pages for key in page.begun] == [key for key, _, _ in drawn]
    assert len(pages) <= sum(len(laid(PAPER, [each])) for each in parts)


@pytest.mark.parametrize("name", PATTERNS)
def test_heads_name_the_parts_that_stand_on_the_page(name):
    pages = sheet(name).pages
    assert pages[0].desc.endswith("Cover")
    before = ["Cover"]
    for page in pages[1:]:
        begun = [a.title for a in anchors(page) if a.level == 0]
        head = page.desc.rpartition(": ")[2].split(" · ")
        assert head in (begun, [before[-1], *begun])
        assert f"{' · '.join(head)}" in said(page)
        before = head


def clips(items: tuple[Item, ...]) -> list[Group]:
    found = []
    for item in items:
        if isinstance(item, Group):
            found += [item] if item.clip else []
            found += clips(tuple(item.items))
    return found


@pytest.mark.parametrize(("name", "near"), [("wide", 1), ("curtain", 1), ("tassel", 0)])
def test_a_wide_piece_is_shown_near_on_the_cover_too(name, near):
    piece = made(name)
    subject = subject_of(piece.pattern, piece.count, piece.layout, piece.bill, PAPERS["a4"])
    assert len(clips(cover(subject))) == near


@given(st.lists(st.integers(1, 30), min_size=1, max_size=9))
def test_a_list_in_two_columns_keeps_all_and_is_balanced(words):
    from knotplot.sheet.paper import BODY

    texts = [" ".join([f"a{i}", *["word"] * n]) for i, n in enumerate(words)]
    strips = in_two(texts, 160.0, BODY)
    lines = [item for strip in strips for item in strip.items if isinstance(item, Text)]
    assert sum(line.text == "–" for line in lines) == len(words)
    assert sum(line.text.count("word") for line in lines) == sum(words)
    longest = max(len(in_two([text], 160.0, BODY)) for text in texts)
    total = sum(len(in_two([text], 160.0, BODY)) for text in texts)
    assert len(strips) <= (total + longest) / 2
    for one, other in pairwise(strips):
        assert one.tied or other is strips[-1]
