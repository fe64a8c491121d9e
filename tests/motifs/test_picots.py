"""Picots: loops of working cord above a knot, in lengths, records, words and drawings."""

from __future__ import annotations

import pytest
from motifs.test_adding_ending import band, made, rows

from knotplot.curves.bezier import length
from knotplot.drawing.bounds import bounds
from knotplot.errors import PatternError, Refusal
from knotplot.geometry.inner import crossing_runs, inner_runs
from knotplot.geometry.layout import stands_out
from knotplot.geometry.runs import run_length, shown
from knotplot.tying.checking import picot_fault
from knotplot.tying.gauge import Gauge
from knotplot.tying.moves import Move
from knotplot.tying.ports import Port
from knotplot.tying.rack import Rack

TWO = """\
      - knot: {{kind: square_knot, lanes: [1, 2, 3, 4]}}
      - knot: {{kind: {kind}, lanes: [1, 2, 3, 4], facing: right{picot}}}
"""


@pytest.mark.parametrize("kind", ["square_knot", "half_knot"])
def test_each_working_strand_takes_that_much_more(kind: str) -> None:
    plain = made(4, band(TWO.format(kind=kind, picot=""), 4))
    looped = made(4, band(TWO.format(kind=kind, picot=", picot: 3 cm"), 4))
    for strand, more in zip((1, 2, 3, 4), (30.0, 0.0, 0.0, 30.0), strict=True):
        before, after = plain.layout.uses[strand], looped.layout.uses[strand]
        assert after.runs - before.runs == pytest.approx(more, abs=1e-9)
        assert after.knots == before.knots
    before, after = rows(plain)[0]["ties"], rows(looped)[0]["ties"]
    assert [tie["y_mm"] for tie in before] == [tie["y_mm"] for tie in after]
    assert [tie["params"] for tie in after] == [{}, {"picot_mm": 30.0}]
    assert "leave a picot of 3 cm (1 1/8 in) at each side" in looped.words()


def test_pairs_of_working_strands_both_stand_out() -> None:
    steps = "      - knot: {kind: square_knot, lanes: [1, 2, 3, 4, 5], workers: 2%s}\n"
    plain, looped = (made(5, band(steps % more, 5)) for more in ("", ", picot: 20 mm"))
    # the first knot's run comes from where the strands hang
    more = [looped.layout.uses[i].runs - plain.layout.uses[i].runs for i in range(1, 6)]
    assert more == [pytest.approx(mm) for mm in (20.0, 20.0, 0.0, 20.0, 20.0)]
    rows(looped)


@pytest.mark.parametrize("drop", [0.0, 4.0, 30.0, 200.0])
@pytest.mark.parametrize("loop", [-40.0, -5.0, 12.0, 60.0])
def test_a_loop_is_drawn_as_long_as_it_is_and_stands_out_to_its_side(
    drop: float, loop: float
) -> None:
    a, b = Port(3.0, 7.0, 0.0, 1.0, "knot"), Port(2.0, 7.0 + drop, 0.0, 1.0, "knot", loop)
    curve = shown(a, b, 4.0)
    assert curve[:2] == (a.x, a.y)
    assert curve[6:] == (b.x, b.y)
    assert length(curve) == pytest.approx(run_length(a, b, 4.0), abs=0.05)
    middle = (curve[0] + 3.0 * curve[2] + 3.0 * curve[4] + curve[6]) / 8.0
    assert (middle - 3.0) * loop > 0.0
    assert abs(middle - 3.0) <= (length(curve) + 1.0) / 2.0


def test_loops_cross_nothing_and_lie_outside_the_knot() -> None:
    rack = Rack(Gauge(32.0, 4, 4.0))
    rack.hang("body", range(1, 5), [None] * 5)
    knot = Move("square_knot", (0, 1, 2, 3), step=1)
    shape = rack.group((knot, knot._replace(step=2, picot=30.0)), 4)
    assert crossing_runs(shape, 4.0) == 0
    found = {each.who: each for each in inner_runs(shape, 4.0)}
    xs = [port.x for tie in shape.ties for port in tie.enter]
    assert min(found[0].curve[::2]) < min(xs) - 5.0
    assert max(found[3].curve[::2]) > max(xs) + 5.0
    with pytest.raises(Refusal, match="no working strands at its outside"):
        rack.group((knot._replace(knot="overhand", picot=5.0),), 4)


def test_drawings_have_room_for_loops_at_the_sides() -> None:
    found = made(4, band(TWO.format(kind="square_knot", picot=", picot: 30 cm"), 4))
    out = stands_out(found.layout.piece)
    assert 100.0 < out < 155.0
    drawing = found.draw("chart").drawing
    x0, _, x1, _ = bounds(drawing.items)  # of the loops' control points, which lie further out
    assert x0 >= 0.0
    assert x1 <= drawing.width
    assert found.draw("cord").drawing.width >= 32.0 + 2.0 * out


@pytest.mark.parametrize("kind", ["overhand"])
def test_knots_without_outer_working_strands_have_no_picots(kind: str) -> None:
    steps = f"      - knot: {{kind: {kind}, lanes: [1, 2], picot: 12 mm}}\n"
    with pytest.raises(PatternError) as caught:
        made(4, band(steps, 4))
    assert (
        f":12: motifs.a.steps[0].knot.picot: '12 mm': {kind} has no working strands at its outside"
        in str(caught.value)
    )
    assert picot_fault("gathering_knot", 6, 1) is not None
    assert picot_fault("square_knot", 2, 1) is None
