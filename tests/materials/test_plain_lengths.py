"""Lengths and masses of cord worked out by hand, where nothing is tied or next to nothing."""

from __future__ import annotations

import math

import pytest

from knotplot.api import build
from knotplot.materials.cord_mass import linear_mass
from knotplot.pattern.load import loads

TEXT = """\
knotplot: 1
size: {width: 32 mm, drop: 200 mm}
cord: {diameter: 4 mm}
strands: {count: 4}
mount: MOUNT
sections:
  - {kind: free, length: 50 mm}
"""


def cords(mount: str) -> list[dict]:
    return build(loads(TEXT.replace("MOUNT", mount))).figures()["cords"]


def test_a_cord_that_only_hangs_uses_its_top_fringe_and_what_hangs() -> None:
    for cord in cords("{kind: open, tail: 80 mm}"):
        assert cord["used_mm"] == 200.0  # the drop runs from the top of the fringe
        assert cord["use"] == {"knots_mm": 0.0, "runs_mm": 0.0, "finish_mm": 200.0}
        # Both ends are free and longer than the 12 cm a hand needs, or as much as is lacking:
        # 120 − 80 at the top, nothing below; up to a whole 5 cm.
        assert cord["cut_mm"] == 250.0


def test_a_hitched_cord_uses_its_tail_too() -> None:
    short, long = (cords(f"{{kind: hitched, rod: 20 mm, tail: {t} mm}}") for t in (90, 190))
    for one, other in zip(short, long, strict=True):
        assert other["used_mm"] - one["used_mm"] == pytest.approx(100.0, abs=0.02)
        assert other["use"]["finish_mm"] - one["use"]["finish_mm"] == pytest.approx(100.0, abs=0.02)


@pytest.mark.parametrize(
    # grams of fibre in a cubic centimetre, from memory, usual textbook values
    ("fibre", "density"),
    [
        ("acrylic", 1.17), ("cotton", 1.52), ("flax", 1.50), ("hemp", 1.48), ("jute", 1.46),
        ("linen", 1.50), ("manila", 1.45), ("nylon", 1.14), ("polyamide", 1.14),
        ("polyester", 1.38), ("polypropylene", 0.91), ("rayon", 1.52), ("silk", 1.34),
        ("sisal", 1.45), ("viscose", 1.52), ("wool", 1.31),
    ],
)  # fmt: skip
@pytest.mark.parametrize("construction", ["braided", "single", "twisted"])
def test_half_of_a_cord_is_fibre(fibre: str, density: float, construction: str) -> None:
    """A metre of cord 2 mm thick has π cm³, half of it fibre."""
    mass = linear_mass(2.0, fibre, construction)
    assert mass.g_per_m == pytest.approx(math.pi * density / 2)
    assert mass.mass_g(500.0) == pytest.approx(math.pi * density / 4)
    assert mass.length_mm(math.pi * density) == pytest.approx(2000.0)
