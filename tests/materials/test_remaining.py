"""The cord left below a row agrees with the lengths it is counted from."""

from __future__ import annotations

import pytest
import strategies
from hypothesis import given, settings

from knotplot.materials.bill import bill, laid
from knotplot.materials.remaining import remaining, used
from knotplot.pattern.models import Pattern
from knotplot.tying.finish import KNOT, MANNER


@settings(max_examples=25)
@given(strategies.patterns())
def test_a_strand_has_used_all_its_runs_and_knots_after_the_last_row(pattern: Pattern) -> None:
    layout = laid(pattern, strategies.tied(pattern))
    last = len(layout.piece.rows) - 1
    for strand in (1, layout.piece.gauge.strands):
        use = layout.uses[strand]
        end = 0.0  # the knot in the end of a knotted fringe comes after the last row
        if strand in layout.tied_off:
            section = next(i for i, part in enumerate(layout.piece.parts) if part.finish)
            taken = layout.take(KNOT, MANNER, section).by_role["working"]
            end = taken * layout.piece.gauge.diameter
        assert used(layout, strand, last) == pytest.approx(use.knots - end + use.runs, abs=0.05)


@settings(max_examples=25)
@given(strategies.patterns())
def test_what_is_left_shrinks_and_reaches_the_lower_edge(pattern: Pattern) -> None:
    layout = laid(pattern, strategies.tied(pattern))
    left = remaining(layout, bill(pattern, layout).lengths)
    rows = range(len(layout.piece.rows))
    told = [left(1, row) for row in rows]
    assert None not in told
    assert told == sorted(told, key=lambda mm: -(mm or 0.0))
    assert not told or (told[-1] or 0.0) >= layout.hanging[1] - 1e-6
