"""Drawings put into a page: scaled to fit, their lettering at the size of the page's."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from knotplot.drawing.shapes import Box, Drawing, Group
from knotplot.sheet.flow import Strip

CLOSE = 0.06  # how near to the size asked lettering must come, share
TRIES = 4


class Fitted(NamedTuple):
    """A drawing with the scale at which it fits, and how large its lettering then is (mm)."""

    drawing: Drawing
    scale: float
    text: float

    @property
    def width(self) -> float:
        """Return how wide it is on the page."""
        return self.drawing.width * self.scale

    @property
    def height(self) -> float:
        """Return how high it is on the page."""
        return self.drawing.height * self.scale

    def at(self, x: float, y: float) -> Group:
        """Return it as an item with its upper left corner at (x, y)."""
        return Group(self.drawing.items, dx=x, dy=y, scale=self.scale)


def fitted(
    draw: Callable[[float], Drawing], guess: float, width: float, height: float, text: float
) -> Fitted:
    """Return a drawing that fits `width` × `height` mm with lettering of about `text` mm.

    `draw` makes it with lettering of a size in its own mm; `guess` is about its scale. Lettering
    takes a part of the width, so that a few tries are needed.
    """
    found = fit(draw(text / guess), width, height)
    size = text / guess
    for _ in range(TRIES):
        if abs(size * found.scale / text - 1.0) <= CLOSE:
            break
        size = text / found.scale
        found = fit(draw(size), width, height)
    return found._replace(text=size * found.scale)


def fit(drawing: Drawing, width: float, height: float, most: float = 1e9) -> Fitted:
    """Return a drawing at the largest scale, `most` at most, that fits `width` × `height` mm."""
    return Fitted(drawing, min(width / drawing.width, height / drawing.height, most), 0.0)


def figure(made: Fitted, box: Box, space: float = 0.0) -> Strip:
    """Return a strip with a drawing in the middle of a box; the strip ends where the box does."""
    x, y, width, height = box
    dx = x + (width - made.width) / 2.0
    return Strip(y + height, (made.at(dx, y + (height - made.height) / 2.0),), space)
