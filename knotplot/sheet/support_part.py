"""What the piece hangs on: the rod under its weight, as a table, a drawing and cautions."""

from __future__ import annotations

import math
from collections.abc import Iterator

from knotplot.drawing.bounds import bounds
from knotplot.drawing.dimensions import across
from knotplot.drawing.shapes import Drawing, Fill, Group, Item, Stroke, Style
from knotplot.materials.support import Bent, Support, fine
from knotplot.sheet.figure import figure, fitted
from knotplot.sheet.flow import Strip, led
from knotplot.sheet.measures import mass, plain
from knotplot.sheet.paper import CAPTION, CELL, SECTION
from knotplot.sheet.setting import heading, panel, paragraph
from knotplot.sheet.subject import Subject
from knotplot.sheet.table import Column, table
from knotplot.tape import to_cut
from knotplot.units import both

_STRONG = CELL._replace(weight="bold")
_FACTORS = (1, 2, 5, 10, 20, 50)  # a stiffer rod is drawn as straight as it looks
_LEAST_SAG = 0.13  # mm, below which it is none to be seen: 0.00 in
_STEPS = 60
_LETTERS = 2.75  # mm on the page
_TALLEST = 42.0
_HUNG = 0.045  # how much of the piece is drawn, and how far the sag may go, of the rod's length
_DEEPEST = 0.04


def hanging(subject: Subject, space: float) -> Iterator[Strip]:
    """Yield what is told of the rod and its load; nothing where the pattern gives no support."""
    found = subject.bill.support
    if found is None:
        return
    say, measure = subject.say, subject.paper.measure
    told = heading(say("hangs on"), measure, SECTION, space)
    if not found.gives_way:
        told += _picture(subject, found)
    columns = (
        Column(say("rod head"), 1.7), Column("", 2.0, "end", _STRONG),
        Column(say("under head"), 2.4), Column("", 2.2, "end", _STRONG),
    )  # fmt: skip
    pairs = zip(_rod(subject, found), _under(subject, found), strict=True)
    told += table(columns, [(*rod, *under) for rod, under in pairs], measure, 0.0, 1.0)
    creep = [say("rod creep", times=plain(1.0 + found.bent.creep))] if found.bent.creep else []
    cautions = "\n".join((say("rod cautions"), *creep, say("rod fixings")))
    yield from led(told)  # no figures without their cautions
    yield panel(paragraph(cautions, measure - 10.0, CELL, 5.0), measure, 1.6, 2.4)


def _rod(subject: Subject, found: Support) -> Iterator[tuple[str, str]]:
    say, size = subject.say, found.bent.size
    yield say("rod material"), _material(subject, found)
    yield say("rod thickness"), _size(subject, found.bent)
    yield say("rod span"), both(found.span)
    yield say("rod length"), to_cut(math.ceil(found.rod_length))
    yield say("rod own weight"), mass(found.bent.rod_g, say)
    least = found.smallest
    none = say("rod smallest none")
    # A tube's usual wall is told where the maker's own may differ from it.
    yield say("rod smallest"), none if least is None else _size(subject, least, size.wall is None)


def _under(subject: Subject, found: Support) -> Iterator[tuple[str, str]]:
    say, bent = subject.say, found.bent
    weight = mass(found.load_g, say)
    yield (
        say("rod weight"),
        say("mass estimated", mass=weight) if found.estimated else weight,
    )
    yield say("rod sag"), _sag(subject, found)
    yield say("rod sag limit"), fine(found.limit_mm)
    share = 100.0 * bent.stress / found.stock.stress
    stress = plain(found.stock.stress)
    share_told = "< 1" if share < 1.0 else f"{share:.0f}"
    yield say("rod stress"), say("rod stress value", share=share_told, stress=stress)
    newtons = f"{found.bracket_n:.0f}" if found.bracket_n >= 10 else f"{found.bracket_n:.1f}"
    carried = mass(found.bracket_g, say)
    yield say("rod bracket"), say("rod bracket value", weight=carried, newtons=newtons)
    yield say("rod spacing"), both(found.spacing)


def _sag(subject: Subject, found: Support) -> str:
    if found.gives_way:
        return subject.say("rod gives way")
    bent, say = found.bent, subject.say
    if bent.later_mm < _LEAST_SAG:
        return say("rod sag none")
    if not bent.creep:
        return fine(bent.sag_mm)
    now = say("rod sag none") if bent.sag_mm < _LEAST_SAG else fine(bent.sag_mm)
    return say("rod sag grows", now=now, later=fine(bent.later_mm))


