"""Materials: what to buy, what to know before cutting, the cut list, the tools."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from knotplot.figures import board
from knotplot.materials.shopping import Buy
from knotplot.materials.spools import Spools
from knotplot.materials.support import rod_length
from knotplot.notices import in_trade_words
from knotplot.pattern.cord_parts import Cord
from knotplot.sheet.cutting_part import cutting
from knotplot.sheet.dye import coloured, dyed
from knotplot.sheet.flow import Strip
from knotplot.sheet.measures import mass, metres_line, plain, spool_length, spool_mass
from knotplot.sheet.paper import BODY, CAPTION, CELL, SECTION
from knotplot.sheet.setting import heading, in_two, panel, paragraph
from knotplot.sheet.subject import Part, SheetPart, Subject, part
from knotplot.sheet.support_part import hanging
from knotplot.sheet.table import Cell, Column, table
from knotplot.tape import to_cut
from knotplot.tying.names import capital
from knotplot.units import both

_STRONG = CELL._replace(weight="bold")
_TOOL = CELL
_BREAK = 6.0  # above a heading
_STRING_OVER = 400.0
# What a quote leaves out stands on the quote: its page may be handed on, this one is not.
_ON_QUOTE = frozenset({"cord_left_out_of_quote"})


def materials(subject: Subject) -> Part:
    """Return the part on materials and tools."""
    say = subject.say
    strips = [
        *_shopping(subject),
        *_notices(subject),
        *cutting(subject, _BREAK),
        *_tools(subject),
        *hanging(subject, _BREAK),
    ]
    return part(subject, "materials", strips, say("materials lead"))


PARTS = (SheetPart(10, "materials", materials, alone=True),)


# --- what to buy -----------------------------------------------------------------------------


def _shopping(subject: Subject) -> Iterator[Strip]:
    say, measure = subject.say, subject.paper.measure
    yield from heading(say("shopping"), measure, SECTION, 0.0)
    columns = (
        Column(say("kind"), 3.4),
        *((Column(say("colour"), 1.9),) if coloured(subject) else ()),
        Column(say("length"), 2.2, "end"),
        Column(say("spools"), 2.6, "end", _STRONG),
        Column(say("weight"), 1.7, "end"),
        Column(say("cost"), 1.8, "end"),
    )
    bought = subject.bill.shopping
    yield from table(columns, [_buy(subject, buy) for buy in bought], measure, 0.0, 1.0)
    for buy in bought:
        if buy.spools is not None and len(bought) == 1:
            count, bound = len(buy.spools.spools), buy.spools.lower_bound
            key = "no fewer" if count == bound else "no fewer than"
            text = say(key, bound=say.count(bound, "spool"), count=count)
            yield from paragraph(text, measure, CAPTION, 0.0, 1.6)
    if any(buy.mass.estimated for buy in bought):
        yield from paragraph(say("estimated"), measure, CAPTION, 0.0, 0.6)


def _buy(subject: Subject, buy: Buy) -> tuple[Cell, ...]:
    say = subject.say
    cord = subject.pattern.cord_types[buy.kind]
    weight = mass(buy.mass.mass_g(float(buy.total)), say)
    return (
        say("cord kind", kind=say(f"kind {buy.kind}"), cord=cord_text(subject, cord)),
        *((dyed(subject, buy.colour),) if coloured(subject) else ()),
        metres_line(buy.total, say),
        _spools(subject, cord, buy.spools),
        say("weight estimated", weight=weight) if buy.mass.estimated else weight,
        say("none") if buy.cost is None else say(
            "cost value", cost=f"{buy.cost:,.2f}", currency=buy.currency
        ),
    )  # fmt: skip


def cord_text(subject: Subject, cord: Cord) -> str:
    """Return a cord in words: thickness, construction and fibre."""
    say = subject.say
    return say(
        "cord text",
        diameter=plain(cord.diameter),
        construction=say(cord.construction),
        fibre=cord.fibre or say("fibre unknown"),
    )


def _spools(subject: Subject, cord: Cord, spools: Spools | None) -> str:
    say = subject.say
    if spools is None:
        return say("spools free")
    held = cord.spools or ((cord.spool,) if cord.spool is not None else ())
    units = subject.pattern.units if cord.spools else None  # of many, the maker's own are enough
    sizes = ", ".join(
        spool_mass(size.mass_g, say) if size.mass_g is not None
        else spool_length(size.length_mm or Fraction(0), say, units)
        for size in held
    )  # fmt: skip
    count = len(spools.spools)
    if cord.spools:
        return say("spools sizes", count=count, size=sizes)
    return say("spools value", count=f"{count:,}", size=sizes)


# --- what to know -----------------------------------------------------------------------------


def _notices(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    notices = (notice for notice in subject.notices if notice.key not in _ON_QUOTE)
    told = [_sentence(text) for text in in_trade_words(notices, say.language)]
    if not told:
        return
    yield from heading(say("notices"), paper.measure, SECTION, _BREAK)
    for i, text in enumerate(told):
        width = paper.measure - 10.0
        yield panel(paragraph(text, width, BODY, 5.0), paper.measure, 2.0, 1.4 if i else 1.6)


def _sentence(text: str) -> str:
    """Return a notice as a sentence: it begins with a capital, and ends with a full stop."""
    return f"{capital(text.removesuffix('.'))}."


# --- tools -----------------------------------------------------------------------------------


def _tools(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    yield from heading(say("tools"), paper.measure, SECTION, _BREAK)
    texts = (_support(subject), *_needed(subject))
    yield from in_two(texts, paper.measure, _TOOL)


def _support(subject: Subject) -> str:
    say, mounting = subject.say, subject.piece.mounting
    if mounting.support == "ring":
        return say("support ring", rod=both(mounting.rod))
    if not mounting.rod:
        return say("support none")
    held = subject.bill.support
    length = rod_length(float(subject.pattern.width)) if held is None else held.rod_length
    return say("support rod", rod=both(mounting.rod), length=to_cut(math.ceil(length)))


def _needed(subject: Subject) -> Iterator[str]:
    say, piece, size = subject.say, subject.piece, board(subject.pattern)
    yield say("tool board", width=both(size["width_mm"]), drop=both(size["drop_mm"]))
    yield say("tool scissors")
    yield say("tool tape")
    yield say("tool pins")
    yield say("tool tags")
    length = to_cut(math.ceil(piece.gauge.width + _STRING_OVER))
    if piece.mounting.pocket is not None:
        yield say("tool line", length=length)
    yield say("tool string", length=length)
    if any(part.finish == "combed" for part in piece.parts):
        yield say("tool comb")
    if any(cord.role != "main" for cord in piece.cords):
        yield say("tool needle")
