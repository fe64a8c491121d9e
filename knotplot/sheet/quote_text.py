"""A quote in words: its lines as told on paper and screen alike, and as plain text."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import NamedTuple

from knotplot.materials.hours import CORD_MINUTES
from knotplot.materials.quote import Line, Quote
from knotplot.sheet.dye import with_colour
from knotplot.sheet.materials_part import cord_text
from knotplot.sheet.measures import plain
from knotplot.sheet.subject import Subject
from knotplot.units import both

_WIDTH = 76
_APART = 3  # blanks between columns


class Told(NamedTuple):
    """A line as told: what it is for, how it is reckoned, and its amount."""

    what: str
    how: str
    amount: str


def told(subject: Subject, line: Line) -> Told:
    """Return a line in words."""
    say, what = subject.say, line.what
    amount = say("none") if line.amount is None else money(line.amount)
    if what == "cord":
        how = say("quote cord free")
        if line.count is not None and line.price is not None:
            spools = say.count(int(line.count), "spool")
            how = say("quote cord how", spools=spools, price=money(line.price))
        return Told(
            say("quote cord", cord=_cord(subject, line.cord or "", line.colour)), how, amount
        )
    values: dict[str, object] = {}
    if what == "support":
        values = _support(subject)
    elif line.count is not None and line.price is not None:
        values = {"hours": money(line.count), "price": money(line.price)}
    elif line.share is not None and line.base is not None:
        values = {"percent": plain(100 * line.share, 2), "base": money(line.base)}
    return Told(say(f"quote {what}"), say(f"quote {what} how", **values), amount)


def _cord(subject: Subject, kind: str, colour: str | None = None) -> str:
    """Return a cord in words: its colour if it has one, its kind where there is more than one."""
    say = subject.say
    text = cord_text(subject, subject.pattern.cord_types[kind])
    if len({buy.kind for buy in subject.bill.shopping}) > 1:
        return say("cord kind", kind=with_colour(subject, say(f"kind {kind}"), colour), cord=text)
    return text if colour is None else say("cord kind", kind=colour, cord=text)


def _support(subject: Subject) -> dict[str, object]:
    support = subject.pattern.support
    if support is None:
        return {"material": subject.say("none"), "diameter": subject.say("none")}
    return {"material": support.material, "diameter": both(support.diameter)}


def money(amount: Decimal) -> str:
    """Write an amount with two decimals; a price given with more keeps them.

    >>> money(Decimal("1234.5")), money(Decimal("0.125"))
    ('1,234.50', '0.125')
    """
    exponent = amount.normalize().as_tuple().exponent
    places = max(2, -exponent) if isinstance(exponent, int) else 2
    return f"{amount:,.{places}f}"


def sums(subject: Subject, made: Quote) -> Iterator[Told]:
    """Yield the net price and the tax, where there is any."""
    if made.tax.share:
        yield Told(subject.say("quote net"), "", money(made.net))
        yield told(subject, made.tax)


def notes(subject: Subject, made: Quote) -> Iterator[str]:
    """Yield what to know of a quote: what isn't in it, what is left over, how it is rounded."""
    say = subject.say
    if made.left_out:
        kinds = "; ".join(_cord(subject, kind) for kind in made.left_out)
        yield say("quote left out", kinds=kinds)
    if subject.pattern.support is not None and all(line.what != "support" for line in made.lines):
        how = say("quote support how", **_support(subject))
        yield say("quote support out", support=how)
    if made.left_over:
        amount = money(made.left_over)
        yield say("quote left over", amount=amount, currency=made.currency)
    yield say("quote rounding")


# --- plain text ----------------------------------------------------------------------------------


def quote_text(subject: Subject, made: Quote) -> str:
    """Return a quote as plain text: hours by knot, then the lines, in columns."""
    say, pattern = subject.say, subject.pattern
    title = say("cord kind", kind=say("quote"), cord=pattern.title)
    lines = [
        title,
        "=" * min(len(title), _WIDTH),
        f"{both(pattern.width)} × {both(pattern.drop)}",
        "",
        *_columns(list(_hours(subject)), "<>><>"),
        "",
        *_columns(list(_lines(subject, made)), "<<>"),
        "",
    ]
    for note in notes(subject, made):
        lines += textwrap.wrap(note, _WIDTH, break_long_words=False, break_on_hyphens=False)
    return "\n".join(lines) + "\n"


def _hours(subject: Subject) -> Iterator[Sequence[str]]:
    """Yield the rows of the hours: heads, knots, cords, all."""
    say, time = subject.say, subject.bill.time
    *knots, cutting = map(money, time.told)
    heads = ("what", "count", "each", "whose", "title")
    yield [say(f"hours {head}") for head in heads]
    for each, hours in zip(time.knots, knots, strict=True):
        minutes = f"{float(each.minutes):,.2f}"
        yield say.knot(each.knot), f"{each.count:,}", minutes, say(f"hours {each.whose}"), hours
    minutes = f"{float(CORD_MINUTES):,.2f}"
    yield say("hours cutting"), f"{time.cords:,}", minutes, say("hours usual"), cutting
    yield say("hours total"), "", "", "", money(time.hours)


def _lines(subject: Subject, made: Quote) -> Iterator[Sequence[str]]:
    """Yield the rows of the quote: heads, lines, net price and tax, total."""
    say = subject.say
    yield say("quote what"), say("quote how"), say("quote amount", currency=made.currency)
    for line in made.lines:
        yield told(subject, line)
    yield from sums(subject, made)
    yield say("quote total"), "", money(made.total)


def _columns(rows: Sequence[Sequence[str]], sides: str) -> Iterator[str]:
    """Yield rows of cells in columns, a rule below the first and above the last."""
    wide = [max(map(len, cells)) for cells in zip(*rows, strict=True)]
    rule = "-" * (sum(wide) + _APART * (len(wide) - 1))
    for i, row in enumerate(rows):
        if i in (1, len(rows) - 1):
            yield rule
        cells = (f"{cell:{side}{w}}" for cell, side, w in zip(row, sides, wide, strict=True))
        yield (" " * _APART).join(cells).rstrip()
