"""Tight shapes: the knots of their forms, between the same ports, as near as cord gives."""

from __future__ import annotations

import json
import math
from itertools import pairwise

import pytest
from closings import polyline
from diagrams import passes
from identities import IDENTITIES
from test_catalogue import CASES
from test_identity import seen_in_a_mirror

from knotplot.curves.space import Point3, SpaceCurve, sample
from knotplot.discovery import read_data
from knotplot.drawing.cord_symbols import knot_arcs
from knotplot.drawing.weave import crossings
from knotplot.knots import catalogue, form, shapes, tight
from knotplot.knots.base import Form, Manner
from knotplot.knots.solved import table

SLANT = math.sqrt(0.5)
OTHERS = [
    *(
        (name, Manner(n, facing, tall=tall))
        for name in ("half_knot", "square_knot")
        for facing in ("left", "right")
        for n, tall in ((3, 0.85), (4, 1.2), (12, 1.0))
    ),
    *(
        (name, Manner(2, leader=lead, cos=c, sin=s, reach=reach, tall=tall))
        for name, c, s in (
            ("double_half_hitch", 1.0, 0.0),
            ("double_half_hitch", SLANT, SLANT),
            ("vertical_double_half_hitch", 1.0, 0.0),
        )
        for lead in (0, 1)
        for reach, tall in ((1.0, 1.0), (2.0, 0.85), (1.25, 1.2))
    ),
    ("double_half_hitch", Manner(1, leader=-1)),
    ("overhand", Manner(1, tall=1.15)),
]
EVERY = [*CASES, *OTHERS]
SOLVED = [case for case in EVERY if form(*case) != tight(*case)]  # those that have a tight shape
CLOSEST = 0.83  # diameters between the middles of two cords, or of two parts of one
DRAWN_IN = 0.66  # of a double hitch: its turns behind are drawn in, so that they aren't seen


def ropes(made: Form) -> list[SpaceCurve]:
    """Return every cord of a form."""
    return [*made.paths, *(each for each in (made.leader, made.wrap) if each is not None)]


def test_knots_that_look_better_solved_have_tight_shapes() -> None:
    assert {name for name, _ in SOLVED} == {
        "double_half_hitch", "half_knot", "overhand", "square_knot", "vertical_double_half_hitch",
    }  # fmt: skip


@pytest.mark.parametrize(("name", "manner"), SOLVED)
def test_a_tight_shape_has_the_ports_of_its_form(name: str, manner: Manner) -> None:
    """So that layout, order and lengths don't ask which of the two is drawn."""
    loose, drawn = form(name, manner), tight(name, manner)
    assert (drawn.height, drawn.half_width) == (loose.height, loose.half_width)
    assert (drawn.leader, drawn.wrap, drawn.rod) == (loose.leader, loose.wrap, loose.rod)
    for one, other in zip(loose.paths, drawn.paths, strict=True):
        assert other[0][:2] == pytest.approx(one[0][:2])
        assert other[-1][9:11] == pytest.approx(one[-1][9:11])
        for k, a, b in ((0, 3, 0), (-1, 9, 6)):
            assert way(other[k], a, b) == pytest.approx(way(one[k], a, b), abs=1e-6)


def way(cubic: tuple[float, ...], a: int, b: int) -> tuple[float, ...]:
    """Return the direction from control point at `b` to that at `a`."""
    size = math.dist(cubic[a : a + 3], cubic[b : b + 3])
    return tuple((p - q) / size for p, q in zip(cubic[a : a + 3], cubic[b : b + 3], strict=True))


@pytest.mark.parametrize(("name", "manner"), SOLVED)
def test_a_tight_shape_runs_on_smoothly(name: str, manner: Manner) -> None:
    for path in tight(name, manner).paths:
        for one, two in pairwise(path):
            assert one[9:] == pytest.approx(two[:3])
            turn = math.dist(way(one, 9, 6), way(two, 3, 0))
            assert turn < 0.12  # radians: handles are rounded, and a bar bends where it is moved


