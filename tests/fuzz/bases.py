"""Patterns to begin from: those that are shipped, README's, and two small ones with every key."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

SAMPLES = (
    """\
knotplot: 1
title: Any {key} & <tag>
designer: somebody
version: 1.20
summary: A sample.
skill: beginner
licence: any
made_for: a test
changes: [first, second]
language: en
units: in
opening: {width: 7 1/2, drop: 30", overlap: 1/4, fullness: 1.1}
sizes:
  tall: {opening: {width: 8, drop: 34}, sections: {net: {rows: 3}}}
cords:
  main: {diameter: 4 mm, construction: braided, fibre: cotton, mass_per_length: 9.6 g/m,
         spools: [100 m, 37 m], price_per_spool: 18.50 EUR}
  wrap: {diameter: 2 mm, construction: single, spool: 1 kg, mass_per_length: 3 g/m}
colours: {order: [natural*6, rust], mirror: true, palette: {rust: "#a4502f"}}
swatches:
  - {of: net, strands: 20, width: 13.1 cm, hung_width: 14.0 cm, rows: 4, height: 12.2 cm,
     hung_height: 12.4 cm, cord_used: 41 cm, minutes: 14}
strands: {rounding: up, count: 24}
worked: flat
mount: {kind: picot, rod: 16 mm, loop: 5 cm, fold: uneven}
sections:
  - {name: net, kind: square_knot_mesh, rows: 2, spacing: 1/4, start: offset, shape: straight,
     facing: alternate}
  - {name: line, kind: hitch_line, layer: body, overhang: 2}
  - {name: band, kind: motif_band, motif: any, rows: 2, offset: half, gap: 1/2, edges: free}
  - kind: repeat
    times: 2
    sections:
      - {name: braid, kind: sennits, knot: half_knot, strands: 4, count: 3, facing: right}
  - kind: columns
    parts:
      - {strands: 4, repeat: 2, sections: [{kind: sennits, knot: overhand, length: 2}]}
      - {strands: rest, sections: [{kind: free, length: 1}, {kind: gather, wrap: 1, colour: red}]}
  - {kind: tassel, wrap: 1 in, colour: rust}
  - {kind: fringe, length: 3, finish: knotted}
lower_edge: {profile: points, rise: -1, at: [[0, 0], [0.5, 1], [1, 0.2]]}
motifs:
  any:
    title: Any motif
    strands: 8
    steps:
      - cross: [4, 5]
        under: true
      - hitch: {lead: 4, to: 1, turns: 3, times: 2, angle: 30}
      - vertical: {worker: 5, to: 8, turns: 1}
      - knot: {kind: square_knot, lanes: [3, 4, 5, 6], facing: right, workers: 2, picot: 1/2}
      - repeat: {times: 2, steps: [{gap: 1/8}, {cross: [1, 2]}]}
      - mirror: [{hitch: {lead: 1, to: 3}}]
      - both: [{cross: [2, 3]}]
      - add: {after: 2, cords: 1}
      - end: {lanes: [1, 10]}
    top: 2
cord_use: {square_knot: {working: 12.0, filler: 4.0}, half_knot: {working: 7}}
allowance: {confidence: 0.95}
cut: {groups: 3, step: 2 in}
support: {material: steel tube, diameter: 16 mm, span: 12, wall: 2 mm, price: 4.50 EUR}
work: {rate: 22 EUR, overhead: 15 %, markup: 30 %, tax: 20 %, minutes: {square_knot: 0.4}}
kits: 1
x-shelf: {anything: [1, 2]}
""",
    """\
knotplot: 1
size: {width: 16 cm, drop: 400 mm}
sizes: {small: {size: {drop: 30 cm}}, gone: {colours: null, strands: {count: 16}}}
cord: {diameter: 3 mm, mass_per_length: 5.4 g/m, spool: 200 m, price_per_spool: 19 EUR}
swatch: {strands: 20, width: 16 cm, rows: 4, height: 8 cm}
strands: {rounding: down}
mount: {kind: rod_pocket, rod: 12 mm, rows: 8, tail: 24 cm}
sections:
  - {kind: hitch_line, layer: tails}
  - {kind: motif_band, motif: diamond, rows: 1}
  - {name: end, kind: free, length: fill}
lower_edge: {profile: scallops, count: 2, rise: 2 cm}
support: {material: pine, diameter: 12 mm, span: 40 cm}
""",
    """\
knotplot: 1
size: {width: 96 mm, drop: 30}
cord: {diameter: 4 mm}
strands: {count: 12}
mount: {kind: larks_head, rod: 2 cm, fold: middle}
sections:
  - {kind: square_knot_mesh, rows: fill, shape: straight}
  - {kind: fringe, length: 2, finish: combed}
lower_edge: {profile: vee, rise: 1 cm}
""",
)


@cache
def bases() -> tuple[str, ...]:
    """Return the text of every pattern to begin from."""
    shipped = [at.read_text("utf-8") for at in sorted((ROOT / "patterns").glob("*.yaml"))]
    readme = re.findall(r"```yaml\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL)
    return (*SAMPLES, *SAMPLES, *readme, *shipped)
