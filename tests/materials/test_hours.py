"""Hours by knot: counts times minutes, whose minutes they are, and lines that add up."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from knotplot.api import WorkedPiece, build
from knotplot.errors import PatternError
from knotplot.knots import knot
from knotplot.materials.hours import CORD_MINUTES, adding_up, exactly, hundredths, work_time
from knotplot.pattern.load import loads
from knotplot.tying.finish import knotted
from knotplot.tying.piece import Piece

# 16 strands: larks head 8; a line of 16 hitches; a net of 4, 3, 4, 3 square knots; sennits of 4 × 5
PATTERN = """
knotplot: 1
size: {width: 16 cm, drop: 80 cm}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: {kind: larks_head, rod: 12 mm}
sections:
  - {name: line, kind: hitch_line, overhang: 5 cm}
  - {name: net, kind: square_knot_mesh, rows: 4}
  - {name: twists, kind: sennits, knot: half_knot, strands: 4, count: 5}
  - {kind: fringe, length: 10 cm}
"""
USUAL = {"larks_head": 0.4, "double_half_hitch": 0.3, "square_knot": 0.5, "half_knot": 0.25}


def made(more: str = "") -> WorkedPiece:
    return build(loads(PATTERN + more))


def minutes(piece: WorkedPiece) -> dict[str, tuple[int, Fraction, str]]:
    """Return count, minutes each and whose they are, by knot; each must have but one line."""
    lines = piece.bill.time.knots
    found = {line.knot: (line.count, line.minutes, line.whose) for line in lines}
    assert len(found) == len(lines)
    return found


# --- by hand -------------------------------------------------------------------------------------


def test_a_piece_counted_by_hand() -> None:
    found = minutes(made())
    assert {name: count for name, (count, _, _) in found.items()} == {
        "larks_head": 8, "double_half_hitch": 16, "square_knot": 14, "half_knot": 20,
    }  # fmt: skip
    # 8 × 0.4 + 16 × 0.3 + 14 × 0.5 + 20 × 0.25 = 20 min; 9 cords × 0.5 = 4.5 min
    assert made().bill.time.exact == Fraction(49, 120)
    assert made().figures()["hours"] == 0.41
    assert {name: (float(each), whose) for name, (_, each, whose) in found.items()} == {
        name: (each, "usual") for name, each in USUAL.items()
    }


def test_the_knots_in_a_knotted_fringe_are_counted_and_timed() -> None:
    text = PATTERN.replace("length: 10 cm}", "length: 10 cm, finish: knotted}")
    tied = build(loads(text))
    # 16 ends, each half a minute: 8 minutes more than the same piece cut.
    assert minutes(tied)["overhand"] == (16, Fraction(1, 2), "usual")
    assert tied.bill.time.exact == Fraction(49, 120) + Fraction(8, 60)
    assert tied.figures()["knots"]["overhand"] == 16
    assert len(tied.layout.piece.rows) == len(made().layout.piece.rows)
    own = build(loads(text + "work: {rate: 20 EUR, minutes: {overhand: 0.2}}\n"))
    assert minutes(own)["overhand"] == (16, Fraction(1, 5), "own")


def test_the_makers_own_minutes_win() -> None:
    swatch = "swatch: {of: net, strands: 16, rows: 4, minutes: 14, width: 10 cm}\n"
    found = minutes(
        made(swatch + "work: {rate: 20 EUR, minutes: {square_knot: 0.4, half_knot: 0.35}}\n")
    )
    assert found["square_knot"] == (14, Fraction(2, 5), "own")
    assert found["half_knot"] == (20, Fraction(7, 20), "own")
    assert found["larks_head"][2] == "usual"


def test_a_timed_swatch_scales_the_knots_of_its_section_only() -> None:
    # Four rows on 12 strands are 3 + 2 + 3 + 2 knots: 10 in 9 minutes.
    found = minutes(made("swatch: {of: net, strands: 12, rows: 4, minutes: 9, width: 10 cm}\n"))
    assert found["square_knot"] == (14, Fraction(9, 10), "swatch")
    assert {whose for name, (_, _, whose) in found.items() if name != "square_knot"} == {"usual"}


def test_a_timed_swatch_of_a_kind_and_of_other_knots() -> None:
    swatches = """swatches:
  - {of: sennits, strands: 8, rows: 10, minutes: 8, width: 5 cm}
  - {of: line, strands: 8, rows: 1, minutes: 4, width: 5 cm}
