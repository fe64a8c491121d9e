"""Ten thousand pieces, worked by chance: how many run a cord short.

One error that all knots of a piece share is drawn once a piece, N(0, s) of each side's length in
knots. Each side draws its own: each tie's error, N(0, √Σσ²), and one of the side as a whole,
N(0, 1.5 % of its knots). A piece is short where any side takes more than it has. Lengths are cut in
steps of 0.1 mm, so that rounding hides nothing, and what is only there to hold an end (contract, 5:
12 cm) is not counted.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from functools import cache
from operator import gt
from pathlib import Path
from statistics import NormalDist
from typing import NamedTuple

import pytest

import knotplot
from knotplot.api import WorkedPiece
from knotplot.materials.allowance import Draw
from knotplot.materials.bill import terms
from knotplot.materials.lengths import CordLength, Side

PATTERNS = Path(knotplot.__file__).parent.parent / "patterns"
PIECES = 10_000
CONFIDENCES = (0.9, 0.99)

BRAIDS = """
knotplot: 1
size: {width: 12 cm, drop: 70 cm}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {name: braids, kind: sennits, knot: square_knot, strands: 4, count: 35}
  - {kind: fringe, length: 6 cm}
"""
PIECES_OF = ("harbour-cafe-curtain", "lantern-doorway", "braids middle", "braids uneven")


class Drawn(NamedTuple):
    """A side that can run short: what it has beyond what it uses, its knots, its own error (mm)."""

    spare: float
    knots: float
    own: float


@cache
def made(name: str, confidence: float) -> WorkedPiece:
    sets = ["cut.step=0.1 mm", "cut.groups=10000", f"allowance.confidence={confidence}"]
    if name.startswith("braids"):
        fold = name.removeprefix("braids ")
        return knotplot.build(knotplot.loads(BRAIDS, sets=[*sets, f"mount.fold={fold}"]))
    return knotplot.build(knotplot.load(PATTERNS / f"{name}.yaml", sets=sets))


def hand(side: Side) -> float:
    return sum(max(0.0, 120.0 - end) for end in side.ends)


def drawn(each: CordLength) -> list[Drawn]:
    """Return the sides of a cord: two of a folded one, else the whole."""
    if each.fold is None:
        own = Draw(each.knotted, sum(side.errors for side in each.sides)).own
        spare = float(each.cut) - each.used - sum(map(hand, each.sides))
        return [Drawn(spare, each.knotted, own)]
    has = (each.fold, float(each.cut) - each.fold)
    return [
        Drawn(there - side.used - hand(side), side.knots, side.draw.own)
        for there, side in zip(has, each.sides, strict=True)
    ]


def sides_of(piece: WorkedPiece) -> list[Drawn]:
    return [side for each in piece.bill.lengths for side in drawn(each)]


def shares_short(
    sides: Sequence[Drawn], shared: float, spares: Sequence[Sequence[float]]
) -> list[float]:
    """Return the share of pieces with any side short, for each list of what sides have to spare."""
    knots, own = [side.knots for side in sides], [side.own for side in sides]
    gauss = random.Random(1890).gauss
    counts = [0] * len(spares)
    for _ in range(PIECES):
        hard = shared * gauss(0.0, 1.0)
        taken = [hard * k + o * gauss(0.0, 1.0) for k, o in zip(knots, own, strict=True)]
        for i, spare in enumerate(spares):
            counts[i] += any(map(gt, taken, spare))
    return [count / PIECES for count in counts]


def most(confidence: float) -> float:
    """Return what may run short: 1 − confidence, and three standard errors of such a count."""
    wrong = 1.0 - confidence
    return wrong + 3.0 * math.sqrt(wrong * confidence / PIECES)


@pytest.mark.parametrize("name", PIECES_OF)
def test_no_more_pieces_run_short_than_the_confidence_says(name: str) -> None:
    pieces = [made(name, confidence) for confidence in CONFIDENCES]
    sides = sides_of(pieces[0])
    # The control: every error taken as each tie's own, as if no hand were tight all day.
    alone = [NormalDist().inv_cdf(each ** (1.0 / len(sides))) for each in CONFIDENCES]
    spares = [[side.spare for side in sides_of(piece)] for piece in pieces]
    spares += [[z * side.own for side in sides] for z in alone]
    found = shares_short(sides, terms(pieces[0].pattern).shared_error, spares)
    for confidence, share, independent in zip(CONFIDENCES, found[:2], found[2:], strict=True):
        assert share <= most(confidence)
        assert independent > most(confidence)


def test_the_formula_over_the_whole_of_a_folded_cord_would_not_do() -> None:
    """What one side has left can't help the other: half of a whole's own allowance is too little.

    With no shared error, so that nothing hides it: √(σ₁² + σ₂²)/2 a side, at z₂ for all cords.
    """
    lengths = made("braids middle", 0.9).bill.lengths
    z = NormalDist().inv_cdf(0.9 ** (1.0 / len(lengths)))
    sides = [
        Drawn(0.5 * z * math.sqrt(sum(one.errors for one in each.sides)), 0.0, side.errors**0.5)
        for each in lengths
        for side in each.sides
    ]
    assert shares_short(sides, 0.0, [[side.spare for side in sides]])[0] > most(0.9)
