"""A swatch's height sets how tall its section's knots come out: rows, fill, and what is told."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from knotplot import build, loads
from knotplot.errors import PatternError
from knotplot.knots import catalogue, form, knot
from knotplot.knots.base import Manner
from knotplot.knots.hitch import ACROSS
from knotplot.notices import in_file_words
from knotplot.pattern.gauge_height import SHORTEST, TALLEST
from knotplot.pattern.working import Outcome, work
from knotplot.tying.piece import Piece

# Half of a square knot's fillers lie ½ D from its middle, its working strands enter at 2 D
# (GEOMETRY 3): at lanes 1¼ D apart each strand hangs straight from row to row, so rows touch.
TOUCHING = 1.25
HIGH = 3.5  # D, a square knot 4 D high times the softness of 0.875


def text(
    swatches: str = "", sections: str = "[{name: net, kind: square_knot_mesh, rows: 6}]",
    mount: str = "{kind: open, tail: 10 cm}", pitch: float = 5.0, diameter: float = 4.0,
    strands: int = 24, drop: float = 3000.0, more: str = "",
) -> str:  # fmt: skip
    """Return a pattern on so many strands, `pitch` mm apart."""
    return f"""
knotplot: 1
units: mm
size: {{width: {strands * pitch:.4f}, drop: {drop:.3f}}}
cord: {{diameter: {diameter:.3f} mm}}
strands: {{count: {strands}}}
{f"swatches: [{swatches}]" if swatches else ""}
mount: {mount}
sections: {sections}
{more}
"""


def tied(*args: Any, **kwargs: Any) -> Piece:
    """Return the piece of such a pattern, tied."""
    return outcome(*args, **kwargs).piece


def warnings(*args: Any, **kwargs: Any) -> tuple[str, ...]:
    """Return what is noticed while such a pattern is tied."""
    return in_file_words(outcome(*args, **kwargs).notices)


def outcome(*args: Any, **kwargs: Any) -> Outcome:
    """Return such a pattern worked."""
    pattern = loads(text(*args, **kwargs))
    assert pattern.strands.count is not None
    return work(pattern, pattern.strands.count)


def height(piece: Piece, section: str, rows: int) -> float:
    """Return how high the first rows of a section are: first knots' top to last knots' bottom."""
    number = next(i for i, part in enumerate(piece.parts) if section in (part.name, part.kind))
    found = [row for row in piece.rows if row.section == number][:rows]
    assert len(found) == rows
    placed = [each for row in found for each in row.placements]
    tops = [
        p.y + min(tie.top for tie in p.shape.ties if tie.knot != "cross")
        for p in found[0].placements
    ]
    return max(p.y + p.shape.bottom for p in placed) - min(tops)


def tall(piece: Piece) -> dict[str, float]:
    """Return the factor of each section by its name."""
    return {part.name: part.tall for part in piece.parts}


# --- the rule ----------------------------------------------------------------------------------


@pytest.mark.parametrize("factor", [0.7, 1.0, 1.1, 1.5])
def test_rows_that_touch_are_as_high_as_their_knots(factor: float) -> None:
    rows = 4
    measured = rows * HIGH * 4.0 * factor
    piece = tied(f"{{of: net, rows: {rows}, height: {measured:.4f}}}", pitch=TOUCHING * 4.0)
    assert tall(piece)["net"] == pytest.approx(factor, abs=1e-5)
    tops = [row.placements[0].y for row in piece.rows]
    assert [b - a for a, b in pairwise(tops)] == pytest.approx(
        [HIGH * 4.0 * factor] * (len(tops) - 1), abs=1e-3
    )


@settings(max_examples=40, deadline=None)
@given(
    diameter=st.floats(1.0, 12.0),
    lanes=st.floats(1.0, 4.0),
    bare=st.floats(0.0, 30.0),
    rows=st.integers(1, 14),
    factor=st.floats(SHORTEST + 0.01, TALLEST - 0.01),
    start=st.sampled_from(["edge", "offset"]),
    strands=st.sampled_from([4, 8, 12, 24]),
)
def test_rows_worked_are_as_high_as_the_swatch(
    diameter: float, lanes: float, bare: float, rows: int, factor: float, start: str, strands: int
) -> None:
    if strands == 4 and start == "offset":
        strands = 8
    net = f"[{{name: net, kind: square_knot_mesh, rows: 30, spacing: {bare:.3f}, start: {start}}}]"
    measures = {
        "sections": net, "pitch": lanes * diameter, "diameter": round(diameter, 3),
        "strands": strands, "drop": 20_000.0,
    }  # fmt: skip
    usual = height(tied(**measures), "net", rows)
    measured = usual + (factor - 1.0) * rows * HIGH * round(diameter, 3)
    swatch = f"{{of: net, rows: {rows}, height: {measured:.5f}}}"
    piece = tied(swatch, **measures)
    assert height(piece, "net", rows) == pytest.approx(measured, abs=0.01)
    assert tall(piece)["net"] == pytest.approx(factor, abs=1e-3)
    assert not any("swatch" in warning for warning in warnings(swatch, **measures))


@pytest.mark.parametrize(
    ("section", "rows", "measured"),
    [
        ("{name: it, kind: motif_band, motif: diamond, rows: 5, offset: half, gap: 9}", 3, 180.0),
        ("{name: it, kind: motif_band, motif: pebbles, rows: 4}", 2, 0.0),
        ("{name: it, kind: sennits, knot: square_knot, count: 20}", 10, 133.0),
        ("{name: it, kind: sennits, knot: half_knot, length: 200}", 10, 66.0),
        ("{name: it, kind: square_knot_mesh, rows: 5, shape: decrease}", 5, 95.0),
        ("{name: it, kind: hitch_line}", 1, 11.0),
    ],
)
def test_every_kind_of_rows_follows_its_swatch(section: str, rows: int, measured: float) -> None:
    sections = f"[{section}]"
    measured = measured or 1.08 * height(tied(sections=sections, pitch=8.0), "it", rows)
    swatch = f"{{of: it, rows: {rows}, height: {measured:.4f}}}"
    piece = tied(swatch, sections, pitch=8.0)
    assert height(piece, "it", rows) == pytest.approx(measured, abs=0.1)
    assert tall(piece)["it"] != 1.0


def test_the_hung_height_wins() -> None:
    swatch = "{rows: 4, height: 50, hung_height: 61.6}"
    assert tall(tied(swatch))["net"] == pytest.approx(1.1, abs=1e-5)


def test_bare_cord_is_not_stretched() -> None:
    net = "[{name: net, kind: square_knot_mesh, rows: 4, spacing: 15}]"
    piece = tied(f"{{rows: 4, height: {4 * 14 * 1.2 + 45}}}", net)
    assert tall(piece)["net"] == pytest.approx(1.2, abs=1e-5)
    gaps = [b.placements[0].y - a.placements[0].y - 1.2 * 14.0
            for a, b in pairwise(piece.rows)]  # fmt: skip
    assert gaps == pytest.approx([15.0] * 3, abs=1e-3)


TWO = """[
  {kind: hitch_line},
  {name: net, kind: square_knot_mesh, rows: 6},
  {name: lace, kind: motif_band, motif: diamond, rows: 3},
  {kind: sennits, knot: half_knot, count: 12},
]"""


def test_each_section_goes_by_its_own_swatch_and_the_others_by_the_first() -> None:
    usual = height(tied(sections=TWO, pitch=8.0), "lace", 2)
    net = 1.1 * 4 * 14 + 3 * 0.6 * 1.5 * 4.0  # fillers run 2 × 2 D − ½ D − 2 D aside, 0.6 as deep
    lace = f"{{of: lace, rows: 2, height: {1.05 * usual:.3f}}}"
    piece = tied(f"{{of: net, rows: 4, height: {net}}}, {lace}", TWO, pitch=8.0)
    found = tall(piece)
    assert found["net"] == found["hitch_line"] == found["sennits"] == pytest.approx(1.1, abs=1e-5)
    assert found["lace"] > 1.0
    assert height(piece, "lace", 2) == pytest.approx(1.05 * usual, abs=0.05)
    assert tall(tied(sections=TWO))["net"] == 1.0


def test_a_swatch_of_a_kind_and_one_of_nothing() -> None:
    piece = tied("{rows: 4, height: 61.6}, {of: sennits, rows: 10, height: 77}", TWO)
    assert tall(piece)["sennits"] == pytest.approx(1.1, abs=1e-5)  # 10 × 1.75 × 4 = 70
    assert tall(piece)["net"] == tall(piece)["lace"] == pytest.approx(1.1, abs=1e-5)


def test_a_swatch_of_a_section_in_columns_has_that_columns_lanes() -> None:
    columns = """[{kind: columns, parts: [
      {strands: 4, sections: [{name: strip, kind: square_knot_mesh, rows: 9}]},
      {strands: rest, sections: [{name: net, kind: square_knot_mesh, rows: 5}]}]}]"""
    # On four strands every second row ties nothing: three rows are 3 × 14 mm without a run.
    piece = tied("{of: strip, rows: 3, height: 46.2}", columns)
    assert height(piece, "strip", 3) == pytest.approx(46.2, abs=0.01)
    assert tall(piece)["strip"] == pytest.approx(1.1, abs=1e-5)


def test_a_pocket_is_worked_as_tall_as_its_swatch() -> None:
    mount = "{kind: rod_pocket, rod: 12 mm, rows: 10, tail: 40 cm}"
    line = "[{kind: hitch_line}, {kind: fringe, length: 50}]"
    swatch = "{of: rod_pocket, rows: 4, height: 61.6}"
    usual, piece = tied(sections=line, mount=mount), tied(swatch, line, mount)
    assert piece.mounting.pocket is not None
    assert usual.mounting.pocket is not None
    more = piece.mounting.pocket.band / usual.mounting.pocket.band
    assert more == pytest.approx(1.1, rel=0.02)
    assert tall(piece)["mount"] == tall(piece)["hitch_line"] == pytest.approx(1.1, abs=1e-5)


def test_lower_knots_let_more_rows_fill_the_drop() -> None:
    net = "[{name: net, kind: square_knot_mesh, rows: fill}, {kind: fringe, length: 100}]"
    rows = [
        len(tied(swatch, net, drop=1000.0).rows)
        for swatch in ("{rows: 4, height: 70}", "", "{rows: 4, height: 42}")
    ]
    assert rows == [45, 57, 76]  # 80 cm between fringes over 17.5, 14 and 10.5 mm


def test_the_figures_follow() -> None:
    low, high = (
        build(loads(text(f"{{rows: 4, height: {h}}}", drop=600.0))).figures() for h in (50, 70)
    )
    assert low["sections"][0]["bottom_mm"] < high["sections"][0]["bottom_mm"]


def test_a_band_goes_no_further_than_it_can_by_the_swatch_of_another() -> None:
    swatch = "{of: net, rows: 4, height: 84}"  # 1.5 times, at lanes 1¼ D apart
    found = tall(tied(swatch, TWO))
    assert found["net"] == pytest.approx(1.5, abs=1e-5)
    assert 1.1 < found["lace"] < 1.4
    assert any("lace: strands of its motif would cross" in each for each in warnings(swatch, TWO))


# --- what is told ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("measured", "bound", "said"),
    [
        (20.0, SHORTEST, "net: 4 rows come to 3.4 cm (1 3/8 in) at the least (knots 0.60 times"),
        (120.0, TALLEST, "net: 4 rows come to 9 cm (3 1/2 in) at the most (knots 1.60 times"),
    ],
)
def test_a_height_no_knots_can_have_is_told(measured: float, bound: float, said: str) -> None:
    swatch = f"{{of: net, rows: 4, height: {measured}}}"
    assert f"(knots {bound:.2f} times" in said
    assert (
        tall(tied(swatch))["net"] == 1.0
    )  # a height beyond reach is dropped, not taken at its limit
    (warning,) = [each for each in warnings(swatch) if "swatch" in each]
    assert warning.startswith(said)
    assert "so that the height isn't used" in warning
    for word in ("rows", "height", "spacing"):
        assert word in warning.split("check")[1]


@pytest.mark.parametrize(
    ("swatch", "said"),
    [
        ("{of: net, height: 60}", "the swatch of net: height can't be used without its rows"),
        ("{cord_used: 400}", "the swatch: cord_used can't be used without its rows"),
        ("{of: sennits, rows: 4, height: 60}", "the piece has no rows of knots called that"),
        ("{of: fringe, rows: 4, cord_used: 60}", "the piece has no rows of knots called that"),
    ],
)
def test_a_swatch_that_sets_nothing_is_told(swatch: str, said: str) -> None:
    assert any(said in warning for warning in warnings(swatch))
    assert tall(tied(swatch))["net"] == 1.0


@pytest.mark.parametrize(
    ("pattern", "said"),
    [
        (
            text("{of: again, rows: 4, height: 60}", """[{name: again, kind: repeat, times: 2,
              sections: [{kind: square_knot_mesh, rows: 2}]}]"""),
            "swatches[0].of: 'again': it only holds other sections",
        ),
        (
            text(more="cord_use: {square_knot: {leader: 4.0}}"),
            "cord_use.square_knot.leader: 'leader': square_knot has no leader cord; use working or",
        ),
        (
            text(sections="[{kind: motif_band, motif: a, rows: 1}]", more="""motifs: {a: {
              strands: 4, steps: [{knot: {kind: overhand, lanes: [1, 2, 3, 4], workers: 2}}]}}"""),
            "knot.workers: 2: overhand has no working strands a side; leave 'workers' out",
        ),
    ],
)  # fmt: skip
def test_faults_name_place_and_remedy(pattern: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        build(loads(pattern))
    assert said in str(caught.value)


# --- the form ----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [name for name in catalogue() if not name.endswith("head")])
@pytest.mark.parametrize("factor", [SHORTEST, 1.3])
def test_a_stretched_knot_keeps_its_order_and_grows_across_its_leader(
    name: str, factor: float
) -> None:
    leads = name.endswith("half_hitch")
    slant = math.sqrt(0.5) if leads and not name.startswith("vertical_") else 0.0
    strands = 2 if leads else 4
    usual = Manner(strands, leader=0 if leads else None, cos=math.cos(math.asin(slant)), sin=slant)
    manner = usual._replace(tall=factor)
    made, before = form(name, manner), form(name, usual)
    assert knot(name).order(manner) == knot(name).order(usual)
    ports = [(old[0][:2], new[0][:2]) for old, new in zip(before.paths, made.paths, strict=True)]
    normal, along = (-slant, usual.cos), (usual.cos, slant)
    for old, new in ports:
        across = sum(a * b for a, b in zip(old, normal, strict=True))
        assert sum(a * b for a, b in zip(new, normal, strict=True)) == pytest.approx(
            factor * across
        )
        kept = sum(a * b for a, b in zip(old, along, strict=True))
        assert sum(a * b for a, b in zip(new, along, strict=True)) == pytest.approx(kept)
    if slant:
        more = (factor - 1.0) * ACROSS * usual.cos
        assert made.height == pytest.approx(before.height + more)
    else:
        assert made.height == pytest.approx(factor * before.height)
