"""Which inks lie side by side in the views, read off their pictures, and how they contrast.

Each ink is painted in a flat colour of its own, text and marks apart, without softened edges; the
pairs in use are those of neighbouring pixels. Text wants 4.5:1 and a mark 3:1 on all it meets
(WCAG 2.2, 1.4.3 and 1.4.11), in the light and in the dark scheme.
"""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Iterator
from functools import cache

import numpy as np
import pytest
from lxml import etree
from PIL import Image
from views_sample import laid

from knotplot.api import knot, knot_list
from knotplot.drawing.shapes import Drawing
from knotplot.drawing.theme import CORD, HAND, INKS, CordInks, contrast
from knotplot.renderers import png, svg
from knotplot.views import VIEWS

#: What marks stand on; these recede from each other and from paper, and tell nothing by that.
GROUNDS = {"paper", "tint", "faint", "ground"}
MARKS = {"ink", "quiet", "line", "accent", "accent2", "accent3", "arrow"}
#: Cord and wood are pictures: what parts them is held below, by their outlines.
PICTURED = set(INKS) - GROUNDS - MARKS
LEAST = 12  # pixels side by side: fewer is a corner where two lines end


def drawings() -> Iterator[Drawing]:
    for name in ("narrow curtain", "hanging", "tassels"):
        for view in ("chart", "outline", "trim"):
            yield VIEWS[view](laid(name))
    yield knot("square_knot").drawing
    yield knot_list().drawing


def flat(drawing: Drawing) -> tuple[str, dict[int, tuple[str, str]]]:
    """Return a drawing with a colour for each ink, and what each colour stands for."""
    root = etree.fromstring(svg.render(drawing, "p").encode())
    root.set("shape-rendering", "crispEdges")
    root.set("text-rendering", "optimizeSpeed")
    codes: dict[tuple[str, str], int] = {}
    for element in list(root.iter("{*}*")):
        if element.get("stroke-opacity"):  # a shadow
            element.getparent().remove(element)
            continue
        what = "text" if element.tag.endswith("}text") else "mark"
        for name in element.get("class", "").split()[0 if element is not root else 1 :]:
            _, side, ink = name.split("-", 2)
            code = codes.setdefault((what, ink), len(codes) + 1)
            element.set({"f": "fill", "s": "stroke"}[side], f"#{code * 0x060403:06x}")
    return etree.tostring(root).decode(), {code * 0x060403: key for key, code in codes.items()}


@cache
def pairs() -> Counter:
    """Return how often two inks lie side by side in all views together."""
    found: Counter = Counter()
    for drawing in drawings():
        text, meant = flat(drawing)
        scale = 2600.0 / max(drawing.width, drawing.height)
        seen = np.asarray(Image.open(io.BytesIO(png.render(text, scale))).convert("RGB"), int)
        codes = seen[:, :, 0] << 16 | seen[:, :, 1] << 8 | seen[:, :, 2]
        for a, b in ((codes[:, 1:], codes[:, :-1]), (codes[1:], codes[:-1])):
            both, counts = np.unique(np.stack((a[a != b], b[a != b])), axis=1, return_counts=True)
            for (one, other), count in zip(both.T, counts, strict=True):
                if one in meant and other in meant:
                    found[frozenset((meant[one], meant[other]))] += int(count)
    return Counter({pair: n for pair, n in found.items() if n >= LEAST and len(pair) == 2})


def held() -> Iterator[tuple[str, str, float]]:
    """Yield the pairs that must stand out: what, on what, and by how much."""
    for pair in pairs():
        (what, one), (kind, other) = sorted(pair, key=lambda each: each[1] in GROUNDS)
        if "text" in (what, kind) and other in GROUNDS:
            yield one, other, 4.5
        elif one in MARKS and other in GROUNDS:
            yield one, other, 3.0


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_pair_in_use_stands_out(scheme):
    wanted = set(held())
    assert {("ink", "paper", 4.5), ("ink", "ground", 3.0), ("line", "ground", 3.0),
            ("quiet", "faint", 4.5), ("arrow", "paper", 3.0)} <= wanted  # fmt: skip
    low = {
        (one, other): round(found, 2)
        for one, other, least in wanted
        if (found := contrast(getattr(INKS[one], scheme), getattr(INKS[other], scheme))) < least
        # a rod's outline parts it from paper; that it meets the rod's own fill tells nothing
        and (one, other) != ("line", "faint")
    }
    assert low == {}


def test_text_stands_on_grounds_alone():
    beside = {
        next(ink for _, ink in pair - {each})
        for pair in pairs()
        for each in pair
        if each[0] == "text"
    }
    assert beside & PICTURED == set()


@pytest.mark.parametrize("inks", [CORD, HAND], ids=["cord", "hand"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_cord_is_parted_from_paper_and_from_cord(inks: CordInks, scheme: str):
    edge, body, paper = (getattr(INKS[name], scheme) for name in (inks.edge, inks.body, "paper"))
    assert contrast(edge, body) >= 3.0
    assert max(contrast(edge, paper), contrast(body, paper)) >= 3.0
