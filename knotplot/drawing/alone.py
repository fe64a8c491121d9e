"""What a view needs where it stands alone, in a file or in a web page: a name, and some room.

On a sheet it needs neither: a page has its heading, and its letters are the shipped ones.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from knotplot.drawing.bounds import Extent, meet, of_text
from knotplot.drawing.shapes import Drawing, Group, Item, Text
from knotplot.drawing.view_words import view_words

#: How much wider than the shipped font another may be, where a reader ignores `textLength`.
#: Arial is 1.09 times as wide over the texts of the shipped patterns (measured).
WIDER = 1.1


def alone(drawing: Drawing, piece: str = "") -> Drawing:
    """Return a view with room for wider letters at its sides, and the piece's name in its title.

    `piece` is that name; without one the view keeps its title.
    """
    title = drawing.title
    if piece:
        title = view_words(drawing.language)["of piece"].format(piece=piece, view=title)
    boxes = [(0.0, 0.0, drawing.width, drawing.height), *_wider(drawing.items)]
    x0, y0 = (min(box[i] for box in boxes) for i in (0, 1))
    x1, y1 = (max(box[i] for box in boxes) for i in (2, 3))
    if (x0, y0, x1, y1) == boxes[0]:
        return replace(drawing, title=title)
    items = (Group(drawing.items, dx=-x0, dy=-y0),)
    return replace(drawing, width=x1 - x0, height=y1 - y0, items=items, title=title)


def _wider(items: Iterable[Item]) -> Iterator[Extent]:
    """Yield the box of each text in letters `WIDER` times as wide."""
    for item in items:
        if isinstance(item, Text):
            box = of_text(item, WIDER)
            if box is not None:
                yield box
        elif isinstance(item, Group):
            yield from _moved(item)


def _moved(group: Group) -> Iterator[Extent]:
    s, dx, dy = group.scale, group.dx, group.dy
    window = None
    if group.clip is not None:
        x, y, w, h = group.clip
        window = (x, y, x + w, y + h)
    for box in _wider(group.items):
        seen = box if window is None else meet(box, window)
        if seen is not None:
            yield seen[0] * s + dx, seen[1] * s + dy, seen[2] * s + dx, seen[3] * s + dy