def _material(subject: Subject, found: Support) -> str:
    say = subject.say
    name = say(f"stock {found.stock.name}")
    called = found.called.casefold()
    if called in (name, found.stock.name):
        return name
    # A found branch is a branch, whatever stands before it.
    return found.called if called.endswith(name) else say("rod of", called=found.called, stock=name)


def _size(subject: Subject, bent: Bent, plain_bar: bool = False) -> str:
    diameter, wall = bent.size
    if wall is None or plain_bar:
        return both(diameter)
    return subject.say("rod wall", diameter=both(diameter), wall=fine(wall))


# --- the drawing -----------------------------------------------------------------------------


def _picture(subject: Subject, found: Support) -> list[Strip]:
    """Return the rod on its brackets, bent, with the upper part of the piece, and its scale."""
    say, measure = subject.say, subject.paper.measure
    factor = exaggeration(found)
    made = fitted(
        lambda text: rod_drawing(found, factor, text, say("rod picture desc"), say.language),
        0.9 * measure / found.rod_length, measure, _TALLEST, _LETTERS,
    )  # fmt: skip
    key = "rod picture" if factor > 1 else "rod picture true"
    told = paragraph(say(key, factor=factor), measure, CAPTION, 0.0, 1.2)
    return [figure(made, (0.0, 0.0, measure, made.height), 1.0), *told]


def exaggeration(found: Support) -> int:
    """Return how many times as large the sag is drawn: a round number that leaves it in bounds."""
    room = _DEEPEST * found.rod_length
    return next((n for n in reversed(_FACTORS) if n * found.bent.later_mm <= room), 1)


def rod_drawing(
    found: Support, factor: int, text_mm: float, title: str, language: str = "en"
) -> Drawing:
    """Return the rod from the side, in mm about the middle of its span: bent `factor` times."""
    half, thick = found.rod_length / 2.0, found.bent.size.diameter
    thick = max(thick, 0.008 * found.rod_length)  # a thin one is drawn so that it can be seen
    xs = [half * (2.0 * i / _STEPS - 1.0) for i in range(_STEPS + 1)]
    line = [(x, factor * found.down(abs(x))) for x in xs]
    above, below = [(x, y - thick / 2.0) for x, y in line], [(x, y + thick / 2.0) for x, y in line]
    rod = tuple(value for point in (*above, *reversed(below)) for value in point)
    items: list[Item] = [
        *_cords(found, factor, thick),
        Fill(Style(stroke="cord-edge", width=0.06 * text_mm, fill="wood"), polygons=(rod,)),
        Stroke(
            Style("ink", 0.06 * text_mm, dash=(text_mm, 0.6 * text_mm)),
            lines=((-half, 0.0, half, 0.0),),
        ),
        *_brackets(found.span / 2.0, thick, text_mm),
        *across(
            -found.span / 2.0, found.span / 2.0, -thick - 1.4 * text_mm, -thick / 2.0, text_mm
        ),
    ]  # fmt: skip
    x0, y0, x1, y1 = bounds(items)
    group = Group(tuple(items), dx=-x0, dy=-y0)
    return Drawing(x1 - x0, y1 - y0, (group,), title, title, language)


def _cords(found: Support, factor: int, thick: float) -> Iterator[Item]:
    """Yield the top of the piece, hanging from the bent rod."""
    half, hung = found.width / 2.0, _HUNG * found.rod_length
    count = 40
    xs = [half * (2.0 * i / count - 1.0) for i in range(count + 1)]
    tops = [factor * found.down(abs(x)) for x in xs]
    cords = [(x, y, x, y + thick / 2.0 + hung) for x, y in zip(xs, tops, strict=True)]
    yield Stroke(Style("cord-shade", 0.3 * found.width / count), lines=cords)


def _brackets(at: float, thick: float, text_mm: float) -> Iterator[Item]:
    """Yield the two brackets as wedges that the rod lies on."""
    tall = 1.6 * text_mm
    wedges = [
        (x, thick / 2.0, x + tall / 2.0, thick / 2.0 + tall, x - tall / 2.0, thick / 2.0 + tall)
        for x in (-at, at)
    ]
    yield Fill(Style(stroke="paper", width=0.12 * text_mm, fill="ink"), polygons=wedges)
