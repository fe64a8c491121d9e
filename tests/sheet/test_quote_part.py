"""The page with the quote: only when asked for, last, complete, and nothing on top of another."""

from __future__ import annotations

import hashlib

import pytest
from sheet_sample import PATTERNS, anchors, said, sheet, texts
from test_sheet_pages import outside, overlapping

from knotplot.api import WorkedPiece, build
from knotplot.drawing.shapes import Drawing
from knotplot.pattern.load import loads
from knotplot.sheet.document import PAPERS
from knotplot.sheet.quote_text import money

WORK = "work: {rate: 22 EUR, overhead: 15 %, markup: 30 %, tax: 20 %}\n"
TUBE = "{material: steel tube, wall: 2 mm, diameter: 20 mm, span: 90 cm, price: 7 EUR}"
SUPPORT = f"support: {TUBE}\n"
WRAPS = PATTERNS["hanging"].replace("mass_per_length: 14 g/m,", "price_per_spool: 1234.5 EUR,")
MANY = {
    "curtain": PATTERNS["curtain"] + WORK + SUPPORT,
    "hanging": WRAPS + WORK,
    "plain": PATTERNS["plain"] + "work: {rate: 0.125 EUR}\n",
    "rich": PATTERNS["curtain"] + "work: {rate: 99999999999 EUR, markup: 1000 %, tax: 1/3 %}\n",
}
every = pytest.mark.parametrize("name", MANY)


def made(name: str) -> WorkedPiece:
    return build(loads(MANY[name]))


def page(name: str, paper: str = "a4") -> Drawing:
    piece = made(name)
    return piece.sheet(paper, quote=True).sheet.pages[-1]


@every
@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_stands_outside_or_on_top_of_another(name: str, paper: str) -> None:
    found = page(name, paper)
    assert [anchor.name for anchor in anchors(found)] == ["quote"]
    assert outside(found) == []
    assert overlapping(found) == []


@every
def test_every_amount_of_the_quote_stands_there(name: str) -> None:
    piece = made(name)
    found = {placed.text for placed in texts(page(name))}
    offer = piece.quote()
    amounts = [line.amount for line in offer.lines]
    assert {money(amount) for amount in amounts if amount is not None} <= found
    assert money(offer.total) in found
    assert f"Total in {offer.currency}" in found


def test_the_page_says_what_is_offered() -> None:
    text = said(page("curtain"))
    for words in (
        "Window curtain", "92 cm (36 1/4 in) × 60 cm (23 5/8 in)", "3 mm, twisted, cotton",
        "steel tube, 2 cm (3/4 in) thick", "materials and labour", "the cost with overhead",
        "20 % of the net",
        "The maker", "The customer", "Name", "Place, date, signature", "whole spools",
        "prices, hours and percentages are the maker's own",
    ):  # fmt: skip
        assert words in text
    assert "Not in this price" not in text


def test_a_cord_without_a_price_is_said_on_the_page() -> None:
    text = said(page("hanging"))
    assert "left out: no price known" in text
    assert "Not in this price: cord for which no price is known (wrapping: 3 mm, sin" in text


def test_what_the_quote_leaves_out_is_no_warning_on_the_other_pages() -> None:
    piece = made("hanging")
    assert any(text.startswith("quote:") for text in piece.warnings)
    assert not any("price_per_spool" in said(each) for each in piece.sheet(quote=True).sheet.pages)


def test_a_support_without_a_price_is_said_not_to_be_in_it() -> None:
    unpriced = SUPPORT.replace(", price: 7 EUR", "")
    piece = build(loads(PATTERNS["curtain"] + WORK + unpriced))
    text = said(piece.sheet("a4", quote=True).sheet.pages[-1])
    assert "What it hangs on (steel tube, 2 cm (3/4 in) thick) is not in this price." in text
    assert "is not in this price" not in said(page("curtain"))


def test_without_tax_there_is_a_total_only() -> None:
    text = said(page("plain"))
    assert "Net price" not in text
    assert "Tax" not in text
    assert "0.125" in text  # a rate keeps its decimals


def test_the_quote_is_printed_only_when_asked_for() -> None:
    piece = made("curtain")
    without, with_it = piece.sheet().sheet.pages, piece.sheet(quote=True).sheet.pages
    assert len(with_it) == len(without) + 1
    assert not any(anchor.name == "quote" for each in without for anchor in anchors(each))
    assert "Quote" in said(with_it[1])  # in the contents
    assert "Quote" not in said(without[1])
    assert "22.00" not in " ".join(map(said, without))


def test_work_alone_changes_no_page_of_the_sheet() -> None:
    assert build(loads(PATTERNS["curtain"] + WORK)).sheet().sheet == sheet("curtain")


def test_the_same_quote_gives_the_same_bytes() -> None:
    one, other = (
        hashlib.sha256(made("curtain").sheet(quote=True).pdf()).hexdigest() for _ in range(2)
    )
    assert one == other
