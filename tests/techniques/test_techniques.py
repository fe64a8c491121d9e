"""Techniques: their files, what is done in their pieces, and which of them a piece uses."""

from __future__ import annotations

from pathlib import Path

import pytest
from motifs.test_adding_ending import band, made

from knotplot.api import build
from knotplot.instructions.words import LANGUAGES
from knotplot.knots import catalogue
from knotplot.pattern.load import load, loads
from knotplot.pattern.strand_count import strand_count
from knotplot.pattern.working import work
from knotplot.techniques import techniques, worked
from knotplot.techniques.deeds import deeds
from knotplot.techniques.found import features, used_techniques
from knotplot.tying.piece import Piece

NAMES = list(techniques())
# the ways of working that are named in the trade, at the least: common practice
TRADE = {
    "square_knot_sennit", "spiral_sennit", "alternating_square_knots", "horizontal_row_on_leader",
    "horizontal_row_of_own_cord", "diagonal_double_half_hitches", "vertical_double_half_hitches",
    "gathered_overhand", "picots", "added_tassel", "adding_a_cord", "ending_a_cord",
}  # fmt: skip
PATTERNS = sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml"))


def test_the_trade_s_own_are_there_and_no_name_is_a_knot_s() -> None:
    assert set(NAMES) >= TRADE
    assert not set(NAMES) & set(catalogue())


@pytest.mark.parametrize("name", NAMES)
def test_a_file_is_whole(name: str) -> None:
    mine = techniques()[name]
    assert set(mine.words) == set(LANGUAGES)
    for words in mine.words.values():
        assert words.when.endswith(".")
        assert words.fault.endswith(".")
    piece = worked(name)
    assert work(mine.pattern, strand_count(mine.pattern).count).notices == ()
    assert piece.mounting.kind == "open"  # nothing is tied above what is taught
    assert piece.gauge.strands <= 12
    counts = [each for each in mine.frames if isinstance(each, int)]
    assert sum(counts) == len(deeds(piece))
    assert mine.feature in features(piece)
    assert name in used_techniques(piece)


def ties(piece: Piece) -> list[tuple[str, tuple[int, ...], object]]:
    return [
        (tie.knot, tie.strands, tie.leader)
        for row in piece.rows
        if row.section
        for tie in row.ties(piece.gauge)
    ]


def check_deeds(piece: Piece) -> None:
    """Deeds are the record's ties in order, and leave the strands as the record does."""
    done = deeds(piece)
    tied = [d for d in done if d.tie is not None and d.tie.knot != "cross"]
    assert [(d.tie.knot, d.strands, d.leader) for d in tied if d.tie] == ties(piece)
    assert done[-1].order == piece.lanes
    ended = {strand for deed in done if deed.tie is None for strand in deed.strands}
    assert ended == set(piece.ended)
    where: dict[int, tuple[float, float]] = {
        s: (port.x, port.y) for s, port in enumerate(piece.mounting.starts) if port
    }
    if piece.mounting.kind != "open":
        where = {}
    for deed in done:  # every run begins where its strand was left
        for strand, curve in deed.runs:
            if strand in where:
                assert curve[:2] == pytest.approx(where[strand], abs=1e-6)
        where |= {s: (port.x, port.y) for s, port in deed.leave}


@pytest.mark.parametrize("name", NAMES)
def test_deeds_of_a_technique_are_its_record(name: str) -> None:
    check_deeds(worked(name))


@pytest.mark.parametrize("path", PATTERNS[:1], ids=lambda path: path.stem)
def test_deeds_of_a_pattern_are_its_record(path: Path) -> None:
    check_deeds(build(load(path)).layout.piece)


STEPS = """\
      - cross: [1, 2]
      - add: {after: 2}
      - mirror: [add: {after: 1, cords: 2}]
      - gap: 3 cm
      - knot: {kind: square_knot, lanes: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]}
      - end: {lanes: [3, 4]}
      - gap: 3 cm
      - vertical: {worker: 1, to: 4}
"""


def test_deeds_follow_strands_that_are_added_and_end() -> None:
    check_deeds(made(8, band(STEPS, 4), pitch=20).layout.piece)


HEAD = """\
knotplot: 1
size: {width: 20 cm, drop: 60 cm}
cord: {diameter: 4 mm}
strands: {count: 8}
mount: {kind: larks_head, rod: 20 mm}
sections:
"""


@pytest.mark.parametrize(
    ("sections", "found"),
    [
        ("  - {kind: square_knot_mesh, rows: 2}\n", ("alternating_square_knots",)),
        ("  - {kind: square_knot_mesh, rows: 1}\n", ()),
        (
            "  - {kind: sennits, knot: half_knot, strands: 4, count: 9}\n",
            ("spiral_sennit",),
        ),
        ("  - {kind: sennits, knot: half_knot, strands: 4, count: 2}\n", ()),
        (
            "  - {kind: sennits, knot: square_knot, strands: 4, count: 3}\n"
            "  - {kind: hitch_line}\n",
            ("square_knot_sennit", "horizontal_row_on_leader"),
        ),
        ("  - {kind: sennits, knot: vertical_larks_head, strands: 4, count: 2}\n", ()),
        ("  - {kind: sennits, knot: overhand, strands: 4, count: 1}\n", ("gathered_overhand",)),
    ],
)
def test_what_a_piece_uses(sections: str, found: tuple[str, ...]) -> None:
    assert used_techniques(build(loads(HEAD + sections)).layout.piece) == found


def test_what_motifs_use() -> None:
    steps = """\
      - hitch: {lead: 1, to: 4, angle: 0}
      - both: [hitch: {lead: 1, to: 3}]
      - knot: {kind: square_knot, lanes: [1, 2, 3, 4], picot: 2 cm}
      - add: {after: 4}
      - end: {lanes: [5]}
"""
    assert used_techniques(made(8, band(steps, 8)).layout.piece) == (
        "adding_a_cord", "diagonal_double_half_hitches", "ending_a_cord",
        "horizontal_row_of_own_cord", "picots",
    )  # fmt: skip
