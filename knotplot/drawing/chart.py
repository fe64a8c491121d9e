"""The knotting chart: the piece as worked, in strand lines and marks, with rows and repeats told.

A rod pocket's band stands unfolded above the rest, with its fold and the temporary line it is
worked from. All in mm of the piece; text in the size asked for, in the same mm.
"""

from __future__ import annotations

import math

from knotplot.drawing.bounds import bounds
from knotplot.drawing.chart_frame import Frame, Pane
from knotplot.drawing.chart_key import chart_key as chart_key
from knotplot.drawing.chart_scene import Scene, scene
from knotplot.drawing.crop import crop
from knotplot.drawing.limits import check_ties
from knotplot.drawing.shapes import Box, Drawing, Group, Item, Line, Stroke, Style
from knotplot.drawing.view_words import view_words
from knotplot.errors import UsageError
from knotplot.geometry.layout import Layout
from knotplot.tying.piece import Piece

#: Share of a piece's width that text takes where no size is given: 2 mm on a page 180 mm wide.
TEXT = 0.0145
#: A page is about this much taller than wide: a long piece is scaled by its height.
PAGE = 1.35
MARGIN = 0.6  # round the chart, font sizes
BREAK = 2.4  # between two panes, font sizes
BELOW = 5.0  # how much of the strands a part shows below its last knot, diameters


def chart(layout: Layout, text_mm: float | None = None, language: str = "en") -> Drawing:
    """Return the chart of the whole piece, in mm of the piece; `text_mm` is the size of its text.

    Without a size the text is legible where the chart is scaled to a page. Raises `Refusal` for a
    piece of too many ties.
    """
    check_ties(layout.piece)
    shown, piece = scene(layout), layout.piece
    whole = _pane(shown, 0, piece.gauge.strands - 1)
    frame = Frame(
        shown, (whole,), shown.top - 1.6 * piece.gauge.diameter,
        shown.bottom + 0.5 * piece.gauge.diameter, _size(shown, text_mm),
        view_words(language), language, (1, len(piece.rows)), _repeat(piece), True,
    )  # fmt: skip
    words = frame.words
    desc = words["chart desc"].format(piece.gauge.strands, len(piece.rows), piece.tie_count)
    return _drawn(frame, shown.items, words["chart"], desc, language)


def chart_part(
    layout: Layout,
    lanes: tuple[int, int],
    rows: tuple[int, int] | None = None,
    text_mm: float | None = None,
    language: str = "en",
) -> Drawing:
    """Return the chart of `lanes` first to last and `rows` first to last (all from 1), in mm.

    Without rows all are shown, and the strands a little below the last knot. Raises UsageError
    for lanes or rows that aren't there.
    """
    first, last = lanes
    if not 1 <= first <= last <= layout.piece.gauge.strands:
        raise UsageError(f"lanes {first} to {last}: there are 1 to {layout.piece.gauge.strands}")
    shown = scene(layout)
    return _parts(shown, [_pane(shown, first - 1, last - 1)], rows, text_mm, language)


def chart_repeat(
    layout: Layout,
    rows: tuple[int, int] | None = None,
    text_mm: float | None = None,
    language: str = "en",
) -> Drawing:
    """Return one repeat with both edges: left edge and the repeat beside it, then the right edge.

    A piece of less than four repeats is shown from edge to edge, and so is one on a ring. Without
    `rows` it ends where the rows cease to repeat (in a decrease, at a shaped edge, above a
    gathering knot round all), and says so; where that is at once, or where `rows` go further, the
    lanes from edge to edge are shown. `text_mm` is as in `chart`.
    """
    piece, strands = layout.piece, layout.piece.gauge.strands
    repeat = repeat_lanes(piece)
    last = repeat_rows(piece)
    if repeat is None or last is None or (rows is not None and rows[1] > last):
        return chart_part(layout, (1, strands), rows, text_mm, language)
    shown = scene(layout)
    panes = [_pane(shown, 0, 2 * repeat - 1), _pane(shown, strands - repeat, strands - 1)]
    return _parts(shown, panes, rows or (1, last), text_mm, language)


