"""What is `fill`, and what doesn't fit, at the very limit of the drop: numbers worked out by hand.

A square knot is as high as 4 diameters of cord, 0.875 of that as hands tie it: 3.5, so 14 mm in
cord of 4 mm. Knots of a sennit stand one on another. The first one hangs below the top fringe of
100 mm by what its strands need to come together, 2.4 mm on these lanes: its own place says so.
"""

from __future__ import annotations

import pytest

from knotplot.api import build
from knotplot.errors import PatternError
from knotplot.pattern.load import loads

KNOT, FIRST = 14.0, 102.4  # mm

TEXT = """\
knotplot: 1
size: {width: 64 mm, drop: DROP mm}
cord: {diameter: 4 mm}
strands: {count: 8}
mount: {kind: open, tail: 100 mm}
sections:
  - {kind: sennits, knot: square_knot, SIZE}
"""


def text(drop: float, size: str) -> str:
    return TEXT.replace("DROP", f"{drop:g}").replace("SIZE", size)


def knots(drop: float) -> int:
    """Return how many knots each of the two sennits gets."""
    made = build(loads(text(drop, "length: fill")))
    return made.figures()["knots"]["square_knot"] // 2


def test_the_first_knot_hangs_where_it_is_counted_from() -> None:
    (row,) = build(loads(text(300, "count: 1"))).figures(rows=True)["rows"]
    assert [tie["y_mm"] for tie in row["ties"]] == pytest.approx([FIRST] * 2, abs=0.05)


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6, 7, 8, 9, 20, 33, 101])
def test_fill_takes_the_last_knot_that_fits(count: int) -> None:
    assert knots(FIRST + KNOT * count + 0.1) == count
    assert knots(FIRST + KNOT * count + 13.9) == count


@pytest.mark.parametrize("drop", [113.0, 115.9])
def test_where_not_even_one_fits_the_drop_that_would_do_is_said(drop: float) -> None:
    with pytest.raises(PatternError) as caught:
        build(loads(text(drop, "length: fill")))
    assert "use a drop of 12 cm or more" in str(caught.value)  # 116.4 mm, up to whole 5 mm


@pytest.mark.parametrize(
    ("drop", "count", "said"),
    [
        # 12 knots need 270.4 mm, 10 of them 242.4.
        (243, 12, "a drop of 24.3 cm; use a drop of 27.5 cm or more, or 10 knots"),
        (242, 12, "a drop of 24.2 cm; use a drop of 27.5 cm or more, or 9 knots"),
        (270, 12, "use a drop of 27.5 cm or more, or 11 knots at most in sennits"),
        (257, 12, "use a drop of 27.5 cm or more, or 11 knots at most in sennits"),
        (256, 12, "use a drop of 27.5 cm or more, or 10 knots at most in sennits"),
        (129, 2, "use a drop of 13.5 cm or more, or 1 knot at most in sennits"),
        (113, 2, "1.7 cm too long for a drop of 11.3 cm; use a drop of 13.5 cm or more"),
    ],
)
def test_what_is_too_long_is_said_with_what_fits(drop: float, count: int, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        build(loads(text(drop, f"count: {count}")))
    (fault,) = caught.value.faults
    assert said in str(fault)
    assert ("at most" in str(fault)) == ("knot" in said)
    assert fault.path[0] == ("sections" if "knot" in said else "size")


def test_what_is_proposed_can_be_made() -> None:
    assert build(loads(text(275, "count: 12"))).figures()["knots"] == {"square_knot": 24}
    assert build(loads(text(243, "count: 10"))).figures()["knots"] == {"square_knot": 20}


@pytest.mark.parametrize("drop", [150.0, 240.5])
def test_a_free_length_takes_what_is_left(drop: float) -> None:
    """One knot ends at 116.4 mm, another at the drop: between them is all but its 14 mm."""
    second = "count: 1}\n  - {kind: free, length: fill}\n"
    second += "  - {kind: sennits, knot: square_knot, count: 1"
    figures = build(loads(text(drop, second))).figures()
    _, free, last = figures["sections"]
    assert (free["top_mm"], free["bottom_mm"]) == (116.4, drop - 14.0)
    assert (last["top_mm"], last["bottom_mm"]) == (drop - 14.0, drop)
