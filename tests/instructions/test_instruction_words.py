"""The printed words, executed by a maker who has nothing else, give the very record."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from instructions.grammar import colours
from instructions.interpreter import Tied, TiedRow, execute
from strategies import pieces

from knotplot.instructions.text import plain_text
from knotplot.instructions.words import words
from knotplot.pattern.load import load, loads
from knotplot.pattern.strand_count import strand_count
from knotplot.pattern.working import work
from knotplot.tying.piece import Piece

PATTERNS = sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml"))

CAFE = """
knotplot: 1
title: Harbour curtain
size: {width: 60 cm, drop: 70 cm}
cord: {diameter: 4 mm}
strands: {count: 72}
mount: {kind: rod_pocket, rod: 20 mm, rows: 8, tail: 30 cm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 7}
  - {kind: hitch_line, layer: tails, overhang: 15 cm}
  - {name: lace, kind: motif_band, motif: leaf, rows: 3, offset: half, gap: 12 mm}
  - {kind: fringe, length: 8 cm, finish: combed}
lower_edge: {profile: parabola, rise: 9 cm}
motifs:
  leaf:
    strands: 12
    steps:
      - cross: [6, 7]
      - hitch: {lead: 6, to: 1}
      - hitch: {lead: 7, to: 12}
      - knot: {kind: square_knot, lanes: [4, 5, 6, 7, 8, 9]}
      - hitch: {lead: 1, to: 6}
      - hitch: {lead: 12, to: 7}
      - hitch: {lead: 7, to: 6}
    top: 4
"""


def built(text: str, size: str | None = None) -> Piece:
    pattern = loads(text, size)
    return work(pattern, strand_count(pattern).count).piece


def recorded(piece: Piece) -> list[TiedRow]:
    """Return the record in the interpreter's terms."""
    return [
        TiedRow(
            row.number,
            piece.parts[row.section].name,
            row.layer,
            tuple(
                Tied(*tie[:7], told(tie.params), tie.step)  # type: ignore[arg-type]
                for tie in row.ties(piece.gauge)
            ),
            row.order_after,
        )
        for row in piece.rows
    ]


def told(params: Mapping[str, object]) -> dict[str, object]:
    """Return what words tell of a tie's extras: lengths to a whole millimetre."""
    return {k: float(round(v)) if isinstance(v, float) else v for k, v in params.items()}


def printed(piece: Piece) -> list[str]:
    return [line.text for line in words(piece)]


def unwrapped(text: str) -> list[str]:
    """Undo the wrapping of plain text: indented lines go on with the one above."""
    return re.sub("\n    ", " ", text).split("\n")


@given(pieces())
def test_executing_the_words_of_any_pattern_gives_its_record(piece: Piece) -> None:
    assert execute(printed(piece)) == recorded(piece)


@given(pieces())
def test_the_colours_of_the_words_are_those_of_the_cords(piece: Piece) -> None:
    told = {cord.id: cord.colour for cord in piece.cords if cord.colour is not None}
    assert colours(printed(piece)) == told
    assert colours(unwrapped(plain_text(piece, "Any"))) == told


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_executing_the_words_of_our_patterns_gives_their_record(path: Path) -> None:
    sizes = yaml.safe_load(path.read_text("utf-8")).get("sizes", {})
    for size in (None, *sizes):
        pattern = load(path, size)
        piece = work(pattern, strand_count(pattern).count).piece
        assert execute(printed(piece)) == recorded(piece)


def test_executing_the_plain_text_of_a_cafe_curtain_gives_its_record() -> None:
    piece = built(CAFE)
    text = plain_text(piece, "Harbour curtain", lambda _strand, _row: 500.0)
    assert execute(unwrapped(text)) == recorded(piece)


def test_the_interpreter_notices_a_single_wrong_word() -> None:
    """Proof that the comparison can fail."""
    piece = built(CAFE)
    lines = printed(piece)
    wrong = [
        ("leave 2 cords hanging; *", "leave 1 cord hanging; *"),
        ("facing left on the next", "facing right on the next"),
        ("to place 12", "to place 11"),
        ("repeat from * 17 more times", "repeat from * 16 more times"),
        ("as row 1.", "as row 2."),
    ]
    for good, bad in wrong:
        assert any(good in line for line in lines)
        try:
            worked = execute(line.replace(good, bad) for line in lines)
        except AssertionError:
            continue
        assert worked != recorded(piece)


def test_plain_text_is_wrapped_and_says_the_title_first() -> None:
    text = plain_text(built(CAFE), "Harbour curtain")
    lines = text.split("\n")
    assert lines[:2] == ["Harbour curtain", "==============="]
    assert max(map(len, lines)) <= 76
    assert [line for line in unwrapped(text)[2:] if line] == printed(built(CAFE))


@settings(max_examples=25)
@given(pieces())
def test_lines_of_any_pattern_are_print_and_tell_each_row_once(piece: Piece) -> None:
    """Each line carries its rows, so that a sheet can set a box before each."""
    lines = words(piece)
    told = [row for line in lines for row in getattr(line, "rows", ())]
    assert sorted(told) == [row.number for row in piece.rows]
    texts = [line.text for line in lines]
    assert all(text.isprintable() and text == text.strip() for text in texts)
    assert [line for line in unwrapped(plain_text(piece, "Any"))[2:] if line] == texts
