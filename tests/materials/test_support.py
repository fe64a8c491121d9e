"""The rod under a piece: loads, sag, the stock that would do, and what is refused or warned of."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from knotplot.api import WorkedPiece, build
from knotplot.errors import PatternError
from knotplot.materials.beams import section
from knotplot.materials.support import SAG_SHARE, Support, rod_length, support
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern

NET = """
knotplot: 1
title: Net
size: {width: 80 cm, drop: 40 cm}
cords:
  main: {diameter: 4 mm, mass_per_length: 9.6 g/m}
  wrap: {diameter: 2 mm, mass_per_length: 2 g/m}
strands: {count: 32}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {kind: square_knot_mesh, rows: 5}
  - kind: columns
    parts:
      - {strands: 16, sections: [{kind: gather, wrap: 2 cm}]}
      - {strands: rest, sections: [{kind: free, length: 2 cm}]}
"""
PINE = "support: {material: pine, diameter: 20 mm, span: 95 cm}"


@cache
def made(said: str, text: str = NET) -> WorkedPiece:
    return build(loads(f"{text}{said}\n"))


def on(load_g: float, diameter: float, span: float, width: float, **more: Any) -> Support:
    """Return a piece of that weight and width on a rod."""
    held = {"material": "pine", "diameter": f"{diameter:.3f} mm", "span": f"{span:.3f} mm"} | more
    # Rods are tried that no pattern may have, so only the single fields are checked.
    pattern = Pattern.model_validate(
        {
            "knotplot": 1,
            "size": {"width": f"{width:.3f} mm", "drop": "40 cm"},
            "cord": {"diameter": "4 mm"},
            "strands": {"count": 4},
            "mount": {"kind": "larks_head", "rod": "20 mm"},
            "sections": [{"kind": "square_knot_mesh", "rows": 2}],
            "support": held,
        }
    )
    found = support(pattern, load_g, False)
    assert found is not None
    return found


def test_figures_tell_of_it() -> None:
    figures = made(PINE).figures()
    told = figures["support"]
    assert list(told)[:2] == ["load_g", "sag_mm"]
    # The load: what the cords use, by what a metre of their kind weighs; the rod isn't in it.
    masses = {"main": 9.6, "wrap": 2.0}
    load = sum(c["used_mm"] * masses[c["cord_type"]] / 1000 for c in figures["cords"])
    assert {c["cord_type"] for c in figures["cords"]} == set(masses)
    assert told["load_g"] == pytest.approx(load, abs=0.02)
    assert told["rod_mm"] == 1050.0
    rod = section(20.0).area * 1050.0 * 550e-6
    assert told["rod_g"] == pytest.approx(rod, abs=0.01)
    assert told["bracket_g"] == pytest.approx((told["load_g"] + rod) / 2.0, abs=0.02)
    # By hand: W(8L³ − 4Lb² + b³)/384EI for the piece, 5wL⁴/384EI for the rod, whose 5 cm past each
    # bracket lift it by a little less than half a percent.
    ei = 7000.0 * section(20.0).inertia
    piece = load * 9.80665e-3 * (8 * 950.0**3 - 4 * 950.0 * 800.0**2 + 800.0**3)
    own = 5.0 * rod / 1050.0 * 9.80665e-3 * 950.0**4
    assert told["sag_mm"] == pytest.approx((piece + own) / (384.0 * ei), rel=0.01)
    # EN 1995-1-1, table 3.2: solid timber indoors creeps by 0.6 of its sag at once.
    assert told["sag_later_mm"] == pytest.approx(1.6 * told["sag_mm"], abs=0.02)
    assert told["limit_mm"] == 4.75
    assert told["holds"] is True
    assert not [text for text in figures["warnings"] if text.startswith("support")]


def test_without_a_support_nothing_is_told() -> None:
    assert made("").figures()["support"] is None
    assert made("").bill.support is None


def test_an_estimated_weight_is_told_as_such() -> None:
    bare = NET.replace(", mass_per_length: 9.6 g/m", "")
    given, estimated = made(PINE).bill.support, made(PINE, bare).bill.support
    assert given is not None
    assert estimated is not None
    assert (given.estimated, estimated.estimated) == (False, True)


def test_a_rod_is_as_long_as_what_it_carries_and_spans() -> None:
    assert (rod_length(800.0), rod_length(800.0, 950.0), rod_length(800.0, 300.0)) == (
        900.0, 1050.0, 900.0,
    )  # fmt: skip


def test_brackets_inside_and_outside_the_width() -> None:
    wide = on(2000.0, 12.0, 300.0, 1000.0)
    assert abs(wide.bent.edge_mm) > abs(wide.bent.middle_mm)
    assert wide.bent.sag_mm == wide.bent.edge_mm
    assert wide.bent.middle_mm < 0.0  # the ends bend it up between the brackets
    narrow = on(2000.0, 12.0, 1000.0, 300.0)
    assert narrow.bent.edge_mm == 0.0
    assert narrow.bent.sag_mm == narrow.bent.middle_mm > 0.0
    assert narrow.down(0.0) == pytest.approx(1.6 * narrow.bent.middle_mm)
    assert wide.down(500.0) == pytest.approx(1.6 * wide.bent.edge_mm)


rods = st.fixed_dictionaries(
    {
        "load_g": st.floats(20.0, 20_000.0),
        "diameter": st.floats(6.0, 50.0),
        "span": st.floats(250.0, 3000.0),
        "width": st.floats(200.0, 3000.0),
        "material": st.sampled_from(["pine", "oak", "branch", "steel tube", "acrylic", "bamboo"]),
    }
)


@settings(max_examples=60, deadline=None)
@given(rods)
def test_the_smallest_stock_is_the_smallest(rod: dict[str, Any]) -> None:
    found = on(**rod)
    assert found.bent.holds == (
        found.bent.later_mm <= found.span * SAG_SHARE and found.bent.stress <= found.stock.stress
    )
    for size in found.stock.sizes:
        wall: dict[str, Any] = {} if size.wall is None else {"wall": f"{size.wall} mm"}
        tried = on(**{**rod, "diameter": size.diameter}, **wall).bent
        if found.smallest is None or size.diameter < found.smallest.size.diameter:
            assert not tried.holds
        elif size == found.smallest.size:
            assert tried == found.smallest
            assert tried.holds


@settings(max_examples=60, deadline=None)
@given(rods)
def test_more_load_bends_it_more_and_a_thicker_rod_bends_less(rod: dict[str, Any]) -> None:
    # Beyond 1.8 spans the middle begins to lift: there the two no longer go the same way.
    rod["width"] = min(rod["width"], 1.8 * rod["span"])
    found, more = on(**rod), on(**{**rod, "load_g": 1.5 * rod["load_g"]})
    thicker = on(**{**rod, "diameter": 1.2 * rod["diameter"]}).bent
    assert more.bent.sag_mm > found.bent.sag_mm > 0.0
    assert more.bracket_n > found.bracket_n
    assert more.spacing < found.spacing
    if not found.stock.hollow:  # a tube may have another wall at another size
        assert thicker.sag_mm < found.bent.sag_mm
        assert thicker.stress < found.bent.stress or thicker.rod_g > found.load_g


@pytest.mark.parametrize(
    ("said", "warned"),
    [
        (
            "{material: pine, diameter: 20 mm, span: 240 cm}",
            "in) in the course of years, where a 200th of the span is 12.0 mm (0.47 in); use",
        ),
        (
            "{material: acrylic, diameter: 20 mm, span: 170 cm}",
            "no usual acrylic holds it: set a bracket in the middle too, so that they stand",
        ),
        (
            "{material: acrylic, diameter: 20 mm, span: 240 cm}",
            "in) apart or closer, or use a stiffer material",
        ),
        ("{material: pine, diameter: 6 mm, span: 120 cm}", "is bent to"),
        ("{material: pine, diameter: 4 mm, span: 120 cm}", "sags more than a tenth of the span"),
        ("{material: pine, diameter: 23 mm, span: 95 cm}", "give mount.rod and support.diameter"),
        ("{material: acrylic, diameter: 4 mm, span: 6 cm}", "out to the edges of the piece"),
    ],
)
def test_a_rod_that_does_not_do_is_warned_of(said: str, warned: str) -> None:
    told = [w for w in made(f"support: {said}").figures()["warnings"] if w.startswith("support")]
    assert any(warned in text for text in told), told


@pytest.mark.parametrize(
    ("wood", "times"),
    [
        ("pine", 1.6), ("cedar", 1.6), ("oak", 1.6), ("branch", 1.6), ("bamboo", 1.6),
        ("steel tube", 1.0), ("brass bar", 1.0), ("acrylic", 1.0),
    ],
)  # fmt: skip
def test_wood_sags_on_under_a_load_that_stays(wood: str, times: float) -> None:
    bent = on(1000.0, 20.0, 950.0, 900.0, material=wood).bent
    assert bent.later_mm == pytest.approx(times * bent.sag_mm)


def test_the_limit_is_held_to_the_sag_that_stays() -> None:
    # Between the sag at once and the sag in time: 25 mm pine, 95 cm, limit 4.75 mm.
    found = on(3600.0, 24.0, 950.0, 920.0)
    assert found.bent.sag_mm < found.limit_mm < found.bent.later_mm
    assert found.bent.holds is False
    assert found.smallest is not None
    assert found.smallest.later_mm <= found.limit_mm
    # As wide as brackets may stand, an even load sags to the limit in time.
    spaced = on(3600.0 * found.spacing / 920.0, 24.0, found.spacing, found.spacing)
    assert spaced.bent.later_mm == pytest.approx(spaced.limit_mm, rel=0.03)


def test_a_bracket_in_the_middle_carries_five_eighths() -> None:
    # Handbooks: an even load on two equal spans rests with 10/8 of a span's load on the middle.
    full = on(50_000.0, 40.0, 3000.0, 3000.0, material="acrylic")
    assert full.middle_share == pytest.approx(5 / 8, abs=0.005)
    # All of a load that hangs over it alone: 1 − b²/2L² + b³/8L³ is 1 at b = 0.
    narrow = on(1_000_000.0, 40.0, 3000.0, 10.0, material="acrylic")
    assert narrow.middle_share == pytest.approx(1.0, abs=0.005)
    said = "support: {material: acrylic, diameter: 20 mm, span: 170 cm}"
    (told,) = [w for w in made(said).figures()["warnings"] if w.startswith("support")]
    share = made(said).bill.support.middle_share
    assert f"the one in the middle then carries {100 * share:.0f} % of it all, " in told
    assert 0.625 < share < 0.9
    more = "support: {material: acrylic, diameter: 20 mm, span: 240 cm}"
    assert not [w for w in made(more).figures()["warnings"] if "in the middle then" in w]


def test_a_rod_a_tenth_off_is_not_warned_of() -> None:
    for diameter in (18, 20, 22):
        said = f"support: {{material: oak, diameter: {diameter} mm, span: 95 cm}}"
        assert not [w for w in made(said).warnings if w.startswith("support")]


def test_brackets_within_a_rod_pocket_are_warned_of() -> None:
    pocket = NET.replace("drop: 40 cm", "drop: 60 cm").replace(
        "{kind: larks_head, rod: 20 mm}", "{kind: rod_pocket, rod: 20 mm, rows: 10, tail: 30 cm}"
    )
    inside = "support: {material: oak, diameter: 20 mm, span: 70 cm}"
    assert "inside the rod pocket" in " ".join(made(inside, pocket).warnings)
    assert "inside the rod pocket" not in " ".join(made(PINE, pocket).warnings)


def test_stock_in_inches_where_they_are_used() -> None:
    found = on(4000.0, 12.0, 1500.0, 800.0)
    assert found.smallest is not None
    assert found.smallest.size.diameter == 40.0
    text = NET.replace(
        "size: {width: 80 cm, drop: 40 cm}", "units: in\nsize: {width: 32, drop: 16}"
    )
    inch = made("support: {material: pine, diameter: 3/4 in, span: 60}", text).bill.support
    assert inch is not None
    assert inch.smallest is not None
    assert inch.smallest.size.diameter / 25.4 * 8.0 == pytest.approx(
        round(inch.smallest.size.diameter / 25.4 * 8.0)
    )


def test_a_wall_thins_a_tube() -> None:
    thin = on(4000.0, 20.0, 950.0, 800.0, material="steel tube", wall="0.5 mm").bent
    usual = on(4000.0, 20.0, 950.0, 800.0, material="steel tube").bent
    assert usual.size.wall == 1.5
    assert thin.sag_mm > usual.sag_mm
    assert thin.rod_g < usual.rod_g


@pytest.mark.parametrize(
    ("said", "fault"),
    [
        ("{material: pinne, diameter: 20 mm, span: 95 cm}",
         "support.material: 'pinne': no known material; did you mean 'pine'?"),
        ("{material: steel, diameter: 20 mm, span: 95 cm}", "'steel bar' or 'steel tube'"),
        ("{material: 5, diameter: 20 mm, span: 95 cm}", "support.material: 5: not the name of a"),
        ("{material: pine, diameter: 20, span: 95 cm}", "support.diameter: 20: "),
        ("{material: pine, diameter: 1 mm, span: 95 cm}",
         "support.diameter: '1 mm': no thickness of a rod; give the rod's thickness, 2 to 200 mm"),
        ("{material: pine, diameter: 25 cm, span: 200 cm}", "support.diameter: '25 cm': no thick"),
        ("{material: pine, diameter: 20 mm, span: 40 mm}",
         "support.span: '40 mm': no distance between two brackets; give how far apart the brackets "
         "stand, 8 to 1000 cm"),
        ("{material: pine, diameter: 20 mm, span: 11 m}", "support.span: '11 m': no distance"),
        ("{material: pine, diameter: 20 mm, span: 95 cm, wall: 1 mm}",
         "support.wall: '1 mm': a wall, but pine is solid; leave it out, or use a tube, as "
         "steel tube"),
        ("{material: brass tube, diameter: 20 mm, span: 95 cm, wall: 10 mm}",
         "support.wall: '10 mm': a wall of half the thickness or more; use less than 10 mm"),
        ("{material: brass tube, diameter: 20 mm, span: 95 cm, wall: 1}", "support.wall: 1: "),
        ("{material: pine, diameter: 20 mm}", "support"),
        ("{material: pine, diameter: 20 mm, span: 95 cm, lenght: 2}", "support.lenght"),
    ],
)  # fmt: skip
def test_refused_with_place_value_and_remedy(said: str, fault: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(f"{NET}support: {said}\n")
    assert fault in str(caught.value)
    assert len(caught.value.faults) == 1


@pytest.mark.parametrize(
    ("mount", "fault"),
    [
        ("{kind: ring, diameter: 10 cm}", "the piece hangs on a ring, not a rod on two brackets; "),
        ("{kind: open, tail: 10 cm}", "the piece hangs on no support; leave 'support' out, or "),
    ],
)
def test_refused_where_the_piece_hangs_on_no_rod(mount: str, fault: str) -> None:
    text = NET.replace("{kind: larks_head, rod: 20 mm}", mount)
    with pytest.raises(PatternError) as caught:
        loads(f"{text}{PINE}\n")
    assert fault in str(caught.value)


def test_a_support_reads_back_as_it_was_written() -> None:
    said = PINE.replace("95 cm", "95 cm, price: 4.50 EUR").replace("pine", "Brass Tube")
    pattern = loads(f"{NET}{said}\n")
    assert pattern.support is not None
    assert pattern.support.material == "Brass Tube"
    assert Pattern(**pattern.model_dump(exclude_none=True)).support == pattern.support
