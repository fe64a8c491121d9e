from __future__ import annotations

import math

import pytest

from knotplot.errors import Refusal
from knotplot.materials.cord_mass import (
    FIBRE_DENSITY_G_CM3,
    FIBRE_SHARE,
    LinearMass,
    cotton_count_of_tex,
    fibre_in,
    linear_mass,
    packing,
    peirce_diameter_mm,
    tex_of_cotton_count,
    tight_diameter_mm,
    yarn_diameter_mm,
)


def test_tex_and_cotton_count():
    # ASTM D2260: tex × Ne = 590.541; 30 tex = 19.7 Ne.
    assert round(cotton_count_of_tex(30), 1) == 19.7
    assert tex_of_cotton_count(1) == 590.541
    assert cotton_count_of_tex(tex_of_cotton_count(8)) == pytest.approx(8)


def test_peirces_diameter():
    # Peirce: d(in) = 1/(28·√Ne); worked: 10 Ne at 0.91 g/cm³ is 59.05 tex, d = 0.2874 mm.
    assert round(tex_of_cotton_count(10), 2) == 59.05
    assert round(yarn_diameter_mm(tex_of_cotton_count(10), 0.91), 4) == 0.2874
    # His rounded 28 and the density agree to a fifth of a per cent.
    assert peirce_diameter_mm(10) == pytest.approx(0.2874, rel=0.002)
    assert peirce_diameter_mm(4) == pytest.approx(25.4 / 56)


@pytest.mark.parametrize(("diameter", "g_per_m"), [(3, 5.4), (4, 9.6), (5, 14.9)])
def test_cotton_cords(diameter, g_per_m):
    # ρ·φ·(π/4)·d² with ρ 1.52 g/cm³ (from memory) and φ 0.5: recomputed for this project, to 0.1.
    found = linear_mass(diameter)
    assert found.estimated
    assert found.g_per_m == pytest.approx(g_per_m, abs=0.05 + 1e-9)


@pytest.mark.parametrize(("inches", "pounds_per_100_ft"), [(1 / 4, 1.82), (1 / 2, 6.96), (1, 25.7)])
def test_half_a_rope_is_fibre(inches, pounds_per_100_ft):
    # Manila rope, US CID CI 1308-96: ¼ in 1.82 lb per 100 ft (27.08 g/m), ½ in 6.96, 1 in 25.7.
    g_per_m = pounds_per_100_ft * 453.59237 / (100 * 0.3048)
    estimate = linear_mass(inches * 25.4, "manila", "twisted").g_per_m
    assert 0.8 < estimate / g_per_m < 1.0
    if inches == 1 / 4:
        assert round(g_per_m, 2) == 27.08


def test_a_mass_given_is_taken_as_it_is():
    assert linear_mass(4, given_g_per_m=9.6) == LinearMass(9.6, estimated=False)
    assert linear_mass(4, "moonlight", given_g_per_m=9.6).g_per_m == 9.6


def test_mass_and_length_of_a_spool():
    cord = linear_mass(4, given_g_per_m=10.0)
    assert cord.mass_g(100_000) == 1000
    assert cord.length_mm(1000) == 100_000


def test_mass_grows_with_the_square_of_the_diameter_for_every_fibre():
    for fibre in FIBRE_DENSITY_G_CM3:
        for construction in FIBRE_SHARE:
            thin, thick = (linear_mass(d, fibre, construction).g_per_m for d in (2, 6))
            assert thick == pytest.approx(9 * thin)


def test_other_names_and_capitals():
    assert linear_mass(4, "Flax") == linear_mass(4, "linen")


def test_an_unknown_fibre_is_refused_with_the_nearest():
    with pytest.raises(Refusal, match=r"this fibre.*did you mean cotton\?.*mass_per_length"):
        linear_mass(4, "coton")
    with pytest.raises(Refusal, match=r"this construction.*known are braided, single, twisted"):
        linear_mass(4, "cotton", "xyz")


@pytest.mark.parametrize("bad", [0, -1, math.nan, math.inf])
def test_the_impossible_is_refused(bad):
    for call in (linear_mass, tex_of_cotton_count, cotton_count_of_tex, peirce_diameter_mm):
        with pytest.raises(ValueError, match="above 0 and finite"):
            call(bad)
    with pytest.raises(ValueError, match="mass per length"):
        linear_mass(4, given_g_per_m=bad)


# --- how much of a cord is fibre --------------------------------------------------------------


def test_a_cord_s_packing_by_hand() -> None:
    # 9.6 g/m ÷ 1.52 g/cm³ = 6.316 mm² of fibre in 12.566 mm² of cord; at 0.6 it is 3.66 mm thick.
    assert packing(4.0, 9.6) == pytest.approx(0.5026, abs=1e-4)
    assert tight_diameter_mm(9.6) == pytest.approx(3.661, abs=1e-3)


def test_a_yarn_by_peirce_is_as_thick_as_it_is_when_tight() -> None:
    # 0.91 ÷ 1.52 of it is fibre, at any count; his rounded 28 is 0.2 % of the diameter off.
    for count in (5.0, 10.0, 30.0):
        thick, g_per_m = peirce_diameter_mm(count), tex_of_cotton_count(count) / 1000.0
        assert packing(thick, g_per_m) == pytest.approx(0.91 / 1.52, rel=0.005)
        assert tight_diameter_mm(g_per_m) == pytest.approx(thick, rel=0.002)


@pytest.mark.parametrize("fibre", sorted(FIBRE_DENSITY_G_CM3))
def test_a_cord_of_the_estimated_mass_is_half_fibre(fibre: str) -> None:
    assert packing(3.5, linear_mass(3.5, fibre).g_per_m, fibre) == pytest.approx(0.5)
    assert fibre_in(f"Recycled {fibre.upper()} no 5") == fibre
