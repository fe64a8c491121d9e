"""The paper and the letters: margins, columns, faces. All in mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from knotplot.drawing.shapes import Weight


class Face(NamedTuple):
    """How text is set: font size, from line to line (mm), weight and ink."""

    size: float
    lead: float
    weight: Weight = "regular"
    ink: str = "ink"


TITLE = Face(11.0, 12.6, "bold")
LONG_TITLE = Face(7.2, 8.8, "bold")
PART = Face(7.6, 9.4, "bold")
SECTION = Face(4.5, 6.0, "bold")
STANDFIRST = Face(4.0, 5.8, "regular", "quiet")
BODY = Face(3.5, 5.05)
STRONG = Face(3.5, 5.05, "bold")
LABEL = Face(3.1, 5.05, "bold", "quiet")  # as far from line to line as the body it stands beside
VALUE = Face(4.1, 5.4, "bold")
CELL = Face(3.2, 4.6)
HEAD = Face(2.8, 4.0, "bold", "quiet")
NOTE = Face(3.2, 4.6, "italic", "quiet")
CAPTION = Face(2.8, 4.0, "regular", "quiet")

LABELS = 38.0  # width of the column of labels at the left
GUTTER = 6.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A page's size and what of it is written on."""

    width: float
    height: float

    left = 19.0
    top = 29.0
    head = 18.0  # the baseline of the running head

    @property
    def right(self) -> float:
        """Return where lines end."""
        return self.width - self.left

    @property
    def bottom(self) -> float:
        """Return where the last line of a page stands at the lowest."""
        return self.height - 24.0

    @property
    def foot(self) -> float:
        """Return the baseline of the foot."""
        return self.height - 15.5

    @property
    def measure(self) -> float:
        """Return how wide the page is written on."""
        return self.right - self.left

    @property
    def room(self) -> float:
        """Return how high the page is written on."""
        return self.bottom - self.top

    @property
    def main(self) -> float:
        """Return how wide the column beside the labels is."""
        return self.measure - LABELS - GUTTER


BESIDE = LABELS + GUTTER  # where that column begins
