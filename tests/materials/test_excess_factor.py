"""A swatch's cord acts on the excess of working and knotting strands alone (contract, 5: κ)."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from knotplot import build, loads
from knotplot.api import WorkedPiece
from knotplot.cord_use import Taking
from knotplot.geometry.layout import followed
from knotplot.knots import catalogue, knot
from knotplot.knots.base import Manner
from knotplot.materials.bill import scaled

NET = """
knotplot: 1
units: mm
size: {{width: 240, drop: 2500}}
cord: {{diameter: {diameter} mm}}
strands: {{count: 24}}
{swatch}
mount: {{kind: larks_head, rod: 20 mm}}
sections:
  - {{kind: hitch_line}}
  - {{name: net, kind: square_knot_mesh, rows: 8, spacing: {spacing}}}
  - {{kind: sennits, knot: square_knot, strands: 4, count: 10}}
  - {{kind: gather, wrap: 40}}
  - {{kind: fringe, length: 100}}
"""


def net(swatch: str = "", spacing: float = 20.0, diameter: float = 4.0) -> WorkedPiece:
    return build(loads(NET.format(swatch=swatch, spacing=spacing, diameter=diameter)))


def middle(piece: WorkedPiece, rows: int) -> float:
    """Return the cord (mm) of one strand of the net over its first rows: the mean of a knot's."""
    layout = piece.layout
    part = next(i for i, each in enumerate(layout.piece.parts) if each.name == "net")
    chosen = [row for row in layout.piece.rows if row.section == part][:rows]
    strands = chosen[0].placements[len(chosen[0].placements) // 2].strands
    return followed(layout.piece, chosen, strands, layout.take) / len(strands)


@settings(max_examples=25, deadline=None)
@given(
    spacing=st.floats(0.0, 60.0),
    rows=st.integers(2, 8),
    kappa=st.floats(0.3, 2.0),
    height=st.sampled_from([None, 0.85, 1.0, 1.25]),
)
def test_a_swatch_fed_back_gives_itself(
    spacing: float, rows: int, kappa: float, height: float | None
) -> None:
    spacing = round(spacing, 3)
    more = ""
    if height is not None:
        more = f", height: {14.0 * height * rows + spacing * (rows - 1):.3f}"
    usual = net(f"swatch: {{of: net, rows: {rows}{more}}}", spacing)
    bare = Taking(otherwise=0.0)
    one = build(usual.pattern)
    part = next(i for i, each in enumerate(one.layout.piece.parts) if each.name == "net")
    chosen = [row for row in one.layout.piece.rows if row.section == part][:rows]
    strands = chosen[0].placements[len(chosen[0].placements) // 2].strands
    way = followed(one.layout.piece, chosen, strands, bare) / len(strands)
    measured = way + kappa * (middle(usual, rows) - way)
    swatch = f"swatch: {{of: net, rows: {rows}, cord_used: {measured:.3f}{more}}}"
    assert middle(net(swatch, spacing), rows) == pytest.approx(round(measured, 3), abs=0.01)


@settings(max_examples=25, deadline=None)
@given(
    name=st.sampled_from(sorted(n for n in catalogue() if not n.endswith("head"))),
    factor=st.floats(0.0, 3.0),
    tall=st.floats(0.6, 1.6),
)
def test_no_strand_takes_less_than_its_way(name: str, factor: float, tall: float) -> None:
    leads = "hitch" in name and name != "half_hitch_chain"
    strands = 1 if name == "overhand" else max(2 if leads else 4, knot(name).least)
    strands = min(strands, knot(name).most or strands)
    facing = "left" if knot(name).faces else None
    manner = Manner(strands, facing, leader=0 if leads else None, tall=tall)
    way = knot(name).cord(manner).way
    taken = Taking(otherwise=factor)(name, manner, 0).by_role
    assert all(taken[role] >= way[role] - 1e-12 for role in way)
    for role in ("filler", "leader", "mount"):  # no hand changes these
        if role in way:
            assert taken[role] == pytest.approx(knot(name).cord(manner).by_role[role])


@pytest.mark.parametrize("k", [0.8, 0.9, 1.1, 1.2])
def test_cord_that_acts_thinner_or_thicker_is_read_exactly(k: float) -> None:
    # A cord that acts as k·D makes knots k times as high, and takes k times the cord in every
    # role. A swatch's height and cord then give both strands of a sennit back (a reader's table).
    usual = Taking()("square_knot", Manner(4, "left"), 0).by_role
    worker, filler = k * usual["working"], k * usual["filler"]
    kappa = ((worker + filler) / 2.0 - filler) / ((usual["working"] - usual["filler"]) / 2.0)
    taken = Taking(otherwise=kappa)("square_knot", Manner(4, "left", tall=k), 0).by_role
    assert taken["working"] == pytest.approx(worker)
    assert taken["filler"] == pytest.approx(filler)


@pytest.mark.parametrize("tall", [1.1, 1.2, 1.6])
def test_taller_rows_without_their_cord_are_read_as_thicker_cord(tall: float) -> None:
    usual = Taking()("square_knot", Manner(4, "left"), 0).by_role
    taken = Taking()("square_knot", Manner(4, "left", tall=tall), 0).by_role
    assert taken["working"] == pytest.approx(tall * usual["working"])
    assert taken["filler"] == pytest.approx(tall * usual["filler"])


def test_lower_rows_without_their_cord_bulge() -> None:
    # Solved: a stack of square knots pushed up from 4.00 to 2.78 D takes 1.2 D more a knot.
    usual = Taking()("square_knot", Manner(4, "left"), 0).by_role["working"]
    pushed = Taking()("square_knot", Manner(4, "left", tall=2.78 / 4.0), 0).by_role["working"]
    assert pushed - usual == pytest.approx(1.2 * 0.875, abs=0.15)


def test_the_makers_own_figures_win_and_are_never_below_the_way() -> None:
    manner = Manner(4, "left")
    own = Taking({"square_knot": {"working": 12.0, "filler": 4.0}})("square_knot", manner, 0)
    assert own.by_role == {"working": pytest.approx(12.0), "filler": pytest.approx(4.0)}
    least = Taking({"square_knot": {"filler": 1.0}})("square_knot", manner, 0)
    assert least.by_role["filler"] == pytest.approx(3.5)  # a knot is 3.5 D high


def test_cord_shorter_than_the_way_is_not_used_and_said() -> None:
    piece = net("swatch: {of: net, rows: 4, cord_used: 60}")
    (scale,) = scaled(piece.pattern, piece.layout.piece)
    assert scale.factor is None
    (warning,) = [each for each in piece.figures()["warnings"] if "of net: its cord" in each]
    assert "less than a straight cord past them, and isn't used" in warning
    plain = net("swatch: {of: net, rows: 4}")
    assert [cord["used_mm"] for cord in piece.figures()["cords"]] == [
        cord["used_mm"] for cord in plain.figures()["cords"]
    ]


def test_a_wrap_is_not_cut_shorter_by_tight_hands() -> None:
    tight = net("swatch: {of: net, rows: 4, cord_used: 200, height: 116}")
    usual = net("swatch: {of: net, rows: 4, height: 116}")
    assert scaled(tight.pattern, tight.layout.piece)[0].factor < 1.0  # type: ignore[operator]
    used = [
        next(c["used_mm"] for c in p.figures()["cords"] if c["role"] == "wrap")
        for p in (tight, usual)
    ]
    assert used[0] == used[1]


def test_a_net_pushed_a_quarter_closer_takes_a_third_more() -> None:
    def a_length(tall: float) -> float:
        use = Taking()("square_knot", Manner(4, "left", tall=tall), 0).by_role
        return (use["working"] + use["filler"]) / tall  # each strand works in every second row

    assert a_length(0.75) / a_length(1.0) == pytest.approx(4.0 / 3.0, rel=0.02)


def test_a_net_without_a_swatchs_height_is_warned_of() -> None:
    (warning,) = [each for each in net().figures()["warnings"] if "pushed a quarter closer" in each]
    assert "pushed a quarter closer they take a third more cord; knot four rows" in warning
    assert "swatch: {of: net, rows: 4, hung_height:" in warning
    measured = net("swatch: {of: net, rows: 4, hung_height: 116}")
    assert not any("pushed a quarter closer" in each for each in measured.figures()["warnings"])


def test_the_swatch_that_the_warning_writes_is_taken() -> None:
    pocket = "mount: {kind: rod_pocket, rod: 20 mm, rows: 12, tail: 400 mm}"
    sections = "sections:\n  - {kind: hitch_line, layer: tails}\n  - {kind: fringe, length: 100}\n"
    text = NET.format(swatch="", spacing=0, diameter=4)
    text = text[: text.index("mount:")] + pocket + "\n" + sections
    (warning,) = [w for w in build(loads(text)).figures()["warnings"] if "a third more" in w]
    line = warning.split("'")[1].replace("…", "62 mm")
    assert line == "swatch: {of: rod_pocket, rows: 4, hung_height: 62 mm}"
    again = build(loads(text + line + "\n")).figures()["warnings"]
    assert not any("a third more" in each for each in again)
