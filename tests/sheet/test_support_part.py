"""What the sheet tells of the rod: its table, drawing and cautions, only where one is given."""

from __future__ import annotations

from functools import cache
from itertools import combinations

import pytest
from sheet_sample import PLAIN, Placed, texts

from knotplot.api import build
from knotplot.drawing.bounds import bounds, meet
from knotplot.drawing.shapes import Drawing
from knotplot.materials.support import Support
from knotplot.pattern.load import loads
from knotplot.sheet.document import PAPERS, make_sheet
from knotplot.sheet.en.support import TEXTS
from knotplot.sheet.support_part import exaggeration, rod_drawing
from knotplot.stock import STOCK

RODS = {
    "plain": "{material: pine, diameter: 12 mm, span: 40 cm}",
    "within": "{material: Steel Tube, diameter: 20 mm, wall: 1 mm, span: 12 cm}",
    "weak": "{material: acrylic, diameter: 6 mm, span: 50 cm}",
    "gives way": "{material: found branch, diameter: 4 mm, span: 2 m}",
}


@cache
def held(name: str) -> Support:
    found = build(loads(f"{PLAIN}support: {RODS[name]}\n")).bill.support
    assert found is not None
    return found


@cache
def pages(name: str, paper: str = "a4") -> tuple[Drawing, ...]:
    made = build(loads(PLAIN + (f"support: {RODS[name]}\n" if name else "")))
    sheet = make_sheet(
        made.pattern, made.count, made.layout, made.bill, PAPERS[paper], notices=made.notices
    )
    return tuple(sheet.pages)


def said(name: str) -> list[Placed]:
    return [placed for page in pages(name) for placed in texts(page)]


def words(name: str) -> str:
    return " ".join(placed.text for placed in said(name))


def test_it_stands_on_the_sheet_only_where_a_support_is_given() -> None:
    assert TEXTS["hangs on"] not in words("")
    for name in RODS:
        assert words(name).count(TEXTS["hangs on"]) == 1


def test_the_table_tells_both_units() -> None:
    found, told = held("plain"), words("plain")
    for text in (
        "pine (softwood)", "1.2 cm (1/2 in)", "40 cm (15 3/4 in)", "50 cm (19 3/4 in)",
        f"{found.load_g:.0f} g ({found.load_g / 453.59237:.2f} lb)", "estimated",
        f"Sag {found.bent.sag_mm:.1f} mm (", f"at once, {found.bent.later_mm:.1f} mm (", "in time",
        "2.0 mm (0.08 in)", "span/200", "to 1.6 times its sag at once",
        f", {found.bracket_n:.1f} N", "of a cautious 6 MPa",
    ):  # fmt: skip
        assert text in told, text


def test_the_cautions_are_never_left_out() -> None:
    for name in RODS:
        told = words(name)
        for text in (
            "structure", "licensed trade", "Local rules", "hangs still", "no conformity", "pulls",
            "twice as much",
        ):  # fmt: skip
            assert text in told, (name, text)


def test_a_tube_tells_its_wall_and_a_material_its_own_name_once() -> None:
    told = words("within")
    assert "wall 1.0 mm (0.04 in)" in told
    assert "Steel Tube (" not in told


def test_what_cannot_be_seen_or_reckoned_is_said_in_words() -> None:
    assert held("within").bent.sag_mm < 0.05
    assert TEXTS["rod sag none"] in words("within")
    assert TEXTS["rod gives way"] in words("gives way")
    assert "times as large" not in words("gives way")


def test_of_metal_and_plastic_one_sag_is_told() -> None:
    for name in ("within", "weak"):
        assert ") at once, " not in words(name)
        assert "goes on sagging" not in words(name)


def test_no_sag_is_told_as_nought_of_an_inch() -> None:
    assert all("(0.00 in)" not in words(name) for name in RODS)


def test_a_rod_that_does_not_do_is_warned_of_before_cutting() -> None:
    assert "Support: acrylic" in words("weak")
    assert "support: pine" not in words("plain")


def test_the_rod_is_as_long_wherever_it_is_told() -> None:
    assert words("plain").count("50 cm (19 3/4 in)") == 2  # among the tools, and in the table
    assert "40 cm (15 3/4 in) long" in words("")


@pytest.mark.parametrize("name", RODS)
@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_lies_on_another_or_outside_the_page(name: str, paper: str) -> None:
    for page in pages(name, paper):
        placed = list(texts(page))
        for each in placed:
            x0, y0, x1, y1 = each.box
            assert min(x0, y0) >= 14.0
            assert x1 <= page.width - 14.0
            assert y1 <= page.height - 14.0
        for a, b in combinations(placed, 2):
            shared = meet(a.box, b.box)
            assert not shared or min(shared[2] - shared[0], shared[3] - shared[1]) < 0.06


@pytest.mark.parametrize("name", ["plain", "within", "weak"])
def test_the_drawing_shows_the_sag_so_many_times_as_large(name: str) -> None:
    found = held(name)
    factor = exaggeration(found)
    assert factor in (1, 2, 5, 10, 20, 50)
    sag = found.bent.later_mm
    assert factor * sag <= max(0.05 * found.rod_length, sag)
    drawing = rod_drawing(found, factor, 3.0, "rod")
    x0, y0, x1, y1 = bounds(drawing.items)
    assert (x0, y0) == pytest.approx((0.0, 0.0), abs=1e-6)
    assert x1 - x0 >= found.rod_length
    assert (x1, y1) == pytest.approx((drawing.width, drawing.height))
    told = [text for text in words(name).split(".") if "times as large" in text]
    assert (f"drawn {factor} times" in " ".join(told)) == (factor > 1)


def test_every_material_has_its_words() -> None:
    assert {f"stock {stock.name}" for stock in STOCK} <= set(TEXTS)
