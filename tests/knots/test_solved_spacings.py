"""The shapes of chains follow the solved table, which they are not made to read when imported."""

from __future__ import annotations

import pytest

from knotplot.knots import half_hitch_chain, vertical_larks_head
from knotplot.knots.sizes import SOFTNESS
from knotplot.knots.solved import table


def test_half_hitches_take_their_solved_length_of_the_leader() -> None:
    solved = float(table()["half_hitch/bar"]["spacing"])
    assert pytest.approx(solved * SOFTNESS, abs=0.005) == half_hitch_chain.HITCH


def test_larks_heads_take_their_solved_length_of_the_chain() -> None:
    solved = float(table()[vertical_larks_head.ENTRY]["pitch"])
    assert pytest.approx(solved * SOFTNESS / 2.0, abs=0.005) == vertical_larks_head.HALF
