"""Pieces the views are tested on: narrow and wide, few rows and many, every kind of mount."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

from knotplot.drawing.bounds import Extent, of_text
from knotplot.drawing.shapes import Drawing, Group, Item, Mark, Text
from knotplot.geometry.layout import Layout, lay
from knotplot.knots import knot
from knotplot.pattern.load import loads
from knotplot.pattern.working import work

HEAD = """
knotplot: 1
title: A piece
size: {{width: {width} mm, drop: {drop} mm}}
cord:
  {{diameter: 4 mm, construction: twisted, fibre: cotton, mass_per_length: 9.6 g/m, spool: 100 m}}
strands: {{count: {strands}}}
"""

CURTAIN = """
mount: {kind: rod_pocket, rod: 20 mm, rows: 8, tail: 30 cm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 3}
  - {kind: hitch_line, layer: tails, overhang: 15 cm}
  - {name: lace, kind: motif_band, motif: leaf, rows: 3, offset: half, gap: 12 mm}
  - {kind: fringe, length: 10 cm, finish: combed}
lower_edge: {profile: parabola, rise: 9 cm}
motifs:
  leaf:
    strands: 12
    steps:
      - cross: [6, 7]
      - hitch: {lead: 6, to: 1}
      - hitch: {lead: 7, to: 12}
      - knot: {kind: square_knot, lanes: [4, 5, 6, 7, 8, 9]}
      - hitch: {lead: 1, to: 6}
      - hitch: {lead: 12, to: 7}
      - hitch: {lead: 7, to: 6}
"""

HANGING = """
mount: {kind: larks_head, rod: 22 mm, fold: middle}
sections:
  - {kind: hitch_line}
  - kind: columns
    parts:
      - strands: 8
        sections:
          - {name: spirals, kind: sennits, knot: half_knot, strands: 4, count: 16}
      - strands: rest
        sections:
          - {name: diamonds, kind: motif_band, motif: diamond, rows: 3, offset: half}
      - strands: 8
        sections:
          - {name: braids, kind: sennits, knot: square_knot, count: 8, facing: alternate}
          - {kind: gather, wrap: 3 cm}
  - {kind: fringe, length: 10 cm, finish: cut}
lower_edge: {profile: vee, rise: -18 cm}
"""

POINT = """
mount: {kind: hitched, rod: 25 mm, tail: 8 cm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 6, spacing: 10 mm}
  - {name: point, kind: square_knot_mesh, rows: 8, shape: decrease}
  - {kind: fringe, length: 8 cm, finish: combed}
"""

RUNNER = """
mount: {kind: open, tail: 12 cm}
sections:
  - kind: repeat
    times: 6
    sections:
      - {kind: square_knot_mesh, rows: 10}
      - {kind: hitch_line}
      - {kind: motif_band, motif: diamond, rows: 2, offset: half}
  - {kind: fringe, length: 12 cm, finish: cut}
lower_edge: {profile: scallops, count: 4, rise: 8 cm}
"""

TASSELS = """
mount: {kind: ring, diameter: 40 mm}
sections:
  - {kind: gather, wrap: 2 cm}
  - {kind: free, length: 3 cm}
  - kind: columns
    parts:
      - strands: 4
        repeat: 6
        sections:
          - {kind: sennits, knot: half_knot, count: 9}
          - {kind: sennits, knot: overhand, count: 1}
  - {kind: fringe, length: 8 cm, finish: combed}
"""

PLAIN = """
mount: {kind: open, tail: 5 cm}
sections:
  - {kind: square_knot_mesh, rows: 1}
  - {kind: fringe, length: 5 cm, finish: cut}
"""

#: Name to sections, width and drop in mm, strands.
PIECES = {
    "curtain": (CURTAIN, 920, 840, 132),
    "narrow curtain": (CURTAIN, 170, 840, 24),
    "hanging": (HANGING, 440, 700, 56),
    "point": (POINT, 600, 700, 64),
    "runner": (RUNNER, 1200, 2000, 240),
    "tassels": (TASSELS, 200, 600, 24),
    "plain": (PLAIN, 40, 120, 4),
}


@cache
def laid(name: str) -> Layout:
    """Return a piece of `PIECES`, laid out."""
    sections, width, drop, strands = PIECES[name]
    return lay_out(sections, width, drop, strands)


def lay_out(sections: str, width: int, drop: int, strands: int) -> Layout:
    text = HEAD.format(width=width, drop=drop, strands=strands) + sections
    return lay(work(loads(text), strands).piece, lambda knot_, manner, _: knot(knot_).cord(manner))


def flat(
    items: Iterable[Item], dx: float = 0.0, dy: float = 0.0
) -> Iterator[tuple[Item, float, float]]:
    """Yield every item that is no group, with how far its groups move it (none scales here)."""
    for item in items:
        if isinstance(item, Group):
            if item.scale != 1.0 or item.clip is not None:
                assert not any(isinstance(each, Text) for each, _, _ in flat(item.items))
            yield from flat(item.items, dx + item.dx, dy + item.dy)
        else:
            yield item, dx, dy


def texts(drawing: Drawing) -> list[tuple[Text, Extent]]:
    """Return the drawing's texts, each with the box it takes: as high as its capitals."""
    found = []
    for item, dx, dy in flat(drawing.items):
        if isinstance(item, Text):
            box = of_text(item)
            assert box is not None, "an empty text"
            found.append((item, (box[0] + dx, box[1] + dy, box[2] + dx, box[3] + dy)))
    return found


def marks(drawing: Drawing) -> list[Mark]:
    return [item for item, _, _ in flat(drawing.items) if isinstance(item, Mark)]


def words(drawing: Drawing) -> list[str]:
    return [text.text for text, _ in texts(drawing)]


def overlapping(drawing: Drawing) -> list[tuple[str, str]]:
    """Return pairs of texts that lie on each other; lines of one block may touch."""
    boxes = [(t.text, _ink(t, box)) for t, box in texts(drawing)]
    return [
        (one, other)
        for i, (one, a) in enumerate(boxes)
        for other, b in boxes[i + 1 :]
        if a[0] < b[2] - 1e-9 and b[0] < a[2] - 1e-9 and a[1] < b[3] - 1e-9 and b[1] < a[3] - 1e-9
    ]


def _ink(text: Text, box: Extent) -> Extent:
    """Return the box without the room that only accented capitals need, 0.75 to 0.9 of the size."""
    if text.turn:
        return box
    return box[0], box[1] + 0.15 * text.size, box[2], box[3]


def outside(drawing: Drawing) -> list[str]:
    """Return the texts that stand out of the drawing."""
    return [
        text.text
        for text, (x0, y0, x1, y1) in texts(drawing)
        if x0 < 0.0 or y0 < 0.0 or x1 > drawing.width or y1 > drawing.height
    ]
