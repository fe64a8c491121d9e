"""Row by row: headings, rows with boxes to tick, motifs step by step, and a check after each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from knotplot.drawing import metrics
from knotplot.drawing.shapes import Anchor, Fill, Item, Style, Text
from knotplot.instructions.words import Heading, Line, Printed
from knotplot.sheet.flow import Strip, carried, tied
from knotplot.sheet.paper import BESIDE, BODY, LABEL, NOTE, SECTION, STRONG
from knotplot.sheet.setting import (
    heading,
    labelled,
    line,
    numbered,
    panel,
    paragraph,
    shortened,
)
from knotplot.sheet.subject import Part, SheetPart, Subject, part

_TICK = Style("accent", 0.35, "paper")
_BOX = 3.3
_ROW = 6.0  # from a box to its row
_CELL = (7.4, 4.6)  # a counted row's box
_NUMBER = 2.7
MOST_CELLS = 360  # rows told in one line that get a box each
_SHORT = 40.0  # mm, a section no higher stays on one page


def rows(subject: Subject) -> Part:
    """Return the part with the rows: the instructions without the finishing."""
    return part(subject, "rows", _strips(subject, subject.work), subject.say("rows lead"))


PARTS = (SheetPart(50, "rows", rows, alone=True),)


def _strips(subject: Subject, lines: Sequence[Line]) -> Iterator[Strip]:
    for head, inside in sections(lines):
        strips = list(_lines(subject, inside))
        if head is None:
            yield from strips
            continue
        if sum(strip.space + strip.height for strip in strips) <= _SHORT:
            strips = tied(strips)
        yield from _heading(subject, head)
        yield from carried(strips, _continued(subject, head.text))


def sections(lines: Iterable[Line]) -> Iterator[tuple[Heading | None, list[Printed]]]:
    """Yield each heading with the lines below it; what stands above the first has none."""
    head: Heading | None = None
    inside: list[Printed] = []
    for each in lines:
        if isinstance(each, Heading):
            if head is not None or inside:
                yield head, inside
            head, inside = each, []
        else:
            inside.append(each)
    if head is not None or inside:
        yield head, inside


def _lines(subject: Subject, lines: Sequence[Printed]) -> Iterator[Strip]:
    """Yield lines; the first step of a motif stays with the next."""
    for before, each in zip((None, *lines), lines, strict=False):
        first = each.sort == "step" and before is not None and before.sort == "figure"
        for strip in told(subject, each):
            yield replace(strip, tied=True) if first else strip


def _heading(subject: Subject, head: Heading) -> list[Strip]:
    strips = heading(head.text, subject.paper.measure, SECTION, 9.0)
    anchor = Anchor(f"section-{head.number}", -3.0, head.text, 1)
    strips[0] = replace(strips[0], items=(anchor, *strips[0].items))
    return strips


def _continued(subject: Subject, text: str) -> list[Strip]:
    say, measure = subject.say, subject.paper.measure
    rest = say("continued", heading="")
    room = measure - metrics.width(rest, LABEL.size, LABEL.weight)
    short = shortened(text, room, LABEL)
    return [Strip(8.0, (line(say("continued", heading=short), LABEL),), tied=True)]


def told(subject: Subject, each: Printed) -> list[Strip]:
    """Return the strips of one line of the instructions."""
    main, measure = subject.paper.main, subject.paper.measure
    match each.sort:
        case "row":
            return _row(each, main)
        case "check":
            strips = labelled(each.label, each.body, main - 6.0, BODY)
            box = tick(BESIDE - _ROW, 0.0)
            first = replace(strips[0], items=(box, *_indented(strips[0].items)))
            rest = [replace(strip, items=_indented(strip.items)) for strip in strips[1:]]
            return [panel([first, *rest], measure, 2.6, 3.4)]
        case "hint" | "fault":
            return labelled(each.label, each.body, main, NOTE._replace(lead=LABEL.lead), 2.4)
        case "figure":
            return [
                replace(strip, tied=True)
                for strip in paragraph(each.text, main, STRONG, BESIDE, 4.0)
            ]
        case "step":
            return numbered(f"({each.number})", each.body, main, BESIDE, 0.8, BODY, 9.5)
        case _:
            return paragraph(each.text, main, BODY, BESIDE, 1.8)


def _indented(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Return a label's text moved in, so that it keeps clear of the panel's side."""
    return tuple(
        replace(item, x=item.x + 4.0) if isinstance(item, Text) and item.x == 0.0 else item
        for item in items
    )


def tick(x: float, y: float, lead: float = BODY.lead, side: float = _BOX) -> Fill:
    """Return a box to tick, in the middle of a line that begins at `y`."""
    top = y + (lead - side) / 2.0
    return Fill(_TICK, polygons=((x, top, x + side, top, x + side, top + side, x, top + side),))


def _row(each: Printed, main: float) -> list[Strip]:
    """Return a row with its box; where the line tells several rows, a box for each below it."""
    strips = labelled(each.label, each.body, main, BODY, 2.2)
    if len(each.rows) <= 1 or len(each.rows) > MOST_CELLS:
        first = replace(strips[0], items=(*strips[0].items, tick(BESIDE - _ROW, 0.0)))
        return [first, *strips[1:]]
    width, height = _CELL
    across = max(1, int(main / width))
    cells = [
        Strip(height + 1.0, tuple(_cells(each.rows[i : i + across])), 0.6 if i == 0 else 0.0)
        for i in range(0, len(each.rows), across)
    ]
    return [*tied(strips[:-1]), replace(strips[-1], tied=True), *cells]


def _cells(numbers: Sequence[int]) -> Iterator[Item]:
    width, height = _CELL
    boxes = []
    for i in range(len(numbers)):
        x = BESIDE + i * width
        boxes.append((x, 0.3, x + width - 1.0, 0.3, x + width - 1.0, height, x, height))
    yield Fill(_TICK, polygons=boxes)
    for i, number in enumerate(numbers):
        x = BESIDE + i * width + (width - 1.0) / 2.0
        y = (height + 0.3) / 2.0 + 0.33 * _NUMBER
        yield Text(x, y, str(number), _NUMBER, "middle", "regular", "quiet")
