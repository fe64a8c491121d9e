"""A small pattern with two sizes for the tests of the commands."""

from __future__ import annotations

from pathlib import Path

FILES = ["chart.svg", "cord.svg", "figures.json", "sheet.pdf"]  # that `make` writes

GOOD = """\
knotplot: 1
title: Harbour <b>mat</b> & "sons"
units: cm
size: {width: 19.2 cm, drop: 40 cm}
sizes:
  tall: {size: {drop: 60 cm}, sections: {net: {rows: 8}}}
cord: {diameter: 4 mm, mass_per_length: 9.6 g/m, spool: 100 m, price_per_spool: 18.50 EUR}
strands: {count: 24}
swatch: {of: net, rows: 4, hung_height: 6 cm}
mount: {kind: larks_head, rod: 12 mm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 4}
  - {name: lace, kind: motif_band, motif: leaf, rows: 2, offset: half, gap: 12 mm}
  - {kind: fringe, length: 5 cm}
lower_edge: {profile: parabola, rise: 3 cm}
motifs:
  leaf:
    strands: 8
    steps:
      - cross: [4, 5]
      - hitch: {lead: 4, to: 1}
      - hitch: {lead: 5, to: 8}
      - knot: {kind: square_knot, lanes: [3, 4, 5, 6]}
      - hitch: {lead: 1, to: 4}
      - hitch: {lead: 8, to: 5}
      - hitch: {lead: 5, to: 4}
    top: 4
"""


def changed(old: str, new: str) -> str:
    """Return the sample with one piece of it replaced."""
    assert GOOD.count(old) == 1, old
    return GOOD.replace(old, new)


def names(folder: Path) -> list[str]:
    """Return everything in a folder, by its path from there."""
    return sorted(str(place.relative_to(folder)) for place in folder.rglob("*"))
