"""Sections wider or narrower than the piece is said to be, and what would suit instead."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from knotplot.geometry.layout import Layout
from knotplot.kinds import kind_of, section_kind
from knotplot.knots import form
from knotplot.knots.hitch import ALONG, LEAST_ALONG
from knotplot.notice import Notice, Value
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import INCH_UNITS
from knotplot.pattern.strand_count import together
from knotplot.tying.piece import Part, Row
from knotplot.tying.shape import Shape

CROWDED = 1.10  # times the room: a section so wide flares or must be squeezed
GAPING = 0.75  # of the room: a line of hitches that leaves more bare looks unfinished
NARROW = 0.90  # of the width asked for: work that nothing holds wider (common practice)
#: Cord as it is sold, mm thick: common practice.
SOLD = (1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0)


def width_cautions(pattern: Pattern, layout: Layout) -> Iterator[Notice]:
    """Yield which sections are too wide or too narrow for the piece, and what would suit."""
    yield from _crowding(pattern, layout)
    gaping = tuple(_gaping(layout))
    yield from gaping or _narrow(pattern, layout)


class _Wide(NamedTuple):
    """A section with the width it takes and has (mm)."""

    part: Part
    takes: float
    has: float


def _crowding(pattern: Pattern, layout: Layout) -> Iterator[Notice]:
    """Yield which sections are wider than their room when nothing pulls, and what would suit.

    Leaving sections out, hitching only every second cord and pulling hitches together come first:
    they are easy.
    """
    gauge = layout.piece.gauge
    found = []
    for part in layout.piece.parts:
        left, right = part.sides(gauge.width)
        has = right - left
        takes = max(part.natural_width, part.spread * has)
        if takes > CROWDED * has:
            found.append(_Wide(part, takes, has))
    if not found:
        return
    worst = max(found, key=lambda wide: wide.takes / wide.has)
    ratio = worst.takes / worst.has
    kinds = [section_kind(wide.part) for wide in found]
    hitched = all(kind_of(wide.part).hitched for wide in found)
    values: Mapping[str, Value] = {
        "sections": tuple((wide.part.name, wide.part.kind) for wide in found),
        "widest": (worst.part.name, worst.part.kind),
        "wide": tuple(wide.takes for wide in found),
        "takes": worst.takes,
        "has": worst.has,
        "skips_cords": all(kind is not None and kind.skips_cords for kind in kinds),
        # Two turns of a hitch can't lie closer than they touch.
        "tightens": hitched and gauge.pitch >= LEAST_ALONG * gauge.diameter,
        "strands": _fewer(pattern, int(gauge.strands / ratio + 1e-6)) or None,
        **_thickness(pattern, gauge.diameter / ratio),
        **_width(pattern, gauge.width * ratio),
    }
    yield Notice("sections_crowded", ("sections",), "warning", values)


def _thickness(pattern: Pattern, wanted: float) -> dict[str, Value]:
    """Return where main cord is given, and how thick (mm) it is sold: about so thick, or None."""
    near = [size for size in SOLD if NARROW < size / wanted < CROWDED]
    return {
        "cord": ("cord",) if pattern.cord is not None else ("cords", "main"),
        "thick": min(near, key=lambda size: abs(size - wanted), default=None),
    }


def _width(pattern: Pattern, width: float) -> dict[str, Value]:
    """Return where the width is given, and what to give (mm, up to a mark) for a finished one."""
    if pattern.opening is not None:
        width = width / float(pattern.opening.fullness) - 2.0 * float(pattern.opening.overlap)
    return {
        "of": "size" if pattern.size is not None else "opening",
        "width": to_a_mark(pattern, width, up=True),
        "inches": pattern.units in INCH_UNITS,
    }


def to_a_mark(pattern: Pattern, length: float, up: bool = False) -> Fraction:
    """Return a length (mm) to a mark of the pattern's ruler: 1 mm or 1/8 in, never more (less)."""
    grain = Fraction(127, 40) if pattern.units in INCH_UNITS else Fraction(1)
    steps = float(Fraction(length).limit_denominator(10**6) / grain)
    return max(1, math.ceil(steps - 1e-6) if up else math.floor(steps + 1e-6)) * grain


