"""What a piece may hang on: materials by the names they are sold under, and their usual sizes.

Figures are cautious on purpose: a modulus at the low end of its group, a density at the high end,
a bending stress that a still load may put on ordinary stock for years. Lengths in mm, modulus and
stress in MPa, density in kg/m³. Sources stand beside the figures.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from knotplot.brief import Brief
from knotplot.discovery import hint, likely
from knotplot.errors import Refusal

MM_PER_INCH = 25.4


class Size(NamedTuple):
    """The outer diameter of a bar or tube and, of a tube, its wall (mm)."""

    diameter: float
    wall: float | None = None


@dataclass(frozen=True, slots=True, repr=False)
class Stock(Brief):
    """A material as it is sold: modulus and cautious bending stress (MPa), density (kg/m³).

    `sizes` are the usual ones from thin to thick, `inch_sizes` those sold where inches are used;
    `names` what else it is called. `creep` is how much more it sags in time under a load that
    stays, as a share of its sag at once.
    """

    name: str
    modulus: float
    density: float
    stress: float
    sizes: tuple[Size, ...]
    inch_sizes: tuple[Size, ...]
    names: tuple[str, ...] = ()
    creep: float = 0.0

    @property
    def hollow(self) -> bool:
        """Tell whether it is a tube."""
        return self.sizes[0].wall is not None

    def wall(self, diameter: float) -> float | None:
        """Return the usual wall (mm) of a tube so thick, that of the next thinner stock; or None.

        Never more than a quarter of the diameter.
        """
        if not self.hollow:
            return None
        walls = [size.wall for size in self.sizes if size.diameter <= diameter]
        return min((walls or [self.sizes[0].wall])[-1] or 0.0, diameter / 4.0)


def _bars(text: str, unit: float = 1.0) -> tuple[Size, ...]:
    return tuple(Size(float(each) * unit) for each in text.split())


def _tubes(text: str, unit: float = 1.0) -> tuple[Size, ...]:
    """Read sizes written `20x1.5`: diameter and wall."""
    pairs = (each.split("x") for each in text.split())
    return tuple(Size(float(a) * unit, float(b) * unit) for a, b in pairs)


# Usual sizes: common practice of timber yards, metal dealers and builders' merchants.
_DOWELS = _bars("6 8 10 12 15 18 20 22 25 28 30 35 40 45 50")
_DOWELS_IN = _bars("0.25 0.3125 0.375 0.5 0.625 0.75 0.875 1 1.125 1.25 1.5 1.75 2", MM_PER_INCH)
_BRANCHES = _bars("10 15 20 25 30 35 40 45 50 60 70 80")
_BRANCHES_IN = _bars("0.5 0.75 1 1.25 1.5 1.75 2 2.5 3", MM_PER_INCH)
_METAL = _bars("4 5 6 8 10 12 14 15 16 18 20 22 25 30")
_METAL_IN = _bars("0.1875 0.25 0.3125 0.375 0.5 0.625 0.75 0.875 1 1.25", MM_PER_INCH)
_TUBES = _tubes("10x1 12x1 15x1 16x1 18x1 20x1.5 22x1.5 25x1.5 28x1.5 30x1.5 32x1.5 35x2 40x2 50x2")
_TUBES_IN = _tubes(
    "0.375x0.035 0.5x0.049 0.625x0.049 0.75x0.049 0.875x0.065 1x0.065 1.25x0.065 1.5x0.065 2x0.065",
    MM_PER_INCH,
)
# Copper water tube: EN 1057 and ASTM B88 type M, from memory.
_WATER = _tubes("10x0.6 12x0.6 15x0.7 22x0.9 28x0.9 35x1.2 42x1.2 54x1.2")
_WATER_IN = _tubes("0.625x0.028 0.875x0.032 1.125x0.035 1.375x0.042 1.625x0.049", MM_PER_INCH)
# A culm's wall is about a tenth of its diameter or more: common practice.
_CULMS = _tubes("10x1 12x1.2 15x1.5 20x2 25x2.5 30x3 35x3.5 40x4 50x5 60x6")
_CULMS_IN = _tubes("0.5x0.05 0.75x0.075 1x0.1 1.25x0.125 1.5x0.15 2x0.2 2.5x0.25", MM_PER_INCH)

# Wood under a load that stays sags on, to 1 + k_def times its sag at once: EN 1995-1-1:2004, 2.2.3
# and table 3.2, solid timber indoors (service class 1).
WOOD_CREEP = 0.6

STOCK: tuple[Stock, ...] = (
    # Wood Handbook (USDA Forest Service FPL-GTR-190, 2010), tables 5-3, clear wood at 12 %:
    # modulus of ponderosa pine 8.9, sugar pine 8.2, quaking aspen 8.1, balsam poplar 7.6 GPa,
    # specific gravity of the pines 0.40 and 0.36; from memory eastern white pine 8.5, Sitka spruce
    # 10.8, black willow 7.0 GPa. Stress: an eighth of what small clear pine breaks at (65 MPa,
    # ponderosa), rounded down; grade stresses of ordinary structural softwood for long loads are
    # 5 to 8 MPa, from memory.
    Stock(
        "softwood", 7000.0, 550.0, 6.0, _DOWELS, _DOWELS_IN,
        ("pine", "spruce", "fir", "larch", "hemlock", "redwood", "whitewood", "deal",
         "wood", "dowel", "wooden", "poplar", "aspen", "lime", "basswood", "willow", "alder"),
        WOOD_CREEP,
    ),
    # Any cedar may be the softest: northern white cedar 5.5, eastern red cedar 6.1, western red
    # cedar 7.7 GPa; northern white cedar breaks at 45 MPa, an eighth of it rounded down. The same
    # tables, from memory.
    Stock("cedar", 5500.0, 550.0, 5.0, _DOWELS, _DOWELS_IN, creep=WOOD_CREEP),
    # The same tables: white ash 12.0, American beech 11.9, paper birch 11.0 (1.74, 1.72,
    # 1.59 · 10⁶ psi), American elm 9.2 GPa. Bur oak and silver maple are softer (7.1 and 7.9, from
    # memory), but dowels aren't turned from them. Grade stress of structural hardwood 9 MPa and
    # more, from memory.
    Stock(
        "hardwood", 9000.0, 800.0, 9.0, _DOWELS, _DOWELS_IN,
        ("oak", "ash", "beech", "birch", "maple", "cherry", "walnut", "hickory", "ramin",
         "sycamore", "elm", "acacia", "robinia", "teak", "mahogany", "meranti", "hornbeam"),
        WOOD_CREEP,
    ),
    # A branch is crooked, knotty and perhaps damp; nobody knows what it went through. Two thirds
    # of what a softwood's modulus usually is and half its stress, from here; the Wood Handbook puts
    # green wood at about three quarters of dry wood's modulus.
    Stock(
        "branch", 5000.0, 900.0, 3.0, _BRANCHES, _BRANCHES_IN,
        ("driftwood", "stick", "twig", "bough", "limb", "hazel"),
        WOOD_CREEP,
    ),
    # Moduli of bamboo culms run from 10 to 20 GPa, allowable stresses about 10 MPa: from memory.
    # It is taken to creep as wood does, from here.
    Stock("bamboo", 10_000.0, 800.0, 8.0, _CULMS, _CULMS_IN, ("cane", "bamboo cane"), WOOD_CREEP),
    # Steel: E 200 to 210 GPa, 7850 kg/m³ (EN 1993-1-1: 210). Plain steel yields at 235 MPa; less
    # than half of that. Stainless (EN 1.4301): 193 to 200 GPa, yields at 210. From memory.
    Stock("steel bar", 200_000.0, 7850.0, 100.0, _METAL, _METAL_IN,
          ("steel rod", "mild steel bar", "iron bar", "iron rod", "rebar")),
    Stock("steel tube", 200_000.0, 7850.0, 100.0, _TUBES, _TUBES_IN,
          ("steel pipe", "mild steel tube", "iron pipe", "iron tube", "conduit")),
    Stock("stainless bar", 193_000.0, 8000.0, 90.0, _METAL, _METAL_IN,
          ("stainless rod", "stainless steel bar", "stainless steel rod")),
    Stock("stainless tube", 193_000.0, 8000.0, 90.0, _TUBES, _TUBES_IN,
          ("stainless pipe", "stainless steel tube", "stainless steel pipe")),
    # Brass 97 to 110 GPa, 8400 to 8700 kg/m³; copper 115 to 130, soft tube yields at about 60;
    # aluminium alloys 69 to 71, 2700, plain extruded ones yield at 110 and more. From memory.
    Stock("brass bar", 97_000.0, 8600.0, 50.0, _METAL, _METAL_IN, ("brass rod",)),
    Stock("brass tube", 97_000.0, 8600.0, 50.0, _TUBES, _TUBES_IN, ("brass pipe",)),
    Stock("copper tube", 115_000.0, 8940.0, 30.0, _WATER, _WATER_IN, ("copper", "copper pipe")),
    Stock("aluminium bar", 69_000.0, 2750.0, 45.0, _METAL, _METAL_IN,
          ("aluminium rod", "aluminum bar", "aluminum rod")),
    Stock("aluminium tube", 69_000.0, 2750.0, 45.0, _TUBES, _TUBES_IN,
          ("aluminium pipe", "aluminum tube", "aluminum pipe")),
    # Acrylic: 3 GPa in a short test, from memory; it creeps, so that half is counted on for a load
    # that stays.
    Stock("acrylic", 1500.0, 1200.0, 5.0, _METAL, _METAL_IN,
          ("acrylic bar", "acrylic rod", "perspex", "plexiglass", "plexiglas")),
)  # fmt: skip

_BY_NAME = {name: stock for stock in STOCK for name in (stock.name, *stock.names)}
_WOODS = ("softwood", "cedar", "hardwood", "branch")
_SHAPES = ("dowel", "rod", "pole", "wood", "timber", "bar", "stick")
NAMES: tuple[str, ...] = tuple(_BY_NAME)


def material(text: object) -> Stock:
    """Return the stock a maker's words mean; raise `Refusal` for words that mean none.

    Case, hyphens and a word for the shape don't matter, nor what stands before a wood's name.

    >>> material("Douglas-fir dowel").name, material("steel rod").name
    ('softwood', 'steel bar')
    """
    if not isinstance(text, str) or not text.strip():
        raise Refusal("not the name of a material", "write it like 'pine' or 'steel tube'")
    said = " ".join(re.split(r"[\s_-]+", text.strip().casefold()))
    words = said.split()
    bare = words[:-1] if len(words) > 1 and words[-1] in _SHAPES else words
    for tried in (said, " ".join(bare), bare[-1]):
        found = _BY_NAME.get(tried)
        if found is not None and (tried in (said, " ".join(bare)) or found.name in _WOODS):
            return found
    raise Refusal("no known material", _meant(said, bare))


def _meant(said: str, bare: Iterable[str]) -> str:
    """Return what may have been meant: a bar or a tube where the words leave that open."""
    plain = " ".join(bare).replace("aluminum", "aluminium").replace("stainless steel", "stainless")
    forms = [f"{plain} {form}" for form in ("bar", "tube") if f"{plain} {form}" in _BY_NAME]
    if forms:
        return f"say {' or '.join(map(repr, forms))}"
    return hint(said, NAMES if likely(said, NAMES) else [stock.name for stock in STOCK])
