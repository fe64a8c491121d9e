"""The drawing vocabulary: the handful of shapes every view draws with and every renderer reads.

Lengths are millimetres, x to the right and y down, in the frame of the group the shape stands in.
Colours are inks by name (`theme.py`), so one drawing serves light and dark pages. Shapes hold
many paths of one style at once, because a chart of 100,000 ties is drawn in a few styles.
Painted in order: what comes later lies on top; within a shape, strokes of one style are one layer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from knotplot.brief import Brief

#: A run of cubic Béziers: x0, y0, then six numbers a cubic; 2 + 6k numbers, k ≥ 1.
Curve: TypeAlias = tuple[float, ...]
#: A polyline: x0, y0, x1, y1, …; 2k numbers, k ≥ 2.
Line: TypeAlias = tuple[float, ...]
#: A place: x, y.
Point: TypeAlias = tuple[float, float]
#: A rectangle: x, y of its upper left corner, width, height.
Box: TypeAlias = tuple[float, float, float, float]

Cap: TypeAlias = Literal["butt", "round"]
Join: TypeAlias = Literal["round", "miter"]
TextAnchor: TypeAlias = Literal["start", "middle", "end"]
Weight: TypeAlias = Literal["regular", "bold", "italic"]


@dataclass(frozen=True, slots=True)
class Style:
    """How a path is painted: stroke and fill are names of inks (None: not at all), width in mm."""

    stroke: str | None = None
    width: float = 0.25
    fill: str | None = None
    dash: tuple[float, ...] = ()
    cap: Cap = "butt"
    join: Join = "round"
    opacity: float = 1.0


@dataclass(frozen=True, slots=True, repr=False)
class Stroke(Brief):
    """Open paths of one style; its fill is not used."""

    style: Style
    curves: Sequence[Curve] = ()
    lines: Sequence[Line] = ()


@dataclass(frozen=True, slots=True, repr=False)
class Fill(Brief):
    """Closed paths of one style: filled (nonzero rule), and stroked where the style says so."""

    style: Style
    outlines: Sequence[Curve] = ()
    polygons: Sequence[Line] = ()


@dataclass(frozen=True, slots=True, repr=False)
class Disc(Brief):
    """Equal discs: a centre each, one radius in mm."""

    style: Style
    at: Sequence[Point]
    radius: float


@dataclass(frozen=True, slots=True, repr=False)
class Text(Brief):
    """One line of text with its baseline at y; `size` is the font size in mm, `turn` in degrees.

    `turn` turns clockwise on the page about (x, y), as y is down.
    """

    x: float
    y: float
    text: str
    size: float
    anchor: TextAnchor = "start"
    weight: Weight = "regular"
    ink: str = "ink"
    turn: float = 0.0


@dataclass(frozen=True, slots=True, repr=False)
class Symbol(Brief):
    """A small drawing used many times, drawn about its own origin.

    `name` is unique in a drawing and made of a–z, 0–9 and hyphens. It holds no links or anchors.
    """

    name: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True, repr=False)
class Mark(Brief):
    """A symbol, used once at each place."""

    symbol: Symbol
    at: Sequence[Point]


@dataclass(frozen=True, slots=True, repr=False)
class Group(Brief):
    """Items scaled about the origin, then moved by (dx, dy), and clipped.

    `scale` is above 0. `clip` is a box in the group's own frame (before scale and move). `label`
    names the group to a reader that can't see it.
    """

    items: Sequence[Item]
    dx: float = 0.0
    dy: float = 0.0
    scale: float = 1.0
    clip: Box | None = None
    label: str | None = None


@dataclass(frozen=True, slots=True)
class Link:
    """A box that leads to an anchor (`#name`) or to an `https:` address."""

    box: Box
    target: str


@dataclass(frozen=True, slots=True)
class Anchor:
    """A place a link can go to; with a title it stands in the outline too, at `level` ≥ 0.

    `name` is unique in a document and made of letters, digits, dots, underscores and hyphens.
    """

    name: str
    y: float
    title: str | None = None
    level: int = 0


Item: TypeAlias = Stroke | Fill | Disc | Text | Mark | Group | Link | Anchor


@dataclass(frozen=True, slots=True, repr=False)
class Drawing(Brief):
    """A whole picture or page, from (0, 0) to (width, height) mm.

    `title` and `desc` tell what it shows to who cannot see it.
    """

    width: float
    height: float
    items: Sequence[Item]
    title: str
    desc: str
    language: str = "en"
