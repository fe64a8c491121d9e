"""Centre lines as cubics: near the points, one tangent at each joint, straight ends left out."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from knotplot.cord_use.solver.centre_lines import DRAWN, OFF, centre_lines
from knotplot.cord_use.solver.entries import entries
from knotplot.cord_use.solver.rope import Floats, Screw, Strand, System


def coil(turns: float) -> Floats:
    """Return one strand that hangs, winds round an axis across, and hangs again."""
    t = np.linspace(0.0, turns * 2.0 * math.pi, int(60 * turns))
    line = np.column_stack([0.16 * t, np.sin(t), np.cos(t)])
    top, low = line[0].copy(), line[-1].copy()
    up = np.outer(np.linspace(6.0, 0.1, 60), [0.0, -1.0, 0.0])
    down = np.outer(np.linspace(0.1, 6.0, 60), [0.0, 1.0, 0.0])
    whole: Floats = np.vstack([top + up, line, low + down]) + np.array([0.0, 2.0, 0.0])
    return whole


def test_a_coil_is_fitted_closely_by_few_cubics_about_its_middle() -> None:
    line = coil(2.0)
    (flat,), off = centre_lines(System((Strand("working", line),)))
    assert off <= OFF + 0.002  # and what rounding adds
    points = np.array(flat).reshape(-1, 3)
    assert len(points) // 3 <= 20
    assert points[0, 1] == pytest.approx(-points[-1, 1], abs=1e-3)
    assert np.abs(points[:, 1]).max() < 1.5  # the ends that hang are left out
    for k in range(3, len(points) - 1, 3):
        before, after = points[k] - points[k - 1], points[k + 1] - points[k]
        cosine = before @ after / (np.linalg.norm(before) * np.linalg.norm(after))
        assert cosine > 0.999


def test_a_stack_gives_one_period_of_itself() -> None:
    t = np.linspace(0.0, 1.0, 80, endpoint=False)
    bulge = np.sin(math.pi * np.clip((t - 0.2) / 0.6, 0.0, 1.0)) ** 2
    line = np.column_stack([bulge, 4.0 * t, 0.0 * t])
    strand = Strand("working", line, then=0, stacked=True)
    (flat,), _ = centre_lines(System((strand,), (), Screw((0.0, 1.0, 0.0), 4.0)))
    points = np.array(flat).reshape(-1, 3)
    assert -2.0 < points[0, 1] < -1.0
    assert 1.0 < points[-1, 1] < 2.0
    assert all(q[1] > p[1] for p, q in pairwise(points[::3]))


def test_what_is_drawn_is_in_the_table() -> None:
    assert set(DRAWN) <= {entry.name for entry in entries()}
