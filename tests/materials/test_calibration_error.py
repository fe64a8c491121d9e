"""What a swatch's cord says, how sure it is, and which sections go by it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot import build, loads
from knotplot.materials.bill import scaled
from knotplot.materials.calibration import (
    Measured,
    measuring_error,
    part_of,
    rows_needed,
    scales,
    served,
    unsure,
)
from knotplot.notices import in_file_words

TEXT = """
knotplot: 1
size: {{width: 28 cm, drop: 90 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: 40}}
swatches: [{swatches}]
mount: {{kind: rod_pocket, rod: 12 mm, rows: 10, tail: 40 cm}}
sections:
  - {{kind: hitch_line, layer: tails}}
  - {{name: net, kind: square_knot_mesh, rows: 6}}
  - {{name: lace, kind: motif_band, motif: diamond, rows: 2}}
  - {{kind: fringe, length: 10 cm}}
"""


def test_error_of_reading_and_of_ties() -> None:
    # Two ends read to 2 mm each: √(2² + 2²) mm of 400; a tenth a tie, over four ties.
    swatch = Measured("net", 4, 400.0)
    assert measuring_error(swatch, 4.0, 0.1) == pytest.approx(
        math.sqrt(8.0 / 400.0**2 + 0.01 / 4.0)
    )
    assert measuring_error(swatch, 0.0, 0.0) == pytest.approx(math.sqrt(8.0) / 400.0)


@given(
    st.integers(1, 30), st.floats(20.0, 3000.0), st.floats(0.2, 4.0), st.floats(0.0, 0.3)
)  # fmt: skip
def test_so_many_rows_are_needed_and_no_fewer(
    rows: int, cord_used: float, ties_a_row: float, sigma: float
) -> None:
    needed = rows_needed(Measured(None, rows, cord_used), ties_a_row * rows, sigma)

    def error(over: int) -> float:
        longer = Measured(None, over, cord_used * over / rows)
        return measuring_error(longer, ties_a_row * over, sigma)

    assert error(needed) <= 0.04 + 1e-9
    assert needed == 1 or error(needed - 1) > 0.04 - 1e-9


def test_a_small_swatch_is_told_and_a_large_one_not() -> None:
    small = build(loads(TEXT.format(swatches="{of: net, rows: 1, cord_used: 6 cm}")))
    (scale,) = scaled(small.pattern, small.layout.piece)
    assert scale.unsure
    (warning,) = in_file_words(unsure([scale]))
    assert warning in small.figures()["warnings"]
    assert f"knot {scale.rows_needed} rows or more" in warning
    more = scale.rows_needed
    swatch = f"{{of: net, rows: {more}, cord_used: {6 * more} cm}}"
    large = build(loads(TEXT.format(swatches=swatch)))
    assert unsure(scaled(large.pattern, large.layout.piece)) == ()


def test_every_section_goes_by_its_swatch_the_others_by_the_first() -> None:
    swatches = (
        "{rows: 4, cord_used: 30 cm}, {of: lace, rows: 1, cord_used: 40 cm}, "
        "{of: hitch_line, rows: 1, cord_used: 4 cm}"
    )
    made = build(loads(TEXT.format(swatches=swatches)))
    piece = made.layout.piece
    known = scaled(made.pattern, piece)
    by = scales(piece, known)
    factor = {part.name: by[i] for i, part in enumerate(piece.parts)}
    assert [scale.of for scale in known] == [None, "lace", "hitch_line"]
    assert factor["net"] == factor["mount"] == known[0].factor
    assert factor["lace"] == known[1].factor
    assert factor["hitch_line"] == known[2].factor
    assert len(set(by.values())) == 3
    assert served(piece, []) == {}


def test_a_swatch_that_does_not_say_is_of_the_plain_net() -> None:
    piece = build(loads(TEXT.format(swatches="{rows: 4, height: 7 cm}"))).layout.piece
    assert [piece.parts[part_of(piece, of) or 0].name for of in (None, "rod_pocket", "lace")] == [
        "net", "mount", "lace",
    ]  # fmt: skip
    assert part_of(piece, "fringe") is None
