"""Patterns for the tests of the sheet, and what stands where on its pages."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from knotplot.api import WorkedPiece, build
from knotplot.drawing.bounds import Extent, meet, of_text
from knotplot.drawing.shapes import Anchor, Drawing, Group, Item, Link, Mark, Text
from knotplot.pattern.load import loads
from knotplot.sheet.document import PAPERS, Sheet, make_sheet

PLAIN = """
knotplot: 1
title: Little net
size: {width: 30 cm, drop: 40 cm}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {kind: square_knot_mesh, rows: 5}
"""

CURTAIN = """
knotplot: 1
title: Window curtain
designer: A. Maker
version: "3.1"
summary: A short curtain with an arch.
skill: intermediate
licence: You may sell what you make.
made_for: a kitchen window
changes: [first, "second, wider"]
opening: {width: 88 cm, drop: 60 cm, overlap: 2 cm, fullness: 1}
sizes:
  small: {opening: {width: 60 cm}}
  medium: {opening: {width: 88 cm, drop: 60 cm}}
  tall: {opening: {drop: 75 cm}}
cord: {diameter: 3 mm, fibre: cotton, mass_per_length: 5.4 g/m, spool: 60 m, price_per_spool: 9 EUR}
swatch: {strands: 20, width: 14.6 cm, hung_width: 15.3 cm, rows: 4, height: 5.2 cm,
         hung_height: 5.4 cm, cord_used: 9 cm, minutes: 12}
mount: {kind: rod_pocket, rod: 20 mm, rows: 10, tail: 30 cm}
sections:
  - {name: line, kind: hitch_line, layer: tails, overhang: 12 cm}
  - {kind: free, length: 4.5 cm}
  - {name: lace, kind: motif_band, motif: seed-pod, rows: 3, offset: half, gap: 15 mm, edges: half}
  - {kind: fringe, length: 9 cm, finish: combed}
lower_edge: {profile: parabola, rise: 14 cm}
"""

HANGING = """
knotplot: 1
title: "A <b>very</b> &amp; \\"long\\" title with odd signs ☐ 結び — and so on, to see whether \\
  it goes over several lines without hurting what stands below, 1/2 in & <i>more</i>"
designer: "O'Neill & <Co> \\\\ % {curly} $x$"
size: {width: 40 cm, drop: 70 cm}
cords:
  main: {diameter: 5 mm, construction: braided, mass_per_length: 14 g/m, spools: [100 m, 50 m]}
  wrap: {diameter: 3 mm, construction: single, fibre: linen}
strands: {count: 48}
mount: {kind: hitched, rod: 25 mm, tail: 12 cm}
sections:
  - kind: columns
    parts:
      - {strands: 8, repeat: 2, sections: [{kind: sennits, knot: square_knot, strands: 4, count: 8},
                                           {kind: gather, wrap: 3 cm}]}
      - {strands: rest, sections: [{kind: square_knot_mesh, rows: 5, shape: decrease}]}
      - {strands: 8, sections: [{kind: sennits, knot: half_knot, strands: 4, count: 16}]}
  - {kind: fringe, length: 12 cm, finish: knotted}
lower_edge: {profile: vee, rise: -12 cm}
"""

TASSEL = """
knotplot: 1
title: Ring
units: in
size: {width: 6 in, drop: 12 in}
cord: {diameter: 3 mm}
strands: {count: 16}
mount: {kind: ring, diameter: 10 cm}
sections:
  - {kind: square_knot_mesh, rows: 3, shape: decrease}
  - {kind: tassel, wrap: 1 in}
  - {kind: fringe, length: 3 in, finish: cut}
"""

RUNNER = """
knotplot: 1
title: Runner
size: {width: 30 cm, drop: 150 cm}
cord: {diameter: 4 mm, spool: 1 kg}
strands: {count: 40}
mount: {kind: open, tail: 12 cm}
sections:
  - {kind: square_knot_mesh, rows: fill, start: offset}
  - {kind: fringe, length: 12 cm, finish: cut}