@pytest.mark.parametrize(("name", "manner"), SOLVED)
def test_a_tight_shape_is_the_knot_of_its_form(name: str, manner: Manner) -> None:
    made = tight(name, manner)
    IDENTITIES[name](made, manner, 1)
    if manner.leader == -1:  # its mirror leads the other way, which no manner tells
        return
    other, flipped = seen_in_a_mirror(made, manner)
    IDENTITIES[name](flipped, other, -1 if other == manner else 1)


@pytest.mark.parametrize(("name", "manner"), SOLVED)
def test_a_tight_shape_passes_what_its_form_passes(name: str, manner: Manner) -> None:
    """Each cord that is worked over and under each other one in the same order, itself too."""
    one, other = ropes(form(name, manner)), ropes(tight(name, manner))
    for i, role in enumerate(catalogue()[name].roles(manner)):
        for k in range(len(one)):
            if i != k and role not in ("filler", "leader"):
                expected = passes(polyline(one[i]), polyline(one[k]))
                assert passes(polyline(other[i]), polyline(other[k])) == expected
    assert len(crossings(other)) == len(crossings(one))  # no more seen than there are
    for a, b in zip(one, other, strict=True):
        assert itself(b) == itself(a)


def itself(curve: SpaceCurve) -> list[bool]:
    """Return whether a cord lies over or under where it meets itself, in order along it."""
    found = crossings([curve])
    met = [(c.over_at, True) for c in found] + [(c.under_at, False) for c in found]
    return [over for _, over in sorted(met)]


@pytest.mark.parametrize(("name", "manner"), SOLVED)
def test_cords_press_into_each_other_no_more_than_cotton_gives(name: str, manner: Manner) -> None:
    """Working strands; fillers of a form stand nearer than they would, and are drawn below."""
    roles = catalogue()[name].roles(manner)
    made = tight(name, manner)
    busy = [p for p, role in zip(made.paths, roles, strict=True) if role != "filler"]
    lines = [sample(path, 12) for path in busy]
    tall = min(manner.tall, 1.0)
    for i, line in enumerate(lines):
        assert own(line) > (DRAWN_IN if "hitch" in name else CLOSEST) * tall
        for other in lines[i + 1 :]:
            assert min(math.dist(p, q) for p in line for q in other) > CLOSEST * tall


def own(line: list[Point3]) -> float:
    """Return how near a line comes to itself, beyond its own thickness along it."""
    along = [0.0]
    for p, q in pairwise(line):
        along.append(along[-1] + math.dist(p, q))
    return min(
        (
            math.dist(line[i], line[k])
            for i in range(len(line))
            for k in range(i)
            if along[i] - along[k] > 1.7
        ),
        default=math.inf,
    )


@pytest.mark.parametrize(("name", "manner"), SOLVED)
def test_the_last_picture_of_tying_is_the_tight_shape(name: str, manner: Manner) -> None:
    tied = catalogue()[name]
    last = len(tied.stages(manner)) - 1
    assert tied.shape(manner, last) == tight(name, manner)
    for stage in range(last):
        counts = [len(path) for path in tied.shape(manner, stage).paths]
        assert counts == [len(path) for path in form(name, manner).paths]


@pytest.mark.parametrize(("name", "manner"), [case for case in EVERY if case not in SOLVED])
def test_what_isnt_solved_looks_tight_as_its_form_does(name: str, manner: Manner) -> None:
    made = catalogue()[name]
    assert made.tight(manner) == made.tied(manner)
    assert knot_arcs(name, manner)


def test_shapes_are_those_of_the_table_and_near_them() -> None:
    """Fitted within 0.03 diameters of the solved lines, and as wide as the table says."""
    text = read_data("knotplot.knots", "shapes.json")
    data = json.loads(text)
    assert len(text) < 150_000
    assert set(data) <= set(table())
    for name, shape in data.items():
        assert shape["off"] <= 0.03
        assert len(shape["strands"]) in (1, 2)
        for strand in shape["strands"]:
            assert (len(strand) - 3) % 9 == 0
        lines = [p for curve in shapes.centre_lines(name) for p in sample(curve, 16)]
        xs = [x for x, _, _ in lines]
        if name != "double_half_hitch/bar held":  # its ends hang beside each other
            assert max(xs) - min(xs) + 1.0 == pytest.approx(table()[name]["width"], abs=0.06)
