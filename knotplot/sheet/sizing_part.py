"""Sizes and measuring: the opening, the swatch, and the maker's own numbers worked through."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from knotplot.drawing.outline import outline
from knotplot.drawing.view_words import part_name
from knotplot.figures import board
from knotplot.kinds import kind_of
from knotplot.materials.calibration import READING, scales, served
from knotplot.pattern.parts import Swatch
from knotplot.pattern.strand_count import Option
from knotplot.sheet.facts import named_sizes
from knotplot.sheet.figure import figure, fitted
from knotplot.sheet.flow import Strip, led, tied
from knotplot.sheet.measures import plain
from knotplot.sheet.paper import BESIDE, BODY, CELL, SECTION, STRONG
from knotplot.sheet.setting import heading, labelled, numbered, panel, paragraph
from knotplot.sheet.subject import Part, SheetPart, Subject, part
from knotplot.sheet.table import Column, table
from knotplot.units import both

_STRONG = CELL._replace(weight="bold")
_BREAK = 8.0
_SAMPLE = 20  # cords a gauge is told over, where the swatch doesn't say
_LETTERS = 2.75
_TALLEST = 165.0
_LOWEST = 115.0  # and what measuring takes: a page
_BAND = 16.0  # mm of height that a section's name and measures take beside the outline


def sizes(subject: Subject) -> Part:
    """Return the part on sizes and measuring."""
    strips = [
        *_measuring(subject),
        *_outline(subject),
        *_swatching(subject),
        *_working_out(subject),
        *_board(subject),
        *_named(subject),
    ]
    return part(subject, "sizes", strips, subject.say("sizes lead"))


PARTS = (SheetPart(20, "sizes", sizes),)


def _measuring(subject: Subject) -> Iterator[Strip]:
    say, paper, pattern = subject.say, subject.paper, subject.pattern
    yield from heading(say("measure"), paper.measure, SECTION, 0.0)
    told = [labelled(*each, paper.main, BODY, 1.2) for each in say.pairs("measure")]
    yield from tied([strip for strips in told for strip in strips])
    if pattern.opening is not None:
        opening = pattern.opening
        text = say(
            "opening text",
            width=both(opening.width),
            overlap=both(opening.overlap),
            fullness=plain(opening.fullness, 3),
            result=both(pattern.width),
        )
        yield from labelled(say("opening"), text, paper.main, STRONG, 1.2)


# --- the swatch ------------------------------------------------------------------------------


def _swatching(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    yield from heading(say("swatch"), paper.measure, SECTION, _BREAK)
    swatches = subject.pattern.all_swatches
    first = swatches[0] if swatches else None
    strands = first.strands if first and first.strands else _SAMPLE
    rows = say.count(first.rows if first and first.rows else 4, "row")
    thick = plain(subject.piece.gauge.diameter, 2)
    texts = [text.format(diameter=thick, strands=strands, rows=rows) for text in say.list("swatch")]
    steps = [
        numbered(f"{i}.", text, paper.main, BESIDE, 1.0, BODY, 7.0)
        for i, text in enumerate(texts, start=1)
    ]
    yield from tied([strip for strips in steps for strip in strips])
    for swatch in swatches:
        yield from _swatch(subject, swatch)
    if swatches:
        told = [(say("swatch error label"), say("swatch error")), *_scaled(subject)]
        yield Strip(1.2, tied=True)
        for label, text in told:
            yield from tied(labelled(label, text, paper.main, BODY, 1.2))


def _swatch(subject: Subject, swatch: Swatch) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    name = say("swatch as given plain")
    if swatch.of:
        name = say("swatch as given", of=swatch.of.replace("_", " "))
    columns = (
        Column(name, 3.0),
        Column(say("as worked"), 2.2, "end"),
        Column(say("as hung"), 2.2, "end", _STRONG),
        Column(say("swatch sure"), 1.0, "end"),
    )
    width = say("swatch width plain")
    if swatch.strands:
        width = say("swatch width", strands=swatch.strands)
    height = say("swatch height plain")
    if swatch.rows:
        height = say("swatch height", rows=say.count(swatch.rows, "row"))
    minutes = None
    if swatch.minutes is not None:
        minutes = say("minutes value", minutes=plain(swatch.minutes))
    rows = [
        (width, *_measures(swatch.width, swatch.hung_width), _read(subject, swatch.gauge_width)),
        (height, *_measures(swatch.height, swatch.hung_height),
         _read(subject, swatch.gauge_height)),
        (say("swatch cord"), _length(swatch.cord_used), "", _cord_error(subject, swatch)),
        (say("swatch minutes"), minutes or "", "", ""),
    ]  # fmt: skip
    given = [row for row in rows if any(row[1:])]
    if given:
        yield from table(columns, given, paper.main, BESIDE, 3.0)


def _measures(worked: Fraction | None, hung: Fraction | None) -> tuple[str, str]:
    return _length(worked), _length(hung)


def _read(subject: Subject, length: Fraction | None) -> str:
    """Return how far off a measure may be, its two ends being read."""
    return "" if length is None else _within(subject, READING / float(length))


def _cord_error(subject: Subject, swatch: Swatch) -> str:
    """Return how far off the cord used may be: as it is read, and as ties differ."""
    if swatch.cord_used is None:
        return ""
    for scale in subject.bill.scales:
        if (scale.of, scale.rows) == (swatch.of, swatch.rows):
            return _within(subject, scale.error)
    return _read(subject, swatch.cord_used)


def _within(subject: Subject, share: float) -> str:
    return subject.say("within", percent=f"{100.0 * share:.1f}")


def _scaled(subject: Subject) -> Iterator[tuple[str, str]]:
    """Say, with a label each, which sections' knots go by which swatch, in height and in cord."""
    say, piece = subject.say, subject.piece
    high = piece.heights.swatches
    known = [scale for scale in subject.bill.scales if scale.factor is not None]
    tall = {i: piece.parts[i].tall for i in served(piece, high)}
    for key, by, factors in (
        ("height", served(piece, high), tall),
        ("cord", served(piece, [scale.of for scale in known]), scales(piece, known)),
    ):
        # A band that goes no further than it can has a factor of its own.
        alike: dict[tuple[str | None, float], dict[str, None]] = {}
        for i in by:
            if kind_of(piece.parts[i]).swatch_rank is not None:
                name = part_name(piece.parts[i], say.language)
                alike.setdefault((by[i], factors[i]), {})[name] = None
        for (of, factor), names in alike.items():
            text = say(f"scaled {key}", factor=plain(factor, 2), names=", ".join(names))
            yield _label(subject, key, of), text
        if not by:
            yield _label(subject, key, None), say(f"unscaled {key}")
    yield from _dropped(subject)


