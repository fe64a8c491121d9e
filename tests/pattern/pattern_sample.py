"""A whole pattern with every common field, and a small one, for the tests of reading."""

from __future__ import annotations

WHOLE = """\
knotplot: 1
title: Saltmarsh café curtain
version: 1.20
units: cm
size: {width: 92 cm, drop: 84 cm}
sizes:
  tall:
    size: {drop: 120 cm}
    sections: {net: {rows: 12}}
  wide: {opening: {width: 1 m, drop: 84, overlap: 4, fullness: 1.5}}
cord: {diameter: 4 mm, fibre: cotton, mass_per_length: 9.6 g/m, spool: 100 m,
       price_per_spool: 18.50 EUR}
swatches:
  - {of: net, strands: 20, width: 13.1 cm, hung_width: 14.0 cm, rows: 4, height: 7.2 cm,
     hung_height: 7.5 cm, cord_used: 41 cm, minutes: 14}
strands: {rounding: nearest}
mount: {kind: rod_pocket, rod: 20 mm, rows: 6, tail: 26 cm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 6}
  - {kind: hitch_line, layer: tails, overhang: 15 cm}
  - {name: lace, kind: motif_band, motif: leaf, rows: 3, offset: half, gap: 12 mm}
  - kind: repeat
    times: 2
    sections:
      - {name: braids, kind: sennits, knot: half_knot, count: 12}
      - {kind: free, length: 6}
  - kind: columns
    parts:
      - {strands: 8, sections: [{name: side, kind: square_knot_mesh, rows: 2}]}
      - {strands: rest, sections: [{name: middle, kind: square_knot_mesh, rows: 2}]}
  - {kind: fringe, length: 10 cm, finish: combed}
lower_edge: {profile: parabola, rise: 9 cm}
motifs:
  leaf:
    strands: 12
    steps:
      - cross: [6, 7]
      - hitch: {lead: 6, to: 1}
      - hitch: {lead: 7, to: 12, angle: 40}
      - knot: {kind: square_knot, lanes: [4, 5, 6, 7, 8, 9]}
      - both:
          - hitch: {lead: 1, to: 6}
      - hitch: {lead: 7, to: 6}
    top: 4
cord_use: {square_knot: {working: 12.0, filler: 4.0}}
allowance: {confidence: 0.99}
cut: {groups: 4, step: 5 cm}
x-shelf: {anything: [1, 2]}
"""

SMALL = """\
knotplot: 1
size: {width: 40, drop: 60}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: {kind: larks_head, rod: 12 mm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 4}
"""


def changed(old: str, new: str, text: str = WHOLE) -> str:
    """Return the sample with one piece of it replaced."""
    assert text.count(old) == 1, old
    return text.replace(old, new)
