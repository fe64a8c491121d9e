"""What stands on the pages: inside the margins, nothing on top of another, nothing lost."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from sheet_sample import (
    PATTERNS,
    Placed,
    anchors,
    links,
    made,
    marks,
    said,
    sheet,
    sheet_of,
    texts,
)
from strategies import patterns

from knotplot.api import build
from knotplot.drawing.bounds import meet
from knotplot.drawing.chart_key import used as used_by
from knotplot.drawing.how_to import frames
from knotplot.drawing.shapes import Drawing, Text
from knotplot.errors import Refusal
from knotplot.instructions.words import Printed, words
from knotplot.knots import knot
from knotplot.materials.remaining import remaining
from knotplot.notice import Notice
from knotplot.notices import in_trade_words
from knotplot.pattern.load import loads
from knotplot.sheet.document import PAPERS, Sheet
from knotplot.tape import to_cut
from knotplot.units import both

MARGIN = 14.0  # mm, generous
TOUCH = 0.06  # mm that boxes of text, which are outer bounds, may share

EVERY = [(name, paper) for name in PATTERNS for paper in PAPERS]
each = pytest.mark.parametrize(("name", "paper"), EVERY)


def outside(page: Drawing) -> list[Placed]:
    """Return the texts of a page that stand outside its margins."""
    low, right, bottom = MARGIN - TOUCH, page.width - MARGIN + TOUCH, page.height - MARGIN + TOUCH
    return [
        placed
        for placed in texts(page)
        if placed.box[0] < low or placed.box[1] < low
        or placed.box[2] > right or placed.box[3] > bottom
    ]  # fmt: skip


def overlapping(page: Drawing) -> list[tuple[str, str]]:
    """Return the pairs of texts of a page that lie on each other."""
    found = []
    for a, b in combinations(sorted(texts(page), key=lambda placed: placed.box), 2):
        shared = meet(a.box, b.box)
        if shared and min(shared[2] - shared[0], shared[3] - shared[1]) > TOUCH:
            found.append((a.text, b.text))
    return found


def test_the_checks_of_places_can_fail():
    page = Drawing(
        100.0, 100.0,
        (Text(20.0, 50.0, "one", 4.0), Text(22.0, 51.0, "two", 4.0), Text(2.0, 80.0, "out", 4.0)),
        "t", "d",
    )  # fmt: skip
    assert overlapping(page) == [("one", "two")]
    assert [placed.text for placed in outside(page)] == ["out"]


def told(found: Sheet) -> str:
    """Return all text of a sheet without what wrapping did to it."""
    return " ".join(" ".join(map(said, found.pages)).split())


@each
def test_every_text_stands_inside_the_margins(name, paper):
    assert [outside(page) for page in sheet(name, paper).pages] == [[]] * len(
        sheet(name, paper).pages
    )


@each
def test_no_text_lies_on_another(name, paper):
    assert [pair for page in sheet(name, paper).pages for pair in overlapping(page)] == []


@each
def test_pages_are_of_the_paper_and_have_their_foot(name, paper):
    pages = sheet(name, paper).pages
    for number, page in enumerate(pages, start=1):
        assert (page.width, page.height) == PAPERS[paper]
        assert f"Page {number} of {len(pages)}" in said(page)


@each
def test_the_parts_are_there_in_order(name, paper):
    found = [a.name for page in sheet(name, paper).pages for a in anchors(page) if a.level == 0]
    assert found == [
        "cover", "about", "materials", "sizes", "knots", "chart", "rows", "finishing", "safety",
        "glossary",
    ]  # fmt: skip


@each
def test_every_row_is_printed_once(name, paper):
    # Rows that tell several have a box with each number between them and the next line.
    one = made(name)
    left = remaining(one.layout, one.bill.lengths)
    rows = [
        line.text
        for line in words(one.layout.piece, left)
        if isinstance(line, Printed) and line.sort in ("row", "check", "step")
    ]
    text = told(sheet(name, paper))
    at = 0
    for row in rows:
        found = text.find(" ".join(row.split()), at)
        assert found >= at, row
        at = found + len(row)


@pytest.mark.parametrize("name", PATTERNS)
def test_the_contents_lead_to_every_part_by_its_page(name):
    pages = sheet(name).pages
    where = {a.name: i for i, page in enumerate(pages, start=1) for a in anchors(page)}
    found = [link.target.removeprefix("#") for link in links(pages[1])]
    assert found == ["materials", "sizes", "knots", "chart", "rows", "finishing", "safety",
                     "glossary"]  # fmt: skip
    assert set(found) <= set(where)
    shown = said(pages[1])
    for anchor in (a for page in pages for a in anchors(page) if a.name in found):
        assert f"{anchor.title} {where[anchor.name]}" in shown


@pytest.mark.parametrize("name", PATTERNS)
def test_cut_list_shopping_and_knots_are_told(name):
    piece, text = made(name), told(sheet(name))
    for line in piece.bill.cutting:
        assert to_cut(line.length) in text
    for used in piece.bill.knots:
        assert knot(used).words["en"].fault in text
    for name, manners in used_by(piece.layout.piece):
        if name != "cross":
            assert all(frame.text in text for frame in frames(name, manners[0]))
    for notice in in_trade_words(piece.notices):
        assert " ".join(notice.split())[1:] in text


def test_safety_has_its_facts_and_claims_no_conformity():
    page = next(p for p in sheet("plain").pages if any(a.name == "safety" for a in anchors(p)))
    text = said(page)
    for word in ("Children:", "Fire:", "Load:", "Pets:", "Dust:", "Longest free strand",
                 "Largest opening", "claim no conformity", "licensed trade"):  # fmt: skip
        assert word in text


def test_a_stated_licence_is_printed_and_a_missing_one_said():
    assert "You may sell what you make." in told(sheet("curtain"))
    assert "No licence was stated." in told(sheet("plain"))


def test_named_sizes_stand_with_what_can_be_told_of_them():
    text = told(sheet("curtain"))
    # (60 + 2 · 2) = 64 cm; the pattern may itself be "medium", which gives width and drop, so that
    # of the others only what they give themselves can be told.
    assert f"small {both(640)} –" in text
    assert f"medium (this sheet) {both(920)} {both(600)}" in text
    assert f"tall – {both(750)}" in text


def test_the_opening_is_worked_through():
    text = told(sheet("curtain"))
    assert f"({both(880)} + 2 × {both(20)} overlap) × 1 fullness = {both(920)} wide" in text
    # 92 cm × 20 ÷ 15.3 cm = 120.26 cords
    assert f"{both(920)} wide × 20 cords ÷ {both(153)} = 120.3 cords" in text


LONG = "words that go on and on " * 833


@pytest.mark.parametrize("paper", PAPERS)
def test_long_texts_wrap_onto_more_pages_and_are_whole(paper):
    piece = made("curtain")
    pattern = piece.pattern.model_copy(
        update={
            "summary": LONG.strip(),
            "title": "W" * 200,
            "designer": "x " * 100,
            "made_for": "y" * 200,
            "licence": "z " * 100,
            "version": "v" * 200,
            "changes": ("first\nsecond", "third " * 500),
        }
    )
    found = sheet_of(replace(piece, pattern=pattern), paper)
    assert [outside(page) for page in found.pages] == [[]] * len(found.pages)
    assert [pair for page in found.pages for pair in overlapping(page)] == []
    text = " ".join(
        placed.text for page in found.pages for placed in texts(page)[2:-2]
    )  # without heads and feet
    assert text.count(LONG[: len("words that go on and on")]) == 833


def test_sixty_notices_and_forty_lengths_all_stand_on_the_page():
    piece = made("plain")
    notices = tuple(
        Notice("swatch_without_rows", ("swatches", i), "doubt", {"of": f"n{i}", "given": ()})
        for i in range(60)
    )
    lines = tuple(
        replace(piece.bill.cutting[0], label=f"L{i}", length=Fraction(1000 + i)) for i in range(40)
    )
    bill = replace(piece.bill, cutting=lines)
    found = sheet_of(replace(piece, bill=bill, notices=notices))
    text = told(found)
    assert [i for i in range(60) if f"The swatch of n{i}: " not in text] == []
    assert [line.label for line in lines if f"{line.label} main cords" not in text] == []
    assert [outside(page) for page in found.pages] == [[]] * len(found.pages)
    assert [pair for page in found.pages for pair in overlapping(page)] == []


def test_a_long_table_says_its_head_again_on_every_page():
    piece = made("plain")
    lines = tuple(replace(piece.bill.cutting[0], label=f"L{i}") for i in range(120))
    found = sheet_of(replace(piece, bill=replace(piece.bill, cutting=lines)))
    told_there = [said(page) for page in found.pages]
    having = [text for text in told_there if re.search(r"L\d+ main cords", text)]
    assert len(having) > 2
    assert all("Length of each" in text for text in having)


def test_a_section_that_goes_on_is_named_again():
    found = [said(page) for page in sheet("curtain").pages if "(continued)" in said(page)]
    assert found
    assert all("(continued)" in text for text in found)


@pytest.mark.parametrize(
    ("name", "said_there", "not_there"),
    [
        ("plain", "The whole chart", "One repeat"),  # all of it is large enough on one page
        ("runner", "One repeat", "at a glance"),
        ("wide", "One repeat", "at a glance"),
        ("columns", "The whole chart, at a glance", "One repeat"),  # nothing in it repeats
    ],
)
def test_the_chart_is_shown_as_large_as_it_needs(name, said_there, not_there):
    text = told(sheet(name))
    assert said_there in text
    assert not_there not in text


def test_tiles_are_named_and_draw_the_chart_once():
    pages = [page for page in sheet("wide").pages if "The whole chart, on" in said(page)]
    names = ["A1", "A2", "A3", "B1", "B2", "B3"]
    assert [next(n for n in names if n in said(page).split()) for page in pages] == names
    pictures = {id(mark.symbol) for page in pages for mark in marks(page, "whole-chart")}
    assert len(pictures) == 1


def test_a_chart_too_large_for_paper_is_not_drawn(monkeypatch):
    monkeypatch.setattr("knotplot.sheet.chart_part.MOST_TIES", 10)
    monkeypatch.setattr("knotplot.sheet.cover.MOST_TIES", 10)
    text = told(sheet_of(made("plain")))
    assert "too large for paper" in text
    assert "The whole chart, " not in text


def test_another_language_is_refused_with_those_there_are():
    piece = made("plain")
    pattern = piece.pattern.model_copy(update={"language": "xx"})
    with pytest.raises(Refusal, match="use one of en"):
        sheet_of(replace(piece, pattern=pattern))


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(patterns())
def test_any_pattern_makes_a_clean_sheet(pattern):
    piece = build(pattern)
    found = sheet_of(piece)
    assert [outside(page) for page in found.pages] == [[]] * len(found.pages)
    assert [pair for page in found.pages for pair in overlapping(page)] == []


def test_one_section_and_no_swatch_will_do():
    text = told(sheet("plain"))
    assert "No swatch was given with this pattern" in text


def test_the_same_pattern_gives_the_same_pages():
    piece = build(loads(PATTERNS["hanging"]))
    assert sheet_of(piece).pages == sheet_of(piece).pages
