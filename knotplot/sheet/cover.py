"""The cover: title, the piece drawn as cord, and the numbers that matter at a glance."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from knotplot.drawing.cord_symbols import shows_texture
from knotplot.drawing.cord_view import cord_view
from knotplot.drawing.crop import crop
from knotplot.drawing.limits import MOST_TIES
from knotplot.drawing.outline import outline
from knotplot.drawing.shapes import Anchor, Box, Drawing, Fill, Group, Item, Stroke, Style
from knotplot.sheet.dye import DISC, Dyed, coloured, disc, dyed
from knotplot.sheet.facts import named_sizes
from knotplot.sheet.figure import Fitted, fit
from knotplot.sheet.measures import metres, time
from knotplot.sheet.paper import CAPTION, LONG_TITLE, STANDFIRST, TITLE, Face
from knotplot.sheet.setting import line, lines_of, shortened
from knotplot.sheet.subject import Subject, knotted_rule
from knotplot.units import cm, inches

LINES = 5  # of the summary; a longer one stands on the next page
_COLUMNS = 4
_BETWEEN = 6.0
_PAD = 4.0  # round the picture; it has a margin of its own
_APART = 4.0  # between the picture and a part of it near
_LEAST_NEAR = 26.0  # mm high, that a part is shown near at all
_LARGER = 2.4  # than the whole, a part shown near at the least
_FACT = Face(3.5, 4.7, "bold")
_MOST_COLOURS = 4  # told one below another


def summary_on_cover(subject: Subject) -> list[str]:
    """Return the lines of a summary that is short enough for the cover, else none."""
    text = subject.pattern.summary or ""
    lines = lines_of(text, 0.86 * subject.paper.measure, STANDFIRST)
    return lines if len(lines) <= LINES and "\n" not in text.strip() else []


def cover(subject: Subject) -> tuple[Item, ...]:
    """Return the items of the cover, one page."""
    paper, say = subject.paper, subject.say
    items: list[Item] = [Anchor("cover", 0.0, say("cover"), 0)]
    y = _title(subject, items)
    facts = _Facts.of(subject)
    low = paper.bottom - facts.height
    items.append(Group(facts.items, dx=paper.left, dy=low))
    items += _panels(subject, y + 7.0, max(low - y - 15.0, 20.0))
    return tuple(items)


def _panels(subject: Subject, top: float, room: float) -> Iterator[Item]:
    """Yield the picture on its ground; below one that is much wider than high, a part of it near.

    Both take the width of the page and, with what is between them, `room` mm from `top`.
    """
    paper = subject.paper
    wide = paper.measure - 2 * _PAD
    made = fit(_picture(subject), wide, room - 2 * _PAD)
    if shows_texture(subject.piece, made.scale):
        made = made._replace(drawing=_picture(subject, made.scale))
    high = made.height + 2 * _PAD
    near = room - high - _APART
    if near < _LEAST_NEAR or subject.piece.tie_count > MOST_TIES:
        high, near = room, 0.0
    yield _ground(paper.left, top, paper.measure, high)
    x = paper.left + (paper.measure - made.width) / 2.0
    yield made.at(x, top + (high - made.height) / 2.0)
    if near:
        below = top + high + _APART
        yield _ground(paper.left, below, paper.measure, near)
        yield _near(subject, made, (paper.left, below, paper.measure, near))


def _near(subject: Subject, made: Fitted, box: Box) -> Group:
    """Return what of a picture fills a box when it is drawn larger: the middle of what is tied."""
    x, y, width, height = box
    whole = made.drawing
    scale = max(_LARGER * made.scale, min(height / whole.height, 1.0))
    scale = max(min(scale, 1.0), made.scale)
    across, down = width / scale, height / scale
    left = max(0.0, (whole.width - across) / 2.0)
    lowest = max(p.y + r.shift + p.shape.bottom for r in subject.piece.rows for p in r.placements)
    middle = lowest / subject.piece.edge.lowest() * whole.height / 2.0
    above = min(max(0.0, middle - down / 2.0), max(0.0, whole.height - down))
    window = (left, above, left + across, above + down)
    if shows_texture(subject.piece, scale):
        whole = _picture(subject, scale)
    inside = Group(crop(whole.items, window), clip=(left, above, across, down))
    return Group((inside,), dx=x - left * scale, dy=y - above * scale, scale=scale)


def _ground(x: float, y: float, width: float, height: float) -> Fill:
    polygon = (x, y, x + width, y, x + width, y + height, x, y + height)
    return Fill(Style(fill="tint"), polygons=(polygon,))


def _picture(subject: Subject, scale: float = 0.0) -> Drawing:
    """Return the piece drawn as cord to be shown at `scale`; with too many ties, its outline."""
    if subject.piece.tie_count > MOST_TIES:
        return outline(subject.layout, None, subject.say.language)
    return cord_view(subject.layout, scale)


def _title(subject: Subject, items: list[Item]) -> float:
    """Put title, designer and summary at the top of the page; return where they end."""
    paper, pattern = subject.paper, subject.pattern
    face = TITLE if len(lines_of(pattern.title, paper.measure, TITLE)) <= 2 else LONG_TITLE
    y = paper.top - 6.0
    for words in lines_of(pattern.title, paper.measure, face):
        items.append(line(words, face, paper.left, y))
        y += face.lead
    if pattern.designer:
        for words in lines_of(
            subject.say("by", designer=pattern.designer), paper.measure, STANDFIRST
        ):
            items.append(line(words, STANDFIRST, paper.left, y + 0.6))
            y += STANDFIRST.lead
    items.append(Group(knotted_rule(paper.measure, 1.2), dx=paper.left, dy=y + 2.6))
    y += 9.0
    for words in summary_on_cover(subject):
        items.append(line(words, STANDFIRST, paper.left, y))
        y += STANDFIRST.lead
    return y


class _Facts(NamedTuple):
    """The numbers at a glance, in columns: items from their upper left corner."""

    items: tuple[Item, ...]
    height: float

    @classmethod
    def of(cls, subject: Subject) -> _Facts:
        """Return the facts of a piece, wrapped."""
        paper = subject.paper
        wide = (paper.measure - (_COLUMNS - 1) * _BETWEEN) / _COLUMNS
        items: list[Item] = []
        y = 0.0
        told = list(_told(subject))
        for first in range(0, len(told), _COLUMNS):
            row = told[first : first + _COLUMNS]
            if len(row) < _COLUMNS:  # the last row's facts share the width
                wide = (paper.measure - (len(row) - 1) * _BETWEEN) / len(row)
            tallest = 0.0
            for i, (name, value) in enumerate(row):
                x = i * (wide + _BETWEEN)
                items.append(Stroke(Style("faint", 0.3), lines=((x, y, x + wide, y),)))
                items.append(line(name, CAPTION, x, y + 1.4))
                lines = list(_value(value, x, y + 5.8, wide))
                items += [item for each in lines for item in each]
                tallest = max(tallest, len(lines) * _FACT.lead)
            y += 5.8 + tallest + 3.2
        return cls(tuple(items), y - 3.2)


def _value(value: str | Sequence[Dyed], x: float, y: float, wide: float) -> Iterator[list[Item]]:
    """Yield the items of each line of a fact: words, or colours with a disc before each name."""
    if isinstance(value, str):
        lines = [words for part in value.split("\n") for words in _cut(part, wide)]
        for k, words in enumerate(lines):
            yield [line(words, _FACT, x, y + k * _FACT.lead)]
        return
    for k, colour in enumerate(value):
        top, at = y + k * _FACT.lead, x + DISC * bool(colour.ink)
        words = shortened(colour.text, wide - (at - x), _FACT)
        mark: list[Item] = [disc(colour.ink, x, top, _FACT)] if colour.ink else []
        yield [*mark, line(words, _FACT, at, top)]


def _colours(subject: Subject) -> Sequence[Dyed]:
    """Return the colours of the cords, the first few where there are many."""
    found = dict.fromkeys(cord.colour for cord in subject.piece.cords if cord.colour is not None)
    told = [dyed(subject, colour) for colour in found]
    if len(told) <= _MOST_COLOURS:
        return told
    kept = told[: _MOST_COLOURS - 1]
    return [*kept, Dyed(subject.say("more colours", count=len(told) - len(kept)), None)]


def _cut(text: str, width: float) -> list[str]:
    """Return the lines of a fact, three at the most."""
    lines = lines_of(text, width, _FACT)
    return lines if len(lines) <= 3 else [*lines[:2], shortened(" ".join(lines[2:]), width, _FACT)]


def _told(subject: Subject) -> Sequence[tuple[str, str | Sequence[Dyed]]]:
    """Return name and value of the facts."""
    say, pattern, bill = subject.say, subject.pattern, subject.bill
    size = "\n".join(
        say("size value", width=write(pattern.width), drop=write(pattern.drop))
        for write in (cm, inches)
    )
    total = sum((buy.total for buy in bill.shopping), Fraction(0))
    cords = say.count(len(subject.piece.cords), "cord")
    lengths = say.count(len({cut.length for cut in bill.cutting}), "length")
    hours = time(float(bill.time.hours), say)
    knots = sorted(bill.knots, key=lambda name: (-bill.knots[name], name))
    used = [say("used count", name=say.knot(n), count=f"{bill.knots[n]:,}") for n in knots]
    found: list[tuple[str, str | Sequence[Dyed]]] = [
        (say("size"), size),
        (say("cut"), say("cut value", cords=cords, lengths=lengths)),
        (say("cord"), metres(total, say)),
        (say("time"), "\n".join(part for part in (hours, pattern.skill) if part)),
        *([(say("colours"), _colours(subject))] if coloured(subject) else []),
        (say("used"), ", ".join(used)),
    ]
    names = [size.name for size in named_sizes(pattern)]
    return [*found, (say("named"), ", ".join(names))] if names else found
