"""Text set in lines: paragraphs, labels beside them, hanging numbers; each line a strip."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from knotplot.drawing import metrics
from knotplot.drawing.shapes import Fill, Group, Item, Style, Text, TextAnchor, Weight
from knotplot.sheet.flow import Strip, tied
from knotplot.sheet.paper import BESIDE, BODY, LABEL, LABELS, Face

#: Text with a weight of its own.
Span: TypeAlias = tuple[str, Weight]

_APART = 8.0  # between two columns
MOST_LABEL = 34  # characters: a longer label has no room in its column


def lines_of(text: str, width: float, face: Face) -> list[str]:
    """Return the lines of a text in that face, no wider than `width`."""
    return metrics.wrap(text, width, face.size, face.weight)


def baseline(face: Face) -> float:
    """Return where in its line the letters of a face stand."""
    return face.lead / 2.0 + metrics.CAP_HEIGHT * face.size / 2.0


def line(
    text: str, face: Face, x: float = 0.0, y: float = 0.0, anchor: TextAnchor = "start"
) -> Text:
    """Return one line of text, the top of which is at `y`."""
    return Text(x, y + baseline(face), text, face.size, anchor, face.weight, face.ink)


def paragraph(
    text: str, width: float, face: Face = BODY, x: float = 0.0, space: float = 0.0
) -> list[Strip]:
    """Return the strips of a text, a line each; breaks in it begin paragraphs.

    The first two lines and the last two stay together.
    """
    strips: list[Strip] = []
    for part in text.splitlines() or [""]:
        lines = lines_of(part, width, face)
        if not lines:
            continue
        last = len(lines) - 1
        strips += [
            Strip(
                face.lead,
                (line(words, face, x),),
                0.0 if i else space if not strips else 0.45 * face.lead,
                i < last and i in (0, last - 1),
            )
            for i, words in enumerate(lines)
        ]
    return strips


def beside(
    label: str, body: Sequence[Strip], space: float = 0.0, face: Face = LABEL
) -> list[Strip]:
    """Return `body` with a label in the column left of it, level with its first line.

    So many lines of the body stay together as the label has.
    """
    words = lines_of(label, LABELS, face)
    strips = list(body) or [Strip(face.lead)]
    strips += [Strip(face.lead)] * (len(words) - len(strips))
    for i, text in enumerate(words):
        strip = strips[i]
        strips[i] = replace(
            strip,
            items=(line(text, face), *strip.items),
            tied=strip.tied or i < len(words) - 1,
        )
    strips[0] = replace(strips[0], space=space)
    return strips


def numbered(
    number: str, text: str, width: float, x: float, space: float, face: Face = BODY,
    indent: float = 8.0,
) -> list[Strip]:  # fmt: skip
    """Return a text that hangs beside its number, further in where that is long."""
    mark = line(number, face._replace(weight="bold", ink="quiet"), x)
    indent = max(indent, metrics.width(number, face.size, "bold") + 2.0)
    strips = paragraph(text, width - indent, face, x + indent, space)
    first = strips[0]
    return [replace(first, items=(mark, *first.items)), *strips[1:]]


def side_by_side(columns: Sequence[Sequence[Strip]], space: float) -> list[Strip]:
    """Return columns of lines side by side as one run of strips, level line by line."""
    count = max(map(len, columns))
    strips = []
    for i in range(count):
        here = [column[i] for column in columns if i < len(column)]
        items = tuple(item for strip in here for item in strip.items)
        height = max(strip.height for strip in here)
        strips.append(Strip(height, items, 0.0 if i else space, i < count - 1))
    return strips


def in_two(texts: Sequence[str], width: float, face: Face) -> list[Strip]:
    """Return texts as a list in two columns, read down the first; it stays together."""
    wide = (width - _APART) / 2.0
    items = [numbered("–", text, wide, 0.0, 0.0, face, 5.0) for text in texts]
    lines = [len(strips) for strips in items]
    half = min(range(1, len(items) + 1), key=lambda n: (max(sum(lines[:n]), sum(lines[n:])), -n))
    right = [numbered("–", text, wide, wide + _APART, 0.0, face, 5.0) for text in texts[half:]]
    columns = [[strip for strips in column for strip in strips] for column in (items[:half], right)]
    return tied(side_by_side(columns, 1.2))


def panel(strips: Sequence[Strip], width: float, pad: float = 3.0, space: float = 0.0) -> Strip:
    """Return strips on a tinted ground as one, a bar of the accent at its left."""
    inner: list[Item] = []
    y = pad
    for i, strip in enumerate(strips):
        y += strip.space if i else 0.0
        inner += moved(strip.items, y)
        y += strip.height
    height = y + pad
    ground = Fill(Style(fill="tint"), polygons=((0, 0, width, 0, width, height, 0, height),))
    bar = Fill(Style(fill="accent"), polygons=((0, 0, 1.1, 0, 1.1, height, 0, height),))
    return Strip(height, (ground, bar, *inner), space)


def moved(items: Sequence[Item], y: float) -> list[Item]:
    """Return items moved down by `y` mm."""
    return [
        replace(item, y=item.y + y) if isinstance(item, Text) else Group((item,), dy=y)
        for item in items
    ]


def labelled(
    label: str, text: str, width: float, face: Face = BODY, space: float = 0.0
) -> list[Strip]:
    """Return a text with its label in the column of labels; before the text where it is long."""
    if len(label) > MOST_LABEL:
        return paragraph(f"{label}: {text}", width, face, BESIDE, space)
    return beside(f"{label}:", paragraph(text, width, face, BESIDE), space)


def heading(text: str, width: float, face: Face, space: float) -> list[Strip]:
    """Return a heading, which stays with what follows."""
    strips = tied(paragraph(text, width, face, 0.0, space))
    return [replace(strip, tied=True) for strip in strips]


def shortened(text: str, width: float, face: Face) -> str:
    """Return a text on one line, its end left out where it is too long.

    >>> shortened("alternating square knots", 20.0, BODY)
    'alternating…'
    """
    found = metrics.wrap(text, width, face.size, face.weight)
    if len(found) <= 1:
        return found[0] if found else ""
    room = width - metrics.width("…", face.size, face.weight)
    return metrics.wrap(text, room, face.size, face.weight)[0] + "…"