"""
    found = minutes(made(swatches))
    # Two sennits of ten half knots: 20 in 8 minutes; 8 hitches in 4.
    assert found["half_knot"] == (20, Fraction(2, 5), "swatch")
    assert found["double_half_hitch"] == (16, Fraction(1, 2), "swatch")
    assert found["square_knot"][2] == "usual"


def test_a_swatch_that_names_no_section_speaks_for_all_others() -> None:
    swatches = """swatches:
  - {strands: 16, rows: 4, minutes: 14, width: 10 cm}
  - {of: line, strands: 8, rows: 1, minutes: 1.2, width: 5 cm}
"""
    found = minutes(made(swatches))
    assert found["square_knot"] == (14, Fraction(1), "swatch")  # of the net: 14 knots in 14 minutes
    assert found["half_knot"] == (20, Fraction(1, 2), "swatch")  # so all take twice the usual
    assert found["double_half_hitch"] == (16, Fraction(3, 20), "swatch")


def test_one_knot_at_two_paces_has_two_lines() -> None:
    more = "swatch: {of: net, strands: 16, rows: 4, minutes: 14, width: 10 cm}\n"
    text = PATTERN.replace("knot: half_knot", "knot: square_knot")
    lines = build(loads(text + more)).bill.time.knots
    assert [(x.knot, x.count, x.minutes, x.whose) for x in lines if x.knot == "square_knot"] == [
        ("square_knot", 14, Fraction(1), "swatch"), ("square_knot", 20, Fraction(1, 2), "usual"),
    ]  # fmt: skip


def test_minutes_without_rows_and_strands_are_warned_of() -> None:
    piece = made("swatch: {of: net, strands: 16, minutes: 14, width: 10 cm}\n")
    said = "swatch: its minutes don't say how long a knot takes without its rows and strands"
    assert f"{said}; give both" in piece.warnings
    assert minutes(piece)["square_knot"][2] == "usual"


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (
            "{squareknot: 1}",
            "work.minutes.squareknot: 'squareknot': no knot is called that; did you mean 'square_k",
        ),
        ("{square_knot: 0}", "work.minutes.square_knot: 0: out of range"),
        ("{square_knot: -1}", "work.minutes.square_knot: -1: out of range"),
        ("{square_knot: fast}", "work.minutes.square_knot: 'fast': not a number"),
        ("0.5", "work.minutes: 0.5: "),
    ],
)
def test_minutes_that_cant_be_read(given: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(PATTERN + f"work: {{rate: 20 EUR, minutes: {given}}}\n")
    assert said in str(caught.value)
    assert len(caught.value.faults) == 1


# --- whatever the piece --------------------------------------------------------------------------


def own_minutes() -> st.SearchStrategy[dict[str, float]]:
    each = st.floats(0.01, 60.0).map(lambda value: round(value, 3))
    return st.dictionaries(st.sampled_from(sorted(USUAL)), each)


@settings(max_examples=25)
@given(strategies.pieces(), own_minutes())
def test_hours_are_the_sum_of_counts_times_minutes(piece: Piece, own: dict[str, float]) -> None:
    time = work_time(piece, own)
    total = CORD_MINUTES * len(piece.cords)
    ties = Counter(tie.knot for tie in piece.ties())
    ties["overhand"] += len(knotted(piece))  # in the ends of a knotted fringe
    for name, count in ties.items():
        total += count * Fraction(str(own.get(name, round(knot(name).minutes, 9))))
    assert time.exact == total / 60
    assert sum(time.told) == time.hours == hundredths(total / 60)
    assert len(time.told) == len(time.knots) + 1


@given(st.lists(st.fractions(0, 10**6, max_denominator=5000), min_size=1, max_size=12))
def test_lines_add_up_as_printed(parts: list[Fraction]) -> None:
    told = adding_up(parts)
    assert sum(told) == hundredths(sum(parts, Fraction(0)))
    for part, line in zip(parts, told, strict=True):
        assert abs(part - Fraction(line)) < Fraction(1, 100)
        if (100 * part).denominator == 1:
            assert Fraction(line) == part


def test_half_a_hundredth_goes_to_even_however_large() -> None:
    assert hundredths(Fraction(1, 200)) == Decimal("0.00")
    assert hundredths(Fraction(3, 200)) == Decimal("0.02")
    assert str(hundredths(10**40 + Fraction(1, 8))) == f"1{'0' * 40}.12"
    assert exactly(0.1 + 0.2) == Fraction(3, 10)


def test_figures_tell_the_hours_by_knot() -> None:
    found: dict[str, Any] = made().figures()
    by_knot = found["hours_by_knot"]
    assert [line["what"] for line in by_knot] == [
        "double_half_hitch", "half_knot", "larks_head", "square_knot", "cutting",
    ]  # fmt: skip
    assert round(sum(line["hours"] for line in by_knot), 2) == found["hours"]
    last = {"what": "cutting", "count": 9, "minutes_each": 0.5, "minutes_from": "usual"}
    assert last.items() <= by_knot[-1].items()
