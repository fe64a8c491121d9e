"""For every key of a notice, a pattern that raises it."""

from __future__ import annotations

NET = "{kind: square_knot_mesh, rows: 5}"
PLAIN = f"""
knotplot: 1
title: Little net
size: {{width: 30 cm, drop: 40 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: 16}}
mount: {{kind: larks_head, rod: 20 mm}}
sections:
  - {NET}
"""


def plain(more: str = "", sections: str = NET, **changes: str) -> str:
    """Return a small net, with other sections, more below, and parts of its text changed."""
    text = PLAIN.replace(NET, sections)
    for part, other in changes.items():
        text = text.replace(LINES[part], other)
    return f"{text}{more}\n"


LINES = {
    "size": "size: {width: 30 cm, drop: 40 cm}",
    "cord": "cord: {diameter: 4 mm}",
    "count": "count: 16",
    "mount": "mount: {kind: larks_head, rod: 20 mm}",
}
WORK = "work: {rate: 22 EUR}"
LONG = "size: {width: 30 cm, drop: 150 cm}"
BRAIDS = "{kind: sennits, knot: square_knot, strands: 4, count: 60}"
BRAIDED = plain(
    sections=BRAIDS, size=LONG, mount="mount: {kind: larks_head, rod: 20 mm, fold: middle}"
)
EARED = """motifs:
  eared: {strands: 8, steps: [knot: {kind: square_knot, lanes: [3, 4, 5, 6], picot: 25 mm}]}"""
BARS = """motifs:
  bars: {strands: 8, steps: [hitch: {lead: 1, to: 8}, hitch: {lead: 2, to: 8}]}"""
WIDE = """motifs:
  wide: {strands: 8, steps: [knot: {kind: josephine_knot, lanes: [3, 4, 5, 6]}]}"""
POCKET = "mount: {kind: rod_pocket, rod: 20 mm, rows: 10, tail: 14 cm}"
TALL = "size: {width: 12 cm, drop: 300 cm}"
BAND = "{kind: motif_band, motif: %s, rows: %s}"
LACE = "{name: lace, kind: motif_band, motif: diamond, rows: 3}"
MANY = range(20)
BARE = NET + "".join(f"\n  - {{name: n{i}, kind: free, length: 1 mm}}" for i in MANY)
UNUSED = "swatches: [" + ", ".join(f"{{of: n{i}, height: 7 cm}}" for i in MANY) + "]"

PATTERNS = {
    "swatch_without_rows": plain("swatch: {cord_used: 41 cm}"),
    "swatch_of_nothing": plain("swatch: {of: fringe, rows: 4, cord_used: 60 cm}"),
    "swatch_beyond_reach": plain("swatch: {of: square_knot_mesh, rows: 4, height: 90 cm}"),
    "knots_too_tall": plain(
        "swatches: [{of: net, rows: 4, height: 84 mm}]", f"{{name: net, {NET[1:]}\n  - {LACE}",
        size=TALL, count="count: 24", mount="mount: {kind: open, tail: 10 cm}",
    ),
    "swatch_doubtful": plain("swatch: {cord_used: 9 m, rows: 4}"),
    "swatch_unsure": plain("swatch: {of: square_knot_mesh, cord_used: 6 cm, rows: 1}"),
    "swatches_of_one": plain("swatches: [{rows: 4, height: 9 cm}, {rows: 4, height: 9 cm}]"),
    "swatch_untimed": plain("swatches: [{minutes: 4}]"),
    "nets_unmeasured": plain(),
    "cord_use_odd": plain("cord_use: {square_knot: {working: 40}}"),
    "rows_fit_nowhere": plain(
        "lower_edge: {profile: parabola, rise: 12 cm}", BAND % ("diamond", 12), count="count: 32"
    ),
    "rows_pushed_apart": plain(
        WIDE, "{kind: motif_band, motif: wide, rows: 4, gap: 15 mm, offset: half, edges: free}",
        size="size: {width: 336 mm, drop: 9 m}", count="count: 48",
        mount="mount: {kind: open, tail: 10 cm}",
    ),
    "led_twice": plain(BARS, BAND % ("bars", 1)),
    "more_alike": plain(UNUSED, BARE),
    "picots_unheld": plain(EARED, BAND % ("eared", 1)),
    "fringes_unlike": plain(
        sections=f"{NET}\n  - {{kind: fringe, length: 4 cm}}",
        mount="mount: {kind: open, tail: 15 cm}",
    ),
    "tails_short": plain(mount=POCKET),
    "tail_overlong": plain(mount="mount: {kind: hitched, rod: 20 mm, tail: 2 m}"),
    "leader_overlong": plain(sections="{kind: hitch_line, overhang: 2 m}"),
    "scallops_narrow": plain("lower_edge: {profile: scallops, count: 5, rise: 2 cm}"),
    "colours_break_off": plain("colours: {order: [natural*3]}"),
    "colours_unused": plain(
        'colours: {order: [rust], palette: {teal: "#14505f", plum: "#5f1450"}}'
    ),
    "cord_overfull": plain(cord="cord: {diameter: 4 mm, mass_per_length: 50 g/m}"),
    "cord_mostly_air": plain(cord="cord: {diameter: 4 mm, mass_per_length: 1 g/m}"),
    "cord_light": plain(
        sections=f"{NET}\n  - {{kind: gather, wrap: 3 cm}}",
        cord="cords: {main: {diameter: 4 mm}, wrap: {diameter: 4 mm, mass_per_length: 6 g/m}}",
    ),
    "spools_of_no_colour": plain(
        "colours: {order: [a, b]}", cord="cords: {main: {diameter: 4 mm, spools: [90 m]}}"
    ),
    "cord_left_out_of_quote": plain(WORK),
    "lengths_uneven": plain(
        "cut: {groups: 1}", BRAIDS, size=LONG, mount="mount: {kind: open, tail: 12 cm}"
    ),
    "folds_uneven": BRAIDED,
    "workers_unswapped": BRAIDED,
    "sections_crowded": plain(sections="{kind: hitch_line}", count="count: 96"),
    "hitches_gape": plain(sections="{kind: hitch_line}"),
    "work_narrow": plain(sections=BAND % ("diamond", 1), count="count: 8"),
    "support_unlike_mount": plain("support: {material: pine, diameter: 12 mm, span: 35 cm}"),
    "brackets_inside_pocket": plain(
        "support: {material: oak, diameter: 20 mm, span: 20 cm}", mount=POCKET
    ),
    "support_too_weak": plain("support: {material: pine, diameter: 3 mm, span: 95 cm}"),
}  # fmt: skip
