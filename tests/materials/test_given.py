"""What a maker gave that looks wrong is told, or refused, before anything is cut."""

from __future__ import annotations

import pytest

from knotplot import PatternError, build, loads
from knotplot.materials.bill import scaled
from knotplot.pattern.models import Pattern

BASE = """
knotplot: 1
title: Sample
size: {width: 60 cm, drop: 60 cm}
cord: {diameter: 4 mm}
strands: {count: 32}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {name: n, kind: square_knot_mesh, rows: 8}
  - {kind: fringe, length: 5 cm}
"""


def warnings(*sets: str) -> str:
    return "\n".join(build(loads(BASE, sets=sets)).figures()["warnings"])


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("swatch={of: n, rows: 40, cord_used: 41 cm}", "over 40 rows is 0."),
        ("swatch={of: n, rows: 4, cord_used: 410 cm}", "check that 'cord_used'"),
        ("cord_use={square_knot: {working: 0.001}}", "square knot, working 0.001 diameters"),
        (
            "swatches=[{of: n, rows: 4, cord_used: 19 cm}, {of: n, rows: 4, cord_used: 20 cm}]",
            "n: given more than once",
        ),
        ("swatch={of: n, rows: 4, minutes: 5}", "its minutes don't say"),
    ],
)
def test_what_looks_wrong_is_told(said: str, told: str) -> None:
    assert told in warnings(said)
    assert warnings() == ""


def test_a_likely_swatch_is_taken_without_a_word() -> None:
    assert warnings("swatch={of: n, rows: 4, cord_used: 19 cm}") == ""


def test_a_swatch_of_too_few_strands_for_a_knot_takes_no_time_away() -> None:
    made = build(loads(BASE, sets=["swatch={of: n, strands: 1, rows: 4, minutes: 5}"]))
    assert made.figures()["hours"] == build(loads(BASE)).figures()["hours"]


def test_a_cord_beyond_all_bounds_is_refused() -> None:
    with pytest.raises(PatternError, match="more than 1,000 m"):
        build(loads(BASE, sets=["cord_use={square_knot: {working: 1000000}}"]))


@pytest.mark.parametrize("confidence", ["1e-300", "0.001"])
def test_a_confidence_of_next_to_nothing_is_refused(confidence: str) -> None:
    with pytest.raises(PatternError, match=r"use 0\.01 or more"):
        loads(BASE, sets=[f"allowance.confidence={confidence}"])


@pytest.mark.parametrize("strands", [5, 6, 8])
@pytest.mark.parametrize("count", [4, 5])
def test_a_swatch_of_wide_sennits_is_compared_with_all_their_strands(strands, count) -> None:
    text = BASE.replace("count: 32", f"count: {strands * count * 2}").replace(
        "{name: n, kind: square_knot_mesh, rows: 8}",
        f"{{name: n, kind: sennits, knot: square_knot, strands: {strands}, count: 10}}",
    ).replace("width: 60", f"width: {strands * count * 4}")  # fmt: skip
    made = build(loads(text))
    cords = made.figures()["cords"]
    # What the strands use in ten knots each, in the mean, less their mounting; five knots' worth.
    plain: Pattern = loads(text, sets=["swatch={of: n, rows: 5, cord_used: 30 cm}"])
    (scale,) = scaled(plain, made.layout.piece)
    tied = [made.layout.uses[s] for cord in cords for s in cord["strands"]]
    mount = made.layout.take("larks_head", made.layout.piece.rows[0].placements[0].shape.ties[0]
                             .manner, 0).by_role["mount"] * 4.0  # fmt: skip
    mean = sum(use.knots - mount for use in tied) / len(tied) / 2.0
    assert scale.ratio == pytest.approx(300.0 / mean, rel=0.02)


def test_a_line_of_hitches_far_apart_is_told() -> None:
    line = ["sections=[{kind: hitch_line, overhang: 8 cm}, {kind: fringe, length: 5 cm}]"]
    assert "the leader shows between them" in warnings("size.width=90 cm", *line)
