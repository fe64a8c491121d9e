"""Where the cord goes, drawn: a bar for each length of the cut list, parted by what takes it.

Parts differ by hatching as much as by tone, so that they can be told apart in grey and in print.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from knotplot.drawing import metrics
from knotplot.drawing.shapes import Fill, Item, Stroke, Style
from knotplot.sheet.flow import Strip
from knotplot.sheet.paper import CAPTION, CELL
from knotplot.sheet.setting import line

_BAR = 5.0  # mm high
_LEAD = 7.2
_NAME = 7.0  # mm for a label at the left
_LENGTH = 36.0  # and for a length at the right
_SWATCH = 6.5


class Look(NamedTuple):
    """How a part is drawn: its ground, the lines over it, and how far apart they are (mm)."""

    fill: str
    lines: str | None = None
    apart: float = 0.0
    slope: float = 0.0  # mm to the right over the height of a bar; 0 upright


LOOKS = {
    "mount": Look("cord-edge"),
    "knots": Look("wood", "cord-edge", 1.3, 4.0),
    "runs": Look("cord"),
    "finish": Look("paper", "cord-edge", 1.1),
    "allowance": Look("tint", "line", 2.6, -4.0),
    "lost": Look("paper"),
}


class Bar(NamedTuple):
    """One bar: its label, how long its cords are in words, and its parts (mm) in order."""

    label: str
    length: str
    parts: tuple[tuple[str, float], ...]


def bars(rows: Sequence[Bar], width: float, space: float) -> Iterator[Strip]:
    """Yield a strip for each bar, the longest as wide as there is room for."""
    room = width - _NAME - _LENGTH
    longest = max(sum(mm for _, mm in row.parts) for row in rows)
    for i, row in enumerate(rows):
        items: list[Item] = [line(row.label, CELL._replace(weight="bold", lead=_BAR))]
        x = _NAME
        for name, mm in row.parts:
            wide = room * mm / longest
            items += _part(LOOKS[name], x, 0.0, wide, _BAR)
            x += wide
        items.append(line(row.length, CELL._replace(lead=_BAR), x + 2.0))
        yield Strip(_LEAD, tuple(items), 0.0 if i else space, True)


def legend(told: Sequence[tuple[str, str]], width: float) -> Iterator[Strip]:
    """Yield the strips of a legend: (part, words) each beside its swatch."""
    face = CAPTION._replace(ink="ink")
    items: list[Item] = []
    x = 0.0
    for name, words in told:
        wide = _SWATCH + 2.0 + metrics.width(words, face.size, face.weight)
        if items and x + wide > width:
            yield Strip(5.6, tuple(items), 0.0, True)
            items, x = [], 0.0
        items += _part(LOOKS[name], x, 0.6, _SWATCH, 3.4)
        items.append(line(words, face._replace(lead=4.6), x + _SWATCH + 2.0))
        x += wide + 6.0
    yield Strip(5.6, tuple(items))


def _part(look: Look, x: float, y: float, wide: float, high: float) -> list[Item]:
    """Return a rectangle with its hatching; nothing where it has no width."""
    if wide < 0.05:
        return []
    box = (x, y, x + wide, y, x + wide, y + high, x, y + high)
    found: list[Item] = [Fill(Style("cord-edge", 0.2, look.fill), polygons=(box,))]
    lines = tuple(_hatching(look, x, y, wide, high)) if look.lines else ()
    if lines:
        found.append(Stroke(Style(look.lines, 0.2), lines=lines))
    return found


def _hatching(
    look: Look, x: float, y: float, wide: float, high: float
) -> Iterator[tuple[float, float, float, float]]:
    """Yield parallel lines through a rectangle, cut off at its sides."""
    lean = look.slope * high / _BAR
    at = min(0.0, -lean) + look.apart / 2.0
    while at < wide + max(0.0, -lean):
        # From (at, bottom) to (at + lean, top), as far as it lies within 0 … wide.
        a, b = (0.0, 1.0)
        if lean:
            ends = sorted(((0.0 - at) / lean, (wide - at) / lean))
            a, b = max(a, ends[0]), min(b, ends[1])
        elif not 0.0 < at < wide:
            a = b
        if b > a:
            yield (x + at + a * lean, y + high * (1.0 - a), x + at + b * lean, y + high * (1.0 - b))
        at += look.apart
