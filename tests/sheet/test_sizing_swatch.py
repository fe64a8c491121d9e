"""What the sheet says of swatches: how sure each number is, and what was scaled by it."""

from __future__ import annotations

import pytest
from sheet_sample import said, sheet_of

from knotplot.api import build
from knotplot.pattern.load import loads

TEXT = """
knotplot: 1
title: Two swatches
size: {{width: 56 cm, drop: 90 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: 80}}
swatches: [{swatches}]
mount: {{kind: larks_head, rod: 20 mm}}
sections:
  - {{name: net, kind: square_knot_mesh, rows: 6}}
  - {{name: twists, kind: sennits, knot: half_knot, count: 12}}
  - {{kind: fringe, length: 10 cm}}
"""
NET = "{of: net, strands: 20, width: 14 cm, rows: 4, height: 7.5 cm, cord_used: 41 cm}"


def told(swatches: str) -> str:
    """Return all that the sheet says."""
    found = sheet_of(build(loads(TEXT.format(swatches=swatches))))
    return " ".join(" ".join(said(page).split()) for page in found.pages)


def test_one_row_is_one_row() -> None:
    text = told("{of: net, strands: 20, width: 14 cm, rows: 1, height: 1.8 cm}")
    assert "Height of 1 row " in text
    assert "work 1 row or more" in text


def test_how_to_measure_a_cord_is_told_with_what_it_should_come_to() -> None:
    text = told(NET)
    assert "wind it ten times round a pencil" in text
    assert "a tenth of their width. This sheet is for cord of 4 mm." in text


def test_every_measure_says_how_sure_it_is() -> None:
    text = told(NET)
    # Two ends read to 2 mm each: 2.83 mm of 140 and of 75.
    for within in ("± 2.0 %", "± 3.8 %"):
        assert within in text
    assert text.count("±") == 3  # and the cord's, with the ties' spread in it


def test_what_was_scaled_by_which_swatch() -> None:
    text = told(NET + ", {of: twists, rows: 10, height: 6.3 cm}")
    assert "Height by net" in text
    assert "Height by twists" in text
    assert "0.9 × as tall as usual" in text  # ten half knots of 1.75 diameters are 7 cm
    assert "Cord by net" in text
    assert "This goes for: net, twists." in text


@pytest.mark.parametrize(
    ("swatch", "said_so"),
    [
        ("{strands: 20, width: 14 cm}", "no swatch says how high its rows are"),
        ("{strands: 20, width: 14 cm}", "no swatch says how much it used"),
        (
            "{of: twists, rows: 10, height: 20 cm}",
            "no knots of this cord make the",
        ),
    ],
)
def test_what_no_swatch_says_or_no_knot_can_be(swatch: str, said_so: str) -> None:
    assert said_so in told(swatch)
