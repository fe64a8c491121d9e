"""A motif and its mirror image hang alike, and so do the two halves of a `both`."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from motif_strategies import steps
from workable import PITCH, Document

from knotplot.errors import Refusal
from knotplot.geometry.inner import inner_runs
from knotplot.motifs.motif import Motif
from knotplot.motifs.shipped import shipped_motif
from knotplot.motifs.working import MotifShapes
from knotplot.tying.gauge import Gauge
from knotplot.tying.rack import Rack
from knotplot.tying.shape import Shape

CLOSE = 0.01  # mm
ROOMY = 24.0  # mm from strand to strand: room for cords that are added on both sides
Tie = tuple[str, float, float]

KNOT = {"knot": {"kind": "square_knot", "lanes": [1, 2, 3]}}
FIR = [
    {"knot": {"kind": "square_knot", "lanes": [1, 2, 3, 4]}},
    {"both": [{"add": {"after": 1, "cords": 1}}, KNOT]},
    {"both": [{"hitch": {"lead": 1, "to": 4}}]},
]


def shape_of(motif: Motif, pitch: float = PITCH) -> Shape:
    """Return the shape of a motif on cord of 4 mm."""
    count = motif.strands
    return MotifShapes(Rack(Gauge(count * pitch, count, 4.0)), "m", motif).shape(1, count)


def made(strands: int, found: list[Document]) -> Motif:
    return Motif.model_validate({"strands": strands, "steps": found})


def ties(shape: Shape) -> list[Tie]:
    return [(tie.knot, tie.x, tie.y) for tie in shape.ties]


def unmatched(one: Iterable[Tie], other: Iterable[Tie], width: float) -> list[Tie]:
    """Return the ties of one that have no mirror image in the other."""
    found, left = [], list(other)
    for name, x, y in one:
        for each in left:
            if each[0] == name and abs(width - each[1] - x) < CLOSE and abs(each[2] - y) < CLOSE:
                left.remove(each)
                break
        else:
            found.append((name, x, y))
    return found


@st.composite
def documents(draw: st.DrawFn) -> Document:
    """Draw a motif of a knot on all its strands and random steps after it."""
    m = draw(st.integers(3, 8))
    knot = {"knot": {"kind": "square_knot", "lanes": list(range(1, m + 1))}}
    return {"strands": m, "steps": [knot, *draw(steps(m, 1))]}


@given(documents())
def test_a_motif_hangs_as_its_mirror_image(document):
    m = document["strands"]
    try:
        shape = shape_of(made(m, document["steps"]))
    except Refusal:
        assume(False)
    turned = shape_of(made(m, [{"mirror": document["steps"]}]))
    assert unmatched(ties(shape), ties(turned), m * PITCH) == []
    lengths = sorted(round(run.length, 2) for run in inner_runs(shape, 4.0))
    assert lengths == pytest.approx(
        sorted(round(run.length, 2) for run in inner_runs(turned, 4.0)), abs=CLOSE
    )


@st.composite
def halves(draw: st.DrawFn) -> Document:
    """Draw a motif whose two halves share no lane: what is added stays within its half."""
    half = draw(st.integers(2, 4))
    found: list[Document] = []
    count = half
    for _ in range(draw(st.integers(1, 3))):
        kind = draw(st.sampled_from(["add", "end", "knot", "hitch", "cross"]))
        if kind == "add":
            found.append({"add": {"after": draw(st.integers(1, count - 1)), "cords": 1}})
            count += 2
        elif kind == "end" and count > 2:
            found.append({"end": {"lanes": [draw(st.integers(1, count))]}})
            count -= 1
        elif kind == "hitch":
            found.append({"hitch": {"lead": 1, "to": count}})
        elif kind == "cross":
            found.append({"cross": [1, 2]})
        else:
            found.append({"knot": {"kind": "square_knot", "lanes": list(range(1, count + 1))}})
    knot = {"knot": {"kind": "square_knot", "lanes": list(range(1, 2 * half + 1))}}
    return {"strands": 2 * half, "steps": [knot, {"both": found}]}


@given(halves())
def test_both_halves_stand_alike(document):
    m = document["strands"]
    try:
        found = ties(shape_of(made(m, document["steps"]), ROOMY))
    except Refusal:
        assume(False)
    assert unmatched(found, found, m * ROOMY) == []


def test_a_fir_stands_straight():
    # Each added cord hangs on a strand in a lane 25 mm wide: its own lark's head, a quarter
    # turned, stands 0.6 diameters beside that lane's middle.
    found = ties(shape_of(made(4, FIR), 25.0))
    assert unmatched(found, found, 100.0) == []
    heads = [(x, y) for name, x, y in found if name == "larks_head"]
    assert heads[0] == pytest.approx((12.5 + 0.6 * 4.0, heads[1][1]), abs=CLOSE)
    knots = [x for name, x, _ in found if name == "square_knot"][1:]
    # Once both cords are there the eight lanes are 12.5 mm wide; the knots have the outer three.
    assert knots == pytest.approx([1.5 * 12.5, 100.0 - 1.5 * 12.5], abs=CLOSE)


def test_halves_that_share_a_lane_stand_as_they_are_worked():
    # The second half adds its cord onto a strand that the first half just added.
    shared = [{"both": [{"add": {"after": 3, "cords": 1}}]}, *FIR[:1]]
    found = ties(shape_of(made(4, shared)))
    assert unmatched(found, found, 4 * PITCH) != []


@pytest.mark.parametrize("name", ["moth", "pebbles", "twist", "hourglass", "seed-pod"])
def test_runs_of_a_symmetric_motif_are_as_long_on_either_side(name):
    motif = shipped_motif(name)
    shape = shape_of(motif)
    turned = shape_of(made(motif.strands, [{"mirror": _written(motif)}]))
    one = sorted(round(run.length, 3) for run in inner_runs(shape, 4.0))
    other = sorted(round(run.length, 3) for run in inner_runs(turned, 4.0))
    assert one == pytest.approx(other, abs=CLOSE)


def _written(motif: Motif) -> list[Document]:
    return motif.model_dump(mode="json", exclude_none=True)["steps"]
