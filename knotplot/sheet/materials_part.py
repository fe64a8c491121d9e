"""Materials: what to buy, what to know before cutting, the cut list, the tools."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from knotplot.cord_use import SOURCE
from knotplot.figures import board
from knotplot.materials.allowance import SHARED_ERROR_MEASURED, SHARED_ERROR_TABLE
from knotplot.materials.shopping import Buy
from knotplot.materials.spools import Spools
from knotplot.pattern.parts import Cord
from knotplot.sheet.facts import ranges
from knotplot.sheet.flow import Strip
from knotplot.sheet.measures import long, mass, metres_line, plain
from knotplot.sheet.paper import BESIDE, BODY, CAPTION, CELL, LABEL, SECTION
from knotplot.sheet.setting import beside, heading, in_two, panel, paragraph
from knotplot.sheet.subject import Part, Subject, part
from knotplot.sheet.table import Column, table
from knotplot.units import both

_STRONG = CELL._replace(weight="bold")
_SMALL = CAPTION._replace(size=3.0, lead=4.3)
_TOOL = CELL
_BREAK = 6.0  # above a heading
_ROD_OVER = 100.0  # mm a rod is longer than the piece is wide, common practice
_STRING_OVER = 400.0


def materials(subject: Subject) -> Part:
    """Return the part on materials and tools."""
    say = subject.say
    strips = [
        *_shopping(subject),
        *_warnings(subject),
        *_cutting(subject),
        *_allowance(subject),
        *_plan(subject),
        *_tools(subject),
    ]
    return part(subject, "materials", strips, say("materials lead"))


# --- what to buy -----------------------------------------------------------------------------


def _shopping(subject: Subject) -> Iterator[Strip]:
    say, measure = subject.say, subject.paper.measure
    yield from heading(say("shopping"), measure, SECTION, 0.0)
    columns = (
        Column(say("kind"), 3.4),
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


def _buy(subject: Subject, buy: Buy) -> tuple[str, ...]:
    say = subject.say
    cord = subject.pattern.cord_types[buy.kind]
    weight = mass(buy.mass.mass_g(float(buy.total)), say)
    return (
        say("cord kind", kind=say(f"kind {buy.kind}"), cord=cord_text(subject, cord)),
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
    sizes = ", ".join(
        mass(float(size.mass_g), say) if size.mass_g is not None
        else f"{plain((size.length_mm or Fraction(0)) / 1000)} m"
        for size in held
    )  # fmt: skip
    if cord.spools:
        return say("spools sizes", count=len(spools.spools), size=sizes)
    return say("spools value", count=say.count(len(spools.spools), "spool"), size=sizes)


# --- what to cut -----------------------------------------------------------------------------


def _warnings(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    told = subject.piece.warnings
    if not told:
        return
    yield from heading(say("warnings"), paper.measure, SECTION, _BREAK)
    for i, text in enumerate(told):
        width = paper.measure - 10.0
        yield panel(paragraph(text, width, BODY, 5.0), paper.measure, 2.0, 1.4 if i else 1.6)


def _cutting(subject: Subject) -> Iterator[Strip]:
    say, bill, measure = subject.say, subject.bill, subject.paper.measure
    yield from heading(say("cutting"), measure, SECTION, _BREAK)
    columns = (
        Column(say("label"), 0.7, face=_STRONG),
        Column(say("role"), 1.4),
        Column(say("how many"), 1.1, "end", _STRONG),
        Column(say("each"), 2.6, "end", _STRONG),
        Column(say("ids"), 4.2),
    )
    kits = subject.pattern.kits
    rows = [
        (
            line.label,
            say(f"role {line.role}"),
            f"{len(line.cords) * kits:,}",
            long(line.length, say),
            ranges(line.cords),
        )
        for line in bill.cutting
    ]
    yield from table(columns, rows, measure, 0.0, 1.0)
    roles = {line.role for line in bill.cutting}
    notes = [say("ids note")]
    if subject.piece.mounting.strands_per_cord == 2:
        notes.append(say("folded note"))
    notes += [say(f"{role}s note") for role in ("leader", "wrap") if role in roles]
    yield from paragraph(" ".join(notes), measure, CAPTION, 0.0, 1.6)


def _allowance(subject: Subject) -> Iterator[Strip]:
    say, pattern, paper = subject.say, subject.pattern, subject.paper
    measured = subject.bill.measured
    error = SHARED_ERROR_MEASURED if measured else SHARED_ERROR_TABLE
    text = say(
        "allowance text",
        confidence=plain(100.0 * pattern.allowance.confidence, 3),
        step=both(pattern.cut.step),
        groups=pattern.cut.groups,
    )
    how = say("source measured" if measured else "source table", error=plain(100.0 * error))
    text = " ".join((text, say(f"source {SOURCE}"), how))
    body = paragraph(text, paper.main, _SMALL, BESIDE)
    yield from beside(say("allowance"), body, 3.4, LABEL._replace(size=2.9, lead=_SMALL.lead))


def _plan(subject: Subject) -> Iterator[Strip]:
    """Yield how each spool is cut, where that is known."""
    say, measure = subject.say, subject.paper.measure
    for buy in subject.bill.shopping:
        if buy.spools is None or len(buy.spools.spools) < 2:
            continue
        title = say("plan")
        if len(subject.bill.shopping) > 1:
            title = say("cord kind", kind=title, cord=say(f"kind {buy.kind}"))
        yield from heading(title, measure, SECTION, _BREAK)
        columns = (
            Column(say("plan spool"), 1.4, face=_STRONG),
            Column(say("plan take"), 5.0),
            Column(say("plan left"), 1.8, "end"),
        )
        yield from table(columns, list(_taken(subject, buy.spools)), measure, 0.0, 1.0)


def _taken(subject: Subject, spools: Spools) -> Iterator[tuple[str, str, str]]:
    say, first = subject.say, 1
    for spool, times in spools.alike:
        last = first + times - 1
        key = "plan one" if times == 1 else "plan many"
        pieces = ", ".join(say("plan line", count=n, label=label) for label, n in spool.pieces)
        yield say(key, first=first, last=last), pieces, long(spool.left_mm, say)
        first = last + 1


# --- tools -----------------------------------------------------------------------------------


def _tools(subject: Subject) -> Iterator[Strip]:
    say, paper = subject.say, subject.paper
    yield from heading(say("tools"), paper.measure, SECTION, _BREAK)
    texts = (_support(subject), *_needed(subject))
    yield from in_two(texts, paper.measure, _TOOL)


def _support(subject: Subject) -> str:
    say, mounting = subject.say, subject.piece.mounting
    if mounting.kind == "ring":
        return say("support ring", rod=both(mounting.rod))
    if not mounting.rod:
        return say("support none")
    length = both(subject.pattern.width + Fraction(_ROD_OVER))
    return say("support rod", rod=both(mounting.rod), length=length)


def _needed(subject: Subject) -> Iterator[str]:
    say, piece, size = subject.say, subject.piece, board(subject.pattern)
    yield say("tool board", width=both(size["width_mm"]), drop=both(size["drop_mm"]))
    yield say("tool scissors")
    yield say("tool tape")
    yield say("tool pins")
    yield say("tool tags")
    length = both(piece.gauge.width + _STRING_OVER)
    if piece.mounting.pocket is not None:
        yield say("tool line", length=length)
    yield say("tool string", length=length)
    if any(part.finish == "combed" for part in piece.parts):
        yield say("tool comb")
    if any(cord.role != "main" for cord in piece.cords):
        yield say("tool needle")
