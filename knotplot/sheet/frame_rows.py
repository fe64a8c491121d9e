"""Frames of tying in rows, and what knots and techniques have alike on a sheet."""

from __future__ import annotations

from knotplot.drawing.bounds import Extent
from knotplot.drawing.how_to import Frame, extent, in_box
from knotplot.drawing.shapes import Fill, Item, Style
from knotplot.sheet.flow import Strip
from knotplot.sheet.paper import CELL, LABEL, NOTE
from knotplot.sheet.setting import moved, numbered, paragraph
from knotplot.sheet.subject import Told

TALL = 46.0  # mm a frame is high at most
THICKEST = 3.4  # mm a cord is drawn thick
_GAP = 5.0
_PAD = 3.0


def fault_strips(told: Told, fault: str) -> list[Strip]:
    """Return what goes wrong with a knot, below its label; nothing where nothing is told."""
    measure = told.paper.measure
    label = paragraph(told.say("fault"), measure, LABEL, 0.0, 3.0)
    return [*label, *paragraph(fault, measure, NOTE)] if fault else []


def anchor_of(name: str) -> str:
    """Return the anchor of a knot or technique."""
    return f"knot-{name.replace('_', '-')}"


def frame_row(made: tuple[Frame, ...], first: int, across: int, measure: float) -> Strip:
    """Return some frames side by side on a tinted ground, each over its sentence."""
    width = (measure - _GAP * (across - 1)) / across
    box = extent(made)
    scale = _scale(box, width)
    tall = scale * (box[3] - box[1]) + 2.0 * _PAD
    items: list[Item] = []
    lowest = 0.0
    for k, frame in enumerate(made[first : first + across]):
        x = k * (width + _GAP)
        ground = (x, 0.0, x + width, 0.0, x + width, tall, x, tall)
        items.append(Fill(Style(fill="tint"), polygons=(ground,)))
        inset = (width - scale * (box[2] - box[0])) / 2.0
        items.append(in_box(frame, box, scale, x + inset, _PAD))
        y = tall + 1.6
        for strip in numbered(f"{first + k + 1}.", frame.text, width, x, 0.0, CELL, 5.0):
            items += moved(strip.items, y)
            y += strip.height
        lowest = max(lowest, y)
    return Strip(lowest, tuple(items), 4.0)


def _scale(box: Extent, width: float) -> float:
    """Return how thick a cord is drawn (mm) so that frames fit, as wide and as high as they may."""
    room = width - 2.0 * _PAD
    return min(room / (box[2] - box[0]), (TALL - 2.0 * _PAD) / (box[3] - box[1]), THICKEST)
