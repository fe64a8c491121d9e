"""A knotted fringe on the sheet: its knots are taught, counted, and tied before tails are cut."""

from __future__ import annotations

from sheet_sample import made, said, sheet, texts

from knotplot.drawing.chart_key import used
from knotplot.drawing.how_to import frames
from knotplot.drawing.trim import trim
from knotplot.knots.base import Manner
from knotplot.sheet.knot_list import knot_list


def text() -> str:
    return " ".join(said(page) for page in sheet("hanging").pages)


def test_its_knots_are_counted_on_the_cover_and_taught() -> None:
    ends = len(made("hanging").layout.piece.lanes)
    assert ends == 48
    assert "overhand knot (48)" in said(sheet("hanging").pages[0])
    assert "48 knots in this piece in the ends of the fringe" in text()
    assert all(frame.text in text() for frame in frames("overhand", Manner(1)))
    (row,) = [told for name, told in knot_list(made("hanging").layout.piece) if name == "overhand"]
    assert row.startswith("overhand knot: ")


def test_a_knot_that_no_row_has_shows_no_mark_of_the_chart() -> None:
    charted = {name for name, _ in used(made("hanging").layout.piece)}
    assert "overhand" not in charted
    told = text().count("mark in the chart") - text().count("its mark in the chart.")
    assert told == len(charted - {"cross"})


def test_finishing_has_no_trimming_before_the_knots() -> None:
    found = text()
    tie = found.index("Tie an overhand knot in every end")
    assert "trim along it" not in found
    assert found.index("Mark the trim line, measured") < tie
    assert "cut along the curve" not in found


def test_the_trim_line_says_what_is_knotted() -> None:
    told = " ".join(each.text for each in texts(trim(made("hanging").layout)))
    assert "tie the knot in each end" in told
    wide = " ".join(each.text for each in texts(trim(made("wide").layout)))
    assert "cut along each curve, and keep the corners between them sharp" in wide


def test_the_overhand_knot_is_in_the_glossary() -> None:
    assert "overhand knot thumb knot a cord led once through its own loop" in text()
