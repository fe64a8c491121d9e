"""What a maker gave that looks wrong is told, or refused, before anything is cut."""

from __future__ import annotations

from pathlib import Path

import pytest

from knotplot import PatternError, build, load, loads
from knotplot.materials.bill import scaled
from knotplot.materials.given import packed
from knotplot.pattern.models import Pattern

BASE = """
knotplot: 1
title: Sample
size: {width: 60 cm, drop: 60 cm}
cord: {diameter: 4 mm}
strands: {count: 32}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {name: n, kind: square_knot_mesh, rows: 8}
  - {kind: fringe, length: 5 cm}
"""


def warnings(*sets: str) -> str:
    """Return the warnings, but for the one that every net without a measured height has."""
    found = build(loads(BASE, sets=sets)).figures()["warnings"]
    return "\n".join(each for each in found if "pushed a quarter closer" not in each)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("swatch={of: n, rows: 40, cord_used: 41 cm}", "over 40 rows is 0."),
        ("swatch={of: n, rows: 4, cord_used: 410 cm}", "check that 'cord_used'"),
        ("cord_use={square_knot: {working: 0.001}}", "square knot, working 0.001 diameters"),
        (
            "swatches=[{of: n, rows: 4, cord_used: 19 cm}, {of: n, rows: 4, cord_used: 20 cm}]",
            "n: given more than once",
        ),
        ("swatch={of: n, rows: 4, minutes: 5}", "its minutes don't say"),
    ],
)
def test_what_looks_wrong_is_told(said: str, told: str) -> None:
    assert told in warnings(said)
    assert warnings() == ""


def test_a_likely_swatch_is_taken_without_a_word() -> None:
    assert warnings("swatch={of: n, rows: 4, cord_used: 19 cm}") == ""


def test_a_swatch_of_too_few_strands_for_a_knot_takes_no_time_away() -> None:
    made = build(loads(BASE, sets=["swatch={of: n, strands: 1, rows: 4, minutes: 5}"]))
    assert made.figures()["hours"] == build(loads(BASE)).figures()["hours"]


def test_a_cord_beyond_all_bounds_is_refused() -> None:
    with pytest.raises(PatternError, match="more than 1,000 m"):
        build(loads(BASE, sets=["cord_use={square_knot: {working: 1000000}}"]))


@pytest.mark.parametrize("confidence", ["1e-300", "0.001"])
def test_a_confidence_of_next_to_nothing_is_refused(confidence: str) -> None:
    with pytest.raises(PatternError, match=r"use 0\.01 or more"):
        loads(BASE, sets=[f"allowance.confidence={confidence}"])


@pytest.mark.parametrize("strands", [5, 6, 8])
@pytest.mark.parametrize("count", [4, 5])
def test_a_swatch_of_wide_sennits_is_compared_with_all_their_strands(strands, count) -> None:
    text = BASE.replace("count: 32", f"count: {strands * count * 2}").replace(
        "{name: n, kind: square_knot_mesh, rows: 8}",
        f"{{name: n, kind: sennits, knot: square_knot, strands: {strands}, count: 10}}",
    ).replace("width: 60", f"width: {strands * count * 4}")  # fmt: skip
    made = build(loads(text))
    cords = made.figures()["cords"]
    # What the strands use in ten knots each, in the mean, less their mounting; five knots' worth.
    plain: Pattern = loads(text, sets=["swatch={of: n, rows: 5, cord_used: 30 cm}"])
    (scale,) = scaled(plain, made.layout.piece)
    tied = [made.layout.uses[s] for cord in cords for s in cord["strands"]]
    mount = made.layout.take("larks_head", made.layout.piece.rows[0].placements[0].shape.ties[0]
                             .manner, 0).by_role["mount"] * 4.0  # fmt: skip
    mean = sum(use.knots - mount for use in tied) / len(tied) / 2.0
    assert scale.ratio == pytest.approx(300.0 / mean, rel=0.02)


def test_a_line_of_hitches_far_apart_is_told() -> None:
    line = ["sections=[{kind: hitch_line, overhang: 8 cm}, {kind: fringe, length: 5 cm}]"]
    assert "the leader shows between them" in warnings("size.width=90 cm", *line)


# --- thickness and mass -----------------------------------------------------------------------


def cord(diameter: str, mass: str, more: str = "") -> str:
    return f"cord={{diameter: {diameter}, mass_per_length: {mass}{more}}}"


