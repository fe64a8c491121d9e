"""Materials by their names, and that their figures lie on the safe side of what is published."""

from __future__ import annotations

import pytest

from knotplot.errors import Refusal
from knotplot.stock import NAMES, STOCK, Stock, material

PSI = 6.894757e-3  # MPa


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("pine", "softwood"), ("Sitka Spruce", "softwood"), ("DOUGLAS-FIR dowel", "softwood"),
        ("red cedar", "cedar"), ("cedar rod", "cedar"), ("willow", "softwood"),
        ("oak", "hardwood"), ("beech dowel", "hardwood"),
        ("White ash", "hardwood"), ("found branch", "branch"), ("driftwood", "branch"),
        ("steel rod", "steel bar"), ("Steel  Tube", "steel tube"), ("conduit", "steel tube"),
        ("stainless steel tube", "stainless tube"), ("brass_tube", "brass tube"),
        ("copper pipe", "copper tube"), ("aluminum tube", "aluminium tube"),
        ("bamboo pole", "bamboo"), ("acrylic rod", "acrylic"),
    ],
)  # fmt: skip
def test_trade_names(said: str, meant: str) -> None:
    assert material(said).name == meant


def test_every_name_means_something() -> None:
    assert {material(name).name for name in NAMES} == {stock.name for stock in STOCK}


@pytest.mark.parametrize(
    ("said", "remedy"),
    [
        ("steel", "say 'steel bar' or 'steel tube'"),
        ("stainless steel", "say 'stainless bar' or 'stainless tube'"),
        ("brass", "say 'brass bar' or 'brass tube'"),
        ("aluminum", "say 'aluminium bar' or 'aluminium tube'"),
        ("pinne", "did you mean 'pine'?"),
        ("bambo", "did you mean 'bamboo'?"),
        ("?", "use one of softwood, cedar, hardwood, branch, "),
        ("grey brass", "use one of softwood, cedar, hardwood, branch, "),
        ("steel tub", "did you mean 'steel tube'?"),
    ],
)
def test_what_means_nothing_is_refused_with_what_may_be_meant(said: str, remedy: str) -> None:
    with pytest.raises(Refusal) as caught:
        material(said)
    assert remedy in caught.value.fault.remedy


@pytest.mark.parametrize("said", ["", "  ", 5, None, True, ["pine"]])
def test_no_name(said: object) -> None:
    with pytest.raises(Refusal, match="not the name of a material"):
        material(said)


@pytest.mark.parametrize(
    ("name", "published"),
    [
        # Wood Handbook (FPL-GTR-190), table 5-3a at 12 %: ponderosa, red, sand, slash, sugar,
        # western white pine. MPa.
        ("softwood", (8900.0, 11_200.0, 9700.0, 13_700.0, 8200.0, 10_100.0)),
        # The same: quaking aspen, balsam poplar; black willow, from memory.
        ("softwood", (8100.0, 7600.0, 7000.0)),
        # Northern white, eastern red and western red cedar, from memory.
        ("cedar", (5500.0, 6100.0, 7700.0)),
        # The same handbook's table in psi at 12 %: black and white ash, beech, paper, sweet and
        # yellow birch.
        ("hardwood", tuple(x * 1e6 * PSI for x in (1.60, 1.74, 1.72, 1.59, 2.17, 2.01))),
        ("hardwood", (9200.0, 9800.0)),  # American elm; sycamore, from memory
        # Green ponderosa, sugar pine, spruce pine and red pine: a branch may be no better.
        ("branch", (6900.0, 7100.0, 6900.0, 8800.0)),
        ("steel bar", (200_000.0, 210_000.0)),  # from memory: EN 1993-1-1 has 210
        ("brass tube", (97_000.0, 110_000.0)),  # from memory
        ("aluminium tube", (69_000.0, 70_000.0)),  # from memory: EN 1999-1-1 has 70
        ("acrylic", (2700.0, 3300.0)),  # from memory, short-time
    ],
)
def test_no_modulus_is_above_what_is_published(name: str, published: tuple[float, ...]) -> None:
    assert 0.4 * min(published) <= material(name).modulus <= min(published)


def test_wood_is_counted_on_for_a_small_part_of_what_breaks_it() -> None:
    # Wood Handbook, table 5-3a at 12 %, modulus of rupture of sugar and ponderosa pine (MPa).
    assert material("pine").stress < 57.0 / 8.0 < 65.0 / 8.0
    assert material("branch").stress == material("pine").stress / 2.0


@pytest.mark.parametrize("stock", STOCK, ids=lambda stock: stock.name)
def test_sizes_run_from_thin_to_thick_and_can_be_made(stock: Stock) -> None:
    for sizes in (stock.sizes, stock.inch_sizes):
        diameters = [size.diameter for size in sizes]
        assert diameters == sorted(set(diameters))
        for size in sizes:
            assert (size.wall is not None) == stock.hollow
            assert size.wall is None or 0.0 < size.wall < size.diameter / 4.0


def test_a_usual_wall() -> None:
    tube = material("steel tube")
    assert [tube.wall(d) for d in (3.0, 10.0, 21.0, 25.0, 90.0)] == [0.75, 1.0, 1.5, 1.5, 2.0]
    assert material("oak").wall(20.0) is None
