"""What to cut: the cut list, folds, fewer lengths, spools, the allowance, where the cord goes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from knotplot.cord_use import SOURCE
from knotplot.drawing.shapes import Fill, Item, Style, Text
from knotplot.materials.allowance import SHARED_ERROR_MEASURED, SHARED_ERROR_TABLE
from knotplot.materials.lengths import Cutting
from knotplot.materials.remaining import folds
from knotplot.materials.report import Shares, shares
from knotplot.materials.spools import Spool, Spools
from knotplot.sheet.cord_bars import LOOKS, Bar, bars, legend
from knotplot.sheet.dye import coloured, dyed, with_colour
from knotplot.sheet.flow import Strip, led, tied
from knotplot.sheet.measures import long, metres_line, plain, spool_length
from knotplot.sheet.paper import BESIDE, BODY, CAPTION, CELL, LABEL, SECTION
from knotplot.sheet.rows_part import tick
from knotplot.sheet.setting import beside, heading, paragraph
from knotplot.sheet.subject import Subject
from knotplot.sheet.table import Column, table
from knotplot.sheet.words import Words
from knotplot.tying.names import ranges
from knotplot.units import MM, both

_STRONG = CELL._replace(weight="bold")
_SMALL = CAPTION._replace(size=3.0, lead=4.3)
_SMALL_LABEL = LABEL._replace(size=2.9, lead=_SMALL.lead)
_BOX = (7.4, 4.6)  # a numbered box to tick
_NUMBER = 2.7
TICKED = 6.0  # mm from a box to its line
MOST_BOXES = 360
_NOTHING = 5.0  # mm; less is none to use
MOST_BARS = 14  # lengths drawn; the others are told by the cut list alone


def cutting(subject: Subject, space: float) -> Iterator[Strip]:
    """Yield all that is told of cutting, headings `space` mm apart from what is above."""
    yield from _list(subject, space)
    yield from _folds(subject, space)
    yield from _plan(subject, space)
    yield from _fewer(subject, space)
    yield from _allowance(subject)
    yield from _goes(subject, space)


# --- the cut list ----------------------------------------------------------------------------


def _list(subject: Subject, space: float) -> Iterator[Strip]:
    say, bill, measure = subject.say, subject.bill, subject.paper.measure
    yield from heading(say("cutting"), measure, SECTION, space)
    columns = (
        Column(say("label"), 0.7, face=_STRONG),
        Column(say("role"), 1.4),
        *((Column(say("colour"), 1.5),) if coloured(subject) else ()),
        Column(say("how many"), 1.1, "end", _STRONG),
        Column(say("each"), 2.6, "end", _STRONG),
        Column(say("ids"), 4.2),
    )
    kits = subject.pattern.kits
    rows = [
        (
            line.label,
            say(f"role {line.role}"),
            *((dyed(subject, line.colour),) if coloured(subject) else ()),
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
        notes.append(say("folded note" if bill.fold_saves is None else "uneven note"))
    added = [cord.id for cord in subject.piece.cords if cord.added]
    if added:
        notes.append(say("added note", cords=ranges(added)))
    notes += [say(f"{role}s note") for role in ("leader", "wrap") if role in roles]
    yield from paragraph(" ".join(notes), measure, CAPTION, 0.0, 1.6)


def _folds(subject: Subject, space: float) -> Iterator[Strip]:
    """Yield where cords are folded, if not in the middle, and what that saves."""
    say, bill, measure = subject.say, subject.bill, subject.paper.measure
    saved = bill.fold_saves
    if saved is None:
        return
    yield from heading(say("folds"), measure, SECTION, space)
    columns = (
        Column(say("label"), 0.7, face=_STRONG),
        Column(say("fold left"), 2.4, "end", _STRONG),
        Column(say("fold right"), 2.4, "end"),
        Column(say("ids"), 4.2),
    )
    of = {cord: line for line in bill.cutting for cord in line.cords}
    parted = [
        (line, left, mine)
        for left, cords in folds(bill.lengths)
        for line, mine in _by_line(cords, of)
    ]
    parted.sort(key=lambda each: bill.cutting.index(each[0]))
    rows = [
        (line.label, long(left, say), long(float(line.length) - left, say), ranges(mine))
        for line, left, mine in parted
    ]
    yield from table(columns, rows, measure, 0.0, 1.0)
    told = say("fold saves", saved=_total(saved, say)) if saved > 0 else say("fold saves none")
    yield from paragraph(f"{say('fold text')} {told}", measure, CAPTION, 0.0, 1.6)


def _by_line(
    cords: Sequence[str], of: Mapping[str, Cutting]
) -> Iterator[tuple[Cutting, tuple[str, ...]]]:
    """Yield the lines of the cut list that some cords are of, each with those of them."""
    for line in dict.fromkeys(of[cord] for cord in cords):
        yield line, tuple(cord for cord in cords if of[cord] is line)


def _fewer(subject: Subject, space: float) -> Iterator[Strip]:
    """Yield what fewer lengths would cost, where cords of a kind are cut in several."""
    say, bill, paper = subject.say, subject.bill, subject.paper
    if not bill.waste:
        return
    yield from heading(say("fewer"), paper.measure, SECTION, space)
    yield from led(paragraph(say("fewer text"), paper.measure, BODY, 0.0, 0.6))
    columns = (
        Column(say("fewer role"), 1.8),
        Column(say("fewer lengths"), 1.4, "end", _STRONG),
        Column(say("fewer total"), 1.8, "end"),
        Column(say("fewer more"), 1.8, "end"),
    )
    rows = []
    for each in bill.waste:
        last = len(each.totals)
        role = with_colour(subject, say(f"role {each.role}"), each.colour)
        for count, total in enumerate(each.totals, start=1):
            more = total - each.totals[-1]
            rows.append(
                (
                    role if count == 1 else "",
                    say("fewer here", count=count) if count == last else f"{count}",
                    metres_line(total, say),
                    _total(more, say) if more else say("fewer none"),
                )
            )
    yield from table(columns, rows, paper.measure, 0.0, 1.0)


def _total(length: Fraction | float, say: Words) -> str:
    """Return what many cords come to (mm), in metres and yards however little it is."""
    return say(
        "long", metres=f"{float(length) / 1000:,.1f}", yards=f"{float(length / MM['yd']):,.1f}"
    )


# --- the allowance ---------------------------------------------------------------------------


def _gathered(subject: Subject) -> str:
    """Return how many lengths the cords of a kind are cut in."""
    say, groups = subject.say, subject.pattern.cut.groups
    each = say("allowance colours" if coloured(subject) else "allowance kinds")
    return say("gathered auto" if groups == "auto" else "gathered", groups=groups, each=each)


def _allowance(subject: Subject) -> Iterator[Strip]:
    say, pattern, paper, bill = subject.say, subject.pattern, subject.paper, subject.bill
    error = SHARED_ERROR_MEASURED if bill.measured else SHARED_ERROR_TABLE
    text = say(
        "allowance text",
        confidence=plain(100.0 * pattern.allowance.confidence, 3),
        step=both(pattern.cut.step),
        gathered=_gathered(subject),
    )
    how = say("source measured" if bill.measured else "source table", error=plain(100.0 * error))
    text = " ".join((text, say(f"source {SOURCE}"), how))
    body = paragraph(text, paper.main, _SMALL, BESIDE)
    body += paragraph(_flat(subject), paper.main, _SMALL, BESIDE, 1.2)
    yield from tied(beside(say("allowance"), body, 3.4, _SMALL_LABEL))


def _flat(subject: Subject) -> str:
    """Return what a flat tenth would be beside the allowance."""
    say, flat, cords = subject.say, subject.bill.flat, len(subject.bill.lengths)
    key = {0: "none", cords: "all"}.get(flat.short, "one" if flat.short == 1 else "many")
    return say(
        "flat",
        allowance=_total(flat.allowance, say),
        flat=_total(flat.flat, say),
        short=say(f"flat short {key}", count=flat.short, cords=cords),
    )


# --- where it goes ---------------------------------------------------------------------------


def _goes(subject: Subject, space: float) -> Iterator[Strip]:
    """Yield bars of where the cord of each length goes, and what each part takes in all."""
    say, bill, measure = subject.say, subject.bill, subject.paper.measure
    found = shares(bill.report, bill.cutting)
    yield from heading(say("goes"), measure, SECTION, space)
    text = say("goes text")
    if len(bill.cutting) > MOST_BARS:
        text = f"{text} {say('goes first', count=MOST_BARS)}"
    yield from led(paragraph(text, measure, BODY, 0.0, 0.6))
    drawn = [
        Bar(line.label, long(line.length, say), tuple(each._asdict().items()))
        for line, each in zip(bill.cutting, found, strict=True)
    ]
    yield from bars(drawn[:MOST_BARS], measure, 2.0)
    counts = [len(line.cords) for line in bill.cutting]
    total = _sum(found, counts)
    told = [
        (name, say("goes share", what=say(f"goes {name}"), share=f"{100.0 * mm / total.total:.0f}"))
        for name, mm in total._asdict().items()
        if name in LOOKS and mm > 0.0
    ]
    yield from legend(told, measure)


def _sum(found: Sequence[Shares], counts: Sequence[int]) -> Shares:
    """Return the shares of all cords together (mm)."""
    columns = zip(*found, strict=True)
    return Shares(*(sum(mm * n for mm, n in zip(each, counts, strict=True)) for each in columns))


# --- the spools ------------------------------------------------------------------------------


def _plan(subject: Subject, space: float) -> Iterator[Strip]:
    """Yield how each spool is cut, where there are several, with boxes to tick."""
    say, measure = subject.say, subject.paper.measure
    for buy in subject.bill.shopping:
        if buy.spools is None or len(buy.spools.spools) < 2:
            continue
        title = say("plan")
        if len(subject.bill.shopping) > 1:
            cord = with_colour(subject, say(f"kind {buy.kind}"), buy.colour)
            title = say("cord kind", kind=title, cord=cord)
        yield from heading(title, measure, SECTION, space)
        text = say("plan text")
        if buy.spools.joins:
            joins = say.count(buy.spools.joins, "plan joins")
            text = f"{text} {say('plan joins', joins=joins)}"
        yield from led(paragraph(text, measure, BODY, 0.0, 0.6))
        yield from _spools(subject, buy.spools)


def _spools(subject: Subject, spools: Spools) -> Iterator[Strip]:
    """Yield what comes off each spool, those cut alike together, and a box for each."""
    say, main = subject.say, subject.paper.main
    first = 1
    for spool, times in spools.alike:
        last = first + times - 1
        size = spool_length(spool.length_mm, say, subject.pattern.units)
        key = "plan one" if times == 1 else "plan many"
        cuts = say("plan all" if times == 1 else "plan each", cuts=_cuts(subject, spool))
        left = _left(subject, spool)
        body = paragraph(f"{cuts} {left}", main, BODY, BESIDE)
        label = say(key, first=first, last=last, size=size)
        strips = beside(label, body, 2.2, LABEL)
        if times == 1:
            first_line = (*strips[0].items, tick(BESIDE - TICKED, 0.0))
            strips = [replace(strips[0], items=first_line), *strips[1:]]
        elif times <= MOST_BOXES:
            strips = [*strips, *_boxes(range(first, last + 1), main)]
        yield from tied(strips) if times <= 2 * int(main / _BOX[0]) else strips
        first = last + 1


def _left(subject: Subject, spool: Spool) -> str:
    """Return what is left of a spool, in words."""
    if spool.left_mm < _NOTHING:
        return subject.say("plan left none")
    return subject.say("plan left", left=long(spool.left_mm, subject.say))


def _cuts(subject: Subject, spool: Spool) -> str:
    """Return what is cut off a spool in order; what leaders and wraps take of the rest, last."""
    say = subject.say
    roles = {line.label: line.role for line in subject.bill.cutting}
    found = []
    for i, (rest, some) in enumerate(
        groupby(spool.pieces, key=lambda piece: roles[piece[0]] != "main")
    ):
        pieces = list(some)
        cuts = say("plan then").join(say("plan line", count=n, label=label) for label, n in pieces)
        if rest and i:
            told = dict.fromkeys(say(f"role {roles[label]}") for label, _ in pieces)
            found.append(say("plan rest", cuts=cuts, roles=", ".join(told)))
        else:
            found.append((say("plan then") if i else "") + cuts)
    return "".join(found)


def _boxes(numbers: Sequence[int], width: float) -> Iterator[Strip]:
    """Yield rows of numbered boxes to tick, a spool each."""
    wide, high = _BOX
    across = max(1, int(width / wide))
    for at in range(0, len(numbers), across):
        items: list[Item] = []
        for i, number in enumerate(numbers[at : at + across]):
            x = BESIDE + i * wide
            box = (x, 0.3, x + wide - 1.0, 0.3, x + wide - 1.0, high, x, high)
            items.append(Fill(Style("accent", 0.35, "paper"), polygons=(box,)))
            middle, base = x + (wide - 1.0) / 2.0, (high + 0.3) / 2.0 + 0.33 * _NUMBER
            items.append(Text(middle, base, str(number), _NUMBER, "middle", "regular", "quiet"))
        yield replace(Strip(high + 1.0, tuple(items)), space=0.6 if at == 0 else 0.0)