def repeat_lanes(piece: Piece) -> int | None:
    """Return after how many lanes everything that spans the piece repeats; None where it doesn't.

    A motif repeats after its lanes, a knot after its own; the least common multiple of all that
    is worked below the mounting.
    """
    strands, found = piece.gauge.strands, 1
    if piece.changes:  # below, other lanes are meant
        return None
    for row in piece.rows:
        if piece.parts[row.section].strands < strands:
            return None
        if row.section > 0 and len(row.placements) > 1:
            for shape in {id(p.shape): p.shape for p in row.placements}.values():
                found = math.lcm(found, shape.of or shape.span)
                if 2 * found > strands:
                    return None
    return found if found > 1 else None


def repeat_rows(piece: Piece) -> int | None:
    """Return how many rows from the first `chart_repeat` shows as one repeat with both edges.

    None where it shows the piece from edge to edge, since too little of it repeats.
    """
    repeat = repeat_lanes(piece)
    if repeat is None or 4 * repeat > piece.gauge.strands or piece.mounting.support == "ring":
        return None
    last = _regular_rows(piece, repeat)
    return None if 3 * last < len(piece.rows) or last < 2 else last


def _regular_rows(piece: Piece, repeat: int) -> int:
    """Return how many rows from the first are alike in every repeat between the edges."""
    last = piece.gauge.strands - repeat
    for count, row in enumerate(piece.rows):
        inner = {(p.lane, id(p.shape)) for p in row.placements if repeat <= p.lane < last}
        along = range(repeat, last)
        moved = {(lane + repeat, shape) for lane, shape in inner if lane + repeat in along}
        back = {(lane - repeat, shape) for lane, shape in inner if lane - repeat in along}
        if len(row.placements) == 1 or not inner or not moved <= inner or not back <= inner:
            return count
    return len(piece.rows)


# --- panes -----------------------------------------------------------------------------------


def _repeat(piece: Piece) -> tuple[int, int] | None:
    """Return the lanes to bracket: the second repeat, where there are enough, is no edge."""
    repeat = repeat_lanes(piece)
    if repeat is None:
        return None
    return (repeat if 3 * repeat <= piece.gauge.strands else 0), repeat


def _pane(shown: Scene, first: int, last: int) -> Pane:
    """Return the window on lanes `first` to `last` (from 0), beyond the sides of the piece too."""
    gauge = shown.piece.gauge
    cut_left, cut_right = first > 0, last < gauge.strands - 1
    x0 = first * gauge.pitch if cut_left else -shown.reach
    x1 = (last + 1) * gauge.pitch if cut_right else gauge.width + shown.reach
    return Pane(x0, x1, first, last, 0.0, cut_left, cut_right)


def _size(shown: Scene, text_mm: float | None) -> float:
    if text_mm is None:
        return TEXT * max(shown.piece.gauge.width, (shown.bottom - shown.top) / PAGE)
    return _checked(text_mm)


def _part_size(width: float, height: float) -> float:
    """Return the text's size for a part: beside a narrow one the lettering takes half the page."""
    return TEXT * max(1.9 * width, height / PAGE)


def _checked(text_mm: float) -> float:
    if not 0.0 < text_mm < math.inf:
        raise UsageError(f"text_mm is {text_mm}: use a size above 0")
    return text_mm


