"""The solver against published ropelengths, closed forms, and its own table."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from knotplot.cord_use.solver import contacts
from knotplot.cord_use.solver.entries import entries
from knotplot.cord_use.solver.forces import closest
from knotplot.cord_use.solver.rope import Floats, Rod, Screw, Strand, System
from knotplot.cord_use.solver.round import coil
from knotplot.cord_use.solver.solve import Solved, Start, solve
from knotplot.cord_use.solver.starts import cut_anew
from knotplot.cord_use.solver.tighten import Problem, tighten
from knotplot.knots.solved import at_size, excess, table

HALF_PERCENT = 0.005


def loops(*lines: Floats) -> Start:
    """Return closed strands."""
    strands = tuple(Strand(f"loop {k}", line, then=k) for k, line in enumerate(lines))
    return Start(System(strands))


def round_trip(turns: int = 120) -> Floats:
    t: Floats = np.arange(turns) * 2.0 * math.pi / turns
    return t


def hopf() -> Start:
    t = round_trip()
    flat = 1.3 * np.column_stack([np.cos(t), np.sin(t), 0.0 * t])
    upright = 1.3 * np.column_stack([1.0 + np.cos(t), 0.0 * t, np.sin(t)])
    return loops(flat, upright)


def torus(windings: int) -> Start:
    """Return the torus knot T(2, windings)."""
    t = round_trip(200)
    size = 0.8 * windings / 3.0
    r = size * (2.0 + np.cos(windings * t))
    z = size * np.sin(windings * t)
    return loops(np.column_stack([r * np.cos(2 * t), r * np.sin(2 * t), z]))


def figure_eight() -> Start:
    t = round_trip(200)
    r = 0.65 * (2.0 + np.cos(2 * t))
    z = 0.65 * np.sin(4 * t)
    return loops(np.column_stack([r * np.cos(3 * t), r * np.sin(3 * t), z]))


# Lengths over the radius, of ropes by Ashton, Cantarella, Piatek, Rawdon, Experimental Mathematics
# 20 (2011); the Hopf link's is exact (Cantarella, Kusner, Sullivan 2002): CHECK_VALUES 2.
@pytest.mark.parametrize(
    ("start", "published"),
    [
        (hopf, 8.0 * math.pi),
        (lambda: torus(3), 32.7436),
        (figure_eight, 42.0887),
        (lambda: torus(5), 47.2016),
    ],
)
def test_closed_knots_have_their_published_ropelength(start, published):
    found = solve(start(), finer=0.2, tries=0)
    length = sum(found.excess.values())
    assert found.overlap < 1e-3
    assert length == pytest.approx(published / 2.0, rel=HALF_PERCENT)


@pytest.mark.parametrize(
    ("core", "pitch"),
    [
        (1.0, 1.0129),  # CHECK_VALUES 2, recomputed there
        (3.0, 1.003),  # a helix of radius 2D: Przybył, Pierański, Eur. Phys. J. E 4 (2001)
    ],
)
def test_a_coiled_cord_has_its_closed_form(core, pitch):
    found = solve(coil(core))
    radius = (core + 1.0) / 2.0
    assert found.pitch == pytest.approx(pitch, abs=0.002)
    assert found.excess["wrap"] == pytest.approx(
        math.hypot(2.0 * math.pi * radius, pitch), rel=1e-3
    )


def test_a_turn_round_an_equal_cord_takes_6_3643():  # CHECK_VALUES 2
    assert solve(coil(1.0)).excess["wrap"] == pytest.approx(6.3643, rel=1e-3)


def test_two_clasped_bights_take_a_little_less_than_arcs_would():
    """The naive excess is 2π − 2; the true least lies slightly under it (CHECK_VALUES 2)."""
    s = np.linspace(-1.0, 1.0, 60)
    bight = np.column_stack([1.2 * np.sin(math.pi * s / 2), -2.0 + 2.6 * np.cos(math.pi * s / 2)])
    up = np.column_stack([bight[:, 0], bight[:, 1], 0.0 * s])
    down = np.column_stack([0.0 * s, -bight[:, 1], bight[:, 0]])
    up = np.vstack([[-1.2, -8.0, 0.0], up, [1.2, -8.0, 0.0]])
    down = np.vstack([[0.0, 8.0, -1.2], down, [0.0, 8.0, 1.2]])
    free = (True, False, True)
    clasp = System((Strand("up", up, free_ends=free), Strand("down", down, free_ends=free)))
    found = solve(Start(clasp, 16.0), finer=0.125, tries=0)
    # Both bights' ends stand 8 below and above the middle; straight, they would meet there.
    naive = 2.0 * math.pi - 2.0
    total = sum(found.excess.values())
    assert 0.97 * naive < total < naive


def rope(seed: int) -> Problem:
    """Return a bent stack of two strands, a rod through it, near contact everywhere."""
    chance = np.random.default_rng(seed)
    t = np.linspace(0.0, 1.0, 24, endpoint=False)
    lines = [
        np.column_stack([
            0.8 * np.cos(2 * math.pi * t + k), 3.0 * t, 0.8 * np.sin(2 * math.pi * t + k)
        ]) + 0.05 * chance.normal(size=(24, 3))
        for k in (0.0, math.pi)
    ]  # fmt: skip
    strands = tuple(Strand("s", line, then=k, stacked=True) for k, line in enumerate(lines))
    rods = (Rod((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.5, "pitch"),)
    screw = Screw((0.0, 1.0, 0.0), 3.0, 0.3, turns=True, beside=(1.0, 0.0, 0.0), spacing=2.5)
    problem = Problem(System(strands, rods, screw))
    problem.contacts = contacts.found(problem)
    return problem


@settings(max_examples=5, deadline=None)
@given(st.integers(0, 10_000))
def test_the_gradient_is_that_of_the_energy(seed):
    problem = rope(seed)
    at = problem.vector()
    _, gradient = problem.energy(40.0)
    chance = np.random.default_rng(seed + 1)
    way = chance.normal(size=len(at))
    way[-3:] *= 3.0  # pitch, turn and spacing too
    step = 1e-6
    values = []
    for sign in (1.0, -1.0):
        problem.put(at + sign * step * way)
        values.append(problem.energy(40.0)[0])
    problem.put(at)
    slope = (values[0] - values[1]) / (2.0 * step)
    assert slope == pytest.approx(float(gradient @ way), rel=2e-4, abs=1e-3)


@given(st.lists(st.floats(-2, 2), min_size=12, max_size=12))
def test_the_nearest_points_of_two_edges_are_the_nearest(numbers):
    p, u, q, v = np.array(numbers).reshape(4, 3)
    if np.linalg.norm(u) < 0.05 or np.linalg.norm(v) < 0.05:
        u, v = u + np.array([0.1, 0.0, 3.0]), v + np.array([0.0, 0.1, 3.0])
    *_, d = closest(p, u, q, v)
    s = np.linspace(0.0, 1.0, 41)
    first, second = p + np.outer(s, u), q + np.outer(s, v)
    grid = np.linalg.norm(first[:, None] - second[None], axis=2).min()
    assert d <= grid + 1e-9
    assert grid - d < 0.02 * (np.linalg.norm(u) + np.linalg.norm(v))


def test_strands_never_pass_through_each_other():
    """Two linked loops stay linked, however hard they are pulled from far too loose."""
    start = hopf()
    big = System(tuple(Strand(s.role, 3.0 * s.points, then=s.then) for s in start.system.strands))
    tight = tighten(cut_anew(big, 0.3), mu=20.0, rounds=150, steps=100)
    assert tight.energy == pytest.approx(4.0 * math.pi, rel=0.02)


@cache
def again(name: str) -> Solved:
    entry = next(each for each in entries() if each.name == name)
    return solve(entry.start(), tries=0)


# A few of the table, solved anew: one alone, one in a stack, one on a rod, one on a leader.
@pytest.mark.parametrize(
    "name",
    ["overhand/1", "half_knot/1/row", "larks_head/on 2", "double_half_hitch/alone", "wrap/on 2"],
)
def test_entries_solved_anew_are_those_of_the_table(name):
    for role, value in again(name).excess.items():
        assert value == pytest.approx(excess(name, role), rel=2e-3)


def test_the_table_has_every_entry():
    assert list(table()) == [entry.name for entry in entries()]


def test_a_stack_takes_the_same_excess_as_its_knots_alone():
    for fillers in (1, 2, 3, 4):
        alone = excess(f"square_knot/{fillers}/row", "working")
        assert excess(f"square_knot/{fillers}/sennit", "working") == pytest.approx(alone, rel=0.01)


def test_one_filler_more_in_a_row_is_one_diameter_more_before_and_behind():
    for size in range(4, 8):
        wider = at_size("square_knot/*/row", "working", size + 1)
        assert wider - at_size("square_knot/*/row", "working", size) == pytest.approx(2.0, abs=0.05)
