"""Warnings of one kind are told in a line or a few, however many things they are about."""

from __future__ import annotations

import time

import pytest
from pattern_sample import SMALL, changed

from knotplot import build
from knotplot.pattern.load import loads

BAND = "{kind: motif_band, motif: diamond, rows: %d%s}\n  - {kind: fringe, length: 5}"
WIDE = changed("{width: 40, drop: 60}", "{width: 60, drop: 50}", changed("16", "32", SMALL))
NET = "{name: net, kind: square_knot_mesh, rows: 4}"


def warnings(text: str) -> list[str]:
    return list(build(loads(text)).warnings)


def banded(rows: int, more: str = "") -> str:
    return WIDE.replace(NET, BAND % (rows, more)) + "lower_edge: {profile: parabola, rise: 12}\n"


@pytest.mark.parametrize(
    ("rows", "more", "told"),
    [
        (4, "", "row 4 fits nowhere above the lower edge, so nothing of it is worked"),
        (8, "", "rows 4–8 fit nowhere above the lower edge, so nothing of them is worked"),
        (20_001, "", "rows 4–20001 fit nowhere"),
        (1_000_000, "", "rows 4–1000000 fit nowhere"),
        (1_000_000, ", offset: half", "rows 5–1000000 fit nowhere"),
    ],
)
def test_rows_that_fit_nowhere_are_told_in_one_line(rows: int, more: str, told: str) -> None:
    begin = time.process_time()
    found = [each for each in warnings(banded(rows, more)) if "nowhere" in each]
    assert time.process_time() - begin < 5
    assert len(found) == 1
    assert told in found[0]


def test_what_is_worked_is_the_same_however_many_rows_are_asked() -> None:
    for more in ("", ", offset: half"):
        few, many = (build(loads(banded(rows, more))) for rows in (8, 5_000))
        assert few.figures(rows=True)["rows"] == many.figures(rows=True)["rows"]


def test_inks_that_no_cord_has_are_told_in_one_line() -> None:
    inks = ", ".join(f'c{i}: "#000000"' for i in range(100))
    text = SMALL + f"colours: {{order: [red], palette: {{{inks}}}}}\n"
    (told,) = [each for each in warnings(text) if "palette" in each]
    assert told == (
        "colours: c0, c1, c2 and 97 more are in the palette, but no cord has them; use one of red"
    )


def test_swatches_are_told_in_one_line_of_a_kind() -> None:
    sections = "".join(f"\n  - {{name: n{i}, kind: free, length: 0.001}}" for i in range(50))
    swatches = "swatches:" + "".join(
        f"\n  - {{of: n{i // 2}, height: 7 cm, minutes: 3}}" for i in range(100)
    )
    found = warnings(SMALL.replace("rows: 4}", "rows: 4}" + sections) + swatches + "\n")
    assert len(found) < 20
    assert "swatches: n0, n1, n2 and 47 more: given more than once; the first one counts" in found
    assert [each for each in found if each.startswith("swatches[0], swatches[1], swatches[2] and")]
    assert [each for each in found if each.endswith("more like these")]
