"""Colours on the sheet: their names where cord is told of, a disc beside each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pytest
from sheet_sample import PLAIN

from knotplot.api import WorkedPiece, build
from knotplot.drawing.shapes import Disc, Drawing, Group, Item, Text
from knotplot.drawing.theme import contrast, ink
from knotplot.pattern.load import loads
from knotplot.sheet.dye import RADIUS
from knotplot.sheet.paper import CELL
from knotplot.sheet.table import Column, Dyed, table

COLOURS = """
colours:
  order: [natural*2, rust, "off <white> & {1}"]
  palette: {natural: "#e9e1d3", rust: "#a4502f", "off <white> & {1}": "#fffdf5"}
"""


def made(text: str, more: str = "") -> WorkedPiece:
    return build(loads(text + more))


def items(found: Sequence[Item]) -> Iterator[Item]:
    for item in found:
        if isinstance(item, Group):
            yield from items(item.items)
        else:
            yield item


def discs(page: Drawing) -> list[Disc]:
    """Return the discs that stand beside colours."""
    return [x for x in items(page.items) if isinstance(x, Disc) and x.radius == RADIUS]


def texts(page: Drawing) -> list[str]:
    return [item.text for item in items(page.items) if isinstance(item, Text)]


def page_with(pages: Sequence[Drawing], text: str) -> Drawing:
    return next(page for page in pages if text in texts(page))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_colours_stand_on_the_cover_and_in_the_tables(paper: str) -> None:
    pages = made(PLAIN, COLOURS).sheet(paper).sheet.pages
    cover = pages[0]
    assert {"natural", "rust", "off <white> & {1}", "Colours"} <= set(texts(cover))
    fills = [each.style.fill for each in discs(cover)]
    assert fills == ["#e9e1d3", "#a4502f", "#fffdf5"]
    bought = page_with(pages, "Cord to buy")
    assert [each.style.fill for each in discs(bought)][:3] == fills
    cut = page_with(pages, "Cut list")
    assert set(fills) == {each.style.fill for each in discs(cut)}


def test_a_pale_disc_has_an_outline_and_another_none() -> None:
    for each in discs(made(PLAIN, COLOURS).sheet().sheet.pages[0]):
        pale = contrast(each.style.fill or "", ink("paper").light) < 3.0
        assert (each.style.stroke is not None) == pale


def test_without_colours_no_disc_and_no_column() -> None:
    for page in made(PLAIN).sheet().sheet.pages:
        assert discs(page) == []
        assert not {"Colour", "Colours"} & set(texts(page))


def test_colours_without_a_palette_are_named_without_a_disc() -> None:
    pages = made(PLAIN, "colours: {order: [natural, rust]}\n").sheet().sheet.pages
    assert {"natural", "rust"} <= set(texts(page_with(pages, "Cut list")))
    assert all(discs(page) == [] for page in pages)


def test_where_only_a_wrap_has_a_colour_the_others_have_a_dash() -> None:
    text = PLAIN + "  - {kind: gather, wrap: 3 cm, colour: rust}\n"
    told = texts(page_with(made(text).sheet().sheet.pages, "Cut list"))
    assert {"–", "rust"} <= set(told)


def test_the_order_of_mounting_stands_above_the_first_row() -> None:
    pages = made(PLAIN, COLOURS).sheet().sheet.pages
    page = next(page for page in pages if any("Colours of the 8" in text for text in texts(page)))
    told = " ".join(texts(page))
    assert (
        "from the left: * 2 natural, 1 rust, 1 off <white> & {1}; repeat from * once more." in told
    )


def test_many_colours_are_counted_on_the_cover() -> None:
    order = ", ".join(f"c{i}" for i in range(8))
    told = texts(made(PLAIN, f"colours: {{order: [{order}]}}\n").sheet().sheet.pages[0])
    assert [text for text in told if text in {"c0", "c1", "c2", "c3", "and 5 more"}] == [
        "c0", "c1", "c2", "and 5 more",
    ]  # fmt: skip


def test_a_disc_stands_left_of_its_word_and_within_its_cell() -> None:
    columns = (Column("A", 1.0), Column("B", 1.0))
    rows = [["x", Dyed("a colour of a very long name that is wrapped", "#a4502f")]]
    found = [item for strip in table(columns, rows, 66.0) for item in strip.items]
    (disc,) = (item for item in found if isinstance(item, Disc))
    lines = [item for item in found if isinstance(item, Text) and item.x > 36.0]
    assert len(lines) > 1
    assert disc.at[0][0] - disc.radius == 36.0  # two columns of 30 mm, 6 mm apart
    assert all(line.x >= disc.at[0][0] + disc.radius + 1.0 for line in lines)
    assert {line.size for line in lines} == {CELL.size}


def test_a_quote_names_colours() -> None:
    text = PLAIN.replace("diameter: 4 mm", "diameter: 4 mm, spool: 50 m, price_per_spool: 9 EUR")
    pages = made(text, COLOURS + "work: {rate: 20 EUR}\n").sheet(quote=True).sheet.pages
    told = " ".join(texts(page_with(pages, "How it is reckoned")))
    assert "Cord, rust: 4 mm" in told
    assert "fibre not stated, rust, " in told
