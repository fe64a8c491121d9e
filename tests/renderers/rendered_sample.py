"""One small drawing that uses every shape, for the tests of the renderers."""

from __future__ import annotations

from knotplot.drawing.shapes import (
    Anchor,
    Disc,
    Drawing,
    Fill,
    Group,
    Item,
    Link,
    Mark,
    Stroke,
    Style,
    Symbol,
    Text,
)

_BEAD = (-3.0, 0.0, -3.0, -2.0, 3.0, -2.0, 3.0, 0.0, 3.0, 2.0, -3.0, 2.0, -3.0, 0.0)
DOT = Symbol("dot", (Disc(Style(fill="accent2"), [(0.0, 0.0)], 1.0),))
KNOT = Symbol(
    "knot",
    (
        Fill(Style("cord-edge", 0.2, fill="cord"), outlines=[_BEAD]),
        Stroke(Style("ink", 0.3), lines=[(-2.0, -0.5, 2.0, 0.8)]),
        Mark(DOT, [(0.0, -0.001)]),
    ),
)
WAVE = (10.0, 60.0, 30.0, 10.0, 50.0, 90.0, 70.0, 40.0, 80.0, 15.0, 90.0, 15.0, 100.0, 40.0)


def shapes() -> list[Item]:
    panel = (5.0, 5.0, 115.0, 5.0, 115.0, 75.0, 5.0, 75.0)
    shore = (10.0, 70.0, 60.0, 65.0, 110.0, 70.0)
    cut = (0.0, 8.0, 40.0, 8.0, 40.0, 30.0, 0.0, 30.0)
    half = Style("accent2", 1.0, fill="cord", join="miter", opacity=0.5)
    return [
        Fill(Style(fill="tint"), polygons=[panel]),
        Stroke(Style("faint", 0.2), lines=[(10.0, y, 110.0, y) for y in (20.0, 30.0, 50.0)]),
        Stroke(Style("accent", 0.8, cap="round"), curves=[WAVE]),
        Stroke(Style("#7a4f9a", 0.5, dash=(2.0, 1.0)), lines=[shore]),
        Fill(half, polygons=[(80.0, 50.0, 100.0, 50.0, 90.0, 65.0)]),
        Mark(KNOT, [(20.0, 30.0), (40.0, 30.0), (60.0, 30.0)]),
        Mark(DOT, [(20.0, 40.0), (40.0, 40.0)]),
        Disc(Style("line", 0.3, fill="paper"), [(70.0, 20.0), (80.0, 20.0)], 2.0),
        Group(
            (
                Mark(KNOT, [(10.0, 5.0)]),
                Fill(Style(fill="accent3"), polygons=[cut]),
            ),
            dx=80.0,
            dy=60.0,
            scale=0.5,
            clip=(0.0, -5.0, 25.0, 18.0),
            label="two rows",
        ),
    ]


def words() -> list[Item]:
    return [
        Text(10.0, 15.0, "Café: 36½″ × 92 cm → row 7", 5.0, weight="bold"),
        Text(110.0, 27.0, "right end", 4.0, "end", ink="quiet", weight="italic"),
        Text(60.0, 48.0, "turned", 4.0, "middle", turn=-30.0),
        Group([Text(0.0, 0.0, "scaled", 4.0)], 70.0, 66.0, 0.75),
        Anchor("top", 10.0, "The top"),
        Group([Anchor("row-7", 20.0, "Row 7", level=3)], dy=10.0, scale=2.0),
        Link((10.0, 10.0, 30.0, 6.0), "#row-7"),
        Group([Link((5.0, 5.0, 10.0, 3.0), "https://example.org/?a=1&b=2")], 60.0, 10.0, 2.0),
    ]


def sample(title: str = "Sample", desc: str = "Every shape once") -> Drawing:
    return Drawing(120.0, 80.0, [*shapes(), *words()], title, desc)
