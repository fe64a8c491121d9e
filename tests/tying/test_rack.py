"""The rack: strands followed through every tie, and the impossible refused."""

from __future__ import annotations

import pytest
import strategies
from hypothesis import given

from knotplot.errors import Refusal
from knotplot.tying.gauge import Gauge
from knotplot.tying.moves import Add, End, Gap, Move
from knotplot.tying.piece import Piece, Row
from knotplot.tying.ports import Port, steepness
from knotplot.tying.rack import Ask, Rack

HITCH = "double_half_hitch"


def rack(strands: int, width: float = 0.0) -> Rack:
    """Return a rack with that many strands hung straight at y = 0."""
    gauge = Gauge(width or 8.0 * strands, strands, 4.0)
    made = Rack(gauge)
    ports = [Port(gauge.x(lane), 0.0, 0.0, 1.0, "knot") for lane in range(strands)]
    made.hang("body", range(1, strands + 1), [None, *ports])
    return made


def bar(lead: int, to: int, line: int) -> tuple[Move, ...]:
    """Return a bar of double half hitches between lanes counted from 1."""
    if lead < to:
        return tuple(
            Move(HITCH, (i - 1, i), leader=0, step=line, line=line) for i in range(lead, to)
        )
    return tuple(
        Move(HITCH, (i - 2, i - 1), leader=1, step=line, line=line) for i in range(lead, to, -1)
    )


def test_slanting_bars_of_the_encyclopedia() -> None:
    """Thérèse de Dillmont, Encyclopedia of Needlework (c. 1890), figs 540–543 [CHECK_VALUES 1]."""
    right = rack(4)
    right.tie([Ask(right.group(bar(1, 4, 1), 4), 0)])
    assert right.lanes["body"] == [2, 3, 4, 1]
    right.tie([Ask(right.group(bar(1, 4, 1), 4), 0)])
    assert right.lanes["body"] == [3, 4, 1, 2]
    left = rack(4)
    left.tie([Ask(left.group(bar(4, 1, 1), 4), 0)])
    assert left.lanes["body"] == [4, 1, 2, 3]
    left.tie([Ask(left.group(bar(4, 1, 1), 4), 0)])
    assert left.lanes["body"] == [3, 4, 1, 2]


def test_a_leader_passes_whatever_its_turns() -> None:
    for name in ("half_hitch", HITCH, "triple_half_hitch"):
        made = rack(3)
        moves = tuple(
            Move(name, (i, i + 1), leader=0, step=1, line=0) for i in range(2)
        )  # fmt: skip
        made.tie([Ask(made.group(moves, 3), 0)])
        assert made.lanes["body"] == [2, 3, 1]


def test_lanes_that_are_not_there_are_refused_with_row_and_remedy() -> None:
    made = rack(8)
    with pytest.raises(Refusal, match=r"row 1: .*lanes 8, 9.*use lanes from 1 to 8"):
        made.group((Move("square_knot", (7, 8)),), 8)
    with pytest.raises(Refusal, match="side by side"):
        made.group((Move("square_knot", (0, 2)),), 8)
    with pytest.raises(Refusal, match=r"row 1: lanes 7 to 10"):
        made.tie([Ask(made.knot("square_knot", 4, "left"), 6)])
    with pytest.raises(Refusal, match="by name"):
        made.group((Move("larks_head", (0, 1)),), 8)


def test_a_row_in_which_nothing_is_tied_is_no_row() -> None:
    made = rack(4)
    assert made.tie([]) is None
    assert made.rows == []


def test_a_gap_is_bare_cord_on_the_tightest_strand() -> None:
    made = rack(4)
    knot = made.knot("square_knot", 4, "left")
    first = made.tie([Ask(knot, 0)])
    second = made.tie([Ask(knot, 0)], gap=15.0)
    assert first is not None
    assert second is not None
    bottom = first.placements[0].y + knot.bottom
    assert second.placements[0].y == pytest.approx(bottom + 15.0)


def test_a_gap_inside_a_motif_holds_too() -> None:
    made = rack(4)
    knot = Move("square_knot", (0, 1, 2, 3))
    close = made.group((knot._replace(step=1), knot._replace(step=2)), 4)
    apart = made.group((knot._replace(step=1), Gap(12.0, 2), knot._replace(step=3)), 4)
    assert apart.bottom - close.bottom == pytest.approx(12.0)


