"""A knotted fringe in words: which ends are knotted, where, and that nothing is cut before."""

from __future__ import annotations

import pytest
from hypothesis import given
from instructions.interpreter import execute, knotted_ends
from strategies import pieces

from knotplot.instructions.words import words
from knotplot.pattern.load import loads
from knotplot.pattern.strand_count import strand_count
from knotplot.pattern.working import work
from knotplot.tying.finish import knotted
from knotplot.tying.piece import Piece

PATTERN = """
knotplot: 1
size: {width: 24 cm, drop: 40 cm}
cord: {diameter: 4 mm}
strands: {count: 24}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {kind: square_knot_mesh, rows: 4}
"""
WHOLE = "  - {kind: fringe, length: 10 cm, finish: knotted}\n"
PARTS = """  - kind: columns
    parts:
      - {strands: 8, sections: [{kind: fringe, length: 10 cm, finish: knotted}]}
      - {strands: 8, sections: [{kind: fringe, length: 10 cm, finish: combed}]}
      - {strands: 8, sections: [{kind: fringe, length: 10 cm, finish: knotted}]}
"""
VEE = "lower_edge: {profile: vee, rise: -6 cm}\n"


def made(text: str) -> Piece:
    pattern = loads(text)
    return work(pattern, strand_count(pattern).count).piece


def printed(piece: Piece) -> list[str]:
    return [line.text for line in words(piece)]


@given(pieces())
def test_the_words_of_any_pattern_knot_the_ends_that_the_record_has(piece: Piece) -> None:
    lines = printed(piece)
    assert knotted_ends(lines) == set(knotted(piece))
    assert len(execute(lines)) == len(piece.rows)


@pytest.mark.parametrize(("edge", "at"), [("", "level with the string"), (VEE, "at the line")])
def test_ends_are_knotted_at_the_line_and_cut_below_it(edge: str, at: str) -> None:
    lines = printed(made(PATTERN + WHOLE + edge))
    (tie,) = (line for line in lines if line.startswith("Tie an overhand knot"))
    assert tie == (
        f"Tie an overhand knot in every end with its lower edge {at}, then cut all tails "
        "1 cm (3/8 in) to 2 cm (3/4 in) below the knots."
    )
    assert not any(line.startswith("Trim ") for line in lines)
    assert not any("trim line" in line and "Trim" in line for line in lines)


@pytest.mark.parametrize(("edge", "how"), [("", "level with the string"), (VEE, "along the line")])
def test_some_ends_are_knotted_first_and_the_others_cut_then(edge: str, how: str) -> None:
    piece = made(PATTERN + PARTS + edge)
    lines = printed(piece)
    assert knotted_ends(lines) == {*range(1, 9), *range(17, 25)}
    (tie,) = (i for i, line in enumerate(lines) if "in each of the ends 1–8, 17–24, " in line)
    assert lines.index(f"Trim all other cords {how}.") > tie
    assert any(line.startswith("Comb the fringe out") for line in lines[tie:])
