"""What a commission costs: cord, support, labour, overhead, markup, tax, line by line.

What each share is taken of:

- materials = cord (whole spools, as they are bought: `shopping`) + support, if it has a price
- labour = hours × rate, the hours to 0.01 as they are told
- overhead = its share of materials + labour: what a workshop costs whether it knots or not
- markup = its share of the cost, materials + labour + overhead (so 25 % of the cost is a margin
  of 20 % of the price)
- net price = cost + markup
- tax = its share of the net price; total = net price + tax

Every line is rounded half-even to 0.01 and what follows is reckoned from the rounded lines, so
that the table adds up as printed. A share of nothing (0 %) makes no line.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

from knotplot.brief import Brief
from knotplot.errors import Path
from knotplot.materials.hours import WorkTime, hundredths
from knotplot.materials.shopping import Buy
from knotplot.notice import Notice, Value
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import Work

#: What a line is for.
What: TypeAlias = Literal["cord", "support", "labour", "overhead", "markup", "tax"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line: what it is for and its amount, None where its price isn't known.

    Either so many (spools, hours) at a price each, or a share of a base. `cord` is the kind of
    cord it is for, `colour` its colour where it has one.
    """

    what: What
    amount: Decimal | None
    count: Decimal | None = None
    price: Decimal | None = None
    share: Fraction | None = None
    base: Decimal | None = None
    cord: str | None = None
    colour: str | None = None


@dataclass(frozen=True, slots=True, repr=False)
class Quote(Brief):
    """A quote in one currency: its `lines` up to the net price, then tax and total.

    `left_over` is what the cord that is left over cost, None where no cord has a price.
    """

    currency: str
    lines: tuple[Line, ...]
    net: Decimal
    tax: Line
    total: Decimal
    left_over: Decimal | None = None

    @property
    def left_out(self) -> tuple[str, ...]:
        """Return the kinds of cord that have no price, and so aren't in the total."""
        left = (line.cord for line in self.lines if line.amount is None and line.cord)
        return tuple(dict.fromkeys(left))


def reckon(
    work: Work, hours: Decimal, materials: Sequence[Line], left_over: Decimal | None = None
) -> Quote:
    """Return the quote for `materials` and so many hours of work, all in the rate's currency.

    >>> work = Work(rate="20 EUR", overhead="10 %", markup="50 %", tax="20 %")
    >>> made = reckon(work, Decimal("2.5"), [Line("cord", Decimal("30.00"))])
    >>> [(line.what, str(line.amount)) for line in made.lines]
    [('cord', '30.00'), ('labour', '50.00'), ('overhead', '8.00'), ('markup', '44.00')]
    >>> str(made.net), str(made.tax.amount), str(made.total)
    ('132.00', '26.40', '158.40')
    """
    rate = work.rate.amount
    lines = [*materials, Line("labour", _times(rate, hours), hours, rate)]
    if work.overhead:
        lines.append(_share("overhead", work.overhead, _sum(lines)))
    if work.markup:
        lines.append(_share("markup", work.markup, _sum(lines)))
    net = _sum(lines)
    tax = _share("tax", work.tax, net)
    return Quote(work.rate.currency, tuple(lines), net, tax, _sum([*lines, tax]), left_over)


def quote(pattern: Pattern, shopping: Iterable[Buy], time: WorkTime) -> Quote | None:
    """Return the quote for a piece with what is bought for it; None without `work`."""
    if pattern.work is None:
        return None
    bought = tuple(shopping)
    return reckon(
        pattern.work, time.hours, [*_cords(pattern, bought), *_support(pattern)],
        _left_over(pattern, bought),
    )  # fmt: skip


def unpriced(pattern: Pattern, shopping: Iterable[Buy]) -> Iterator[Notice]:
    """Yield the cords that the quote leaves out, since what they cost isn't known."""
    if pattern.work is None:
        return
    for kind in dict.fromkeys(buy.kind for buy in shopping if buy.cost is None):
        priced = pattern.cord_types[kind].price_per_spool is not None
        place: Path = ("cord",) if pattern.cord is not None else ("cords", kind)
        missing = "spool" if priced else "price_per_spool"
        values: Mapping[str, Value] = {"kind": kind, "cord": place, "missing": missing}
        yield Notice("cord_left_out_of_quote", (*place, missing), "doubt", values)


def _cords(pattern: Pattern, bought: Iterable[Buy]) -> Iterator[Line]:
    for buy in bought:
        price = pattern.cord_types[buy.kind].price_per_spool
        if buy.cost is None or buy.spools is None or price is None:
            yield Line("cord", None, cord=buy.kind, colour=buy.colour)
        else:
            count = Decimal(len(buy.spools.spools))
            cost = hundredths(Fraction(buy.cost))
            yield Line("cord", cost, count, price.amount, cord=buy.kind, colour=buy.colour)


def _support(pattern: Pattern) -> Iterator[Line]:
    if pattern.support is not None and pattern.support.price is not None:
        yield Line("support", hundredths(Fraction(pattern.support.price.amount)))


def _left_over(pattern: Pattern, bought: Iterable[Buy]) -> Decimal | None:
    """Return what the cord left on the spools that are bought cost."""
    worth = [
        Fraction(price.amount) * spool.left_mm / spool.length_mm
        for buy in bought
        if buy.spools is not None
        for price in [pattern.cord_types[buy.kind].price_per_spool]
        if price is not None
        for spool in buy.spools.spools
    ]
    return hundredths(sum(worth, Fraction(0))) if worth else None


def _times(price: Decimal, count: Decimal) -> Decimal:
    return hundredths(Fraction(price) * Fraction(count))


def _share(what: What, share: Fraction, base: Decimal) -> Line:
    return Line(what, hundredths(share * Fraction(base)), share=share, base=base)


def _sum(lines: Iterable[Line]) -> Decimal:
    """Return the sum of the amounts, exactly: decimals' own sums are cut at 28 digits."""
    return hundredths(sum((Fraction(each.amount or 0) for each in lines), Fraction(0)))
