"""Knots at the sides of an offset row, where only some of their lanes are there."""

from __future__ import annotations

import pytest
from motifs.test_adding_ending import band, made

from knotplot.api import WorkedPiece
from knotplot.errors import PatternError

HALF = "rows: 2, offset: half"


def lanes(found: WorkedPiece) -> list[list[int]]:
    """Return the lanes of every tie of the last row."""
    return [tie["lanes"] for tie in found.figures(rows=True)["rows"][-1]["ties"]]


# A crown has four strands and no fewer: half of it can't be tied (contract 4: refused, with row,
# lanes and remedy).
@pytest.mark.parametrize("kind", ["crown_knot", "switched_square_knot", "berry_knot"])
def test_a_knot_that_its_part_can_t_tie_is_refused(kind: str) -> None:
    steps = f"      - knot: {{kind: {kind}, lanes: [1, 2, 3, 4]}}\n"
    with pytest.raises(PatternError, match=f"row 2: lanes 3, 4: {kind} needs 4 lanes") as caught:
        made(8, band(steps, 4, HALF), pitch=20)
    (fault,) = caught.value.faults
    assert "edges: free" in str(fault)
    found = made(8, band(steps, 4, HALF + ", edges: free"), pitch=20)
    assert lanes(found) == [[3, 4, 5, 6]]


def test_an_odd_part_of_a_josephine_is_refused_and_an_even_one_is_tied() -> None:
    steps = "      - knot: {kind: josephine_knot, lanes: [2, 3, 4, 5]}\n"
    assert lanes(made(12, band(steps, 6, HALF), pitch=20)) == [[1, 2], [5, 6, 7, 8], [11, 12]]
    steps = "      - knot: {kind: josephine_knot, lanes: [1, 2, 3, 4]}\n"
    with pytest.raises(PatternError, match="row 2: lanes 1, 2, 3: josephine_knot takes an even"):
        made(12, band(steps, 6, HALF), pitch=20)