cut: {groups: 40, step: 2 mm}
"""

WIDE = """
knotplot: 1
title: Wide curtain
size: {width: 200 cm, drop: 150 cm}
cord: {diameter: 4 mm, spool: 200 m}
swatch: {strands: 20, width: 19 cm, hung_width: 20 cm}
mount: {kind: reverse_larks_head, rod: 20 mm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 30}
  - {kind: hitch_line, overhang: 15 cm}
  - {name: lace, kind: motif_band, motif: seed-pod, rows: 3, offset: half, gap: 12 mm, edges: half}
  - {kind: fringe, length: 10 cm, finish: combed}
lower_edge: {profile: scallops, count: 3, rise: 9 cm}
"""

COLUMNS = """
knotplot: 1
title: Wide columns
size: {width: 100 cm, drop: 60 cm}
cord: {diameter: 4 mm}
strands: {count: 180}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - kind: columns
    parts:
      - {strands: 20, sections: [{kind: sennits, knot: square_knot, strands: 4, count: 12}]}
      - {strands: rest, sections: [{kind: square_knot_mesh, rows: 12}]}
  - {kind: hitch_line, overhang: 5 cm}
"""

PATTERNS = {
    "plain": PLAIN,
    "curtain": CURTAIN,
    "hanging": HANGING,
    "tassel": TASSEL,
    "runner": RUNNER,
    "wide": WIDE,
    "columns": COLUMNS,
}


class Placed(NamedTuple):
    """A text of a page, and the box it takes there (mm)."""

    text: str
    box: Extent


@cache
def made(name: str) -> WorkedPiece:
    """Return the piece of one of the patterns."""
    return build(loads(PATTERNS[name]))


@cache
def sheet(name: str, paper: str = "a4") -> Sheet:
    """Return the sheet of one of the patterns."""
    return sheet_of(made(name), paper)


def sheet_of(piece: WorkedPiece, paper: str = "a4") -> Sheet:
    """Return the sheet of a piece."""
    return make_sheet(
        piece.pattern, piece.count, piece.layout, piece.bill, PAPERS[paper], None, piece.notices
    )


def texts(page: Drawing) -> list[Placed]:
    """Return every text of a page that can be seen, in the order painted."""
    return list(_texts(page.items, 1.0, 0.0, 0.0, None))


def _texts(
    items: Iterator[Item] | tuple[Item, ...], s: float, dx: float, dy: float, clip: Extent | None
) -> Iterator[Placed]:
    for item in items:
        if isinstance(item, Group):
            inner = clip
            a, b, c = s * item.scale, dx + s * item.dx, dy + s * item.dy
            if item.clip is not None:
                x, y, w, h = item.clip
                mine = (a * x + b, a * y + c, a * (x + w) + b, a * (y + h) + c)
                inner = mine if clip is None else meet(mine, clip)
            yield from _texts(tuple(item.items), a, b, c, inner)
        elif isinstance(item, Mark):
            for x, y in item.at:
                yield from _texts(item.symbol.items, s, dx + s * x, dy + s * y, clip)
        elif isinstance(item, Text):
            box = of_text(item)
            if box is not None:
                found = tuple(s * v + (dx, dy)[i % 2] for i, v in enumerate(box))
                shown = found if clip is None else meet(found, clip)
                if shown:
                    yield Placed(item.text, shown)


def said(page: Drawing) -> str:
    """Return all text of a page in one line."""
    return " ".join(placed.text for placed in texts(page))


def anchors(page: Drawing) -> list[Anchor]:
    """Return the anchors of a page."""
    return [item for item in _all(page.items) if isinstance(item, Anchor)]


def links(page: Drawing) -> list[Link]:
    """Return the links of a page."""
    return [item for item in _all(page.items) if isinstance(item, Link)]


def marks(page: Drawing, name: str) -> list[Mark]:
    """Return where a page shows the symbol of that name."""
    found = [item for item in _all(page.items) if isinstance(item, Mark)]
    return [mark for mark in found if mark.symbol.name == name]


def _all(items: tuple[Item, ...]) -> Iterator[Item]:
    for item in items:
        yield item
        if isinstance(item, Group):
            yield from _all(tuple(item.items))
