"""Refusals of what is hardly meant come at once, however much work was asked."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest
from pattern_sample import SMALL, changed

from knotplot import build
from knotplot.errors import PatternError
from knotplot.pattern.load import load, loads
from knotplot.pattern.trial import Tied, Trial

PATTERNS = Path(__file__).parents[2] / "patterns"
NET = "{name: net, kind: square_knot_mesh, rows: 4}"
THIN = SMALL.replace("4 mm", "0.1 mm").replace("16", "4")
OPEN = "{kind: hitched, rod: 2 cm, tail: 10 cm}"
POCKET = "{kind: rod_pocket, rod: 20 mm, rows: 100000, tail: 26 cm}"
ASKED = {
    "mesh": (SMALL.replace("rows: 4", "rows: 150000"), "15 rows at most in net"),
    "mesh of one column": (
        SMALL.replace("rows: 4", "rows: 150000").replace("16", "4"), "74 rows at most in net"),
    "sennits": (
        SMALL.replace(NET, "{kind: sennits, knot: half_knot, count: 400000}"), "knots at most in"),
    "band": (
        SMALL.replace(NET, "{kind: motif_band, motif: diamond, rows: 1000000}"), "rows at most in"),
    "pocket": (
        SMALL.replace("{kind: larks_head, rod: 12 mm}", POCKET), "rows at most in rod_pocket"),
    "free": (
        SMALL.replace(NET, "{kind: repeat, times: 49000, sections: [{kind: free, length: 0.001}]}")
        .replace("16", "20000").replace("width: 40", "width: 80 m"),
        "about 49,000 sections on 20,000 strands are too many to work"),
    "thin cord": (
        THIN.replace("drop: 60", "drop: 990 m").replace("rows: 4", "rows: 2000000")
        .replace("{kind: larks_head, rod: 12 mm}", OPEN),
        "more than 2,000,000 ties"),
    "thin fill": (
        THIN.replace("drop: 60", "drop: 990 m").replace("rows: 4", "rows: fill")
        .replace("{kind: larks_head, rod: 12 mm}", OPEN),
        "more than 2,000,000 ties"),
}  # fmt: skip


@pytest.mark.parametrize("name", ASKED)
def test_it_is_refused_at_once(name: str) -> None:
    text, said = ASKED[name]
    assert text != SMALL
    build(loads(SMALL))  # what is loaded once is no part of it
    begin = time.process_time()
    with pytest.raises(PatternError) as caught:
        build(loads(text))
    assert time.process_time() - begin < 4  # half of it on a quiet machine
    assert said in str(caught.value)


def test_the_least_drop_of_long_work_under_a_shaped_edge_is_not_searched_for(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Found by fuzzing, seed 7, case 57,429: each trial took seconds, and there were sixteen."""
    band = "{kind: motif_band, motif: diamond, rows: 1}"
    braid = "{kind: sennits, knot: overhand, length: L}"
    long = f"{{kind: repeat, times: 1, sections: [{band}, {braid}]}}"
    edge = "lower_edge: {profile: vee, rise: 5 cm}\n"
    tried: dict[str, int] = {}
    tie = Trial.tie

    def counted(trial: Trial, *given: Any, **more: Any) -> Tied:
        tried[length] = tried.get(length, 0) + 1
        return tie(trial, *given, **more)

    monkeypatch.setattr(Trial, "tie", counted)
    for length in ("20 m", "300 m"):
        with pytest.raises(PatternError, match="cm too long for a drop of 60 cm"):
            build(loads(SMALL.replace(NET, long.replace("L}", length + "}")) + edge))
    assert tried["300 m"] < 6 < tried["20 m"]


@pytest.mark.parametrize(
    ("name", "change", "place"),
    [
        ("lantern-doorway", "opening.drop=900 m", "opening.drop: '900 m': every cord would be"),
        ("harbour-cafe-curtain", "cord.diameter=10 mm", "cord.diameter: '10 mm': too thick for"),
    ],
)
def test_a_mistyped_measure_is_told_at_its_key(name: str, change: str, place: str) -> None:
    begin = time.process_time()
    with pytest.raises(PatternError) as caught:
        build(load(PATTERNS / f"{name}.yaml", sets=[change]))
    assert time.process_time() - begin < 8
    (fault,) = caught.value.faults
    assert place in str(fault)
    assert fault.origin == f"--set {change}"


def test_a_cord_without_end_is_told_at_the_opening() -> None:
    text = changed("size: {width: 40, drop: 60}", "opening: {width: 40, drop: 60}", SMALL)
    with pytest.raises(PatternError) as caught:
        build(loads(text + "cord_use: {square_knot: {working: 900000}}\n"))
    (fault,) = caught.value.faults
    assert (fault.path, fault.line) == (("opening",), 2)
    assert "m long, more than 1,000 m" in fault.problem
