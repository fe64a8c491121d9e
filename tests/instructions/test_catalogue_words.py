"""Every knot that can be asked for by name is worked from its words, in sennits and in motifs."""

from __future__ import annotations

import pytest
from instructions.interpreter import KNOTS, execute

from knotplot.api import WorkedPiece, build
from knotplot.knots import catalogue
from knotplot.knots.base import Knot
from knotplot.pattern.load import loads

BY_NAME = {name: each for name, each in catalogue().items() if each.by_name}
PATTERN = """
knotplot: 1
title: All by name
size: {{width: 60 cm, drop: 200 cm}}
cord: {{diameter: 3 mm}}
strands: {{count: {count}}}
mount: {{kind: larks_head, rod: 20 mm}}
sections:
  - {{kind: sennits, knot: {knot}, strands: {strands}, count: 3, facing: alternate}}
  - {{kind: motif_band, motif: pair, rows: 2}}
  - {{kind: fringe, length: 8 cm}}
motifs:
  pair:
    strands: {strands}
    steps:
      - knot: {{kind: {knot}, lanes: [{lanes}], facing: right}}
      - both: [knot: {{kind: {knot}, lanes: [{lanes}]}}]
"""


def counts(mine: Knot) -> list[int]:
    """Return the least and the next few counts a knot is tied on."""
    return [n for n in range(1, 9) if mine.least <= n and mine.fault(n, 1) is None
            and (mine.most is None or n <= mine.most)][:3]  # fmt: skip


def made(name: str, strands: int) -> WorkedPiece:
    lanes = ", ".join(map(str, range(1, strands + 1)))
    text = PATTERN.format(knot=name, strands=strands, lanes=lanes, count=4 * strands)
    return build(loads(text))


@pytest.mark.parametrize(
    ("name", "strands"), [(name, n) for name, mine in BY_NAME.items() for n in counts(mine)]
)
def test_words_are_worked_into_the_record(name: str, strands: int) -> None:
    piece = made(name, strands).layout.piece
    unwrapped = made(name, strands).words().replace("\n    ", " ")
    rows = execute(unwrapped.split("\n"))
    told = [tie for row in rows for tie in row.ties]
    tied = list(piece.ties())
    assert name in {tie.knot for tie in tied}
    assert len(told) == len(tied)
    for one, other in zip(told, tied, strict=True):
        assert (one.knot, one.facing, one.lanes) == (other.knot, other.facing, other.lanes)
        assert (one.strands, one.roles) == (other.strands, other.roles)
    assert [row.order_after for row in rows] == [row.order_after for row in piece.rows]


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_figures_tell_facing_of_flat_knots_and_put_that_of_others_in_params(name: str) -> None:
    """Contract, 5: `facing` for square and half knots, null for all else."""
    mine = BY_NAME[name]
    rows = made(name, counts(mine)[-1]).figures(rows=True)["rows"]
    ties = [tie for row in rows for tie in row["ties"] if tie["knot"] == name]
    flat = name in ("square_knot", "half_knot")
    assert {tie["facing"] for tie in ties} == ({"left", "right"} if flat else {None})
    beside = {tie["params"].get("facing") for tie in ties}
    assert beside == ({"left", "right"} if mine.faces and not flat else {None})


def test_the_interpreter_knows_every_knot() -> None:
    assert set(BY_NAME) <= set(KNOTS.values())


def test_sennits_are_warned_of_their_own_knots_fault() -> None:
    told = " ".join(made("crown_knot", 4).words().split())
    assert BY_NAME["crown_knot"].words["en"].fault in told
    assert "passes over the fillers" not in told
    assert "passes over the fillers" in " ".join(made("half_knot", 4).words().split())