def _gaping(layout: Layout) -> Iterator[Notice]:
    """Yield which lines of hitches don't fill their width; nets and bands are as open as chosen."""
    gauge = layout.piece.gauge
    found = [
        part for part in layout.piece.parts
        if kind_of(part).hitched and part.natural_width < GAPING * part.strands * gauge.pitch
    ]  # fmt: skip
    if found:
        values: Mapping[str, Value] = {
            "sections": tuple((part.name, part.kind) for part in found),
            "takes": max(part.natural_width for part in found),
            "has": max(part.strands * gauge.pitch for part in found),
        }
        yield Notice("hitches_gape", ("sections",), "warning", values)


def _fewer(pattern: Pattern, most: int) -> int:
    """Return the largest count of strands up to `most` that the pattern can be worked on, or 0."""
    asked = together(pattern)
    fits = asked.plus + (most - asked.plus) // asked.repeat * asked.repeat
    return fits if fits >= max(1, asked.least) else 0


# --- work narrower than the piece ----------------------------------------------------------------


def _narrow(pattern: Pattern, layout: Layout) -> Iterator[Notice]:
    """Yield how wide the work comes out where nothing in it can be held as wide as the piece is.

    A net, or knots side by side, are as open as chosen. A single knot or motif across all cords,
    and a line of hitches, is as wide as its cords lie; what they hang by is no narrower than it is.
    """
    piece = layout.piece
    takes = _widest(layout)
    if takes is None or takes >= NARROW * piece.gauge.width:
        return
    has = piece.gauge.width
    values: Mapping[str, Value] = {
        "takes": takes,
        "has": has,
        **_thickness(pattern, piece.gauge.diameter * has / takes),
        **_width(pattern, takes),
    }
    yield Notice("work_narrow", ("size" if pattern.size else "opening", "width"), "warning", values)


def _widest(layout: Layout) -> float | None:
    """Return the width (mm) of the widest section, None where one can be as wide as is chosen."""
    piece = layout.piece
    by_part: dict[int, list[Row]] = {}
    for row in piece.rows:
        by_part.setdefault(row.section, []).append(row)
    widest = 0.0
    for number, part in enumerate(piece.parts):
        rows = by_part.get(number, [])
        kind = kind_of(part)
        if not rows or kind.bundled:
            continue
        if kind.own_width and part.whole:
            widest = max(widest, part.natural_width)
            continue
        if not part.whole or any(len(row.placements) > 1 for row in rows):
            return None
        shapes = {(id(p.shape), row.among): p.shape for row in rows for p in row.placements}
        for (_, among), shape in shapes.items():
            widest = max(widest, _shape_width(shape, among, piece.gauge.diameter))
    return widest or None


def _shape_width(shape: Shape, among: int, diameter: float) -> float:
    """Return the most a shape takes of the width (mm), the cords beside it hanging close.

    Every lane takes what it takes at the most: alone, in a knot, or hitched along a bar. In a shape
    of one knot its cords lie as close as they are in it, elsewhere they hang side by side too.
    """
    alone = sum(tie.knot != "cross" for tie in shape.ties) == 1
    lanes = [1.0] * max(among, shape.span + 2 * shape.added)
    for tie in shape.ties:
        if tie.knot == "cross" or tie.carried is not None:
            continue
        if tie.manner.leader is not None:
            share = ALONG * tie.manner.cos
        else:
            share = 2.0 * form(tie.knot, tie.manner).half_width / len(tie.lanes)
        for lane in tie.lanes:
            lanes[lane] = share if alone else max(lanes[lane], share)
    return sum(lanes) * diameter
