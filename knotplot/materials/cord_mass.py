"""What a cord weighs: grams a metre given, or estimated from its diameter; yarn numbers.

Estimate: ρ·φ·(π/4)·d², ρ the density of the fibre (g/cm³), φ the share of the cord's round that
is fibre, d in mm; so it comes out in g/m. A cord weighed is always better: no table for cotton
cord with any authority was found.
"""

from __future__ import annotations

import math
from difflib import get_close_matches
from typing import NamedTuple

from knotplot.errors import Refusal

# Densities of the fibres themselves, g/cm³: from memory, usual textbook values.
FIBRE_DENSITY_G_CM3 = {
    "acrylic": 1.17,
    "cotton": 1.52,
    "hemp": 1.48,
    "jute": 1.46,
    "linen": 1.50,
    "manila": 1.45,
    "nylon": 1.14,
    "polyester": 1.38,
    "polypropylene": 0.91,
    "silk": 1.34,
    "sisal": 1.45,
    "viscose": 1.52,
    "wool": 1.31,
}
# The same fibres by other names.
FIBRE_NAMES = {"flax": "linen", "polyamide": "nylon", "rayon": "viscose"}

# Half of a cord is fibre, however it is made: a round figure, for want of a better founded one.
# Three sizes of three-strand manila rope (US CID CI 1308-96) come to 0.52–0.59, a cotton yarn by
# Peirce's 0.91 g/cm³ to 0.60; cords for knotting are laid softer than either.
FIBRE_SHARE = {"braided": 0.5, "single": 0.5, "twisted": 0.5}

# tex × cotton count (ASTM D2260).
TEX_TIMES_COTTON_COUNT = 590.541
# Peirce: the diameter of a cotton yarn is 1/(28·√Ne) inch.
PEIRCE_PER_INCH = 28.0
# The density of a cotton yarn, air and all, that goes with it, g/cm³.
PEIRCE_DENSITY_G_CM3 = 0.91

# The share that is fibre in a cord pulled tight: a cotton yarn under its own twist has
# 0.91/1.52 = 0.60 by Peirce.
TIGHT_SHARE = 0.6

MM_PER_INCH = 25.4


class LinearMass(NamedTuple):
    """Grams a metre of a cord, and whether they were estimated rather than given."""

    g_per_m: float
    estimated: bool

    def mass_g(self, length_mm: float) -> float:
        """Return what `length_mm` of the cord weighs."""
        return self.g_per_m * length_mm / 1000

    def length_mm(self, mass_g: float) -> float:
        """Return how much cord weighs `mass_g`: what a spool sold by weight holds."""
        return mass_g / self.g_per_m * 1000


def linear_mass(
    diameter_mm: float,
    fibre: str = "cotton",
    construction: str = "twisted",
    given_g_per_m: float | None = None,
) -> LinearMass:
    """Return the mass of a cord per length: the one given, or else an estimate.

    Raises Refusal for a fibre or construction that has no figure, when one is needed.

    >>> round(linear_mass(4.0).g_per_m, 2)
    9.55
    """
    if given_g_per_m is not None:
        return LinearMass(_above_zero(given_g_per_m, "mass per length"), estimated=False)
    name = fibre.strip().lower()
    density = _figure(FIBRE_DENSITY_G_CM3, FIBRE_NAMES.get(name, name), "fibre")
    share = _figure(FIBRE_SHARE, construction, "construction")
    area_mm2 = math.pi / 4 * _above_zero(diameter_mm, "diameter") ** 2
    return LinearMass(density * share * area_mm2, estimated=True)


def fibre_in(name: str) -> str | None:
    """Return the fibre a name speaks of, as `FIBRE_DENSITY_G_CM3` calls it; None for an unknown.

    >>> fibre_in("recycled cotton"), fibre_in("flax"), fibre_in("leather")
    ('cotton', 'linen', None)
    """
    lower = name.lower()
    known = [fibre for fibre in (*FIBRE_DENSITY_G_CM3, *FIBRE_NAMES) if fibre in lower]
    longest = max(known, key=len, default=None)
    return None if longest is None else FIBRE_NAMES.get(longest, longest)


def packing(diameter_mm: float, g_per_m: float, fibre: str = "cotton") -> float:
    """Return the share of a cord's round that is fibre: 4λ/(π·ρ·d²).

    >>> round(packing(4.0, 9.6), 3)
    0.503
    """
    area_mm2 = _above_zero(g_per_m, "mass per length") / FIBRE_DENSITY_G_CM3[fibre]
    return area_mm2 / (math.pi / 4 * _above_zero(diameter_mm, "diameter") ** 2)


def tight_diameter_mm(g_per_m: float, fibre: str = "cotton") -> float:
    """Return how thick a cord is when it is pulled tight: √(4λ/(π·ρ·0.6)).

    >>> round(tight_diameter_mm(9.6), 2)
    3.66
    """
    return math.sqrt(packing(1.0, g_per_m, fibre) / TIGHT_SHARE)


def tex_of_cotton_count(cotton_count: float) -> float:
    """Return the tex (g/km) of a yarn of that English cotton count, Ne.

    >>> round(tex_of_cotton_count(10), 2)
    59.05
    """
    return TEX_TIMES_COTTON_COUNT / _above_zero(cotton_count, "cotton count")


def cotton_count_of_tex(tex: float) -> float:
    """Return the English cotton count, Ne, of a yarn of that tex.

    >>> round(cotton_count_of_tex(30), 1)
    19.7
    """
    return TEX_TIMES_COTTON_COUNT / _above_zero(tex, "tex")


def peirce_diameter_mm(cotton_count: float) -> float:
    """Return the diameter of a cotton yarn by Peirce: 1/(28·√Ne) inch."""
    count = _above_zero(cotton_count, "cotton count")
    return MM_PER_INCH / (PEIRCE_PER_INCH * math.sqrt(count))


def yarn_diameter_mm(tex: float, density_g_cm3: float = PEIRCE_DENSITY_G_CM3) -> float:
    """Return the diameter of a round yarn of that tex and density, air included.

    >>> round(yarn_diameter_mm(59.0541), 4)
    0.2874
    """
    area_mm2 = _above_zero(tex, "tex") / 1000 / _above_zero(density_g_cm3, "density")
    return math.sqrt(4 / math.pi * area_mm2)


def _figure(table: dict[str, float], name: str, what: str) -> float:
    """Return the figure for a name, or refuse with the nearest known one."""
    if name in table:
        return table[name]
    near = get_close_matches(name, table, 1)
    known = f"did you mean {near[0]}?" if near else f"known are {', '.join(table)}"
    raise Refusal(
        f"no figure is known for this {what}, so the cord's mass can't be estimated",
        f"{known} or give mass_per_length, weighed",
        value=name,
    )


def _above_zero(value: float, what: str) -> float:
    """Return `value` if it can be one of these."""
    if not 0 < value < math.inf:
        raise ValueError(f"a {what} is above 0 and finite, not {value}")
    return value
