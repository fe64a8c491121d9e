"""A chart too large for paper is known to be so before any page of it is cut."""

from __future__ import annotations

import pytest

import knotplot
from knotplot.sheet import chart_tiles
from knotplot.sheet.document import PAPERS
from knotplot.sheet.pages import subject_of

# In thread of a hundredth of a millimetre: thousands of pages at a scale it can be worked from.
NARROW = """
knotplot: 1
title: Narrow
size: {width: 10 mm, drop: 50 m}
cord: {diameter: 0.1 mm, mass_per_length: 0.006 g/m, spool: 100 m}
strands: {count: 40}
mount: {kind: open, tail: 12 cm}
sections:
  - {kind: square_knot_mesh, rows: 20}
  - {kind: fringe, length: 10 cm, finish: cut}
"""


def test_no_page_is_cut_of_a_chart_that_is_shown_small(monkeypatch):
    def cut(*_):
        pytest.fail("pages were cut that no sheet has")

    monkeypatch.setattr(chart_tiles, "tile", cut)
    made = knotplot.build(knotplot.loads(NARROW))
    subject = subject_of(made.pattern, made.count, made.layout, made.bill, PAPERS["a4"])
    assert len(list(chart_tiles.tiled(subject))) == 1
