"""The list of knots, of the catalogue or of a piece: lines of text, or drawn with their marks."""

from __future__ import annotations

from typing import NamedTuple

from knotplot.drawing.chart_key import knots_used
from knotplot.drawing.how_to import Frame, extent, in_box
from knotplot.drawing.knot_figure import knot_mark_item
from knotplot.drawing.metrics import wrap
from knotplot.drawing.shapes import Drawing, Fill, Group, Item, Style, Text
from knotplot.drawing.technique_frames import technique_frames
from knotplot.knots import catalogue, knot
from knotplot.knots.base import Manner
from knotplot.knots.usual import usual_manner
from knotplot.sheet.knot_facts import USUAL_CORD, counts, in_one_line
from knotplot.sheet.techniques_part import technique_in_one_line, technique_name
from knotplot.sheet.words import Words, sheet_words
from knotplot.techniques import techniques
from knotplot.techniques.found import in_order, used_techniques
from knotplot.tying.names import capital
from knotplot.tying.piece import Piece

# All in mm.
MARGIN, COLUMNS, WIDE, TALL = 6.0, 2, 92.0, 17.0
BOX = (24.0, 14.0)  # in which a mark stands
MARK = 8.0  # height of a mark
NAME, SMALL = 3.7, 2.7  # sizes of text


class Listed(NamedTuple):
    """What is listed: knots in the manner they are told of, techniques, cord's thickness (mm)."""

    knots: tuple[tuple[str, Manner], ...]
    techniques: tuple[str, ...]
    diameter: float


def listed(piece: Piece | None = None) -> Listed:
    """Return what the list of a piece has; without one, that of the whole catalogue."""
    if piece is None:
        knots = tuple((name, usual_manner(each)) for name, each in catalogue().items())
        return Listed(knots, tuple(in_order(techniques())), USUAL_CORD)
    knots = tuple((name, manner) for name, manner, _ in knots_used(piece))
    return Listed(knots, tuple(used_techniques(piece)), piece.gauge.diameter)


def knot_list(piece: Piece | None = None, language: str = "en") -> list[tuple[str, str]]:
    """Return each knot of the catalogue, or of a piece, by name with what is told of it in a line.

    Then each technique likewise. Raises `Refusal` for a language there are no words in.
    """
    say, found = sheet_words(language), listed(piece)
    told = [(name, in_one_line(name, how, found.diameter, say)) for name, how in found.knots]
    return told + [(name, technique_in_one_line(name, say)) for name in found.techniques]


def knots_drawn(piece: Piece | None = None, language: str = "en") -> Drawing:
    """Return the list as a drawing: each knot's chart mark, its name, and what it is tied on.

    Techniques have their last picture instead. Raises `Refusal` as `knot_list` does.
    """
    say, found = sheet_words(language), listed(piece)
    cells = [_knot(name, how, say) for name, how in found.knots]
    cells += [_technique(name, say) for name in found.techniques]
    rows = -(-len(cells) // COLUMNS)
    items = [
        Group(cell, MARGIN + WIDE * (i // rows), MARGIN + TALL * (i % rows))
        for i, cell in enumerate(cells)
    ]
    names = [say.knot(name) for name, _ in found.knots]
    names += [technique_name(name, say) for name in found.techniques]
    return Drawing(
        2.0 * MARGIN + COLUMNS * WIDE, 2.0 * MARGIN + rows * TALL, tuple(items),
        say("all knots"), say("knot sheet subject", knots=", ".join(names)), language,
    )  # fmt: skip


def _knot(name: str, manner: Manner, say: Words) -> tuple[Item, ...]:
    mark, width = knot_mark_item(name, manner, MARK)
    height = (BOX[1] - MARK) / 2.0
    placed = Group((mark,), (BOX[0] - width) / 2.0, height)
    mine = knot(name)
    told = [counts(mine, say)] if mine.by_name or mine.faces else []
    facts = say("list facts").join([*told, say(f"difficulty {mine.difficulty.value}")])
    return _cell(placed, say.knot(name), name, facts)


def _technique(name: str, say: Words) -> tuple[Item, ...]:
    last: Frame = technique_frames(name, False, say.language)[-1]
    x0, y0, x1, y1 = box = extent((last,))
    scale = min((BOX[0] - 1.0) / (x1 - x0), (BOX[1] - 1.0) / (y1 - y0))
    x, y = (BOX[0] - scale * (x1 - x0)) / 2.0, (BOX[1] - scale * (y1 - y0)) / 2.0
    facts = say(f"difficulty {techniques()[name].difficulty}")
    return _cell(in_box(last, box, scale, x, y), technique_name(name, say), name, facts)


def _cell(picture: Group, title: str, name: str, facts: str) -> tuple[Item, ...]:
    wide, tall = BOX
    ground = Fill(Style(fill="tint"), polygons=((0.0, 0.0, wide, 0.0, wide, tall, 0.0, tall),))
    x = wide + 4.0
    lines = wrap(facts, WIDE - x - 3.0, SMALL)
    return (
        ground,
        picture,
        Text(x, 4.0, capital(title), NAME, weight="bold"),
        Text(x, 8.0, name, SMALL, ink="quiet"),
        *(Text(x, 11.6 + 3.2 * i, line, SMALL) for i, line in enumerate(lines[:1])),
    )
