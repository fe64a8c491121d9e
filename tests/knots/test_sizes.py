"""Sizes of knots worked out by hand, and what is read between the solved entries."""

from __future__ import annotations

import math

import pytest

from knotplot.knots import knot, solved
from knotplot.knots.base import Manner
from knotplot.knots.sizes import filler_places, lost_height, outer_port

# 0 to 8 fillers in a bundle, in diameters: 1.0, 1.6, 2.0, 2.25, 2.5, –, 3.0, –, 3.9 (the solved
# sizes); between them straight lines, beyond 8 fillers 0.45 a filler.
PORTS = {
    0: 1.0, 1: 1.6, 2: 2.0, 3: 2.25, 4: 2.5, 5: 2.75, 6: 3.0, 7: 3.45, 8: 3.9, 9: 4.35, 10: 4.8,
}  # fmt: skip


@pytest.mark.parametrize("fillers", PORTS)
def test_where_working_strands_leave(fillers: int) -> None:
    assert outer_port(fillers) == pytest.approx(PORTS[fillers])


def test_a_knot_seven_eighths_as_high_as_solved_has_lost_an_eighth() -> None:
    assert lost_height(3.5) == pytest.approx(0.5)  # 3.5 / 0.875 = 4


@pytest.mark.parametrize(
    ("count", "width", "places"),
    [
        (0, 5.0, ()), (1, 0.5, (0.0,)), (2, 4.0, (-0.5, 0.5)), (3, 6.0, (-1.0, 0.0, 1.0)),
        (4, 2.0, (-0.75, -0.25, 0.25, 0.75)),
    ],
)  # fmt: skip
def test_fillers_stand_side_by_side(count: int, width: float, places: tuple[float, ...]) -> None:
    assert filler_places(count, width) == pytest.approx(places)


# --- between the entries of the table ------------------------------------------------------------

MADE_UP = {
    "entries": {
        "made_up/2/row": {"excess": {"working": 5.0}, "width": 7.0},
        "made_up/4/row": {"excess": {"working": 9.0}, "width": 9.0},
        "made_up/2/bundle": {"excess": {"working": 5.0}, "width": 5.0},
        "made_up/4/bundle": {"excess": {"working": 7.0}, "width": 5.0},
    },
    "fits": {"made_up/*/row working": {"a": 1.0, "b": 2.0, "power": 2.0}},
}


@pytest.fixture
def made_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solved, "_data", lambda: MADE_UP)


@pytest.mark.usefixtures("made_up")
@pytest.mark.parametrize(
    ("size", "value"), [(2.0, 5.0), (2.5, 6.0), (3.0, 7.0), (4.0, 9.0), (5.0, 27.0), (1.0, -1.0)]
)
def test_straight_lines_between_entries_and_the_fits_growth_beyond(
    size: float, value: float
) -> None:
    assert solved.at_size("made_up/*/row", "working", size) == pytest.approx(value)


@pytest.mark.usefixtures("made_up")
@pytest.mark.parametrize(
    ("fillers", "workers", "outer", "excess"),
    [
        (2, 1, 99.0, 5.0),  # two fillers lie in a row, however wide it is
        (4, 1, 4.0, 9.0),  # as wide as the row: (9 − 1) / 2
        (4, 1, 2.0, 7.0),  # as narrow as the bundle: (5 − 1) / 2
        (4, 1, 3.0, 8.0),  # halfway
        (4, 1, 2.5, 7.5),  # a quarter of the way
        (4, 1, 9.0, 9.0),
        (4, 1, 0.5, 7.0),
        (4, 2, 2.0, 10.0),  # one strand more, a diameter in each of three crossings
    ],
)
def test_a_flat_knot_is_between_its_row_and_its_bundle(
    fillers: int, workers: int, outer: float, excess: float
) -> None:
    assert solved.flat_excess("made_up", fillers, workers, outer, 3) == pytest.approx(excess)


# --- knots on several strands --------------------------------------------------------------------


@pytest.mark.parametrize(
    # Circles in a circle: 2 in twice their diameter, 3 in 1 + 2/√3; more fill 0.74 of it.
    ("strands", "wide"), [(2, 2.0), (3, 1.0 + 2.0 / math.sqrt(3.0)), (4, 2.325), (8, 3.288)]
)  # fmt: skip
def test_an_overhand_on_many_strands_is_as_much_larger_as_their_bundle(
    strands: int, wide: float
) -> None:
    one = knot("overhand").cord(Manner(1)).by_role["working"]
    many = knot("overhand").cord(Manner(strands)).by_role["working"]
    assert many / one == pytest.approx(wide, rel=1e-3)
    one_way = knot("overhand").cord(Manner(1)).way["working"]
    assert knot("overhand").cord(Manner(strands)).way["working"] / one_way == pytest.approx(
        wide, rel=1e-3
    )


def test_a_wrap_of_eight_turns_round_seven_strands() -> None:
    """Each turn goes round 3.076 + 1 diameters and a diameter down: √((π·4.076)² + 1) = 12.843."""
    cord = knot("gathering_knot").cord(Manner(7, reach=4.0))
    assert cord.excess["wrap"] == pytest.approx(8 * 12.843, rel=1e-3)
    assert cord.way["filler"] == 8.0


@pytest.mark.parametrize(("name", "share"), [("half_hitch", 0.5), ("triple_half_hitch", 1.5)])
def test_hitches_on_a_thick_rod_take_more_by_their_turns(name: str, share: float) -> None:
    """What a rod adds to a double hitch is for two turns; others have half of it for each turn."""

    def more(which: str) -> float:
        thick = knot(which).cord(Manner(1, leader=-1, reach=1.0, rod=8.0)).excess["knotting"]
        return thick - solved.excess(f"{which}/alone", "knotting") - plain

    # The straight way past a wider rod is the same for all.
    plain = 0.0
    double = knot("double_half_hitch").cord(Manner(1, leader=-1, reach=1.0, rod=8.0))
    apart = double.excess["knotting"] - solved.at_size("double_half_hitch/on *", "knotting", 8.0)
    assert more(name) - apart == pytest.approx(share * (more("double_half_hitch") - apart))
