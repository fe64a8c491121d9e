"""Strategies for valid patterns, for every test that wants any pattern at all.

- `documents()` draws a whole pattern as plain dicts and lists, as a file has them: any mount, one
  to four sections of any kind (columns and repeats with others inside), motifs of random steps,
  any lower edge. `strands.count` is given, and the drop is one that the work fits in: ample, or
  so tight that a shaped edge takes motifs (or all but their top) away. Some have a `fill`, some
  cords in colours.
- `patterns()` draws it read, `pieces()` tied. `workable.py` makes what was drawn fit together.
- `mounts()`, `lower_edges()`, `colours()` draw parts alone; so do `motif_strategies.py` (motifs,
  some of which add strands and end others, some with picots) and `section_strategies.py`.

Names are "a" to "h" for sections and "motif1" … for motifs. Pieces have at most about 72 strands.
"""

from __future__ import annotations

import json

from hypothesis import strategies as st
from motif_strategies import motifs
from section_strategies import band, sections
from workable import (
    AMPLE,
    PITCH,
    Document,
    complete,
    count_of,
    drop_of,
    few_rows,
    fill_some,
    name_some,
    recounts,
    suit,
    tail_line,
    text_of,
    tied,
    trim_shaped,
)

from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.tying.piece import Piece


def mounts() -> st.SearchStrategy[Document]:
    """Draw any way of mounting."""
    return st.sampled_from(
        [
            {"kind": "rod_pocket", "rod": "20 mm", "rows": 8, "tail": "40 cm"},
            {"kind": "rod_pocket", "rod": "12 mm", "rows": 7, "tail": "40 cm"},
            {"kind": "larks_head", "rod": "20 mm"},
            {"kind": "larks_head", "rod": "20 mm", "fold": "uneven"},
            {"kind": "reverse_larks_head", "rod": "2 cm"},
            {"kind": "hitched", "rod": "3 cm", "tail": "10 cm"},
            {"kind": "picot", "rod": "16 mm", "loop": "6 cm"},
            {"kind": "picot", "rod": "16 mm", "loop": "6 cm", "fold": "uneven"},
            {"kind": "ring", "diameter": "25 cm"},
            {"kind": "open", "tail": "12 cm"},
        ]
    )


def lower_edges() -> st.SearchStrategy[Document]:
    """Draw any lower edge; its rise is 12 cm at the most."""
    shapes: list[Document] = [{"profile": name} for name in ("arc", "parabola", "catenary", "vee")]
    shapes += [
        {"profile": "scallops", "count": 3},
        {"profile": "points", "at": [[0, 0], [0.3, 1], [0.7, 0.2], [1, 0]]},
    ]
    rise = st.sampled_from([-120, -40, 40, 120])
    shaped = st.builds(lambda s, r: {**s, "rise": f"{r} mm"}, st.sampled_from(shapes), rise)
    return st.one_of(st.just({}), shaped)


def colours() -> st.SearchStrategy[Document]:
    """Draw an order of colours, mirrored or not, some of them with inks."""
    run = st.builds(
        lambda colour, count: colour if count == 1 else f"{colour}*{count}",
        st.sampled_from(["natural", "rust", "deep sea"]), st.integers(1, 7),
    )  # fmt: skip
    inks = st.sampled_from([{}, {"rust": "#a4502f"}, {"natural": "#e9e1d3", "rust": "#a4502f"}])
    return st.builds(
        lambda order, mirror, palette: {"order": order, "mirror": mirror, "palette": palette},
        st.lists(run, min_size=1, max_size=4), st.booleans(), inks,
    )  # fmt: skip


@st.composite
def documents(draw: st.DrawFn) -> Document:
    """Draw a whole pattern that can be worked, as plain data."""
    recount = draw(st.sampled_from([False, False, False, True]))
    own = {f"motif{i + 1}": draw(motifs(recount)) for i in range(draw(st.integers(0, 2)))}
    names = [*own, *draw(st.sampled_from([[], ["diamond"]]))]
    document: Document = {
        "knotplot": 1,
        "title": "Any pattern",
        "size": {"width": "60 cm", "drop": f"{AMPLE} mm"},
        "cord": {"diameter": "4 mm"},
        "strands": {"count": 1},
        "mount": draw(mounts()),
        "sections": draw(sections(names)),
        "lower_edge": draw(lower_edges()),
        "motifs": own,
    }
    if recount and own:  # first, so that others follow on the lanes it leaves
        document["sections"].insert(0, draw(band(["motif1"])))
    document = json.loads(json.dumps(document))  # drawn parts are shared; these are changed below
    tail_line(draw, document)
    name_some(draw, document["sections"])
    complete(document["sections"], own)
    document["strands"]["count"] = count = count_of(draw, document)
    document["size"]["width"] = f"{count * PITCH} mm"
    if document["lower_edge"].get("profile") == "arc" and count < 30:
        document["lower_edge"]["rise"] = f"{count * 2} mm"
    trim_shaped(document["sections"], count)
    if any(map(recounts, own.values())):
        few_rows(document["sections"], own)
        suit(document)
    share = draw(st.sampled_from([0.0, 0.1, 0.5, 1.0]))
    document["size"]["drop"] = f"{drop_of(document, share)} mm"
    fill_some(draw, document)
    if draw(st.booleans()):
        document["colours"] = draw(colours())
    return document


def patterns() -> st.SearchStrategy[Pattern]:
    """Draw a pattern, read."""
    return documents().map(lambda document: loads(text_of(document)))


def pieces() -> st.SearchStrategy[Piece]:
    """Draw a piece, tied."""
    return patterns().map(tied)
