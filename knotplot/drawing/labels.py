"""Putting labels where they are wanted without any lying on another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from knotplot.drawing import metrics
from knotplot.drawing.shapes import Item, Line, Stroke, Style, Text, TextAnchor

LINE = 1.18  # from line to line, font sizes
BEYOND = 4.0  # how far labels may stand out above and below what they name, lines
APART = 0.4  # between labels one below another, lines
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)


class Numbered(NamedTuple):
    """A row that wants its number beside it: the number, its section, and where it stands."""

    number: int
    section: int
    y: float


def spread(
    wanted: Sequence[float],
    heights: Sequence[float],
    low: float = -math.inf,
    high: float = math.inf,
) -> list[float]:
    """Return places as near as can be to `wanted` (rising) so that no two heights overlap.

    Places and heights in one unit; a place is the middle of its height. All lie between `low` and
    `high`; what has no room there stands out at `high`. Least squares, by pooling neighbours that
    press on each other.

    >>> spread([0.0, 1.0, 10.0], [2.0, 2.0, 2.0])
    [-0.5, 1.5, 10.0]
    """
    if not wanted:
        return []
    offsets, total = [], 0.0
    for i, height in enumerate(heights):
        total += height / 2.0 if i else 0.0
        offsets.append(total)
        total += height / 2.0
    blocks: list[list[float]] = []  # sum of wanted less offset, and count
    for want, offset in zip(wanted, offsets, strict=True):
        blocks.append([want - offset, 1.0])
        while len(blocks) > 1 and blocks[-2][0] / blocks[-2][1] > blocks[-1][0] / blocks[-1][1]:
            value, count = blocks.pop()
            blocks[-1][0] += value
            blocks[-1][1] += count
    first, last = low + heights[0] / 2.0, high - heights[-1] / 2.0 - offsets[-1]
    starts = [max(first, min(last, v / n)) for v, n in blocks for _ in range(int(n))]
    return [start + offset for start, offset in zip(starts, offsets, strict=True)]


def shown_numbers(rows: Sequence[Numbered], least: float) -> list[Numbered]:
    """Return the rows whose numbers are written, no two nearer than `least` (mm).

    In a section whose rows lie too close for all, every 2nd, 5th, 10th, … is; the first row of
    each section comes before all others.
    """
    sections: dict[int, list[Numbered]] = {}
    for row in rows:
        sections.setdefault(row.section, []).append(row)
    first = [members[0] for members in sections.values()]
    others = [row for members in sections.values() for row in _stepped(members, least)]
    taken = _Taken(least)
    shown = [row for row in dict.fromkeys((*first, *others)) if taken.take(row.y)]
    return sorted(shown)


def _stepped(rows: Sequence[Numbered], least: float) -> list[Numbered]:
    """Return every row, or every 2nd, 5th, …: as many as leave them `least` apart."""
    for step in STEPS:
        kept = [row for row in rows if row.number % step == 0]
        if all(abs(b.y - a.y) >= least for a, b in pairwise(kept)):
            return kept
    return []


class _Taken:
    """Heights already written on, in cells as high as a line, so that asking takes no search."""

    def __init__(self, least: float) -> None:
        self._least = least
        self._cells: dict[int, list[float]] = {}

    def take(self, y: float) -> bool:
        """Take the place at `y` if nothing is written within a line of it."""
        cell = int(y // self._least)
        near = (other for i in (cell - 1, cell, cell + 1) for other in self._cells.get(i, ()))
        if any(abs(y - other) < self._least for other in near):
            return False
        self._cells.setdefault(cell, []).append(y)
        return True


def lines_of(
    lines: Sequence[str], x: float, middle: float, size: float, anchor: TextAnchor = "start",
    ink: str = "quiet",
) -> list[Item]:  # fmt: skip
    """Return lines of text one below another about the height `middle`."""
    first = middle - (len(lines) - 1) * LINE * size / 2.0 + metrics.CAP_HEIGHT * size / 2.0
    return [
        Text(x, first + i * LINE * size, line, size, anchor, ink=ink)
        for i, line in enumerate(lines)
    ]


class Wide(NamedTuple):
    """Something to write above the piece: its middle and width in mm."""

    middle: float
    width: float


def levels(labels: Sequence[Wide], apart: float) -> list[int]:
    """Return the level (0 is the lowest) of each label, so that none meets another of its level."""
    ends: list[list[tuple[float, float]]] = []
    found = []
    for middle, width in labels:
        low, high = middle - width / 2.0 - apart, middle + width / 2.0 + apart
        level = next(
            (i for i, row in enumerate(ends) if all(high <= a or low >= b for a, b in row)),
            len(ends),
        )
        if level == len(ends):
            ends.append([])
        ends[level].append((low + apart, high - apart))
        found.append(level)
    return found


class Spanned(NamedTuple):
    """Something that reaches from `top` to `bottom` (mm), its name, and the lines said of it."""

    top: float
    bottom: float
    name: str
    lines: tuple[str, ...]


def bracketed(
    wanted: Sequence[Spanned], x: float, side: int, size: float, pen: Style
) -> list[Item]:
    """Return brackets from `x` outwards (`side` 1: to the right, -1: to the left) with labels.

    Brackets that would lie on each other stand side by side; labels are spread so that none
    meets another, each joined to its bracket. Where there are too many to stand beside what they
    name, those that repeat a name go, then those of the shortest; their brackets stay.
    """
    shown = sorted(wanted)
    if not shown:
        return []
    top, bottom = shown[0].top, max(each.bottom for each in shown)
    shown = _fitting(shown, (bottom - top) / (LINE * size) + 2.0 * BEYOND)
    depths = _depths(shown)
    out = (0.35 + 0.6 * max(depths)) * size
    said = [each for each in shown if each.lines]
    heights = [(len(each.lines) + APART) * LINE * size for each in said]
    middles = [(each.top + each.bottom) / 2.0 for each in said]
    beyond = BEYOND * LINE * size
    places = iter(spread(middles, heights, top - beyond, bottom + beyond))
    lines: list[Line] = []
    items: list[Item] = []
    for span, depth in zip(shown, depths, strict=True):
        inset = min(0.12 * size, (span.bottom - span.top) / 4.0)
        a, b = span.top + inset, span.bottom - inset
        foot = x + side * 0.6 * depth * size
        back = foot + side * 0.35 * size
        lines.append((foot, a, back, a, back, b, foot, b))
        if span.lines:
            middle = next(places)
            near = min(max(middle, a), b)
            lines.append((back, near, x + side * out, near, x + side * (out + 0.65 * size), middle))
            text = x + side * (out + 0.9 * size)
            items += lines_of(span.lines, text, middle, size, "start" if side > 0 else "end")
    return [Stroke(pen, lines=lines), *items]


def _depths(spans: Sequence[Spanned]) -> list[int]:
    """Return how many brackets each (by top) stands further out than the innermost."""
    ends: list[float] = []
    found = []
    for span in spans:
        depth = next((i for i, end in enumerate(ends) if end <= span.top + 1e-6), len(ends))
        ends[depth : depth + 1] = [span.bottom]
        found.append(depth)
    return found


def _fitting(spans: Sequence[Spanned], room: float) -> list[Spanned]:
    """Return the spans, some without their lines where `room` (in lines) is not enough for all."""

    def used(kept: Sequence[Spanned]) -> float:
        return sum(len(each.lines) + APART for each in kept if each.lines)

    if used(spans) <= room:
        return list(spans)
    first: dict[str, int] = {}
    for i, each in enumerate(spans):
        first.setdefault(each.name, i)
    keep: set[int] = set()
    left = room
    for i in sorted(first.values(), key=lambda i: (spans[i].top - spans[i].bottom, i)):
        left -= len(spans[i].lines) + APART
        if keep and left < 0.0:
            break
        keep.add(i)
    return [each if i in keep else each._replace(lines=()) for i, each in enumerate(spans)]