def _label(subject: Subject, key: str, of: str | None) -> str:
    """Return the label of what the swatch `of` something tells of height or cord."""
    say = subject.say
    return say(f"{key} label", by=say("by swatch", of=of.replace("_", " ")) if of else "")


def _dropped(subject: Subject) -> Iterator[tuple[str, str]]:
    """Say, with a label each, of which swatches the height is beyond what knots can have."""
    for swatch in subject.pattern.all_swatches:
        measured = swatch.gauge_height is not None and swatch.rows is not None
        if measured and swatch.of not in subject.piece.heights.swatches:
            yield _label(subject, "height", swatch.of), subject.say("dropped height")


def _length(length: Fraction | None) -> str:
    return "" if length is None else both(length)


# --- from width to strands -------------------------------------------------------------------


def _working_out(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    yield from heading(say("work out"), paper.measure, SECTION, _BREAK)
    for i, text in enumerate(_steps(subject), start=1):
        yield from numbered(f"{i}.", text, paper.main, BESIDE, 1.0, BODY, 7.0)
    count, width = subject.count, subject.pattern.width
    if any(option.width_mm is not None for option in count.options):
        columns = (
            Column(say("option count"), 2.0, face=_STRONG),
            Column(say("option width"), 2.6, "end"),
            Column(say("option change", width=both(width)), 2.6, "end"),
        )
        rows = [_option(subject, option) for option in count.options]
        yield from table(columns, rows, paper.main, BESIDE, 3.0)
    yield panel(
        paragraph(_target(subject), paper.main - 6.0, BODY, BESIDE), paper.measure, 2.6, 4.0
    )


def _steps(subject: Subject) -> Iterator[str]:
    say, count, pattern = subject.say, subject.count, subject.pattern
    swatch = next(iter(pattern.all_swatches), None)
    if count.estimate is not None and swatch is not None and swatch.gauge_width is not None:
        yield say(
            "step estimate",
            width=both(pattern.width),
            strands=swatch.strands,
            swatch=both(swatch.gauge_width),
            estimate=plain(count.estimate),
        )
    least = count.plus or count.repeat
    numbers = ", ".join(str(least + i * count.repeat) for i in range(3))
    key = "step repeat" if count.plus else "step repeat plain"
    if count.repeat == 1:
        key = "step repeat any"
    yield say(key, plus=count.plus, repeat=count.repeat, least=numbers)
    chosen = "step given" if pattern.strands.count is not None else "step chosen"
    yield say(chosen, count=count.count)


def _option(subject: Subject, option: Option) -> tuple[str, str, str]:
    say = subject.say
    name = f"{option.count:,}"
    if option.count == subject.count.count:
        name = say("chosen", count=name)
    change = round(100.0 * float(option.gauge_change or 0), 1)
    key = "option looser" if change > 0 else "option tighter" if change < 0 else "option same"
    return name, _length(option.width_mm), say(key, change=plain(abs(change)))


def _target(subject: Subject) -> str:
    """Return what a swatch must measure for the piece to come out at its size."""
    say, width, count = subject.say, subject.pattern.width, subject.count.count
    swatch = next(iter(subject.pattern.all_swatches), None)
    some = min(count, (swatch.strands if swatch and swatch.strands else None) or _SAMPLE)
    wide = both(width * some / count)
    if swatch is None:
        return say("no swatch", count=count, width=both(width), some=some, wide=wide)
    return say("target", some=some, wide=wide)


# --- sizes -----------------------------------------------------------------------------------


def _board(subject: Subject) -> Iterator[Strip]:
    say, paper, pattern = subject.say, subject.paper, subject.pattern
    size = board(pattern)
    yield from heading(say("board"), paper.measure, SECTION, _BREAK)
    swatch = next(iter(pattern.all_swatches), None)
    settles = swatch is not None and bool(swatch.hung_width or swatch.hung_height)
    text = say("board text" if settles else "board none")
    yield from led(paragraph(text, paper.main, BODY, BESIDE, 1.2))
    columns = (
        Column("", 1.6),
        Column(say("worked"), 2.6, "end"),
        Column(say("hung"), 2.6, "end", _STRONG),
    )
    rows = (
        (say("board width"), both(size["width_mm"]), both(pattern.width)),
        (say("board drop"), both(size["drop_mm"]), both(pattern.drop)),
    )
    yield from table(columns, rows, paper.main, BESIDE, 2.0)


def _named(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    found = named_sizes(subject.pattern)
    if not found:
        return
    yield from heading(say("named sizes"), paper.measure, SECTION, _BREAK)
    columns = (
        Column(say("size name"), 3.0, face=_STRONG),
        Column(say("width"), 2.4, "end"),
        Column(say("drop"), 2.4, "end"),
    )
    rows = [
        (
            say("here", name=size.name) if size.here else size.name,
            _length(size.width) or say("none"),
            _length(size.drop) or say("none"),
        )
        for size in found
    ]
    yield from table(columns, rows, paper.main, BESIDE, 1.6)


def _outline(subject: Subject) -> Iterator[Strip]:
    say, paper, piece = subject.say, subject.paper, subject.piece
    yield from heading(say("outline"), paper.measure, SECTION, _BREAK)
    names = {part_name(each, say.language) for each in piece.parts}
    tallest = min(_TALLEST, max(_LOWEST, _BAND * len(names)), paper.room - 20.0)
    guess = 0.7 * min(paper.measure / piece.gauge.width, tallest / piece.edge.lowest())
    made = fitted(
        lambda text: outline(subject.layout, text, say.language),
        guess, paper.measure, tallest, _LETTERS,
    )  # fmt: skip
    yield figure(made, (0.0, 0.0, paper.measure, made.height), 4.0)
