"""Chart marks at the smallest size they are stated for: told apart in grey, as an eye sees them.

A knot is told from another by its lines alone, so that a grey print and an eye that confuses
colours lose nothing.
"""

from __future__ import annotations

import io
from itertools import combinations
from types import SimpleNamespace

import pytest
from PIL import Image, ImageChops

from knotplot.drawing.bounds import bounds
from knotplot.drawing.marks import SMALLEST, knot_mark
from knotplot.drawing.shapes import Drawing, Group, Item, Stroke, Style
from knotplot.drawing.theme import INKS, luminance
from knotplot.knots import catalogue
from knotplot.knots.base import Manner
from knotplot.knots.usual import usual_manner
from knotplot.renderers import png, svg
from knotplot.sheet.chart_part import _legible
from knotplot.sheet.figure import Fitted
from knotplot.tying.gauge import Gauge

# A minute of arc, what a good eye resolves (common knowledge of optics), is 0.12 mm at 40 cm.
PX = 1.0 / 0.12
# The ink by which two marks differ: a dot of 0.3 mm, two and a half of those minutes across.
LEAST = 0.07  # mm² of black


def cases() -> dict[str, tuple[str, Manner]]:
    """Return every knot in its usual manner, and facing the other way where it can."""
    found = {}
    for name, knot in catalogue().items():
        manner = usual_manner(knot)
        found[name] = (name, manner)
        if knot.faces:
            found[f"{name}, right"] = (name, manner._replace(facing="right"))
    return found


def drawn(name: str, manner: Manner, diameter: float) -> tuple[Item, float]:
    """Return a mark with its middle at the origin, and how wide and high it is at most (mm)."""
    items = tuple(Stroke(Style(ink, pen), curves) for ink, pen, curves in knot_mark(name, manner))
    x0, y0, x1, y1 = bounds(items)
    middle = (-diameter * (x0 + x1) / 2.0, -diameter * (y0 + y1) / 2.0)
    return Group(items, *middle, diameter), diameter * max(x1 - x0, y1 - y0)


def grey(item: Item, box: float) -> Image.Image:
    """Return the grey picture of an item about the origin, in a square of that side (mm)."""
    made = Drawing(box, box, (Group((item,), box / 2.0, box / 2.0),), "mark", "mark")
    return Image.open(io.BytesIO(png.render(svg.render(made), PX))).convert("L")


def difference(one: Image.Image, other: Image.Image) -> float:
    """Return by how much ink two pictures differ, in mm² of black."""
    histogram = ImageChops.difference(one, other).histogram()
    return sum(level * count for level, count in enumerate(histogram)) / 255.0 / PX**2


def closest(diameter: float) -> tuple[float, str, str]:
    """Return the two marks most alike for cord drawn so thick (mm), and their difference."""
    marks = {case: drawn(*case_of, diameter) for case, case_of in cases().items()}
    box = max(size for _, size in marks.values()) + 1.0
    seen = {case: grey(item, box) for case, (item, _) in marks.items()}
    return min((difference(seen[a], seen[b]), a, b) for a, b in combinations(seen, 2))


def test_marks_of_all_knots_are_told_apart_in_grey_at_the_smallest_size() -> None:
    off, one, other = closest(SMALLEST)
    assert off > LEAST, f"{one} and {other} differ by {off:.3f} mm² of ink"


def test_the_measure_finds_marks_that_are_too_small() -> None:
    assert closest(0.5 * SMALLEST)[0] < LEAST


def test_marks_are_lines_in_greys_far_apart() -> None:
    inks = {ink for name, manner in cases().values() for ink, _, _ in knot_mark(name, manner)}
    assert inks <= {"ink", "line", "ground", "paper"}
    # none of the colours that tell something; what lies next to each other differs in lightness
    dark, middle, light = (luminance(INKS[name].light) for name in ("ink", "line", "ground"))
    assert dark < 0.02 < 0.2 < middle < 0.3 < 0.7 < light


@pytest.mark.parametrize(("scale", "shown"), [(0.13, True), (0.12, False)])
def test_a_whole_chart_is_shown_only_where_its_marks_can_be_read(scale: float, shown: bool) -> None:
    gauge = Gauge(width=240.0, strands=20, diameter=4.0)  # three diameters from lane to lane
    subject = SimpleNamespace(piece=SimpleNamespace(gauge=gauge))
    made = Fitted(Drawing(240.0, 100.0, (), "", ""), scale, 3.0)
    assert _legible(subject, made) is shown  # type: ignore[arg-type]