@pytest.mark.parametrize(
    ("said", "told"),
    [
        # 4λ/πρd²: 14.33 g/m of cotton fill 0.7502 of 4 mm, 8.594 g/m 0.44995.
        (cord("4 mm", "14.33 g/m"), "cord: 14.33 g/m of cotton don't fit into a cord 4 mm thick"),
        (cord("2 mm", "9.6 g/m"), "its thickness is too small, or its mass wrong; wind ten turns"),
        (cord("4 mm", "8.594 g/m"), "pulled tight it is about 3.5 mm; knots come out smaller"),
        (cord("5 mm", "11 g/m"), "is light for a cord 5 mm thick: pulled tight it is about 3.9 mm"),
        (
            cord("4 mm", "0.000001 g/m"),
            "cord: 0.000001 g/m of cotton leave a cord 4 mm",
        ),
        (cord("4 mm", "6 g/m", ", fibre: merino wool"), "6 g/m of wool is light for a cord 4 mm"),
    ],
)
def test_a_mass_that_does_not_go_with_its_thickness_is_told(said: str, told: str) -> None:
    assert told in warnings(said)


@pytest.mark.parametrize(
    "said",
    [
        cord("4 mm", "9.6 g/m"),
        cord("4 mm", "14.32 g/m"),  # 0.7497
        cord("4 mm", "8.596 g/m"),  # 0.45003
        cord("4 mm", "6.6 g/m", ", fibre: nylon"),  # 0.46 of it, at 1.14 g/cm³
        cord("4 mm", "30 g/m", ", fibre: leather"),  # its density isn't known
        "cord={diameter: 4 mm}",
    ],
)
def test_likely_cords_are_taken_without_a_word(said: str) -> None:
    assert warnings(said) == ""


def test_who_measured_the_cord_of_a_swatch_needs_no_other() -> None:
    light = cord("5 mm", "11 g/m")
    assert "knot a swatch" in warnings(light)
    assert "knot a swatch" not in warnings(light, "swatch={of: n, rows: 4, cord_used: 24 cm}")


@pytest.mark.parametrize("name", ["alder-branch-hanging", "harbour-cafe-curtain"])
def test_the_shipped_cords_have_likely_masses(name: str) -> None:
    pattern = load(Path(__file__).parents[2] / "patterns" / f"{name}.yaml")
    assert list(packed(pattern)) == []


# --- measures that no hand can work -----------------------------------------------------------


@pytest.mark.parametrize(
    ("sets", "told"),
    [
        (["cord.diameter=0.001 mm"],
         "cord.diameter: '0.001 mm': thinner than 0.1 mm, about a sewing thread; give the cord's"),
        (["mount.rod=0.000001 mm"],
         "mount.rod: '0.000001 mm': thinner than 0.1 mm, about a sewing thread; give what"),
        (["size.width=0.5 mm"],
         "size.width: '0.5 mm': smaller than can be knotted; give a width of 1 mm or more"),
        (["size.drop=0.5 mm"], "size.drop: '0.5 mm': smaller than can be knotted"),
        (["mount=null", "mount={kind: ring, diameter: 0.000001 mm}"],
         "mount.diameter: '0.000001 mm': thinner than 0.1 mm"),
        # 16 cords of 4 mm: 4·√(16/0.9069) = 16.8 mm.
        (["mount=null", "mount={kind: ring, diameter: 16.5 mm}"],
         "mount.diameter: '16.5 mm': 16 cords of 4 mm don't go through this ring; use a ring "
         "1.7 cm across or more, or fewer strands"),
        (["lower_edge={profile: scallops, count: 33, rise: 1 cm}"],
         "lower_edge.count: 33: 33 scallops on 32 strands: some would have none; use 8 scallops"),
    ],
)  # fmt: skip
def test_what_no_hand_can_work_is_refused_with_place_and_remedy(sets: list[str], told: str) -> None:
    with pytest.raises(PatternError) as caught:
        build(loads(BASE, sets=sets))
    assert told in str(caught.value)


def test_the_remedies_do() -> None:
    ring = ["mount=null", "mount={kind: ring, diameter: 1.7 cm}"]
    assert build(loads(BASE, sets=ring)).layout.piece.rows
    assert warnings("lower_edge={profile: scallops, count: 8, rise: 1 cm}") == ""
    assert warnings("lower_edge={profile: scallops, count: 1000}") == ""  # no rise: straight


def test_narrow_scallops_are_told() -> None:
    told = warnings("lower_edge={profile: scallops, count: 9, rise: 1 cm}")
    assert "lower_edge: 9 scallops on 32 strands are 3.6 strands wide each" in told
    assert told.endswith("use 8 or fewer")


def test_ends_longer_than_the_piece_are_told() -> None:
    hitched = "mount={kind: hitched, rod: 20 mm, tail: %s}"
    told = warnings("mount=null", hitched % "400 m")
    assert "mount: a tail of 40000 cm" in told
    assert "longer than the whole piece" in told
    assert "a tail of" not in warnings("mount=null", hitched % "60 cm")
    line = "sections=[{name: top, kind: hitch_line, overhang: %s}, {kind: free, length: 5 cm}]"
    assert "“top”: its leader stands out 500 cm" in warnings(line % "5 m")
    assert "leader stands out" not in warnings(line % "20 cm")