def _parts(
    shown: Scene,
    panes: list[Pane],
    rows: tuple[int, int] | None,
    text_mm: float | None,
    language: str,
) -> Drawing:
    piece, words = shown.piece, view_words(language)
    first, last = rows or (1, max(1, len(piece.rows)))
    top, bottom = _heights(shown, first, last)
    width = sum(pane.x1 - pane.x0 for pane in panes)
    size = _part_size(width, bottom - top) if text_mm is None else _checked(text_mm)
    x = panes[0].x0
    moved = []
    for pane in panes:  # close up, with a break between
        moved.append(pane._replace(shift=x - pane.x0))
        x += pane.x1 - pane.x0 + BREAK * size
    repeat = _repeat(piece)
    if repeat and not any(p.first <= repeat[0] and sum(repeat) <= p.last + 1 for p in panes):
        repeat = None
    if len(moved) > 1:
        moved[0] = moved[0]._replace(name=words["left edge"])
        moved[-1] = moved[-1]._replace(name=words["right edge"])
    rest = ""
    if rows is not None and last < len(piece.rows) and first == 1:
        more = "row" if last + 1 == len(piece.rows) else "rows"
        rest = words["rest"].format(words[more].format(last + 1, len(piece.rows)))
    frame = Frame(
        shown, tuple(moved), top, bottom, size, words, language, (first, last), repeat, False, rest
    )
    items: list[Item] = []
    for pane in moved:
        window = (pane.x0, top, pane.x1, bottom)
        box: Box = (pane.x0, top, pane.x1 - pane.x0, bottom - top)
        items.append(Group(crop(shown.items, window), dx=pane.shift, clip=box))
    items.append(Stroke(Style("line", 0.07 * size), lines=tuple(_breaks(frame))))
    lanes = ", ".join(f"{pane.first + 1}–{pane.last + 1}" for pane in panes)
    desc = words["part desc"].format(lanes, first, last)
    return _drawn(frame, tuple(items), words["chart"], desc, language)


def _heights(shown: Scene, first: int, last: int) -> tuple[float, float]:
    """Return from where to where rows `first` to `last` reach, with some strands below (mm)."""
    rows, d = shown.piece.rows, shown.piece.gauge.diameter
    if not rows:
        return shown.top, shown.bottom
    if not 1 <= first <= last <= len(rows):
        raise UsageError(f"rows {first} to {last}: there are 1 to {len(rows)}")
    placed = [p for row in rows[first - 1 : last] for p in row.placements]
    top = shown.top if first == 1 else min(p.y for p in placed)
    deepest = max(p.y + p.shape.bottom for p in placed)
    below = BELOW if last == len(rows) else 1.0
    return top - 1.6 * d, min(deepest + below * d, shown.bottom + 0.5 * d)


def _breaks(frame: Frame) -> list[Line]:
    """Return a break line at every side where the piece goes on: straight, with a zigzag."""
    size, middle = frame.size, (frame.top + frame.bottom) / 2.0
    found: list[Line] = []
    for pane in frame.panes:
        for cut, edge in ((pane.cut_left, pane.x0), (pane.cut_right, pane.x1)):
            if cut:
                x = edge + pane.shift
                found.append((
                    x, frame.top - 0.3 * size, x, middle - 0.5 * size,
                    x - 0.5 * size, middle - 0.2 * size, x + 0.5 * size, middle + 0.2 * size,
                    x, middle + 0.5 * size, x, frame.bottom + 0.3 * size,
                ))  # fmt: skip
    return found


def _drawn(frame: Frame, items: tuple[Item, ...], title: str, desc: str, language: str) -> Drawing:
    """Return panes and lettering as a drawing, moved so that all of it lies inside."""
    lettering = frame.lettering()
    x0, y0, x1, y1 = bounds(lettering)
    margin = MARGIN * frame.size
    x0, y0 = min(x0, frame.left) - margin, min(y0, frame.top) - margin
    x1, y1 = max(x1, frame.right) + margin, max(y1, frame.bottom) + margin
    inside = (*items, *lettering)
    return Drawing(x1 - x0, y1 - y0, (Group(inside, -x0, -y0),), title, desc, language)


def repeat_view(
    layout: Layout,
    rows: tuple[int, int] | None = None,
    text_mm: float | None = None,
    language: str = "en",
) -> Drawing:
    """Return one repeat of the chart, as a view; like `chart_repeat`.

    Raises `Refusal` for a piece of too many ties.
    """
    check_ties(layout.piece)
    return chart_repeat(layout, rows, text_mm, language)


VIEW = ("repeat", repeat_view)
