"""The lettering round a chart: row numbers, section brackets, repeats, and what lines mean.

Everything here stands in the frame: x of a pane's piece moved by the pane's `shift`, y as in the
piece. Sizes are in font sizes, so that a chart reads alike at every scale.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from knotplot.drawing import metrics
from knotplot.drawing.bounds import Extent, of_text
from knotplot.drawing.chart_columns import Column, bracket, column_names, lifted
from knotplot.drawing.chart_scene import Place, Scene
from knotplot.drawing.labels import (
    APART,
    LINE,
    Numbered,
    Spanned,
    bracketed,
    lines_of,
    shown_numbers,
    spread,
)
from knotplot.drawing.shapes import Item, Line, Stroke, Style, Text, TextAnchor
from knotplot.drawing.view_words import part_name

NUMBER = 0.9  # font size of row numbers
TICK = 0.45
COLUMN = 7.5  # how wide a section's name may be
NOTE = 7.0  # how wide a note at the right may be
MOST_COLUMNS = 6  # more columns side by side than this are named once a kind


class Pane(NamedTuple):
    """A window on the piece: from x0 to x1 (mm of the piece), moved by `shift` in the frame.

    `first` and `last` are its lanes (from 0); `cut_left` and `cut_right` tell where it is broken
    off. `name` is written above it.
    """

    x0: float
    x1: float
    first: int
    last: int
    shift: float = 0.0
    cut_left: bool = False
    cut_right: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True)
class Frame:
    """What is shown: panes from left to right, from y `top` to `bottom`, text `size` (mm).

    `numbers` are the first and last row (from 1) that are meant; of others a little may show.
    `repeat` is the bracketed lanes (from 0: first, how many), None where nothing repeats; `whole`
    tells that all of the piece is shown. `rest` is said of what isn't, below the last row.
    """

    scene: Scene
    panes: tuple[Pane, ...]
    top: float
    bottom: float
    size: float
    words: Mapping[str, str]
    language: str
    numbers: tuple[int, int]
    repeat: tuple[int, int] | None
    whole: bool
    rest: str = ""

    @property
    def left(self) -> float:
        """Return where the first pane begins."""
        return self.panes[0].x0 + self.panes[0].shift

    @property
    def right(self) -> float:
        """Return where the last pane ends."""
        return self.panes[-1].x1 + self.panes[-1].shift

    def lettering(self) -> list[Item]:
        """Return all that is written and drawn round the panes."""
        size = self.size
        pen = Style("line", 0.055 * size)
        left, right = self._numbered(self.panes[0].first), self._numbered(self.panes[-1].last, True)
        items: list[Item] = [Stroke(pen, lines=tuple(self._ticks(left, right)))]
        items += self._numbers(left, self.left - (TICK + 0.5) * size, right_side=False)
        items += self._numbers(right, self.right + (TICK + 0.5) * size, right_side=True)
        digits = len(str(len(self.scene.rows)))
        aside = (TICK + 0.5) * size + metrics.width("0" * digits, NUMBER * size)
        items += self._names(self.left - aside - 0.7 * size, pen)
        items += self._notes(self.right + aside + 0.5 * size, pen)
        taken = [box for item in items if isinstance(item, Text) and (box := of_text(item))]
        return [*items, *self._above(pen, taken)]

    # --- rows ----------------------------------------------------------------------------

    def _numbered(self, lane: int, last: bool = False) -> list[Numbered]:
        """Return the shown rows of the sections that have that lane."""
        parts, gauge = self.scene.piece.parts, self.scene.piece.gauge
        found = []
        for row, first_y, last_y in self._rows():
            part, y = parts[row.section], last_y if last else first_y
            if part.spans(gauge.x(lane), gauge.width):
                found.append(Numbered(row.number, row.section, y))
        return found

    def _rows(self) -> Sequence[Place]:
        """Return the rows that are meant to be shown."""
        first, last = self.numbers
        return self.scene.rows[first - 1 : last]

    def _ticks(self, left: Sequence[Numbered], right: Sequence[Numbered]) -> Iterator[Line]:
        size = self.size
        for rows, x in (
            (left, self.left - (0.2 + TICK) * size),
            (right, self.right + 0.2 * size),
        ):
            for row in rows:
                yield (x, row.y, x + TICK * size, row.y)

    def _numbers(self, rows: Sequence[Numbered], x: float, right_side: bool) -> Iterator[Item]:
        size = NUMBER * self.size
        anchor: TextAnchor = "start" if right_side else "end"
        for row in shown_numbers(rows, LINE * size):
            y = row.y + metrics.CAP_HEIGHT * size / 2.0
            yield Text(x, y, str(row.number), size, anchor)

    def _range(self, section: int) -> str:
        """Return a section's rows in words; nothing where it has none."""
        numbers = [place.row.number for place in self.scene.rows if place.row.section == section]
        if not numbers:
            return ""
        if len(numbers) == 1:
            return self.words["row"].format(numbers[0])
        return self.words["rows"].format(numbers[0], numbers[-1])

    # --- sections ------------------------------------------------------------------------

    def _names(self, x: float, pen: Style) -> list[Item]:
        """Return the names of the sections at the left side, each with its bracket."""
        size, lane = self.size, self.panes[0].first
        gauge = self.scene.piece.gauge
        meant = {place.row.section for place in self._rows()}
        tied = {place.row.section for place in self.scene.rows}
        shown = []
        for i, (part, stretch) in enumerate(
            zip(self.scene.piece.parts, self.scene.sections, strict=True)
        ):
            top, bottom = max(stretch.top, self.top), min(stretch.bottom, self.bottom)
            if i in tied and i not in meant:
                continue
            if part.spans(gauge.x(lane), gauge.width) and bottom - top > 1e-6:
                name = part_name(part, self.language)
                lines = metrics.wrap(name, COLUMN * size, size)
                rows = self._range(i)
                shown.append(Spanned(top, bottom, name, (*lines, rows) if rows else tuple(lines)))
        return bracketed(shown, x, -1, size, pen)

    def _notes(self, x: float, pen: Style) -> list[Item]:
        """Return what the lines across the piece are, at the right side."""
        size, scene, words = self.size, self.scene, self.words
        wanted: list[tuple[float, str]] = []
        if scene.line is not None and scene.fold is not None:
            wanted += [(scene.line, words["temporary line"]), (scene.fold, words["fold"])]
        for place in self._rows():
            if len(place.row.layers) > 1:
                wanted.append((place.last, words["join"]))
            elif place.row.layer == "tails":
                wanted.append((place.last, words["tails"]))
        if not self.panes[-1].cut_right:
            wanted.append((scene.piece.edge.y(scene.piece.gauge.width), words["edge"]))
        if self.rest:
            wanted.append((self.bottom, self.rest))
        wanted = sorted(each for each in wanted if self.top <= each[0] <= self.bottom)
        texts = [metrics.wrap(text, NOTE * size, size) for _, text in wanted]
        heights = [(len(lines) + APART) * LINE * size for lines in texts]
        middles = spread([y for y, _ in wanted], heights)
        pointers: list[Line] = []
        items: list[Item] = []
        for (y, _), lines, middle in zip(wanted, texts, middles, strict=True):
            pointers.append((x, y, x + 0.4 * size, y, x + 1.2 * size, middle))
            items += lines_of(lines, x + 1.45 * size, middle, size)
        return [Stroke(pen, lines=pointers), *items]

    # --- above ---------------------------------------------------------------------------

    def _above(self, pen: Style, taken: Sequence[Extent]) -> list[Item]:
        """Return the names of panes, the repeat's bracket, and the columns' names above it.

        None lies on the boxes `taken` by other lettering.
        """
        size, pitch = self.size, self.scene.piece.gauge.pitch
        y = self.top - 0.6 * size
        items: list[Item] = []
        texts: list[Text] = []
        named = y - 0.75 * size
        if self.repeat is not None:
            first, count = self.repeat
            pane = next(p for p in self.panes if p.first <= first <= p.last)
            x0, x1 = first * pitch + pane.shift, (first + count) * pitch + pane.shift
            items.append(Stroke(pen, lines=(bracket(x0, x1, y, size),)))
            words = self.words["repeat"].format(count)
            text = Text((x0 + x1) / 2.0, y - 0.75 * size, words, size, "middle")
            texts.append(lifted(text, taken, size))
            y -= 2.2 * size
            named = texts[0].y - LINE * size
        names = [metrics.width(pane.name, size) for pane in self.panes]
        for pane in self.panes:
            if pane.name and sum(names) + 2.0 * size < self.right - self.left:
                x = (pane.x1 if pane.cut_left else pane.x0) + pane.shift
                anchor: TextAnchor = "end" if pane.cut_left else "start"
                text = Text(x, named, pane.name, size, anchor, ink="quiet")
                texts.append(lifted(text, taken, size))
        items += texts
        return (
            [*items, *column_names(self._columns(), y, size, pen, taken)] if self.whole else items
        )

    def _columns(self) -> list[Column]:
        """Return the columns that don't begin at the left edge, with what is said of them."""
        width = self.scene.piece.gauge.width
        groups: dict[tuple[float, float], list[int]] = {}
        for i, part in enumerate(self.scene.piece.parts):
            if part.lane > 0:
                groups.setdefault(part.sides(width), []).append(i)
        found = sorted(groups.items())
        named = self._named([members for _, members in found])
        return [
            Column(x0, x1, self._block(members) if name else ())
            for ((x0, x1), members), name in zip(found, named, strict=True)
        ]

    def _named(self, groups: Sequence[Sequence[int]]) -> list[bool]:
        """Return which columns are named: all, or where they are many the first of each kind."""
        parts = self.scene.piece.parts
        kinds = [tuple(part_name(parts[i], self.language) for i in group) for group in groups]
        if len(groups) <= MOST_COLUMNS:
            return [True] * len(groups)
        return [kind not in kinds[:i] for i, kind in enumerate(kinds)]

    def _block(self, sections: Sequence[int]) -> tuple[str, ...]:
        """Return the lines that name a column's sections from top to bottom."""
        lines: list[str] = []
        for i in sections:
            name = part_name(self.scene.piece.parts[i], self.language)
            rows = self._range(i)
            lines.append(f"{name}, {rows}" if rows else name)
        return tuple(lines)