def test_two_million_ties_are_the_most() -> None:
    made = rack(4)
    made._ties = 1_999_999
    knot = made.knot("square_knot", 4, "left")
    made.tie([Ask(knot, 0)])
    with pytest.raises(Refusal, match="2,000,000"):
        made.tie([Ask(knot, 0)])


def _after(knot: str, hanging: list[int], roles: tuple[str, ...]) -> list[int]:
    """Return strands in the order in which they leave a tie, by the trade's rules alone."""
    if knot == "cross" or (knot.endswith("half_hitch") and len(hanging) == 2):
        return hanging[::-1]
    if knot == "half_knot":
        side = roles.index("filler") if "filler" in roles else len(hanging) // 2
        middle = hanging[side : len(hanging) - side]
        return [*hanging[len(hanging) - side :], *middle, *hanging[:side]]
    return hanging


def _replayed(row: Row, layers: dict[str, list[int]]) -> list[tuple[list[int], list[int], int]]:
    """Work a row on lists of strands by layer: the lanes, strands and lanes there of each tie."""
    if row.layers == ("tails", "body"):
        return [
            ([lane + 1 for lane in range(p.lane, p.lane + 4)] * 2,
             [s for name in row.layers for s in layers[name][p.lane : p.lane + 4]],
             len(layers["body"]))
            for p in row.placements
        ]  # fmt: skip
    layer = layers["tails" if row.layer == "tails" else "body"]
    found, more = [], 0
    for placement in row.placements:
        first, ties = placement.lane + more, iter(placement.shape.ties)
        new, before = list(placement.strands[placement.shape.span :]), len(layer)
        for move in placement.shape.moves:
            if isinstance(move, Gap):
                continue
            if isinstance(move, End):
                for lane in sorted(move.lanes, reverse=True):
                    del layer[first + lane]
                continue
            if isinstance(move, Add):
                lane, there = first + move.lane, len(layer)
                pairs = [new[2 * i : 2 * i + 2] for i in range(move.cords)]
                for pair in pairs:
                    made = next(ties)
                    assert made.leader is not None
                    assert placement.strands[made.leader] == layer[lane]
                    found.append(([lane + 1], pair, there))
                at = lane if move.left else lane + 1
                layer[at:at] = new[: 2 * move.cords]
                del new[: 2 * move.cords]
                continue
            made = next(ties)
            lanes = [first + lane for lane in made.lanes]
            strands = layer[lanes[0] : lanes[-1] + 1]
            assert lanes == list(range(lanes[0], lanes[0] + len(lanes)))
            if made.knot != "cross":
                found.append(([lane + 1 for lane in lanes], strands, len(layer)))
            layer[lanes[0] : lanes[-1] + 1] = _after(made.knot, strands, made.roles)
        assert next(ties, None) is None
        assert not new or row.section == 0
        more += len(layer) - before
    return found


@given(strategies.pieces())
def test_every_tie_holds_what_hangs_in_its_lanes(piece: Piece) -> None:
    """The record replayed by ids alone, crosses too: strands hang in their lanes, side by side."""
    count = piece.gauge.strands
    layers = {"body": list(range(1, count + 1))}
    layers["tails"] = [count + strand for strand in layers["body"]]
    for row in piece.rows:
        found = _replayed(row, layers)
        ties = list(row.ties(piece.gauge))
        assert [(list(tie.lanes), list(tie.strands), tie.among) for tie in ties] == found
        assert all(len(tie.roles) == len(tie.strands) for tie in ties)
        # Contract 5: lane i lies at (i − ½)·width/N, N the number of lanes then.
        for tie in ties:
            x = (sum(tie.lanes) / len(tie.lanes) - 0.5) * piece.gauge.width / tie.among
            assert tie.x == pytest.approx(x)
        assert list(row.order_after) == layers["tails" if row.layer == "tails" else "body"]
    assert list(piece.lanes) == layers["body"]


@given(strategies.pieces())
def test_no_strand_climbs_and_depth_grows(piece: Piece) -> None:
    """Between rows every strand hangs down, at least as steep as the rule says."""
    last: dict[int, tuple[Port, float]] = {}
    for row in piece.rows:
        for shape, lane, strands, top, _ in row.placements:
            left = lane * row.pitch(piece.gauge)
            for who, port in shape.entries:
                at = port.moved(left, top)
                if strands[who] in last:
                    before, _ = last[strands[who]]
                    drop = steepness(before.hold, at.hold) * abs(at.x - before.x)
                    assert at.y >= before.y + max(drop, row.gap) - 1e-6
            for who, _, port in shape.exits:
                last[strands[who]] = (port.moved(left, top), top)
