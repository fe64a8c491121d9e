"""English: every word of the printed instructions, put together from records.

Another language is one more file like this one, with the same public names. A record or a key
without words here is an error, never silence. Terms are those of the United States; the glossary
has others.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, assert_never

from knotplot.instructions.records import (
    Action,
    AddCords,
    Bar,
    Bare,
    Check,
    ColourOrder,
    Cross,
    EndCords,
    Figure,
    FigureName,
    Finishing,
    FoldMark,
    Hang,
    HitchLine,
    Instruction,
    Join,
    Knot,
    Leave,
    Motif,
    Note,
    Opening,
    OtherColours,
    PlacesKnot,
    RowsAgain,
    RowsAs,
    RowWork,
    Section,
    SectionsAgain,
    Starred,
    Step,
    StepsAgain,
    TrimMark,
    Upright,
    Wrap,
)
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.tying.names import capital, listed, ranges
from knotplot.units import both

LANGUAGE = "en"


class Term(NamedTuple):
    """A word of the sheet (US), what else it is called (UK and elsewhere), and what it is."""

    term: str
    also: str
    meaning: str


# Common practice of the trade.
GLOSSARY = (
    Term("alternating square knots", "network, mesh", "rows in which every knot joins the halves "
         "of two knots above"),
    Term("double half hitch", "clove hitch; cording", "two turns of one cord round another"),
    Term("filler cord", "core cord, lazy cord", "a cord that the working cords are tied round"),
    Term("fringe", "tassel ends", "the ends left hanging below the last knot"),
    Term("gathering knot", "wrapping knot", "a cord wound round a bundle, its ends pulled inside"),
    Term("gauge", "tension", "how many cords and rows give a width and a height"),
    Term("half knot", "macramé knot", "the first half of a square knot; repeated, it twists"),
    Term("holding cord", "foundation cord, mounting cord", "what cords hang on, or a leader"),
    Term("lark's head", "cow hitch", "a folded cord looped over what it hangs on"),
    Term("leader", "holding cord, carrier", "the cord that others are hitched onto"),
    Term("row of double half hitches", "bar, rib", "double half hitches side by side on a leader"),
    Term("sennit", "sinnet, braid", "a braid of one knot tied again and again"),
    Term("square knot", "flat knot, double knot", "two half knots, the second begun from the "
         "other side"),
)  # fmt: skip

# Of each kind of section; a test parses them back, so no two are alike.
KINDS = {
    "square_knot_mesh": "Alternating square knots",
    "hitch_line": "Horizontal row of double half hitches",
    "motif_band": "Motifs",
    "sennits": "Sennits",
    "gather": "Gathering knot",
    "tassel": "Tassel",
    "free": "Bare cords",
    "fringe": "Fringe",
}
MOUNTS = {
    "rod_pocket": "rod pocket",
    "larks_head": "lark's heads on a rod",
    "reverse_larks_head": "reverse lark's heads on a rod",
    "hitched": "double half hitches on a branch or rod",
    "ring": "through a ring",
    "open": "no support",
}
_SUPPORTS = {
    "ring": "the top of the ring",
    "open": "the top ends of the cords",
    "hitched": "the top of the branch or rod",
}
_NOUNS = {
    "back": ("row", "rows"),
    "cut": ("cord", "cords"),
    "cords": ("cord", "cords"),
    "after": ("cord", "cords"),
}

_DO = {
    "mount_rod_pocket": "Tie a temporary line level across the board. Hang the {cut} side by side "
    "over it, each with a short end of {tail} behind and its long end in front. Work this band "
    "with the long ends.",
    "mount_larks_head": "Fold each of the {cut} in half. Loop them over the rod, {rod} thick, from "
    "left to right: the loop goes over the rod to the back, both ends come through it, and the bar "
    "of the loop lies in front. {cords} then hang.",
    "mount_reverse_larks_head": "Fold each of the {cut} in half. Loop them over the rod, {rod} "
    "thick, from left to right: the loop comes over the rod from behind, both ends go through it, "
    "and the bar of the loop lies behind. {cords} then hang.",
    "mount_hitched": "Hitch the {cut} onto the branch or rod, {rod} thick, from left to right. "
    "Leave an end of {tail} above each hitch.",
    "fold_each": "Fold each of the {cut} at its own place, measured from the end that hangs on the "
    "left, and mark the fold with a pin:",
    "fold_by_list": "Fold each of the {cut} at its own place, which the cut list gives.",
    "mount_larks_head_uneven": "Loop them over the rod, {rod} thick, from left to right, each with "
    "its measured side on the left: the loop goes over the rod to the back, both ends come through "
    "it, and the bar of the loop lies in front. {cords} then hang.",
    "mount_reverse_larks_head_uneven": "Loop them over the rod, {rod} thick, from left to right, "
    "each with its measured side on the left: the loop comes over the rod from behind, both ends "
    "go through it, and the bar of the loop lies behind. {cords} then hang.",
    "mount_ring_uneven": "Thread them through the ring, {rod} across, up to their folds. Nothing "
    "is tied. Lay the ends flat from left to right, the measured side of each on the left: {cords} "
    "then hang.",
    "mount_ring": "Fold each of the {cut} in half and thread it through the ring, {rod} across. "
    "Nothing is tied. Lay the ends flat from left to right: {cords} then hang.",
    "mount_open": "Lay the {cut} side by side and hold them with a clamp or pins. Leave {tail} "
    "above the first row for the top fringe.",
    "pocket_halves": "The first {back} of the band make the back of the pocket, the others its "
    "front.",
    "pocket_front": "The whole band becomes the front of the pocket.",
    "pocket_band": "The band should now be {band} long, from the line to its last row.",
    "pocket_fold": "Fold the band over the rod, {rod} thick: the temporary line goes behind, "
    "level with the last row. The short ends now hang from it: these are the tails, one behind "
    "every cord. Bring them to the front between the cords.",
    "pocket_join": "Now join the back to the front with a row of square knots, tied round tails "
    "and cords together.",
    "pocket_line": "Draw the temporary line out once the whole row is joined.",
    "pocket_tails": "Let the tails hang in front. They are a layer of their own: rows say when "
    "they are worked, all others leave them alone.",
    "set_aside": "Lay {added} aside: they are added in the course of the work, in this order, each "
    "folded in half.",
    "recounted": "The {cords} of this section have become {after}; rows below count these.",
    "bare": "Let these cords hang bare for {length}.",
    "hang_down": "Let these cords hang down to the trim line, which is marked at the end. Cut "
    "nothing yet.",
    "fringe_combed": "This fringe is combed out at the end.",
    "fringe_cut": "This fringe is cut at the end.",
    "fringe_knotted": "Each end of this fringe gets an overhand knot at the end.",
    "no_rows": "Nothing is tied in this section.",
    "gap_between_rows": "Leave {length} of cord bare between one row and the next.",
    "leader": "Lay leader {leader} level across them: it spans {length} and stands out "
    "{overhang} at each side.",
    "motif_as_before": "The motif is worked as told in section {section}.",
    "hang": "Hang the piece and let it settle for a day.",
    "string": "Stretch a string level, {drop} below {support}.",
    "trim_level": "Trim every cord level with the string.",
    "trim_marks": "Mark the trim line, measured from the left edge and up from the string:",
    "trim_shaped": "Join the marks in one smooth line and trim along it.",
    "finish_combed": "Comb the fringe out from the ends upwards, then trim it once more.",
    "finish_cut": "Leave the ends as they are cut.",
    "finish_knotted": "Tie an overhand knot in every end, close above the trim line.",
    "trim_tails": "Trim the fringe of the tails to about {length}.",
    "hitched_tails": "Turn the ends above the branch or rod ({tail}) to the back, draw each under "
    "the knots below it and trim; or leave them as a top fringe.",
    "open_tails": "Trim the top fringe level, {tail} above the first row.",
    "ended_ends": "Draw the ends of the cords that ended in the work under a few knots at the "
    "back, one by one, and trim them.",
    "leader_ends": "Draw the ends of the leaders ({leaders}) to the back, hide them under a few "
    "hitches and trim; or knot them at the sides.",
    "wrap_ends": "Pull the ends of every wrapping cord inside its wrap and trim them.",
}
_HINTS = {
    "facing": "A knot that faces left begins with its left working cord: it passes over the "
    "fillers and under the right one. A knot that faces right begins with the right one.",
    "places": "Places of a motif count from its left, from 1. A place keeps its number when cords "
    "change places: place 1 is wherever the leftmost cord of the motif hangs at that moment.",
    "edge_parts": "At the edges only a part of the motif has room. Work it after its neighbour: "
    "its line is then easier to find. Steps that need cords it hasn't got are left out.",
    "sennits": "A row is one knot in every sennit. You may work each sennit to its end before the "
    "next.",
    "gather": "Pull the wrap tight turn by turn, then go on below with the same cords in the same "
    "order.",
    "tassel": "Pull the wrap tight turn by turn. Only the fringe hangs below it.",
}
_FAULTS = {
    "rod_pocket": "The band narrows as you work: measure its width every few rows, and hold the "
    "rod against it before you fold.",
    "larks_head": "A bar that lies behind: that cord went over the rod the other way.",
    "reverse_larks_head": "A bar that lies in front: that cord went over the rod the other way.",
    "hitched": "A single turn slips: every cord goes round the branch or rod twice.",
    "ring": "Cords of uneven ends: pull both ends level before you begin.",
    "ring_uneven": "A cord that slips in the ring loses its fold: tie each loosely until its first "
    "knot holds it.",
    "open": "Cords that creep: clamp them all at one height before you begin.",
    "square_knot_mesh": "A knot that twists is a granny: its second half was begun from the same "
    "side as its first. Cords forgotten at the edges: leave exactly those the row says. A slope: "
    "lay a ruler under every few rows.",
    "hitch_line": "Single hitches instead of double ones: every cord goes round the leader twice. "
    "A wavy line: hold the leader straight and level.",
    "motif_band": "A bar that leans or gapes: the leader was not held straight, or a hitch has one "
    "turn instead of two. A cord that was skipped: count them after every bar.",
    "sennits": "A twist that turns back: one knot was begun from the other side. Count the knots: "
    "sennits of one length can hide a missing one.",
    "gather": "A wrap that slides: its turns were not pulled as tight as they go.",
    "tassel": "A wrap that slides: its turns were not pulled as tight as they go.",
    "free": "Bare cords of uneven length: measure each from the knot above it, not by eye.",
    "fringe": "A fringe cut too short: cut nothing before the piece hangs.",
    "trimming": "Trimming while it lies flat: knots settle when it hangs, so trim it hanging.",
}
# Of a mount or a section that has no words of its own.
_ANY_FAULT = "A slope: hold a ruler level along the first row, and along every few rows after it."
_MANNERS = {"do": _DO, "hint": _HINTS, "fault": _FAULTS}
_LABELS = {"do": "", "hint": "Hint: ", "fault": "Common faults: "}


def say(record: Instruction | Step | StepsAgain) -> str:
    """Return the sentence (or heading) for one record."""
    match record:
        case Opening():
            return _opening(record)
        case ColourOrder():
            return _colour_order(record)
        case OtherColours():
            told = [f"{ranges(cords)} {colour}" for colour, cords in record.cords]
            return f"Colours of the other cords: {'; '.join(told)}."
        case Section():
            return f"{record.number}. {_section(record)}"
        case SectionsAgain():
            return f"{record.number}. {_again(record)}"
        case Finishing():
            return f"{record.number}. Finishing"
        case Figure():
            return f"{capital(figure(record.name))}, worked on {_cords(record.name.cords)}:"
        case RowWork():
            which = f"Row {record.first}" if record.first == record.last else (
                f"Rows {record.first}–{record.last}, each"
            )  # fmt: skip
            return f"{which}: {'; '.join(map(action, record.actions))}."
        case RowsAs():
            return f"{_rows(record.rows)}: as row {record.like}."
        case RowsAgain():
            over = f", over cords {_span(record.cords)}" if record.cords else ""
            rows, like = (_spans("row", span) for span in (record.rows, record.like))
            return f"{capital(rows)}: as {like}{over}."
        case Check():
            return _check(record)
        case Note():
            return _note(record)
        case TrimMark():
            where = f"{both(record.x)} from the left edge"
            return f"At {where}: {both(record.offset)} above the string."
        case FoldMark():
            which = "Cord" if len(record.cords) == 1 else "Cords"
            return f"{which} {ranges(record.cords)}: fold {both(record.length)} from the left end."
        case Step():
            return f"({record.number}) {capital(_step(record))}."
        case StepsAgain():
            like = _spans("step", record.like)
            which = _span((record.first, record.last))
            return f"({which}) Work {like} again, {_more(record.times)}, and count on."
    assert_never(record)


def action(record: Action) -> str:
    """Return the words for one action of a row."""
    match record:
        case Leave():
            return f"leave {_cords(record.cords)} hanging"
        case Bare():
            return f"leave {both(record.length)} of cord bare"
        case Knot():
            name = _facing(_one(record.name), record.facing, record.workers)
            return f"{name} on the next {_cords(record.cords)}"
        case Motif():
            text = f"{figure(record.figure)} on the next {_cords(record.figure.cords)}"
            same = record.after == record.figure.cords
            return text if same else f"{text}, of which {record.after} then hang"
        case Join():
            name = _facing(_one(record.name), record.facing, 1)
            n = record.cords
            return (
                f"{name} with the next {n} tails over the next {_cords(n)}: the outer two tails "
                "work, all others are fillers"
            )
        case Hang():
            hanging = " folded" if record.cords == 2 else ""
            return f"{_one(record.name)} with the next{hanging} cord"
        case HitchLine():
            what = "tail" if record.layer == "tails" else "cord"
            next_ones = f"each of the next {record.cords} {what}s" if record.cords > 1 else (
                f"the next {what}"
            )  # fmt: skip
            return f"{_one(record.name)} {next_ones} onto leader {record.leader}"
        case Wrap():
            return (
                f"{_one(record.name)} round the next {_cords(record.cords)}, with wrapping cord "
                f"{record.cord}, {both(record.height)} high"
            )
        case Starred():
            inner = "; ".join(map(action, record.actions))
            return f"* {inner}; repeat from * {_more(record.times - 1)}"
    assert_never(record)


def figure(name: FigureName) -> str:
    """Return what a motif, or a part of it, is called."""
    text = f"motif {_quoted(name.motif)}"
    if name.cords < name.of:
        part = "half" if 2 * name.cords == name.of else "part"
        side = "right" if name.last == name.of else "left"
        text = f"the {side} {part} of {text} (places {name.first}–{name.last})"
    return text if name.top is None else f"the top of {text} (to step {name.top})"


def _opening(record: Opening) -> str:
    hang = "hangs" if record.cut == 1 else "hang"
    if record.cut < record.cords:
        folded = "folded in half" if record.fold == "middle" else "folded"
        hang = f"{folded} {hang} as {_cords(record.cords)}"
    return (
        f"{_cords(record.cut)} {hang} side by side. "
        "Cords are counted from the left, as they hang at that moment."
    )


def _colour_order(record: ColourOrder) -> str:
    """Say in which colours cords are hung, as `* 6 natural, 2 rust; repeat from * 3 more times`."""
    told = _runs(record.unit)
    if record.times > 1:
        told = f"* {told}; repeat from * {_more(record.times - 1)}"
    if record.rest:
        told += f"{'; then ' * bool(record.unit)}{_runs(record.rest)}"
    cords = _count(record.cut, "folded cord" if record.folded else "cord")
    if not record.mirror:
        return f"Colours of the {cords} from the left: {told}."
    if record.cut % 2:
        back = "From there on, the same in reverse; the middle cord is there once."
        return f"Colours of the {cords} from the left to the middle one: {told}. {back}"
    back = "From the middle on, the same in reverse."
    return f"Colours of the {cords} from the left to the middle: {told}. {back}"


def _runs(runs: tuple[tuple[int, str], ...]) -> str:
    return ", ".join(f"{count} {colour}" for count, colour in runs)


def _section(record: Section) -> str:
    if record.kind == "mount":
        return f"Mounting: {MOUNTS.get(record.name or '', _spaced(record.name or ''))}"
    name = f" {_quoted(record.name)}" if record.name else ""
    what = "tail" if record.layer == "tails" else "cord"
    over = _spans(what, (record.first, record.last))
    kind = KINDS.get(record.kind, capital(_spaced(record.kind)))
    return f"{kind}{name}, over {'all ' if record.whole else ''}{over}"


def _again(record: SectionsAgain) -> str:
    sections = _spans("section", (record.first, record.last))
    text = f"Work {sections} again, {_more(record.times)}"
    if not record.shift:
        return f"{text}, on the same cords"
    each = "each time " if record.times > 1 else ""
    return f"{text}, {each}{_cords(record.shift)} further to the right"


def _check(record: Check) -> str:
    what = "tail" if record.layer == "tails" else "cord"
    support = _support(record.support)
    text = f"Check: the last row ends {both(record.depth)} below {support}"
    a, b = record.free_left, record.free_right
    if a == b == 0:
        text += f"; no {what} hangs free at the sides"
    elif a == b:
        text += f"; {_count(a, what)} {'hangs' if a == 1 else 'hang'} free at each side"
    else:
        text += f"; {_count(a, what)} free at the left side, {_count(b, what)} at the right"
    if record.left is not None:
        text += f"; about {both(record.left)} of {what} {record.cord} is left below it"
    return text + "."


def _note(record: Note) -> str:
    values = {name: _value(name, value) for name, value in record.values}
    texts = _MANNERS[record.manner]
    if record.manner == "do" and record.key.startswith("mount_") and record.key not in texts:
        return _mounted(dict(record.values))
    if record.manner == "fault" and record.key not in texts:
        return _LABELS["fault"] + _ANY_FAULT
    text = texts[record.key].format(**values)
    return _LABELS[record.manner] + capital(text)


def _mounted(mount: Mapping[str, float | int | str]) -> str:
    """Return how cords are hung by a mount that has no words of its own: what is known of any."""
    cut, cords, rod, tail = (mount[name] for name in ("cut", "cords", "rod", "tail"))
    parts = [f"Hang the {_value('cut', cut)} side by side, from left to right"]
    if mount["each"] == 2:
        parts.append("each folded in half")
    if rod:
        parts.append(f"on a rod {_value('rod', rod)} thick")
    if mount["tied"]:
        parts.append(f"each tied with a {_one(str(mount['tied']))}")
    text = f"{', '.join(parts)} ({_spaced(str(mount['kind']))})."
    if tail:
        text += f" Leave an end of {_value('tail', tail)} above."
    return f"{text} {capital(str(_value('cords', cords)))} then hang."


def _support(mount: str) -> str:
    """Return what depths are measured from."""
    known = _SUPPORTS.get(mount, "the top of the rod")
    return known if mount in MOUNTS else "where the cords begin"


def _spaced(kind: str) -> str:
    return kind.replace("_", " ")


def _value(name: str, value: float | int | str) -> str:
    if isinstance(value, str):
        return _support(value) if name == "support" else value
    if isinstance(value, float):
        return both(value)
    return _count(value, *_NOUNS[name]) if name in _NOUNS else str(value)


def _step(record: Step) -> str:
    what = record.what
    match what:
        case Cross():
            return f"cross the cord in place {what.over} over the cord in place {what.under}"
        case Bar():
            return _bar(what)
        case Upright():
            side = "right" if what.to > what.start else "left"
            n = abs(what.to - what.start)
            on = f"one on each of the {n} cords it passes" if n > 1 else "on the cord it passes"
            name = _many(what.name) if n > 1 else _one(what.name)
            return (
                f"the cord in place {what.start} works to the {side}, to place {what.to}: {name}, "
                f"{on}"
            )
        case PlacesKnot():
            name = _facing(_one(what.name), what.facing, what.workers)
            if what.first == what.last:
                return f"{name} in place {what.first}"
            return f"{name} on places {what.first}–{what.last}{_fillers(what)}{_picot(what)}"
        case AddCords():
            return _added(what)
        case EndCords():
            return _ended(what)
        case Bare():
            return f"leave {both(what.length)} of every cord bare before the next step"
    assert_never(what)


def _picot(knot_step: PlacesKnot) -> str:
    if not knot_step.picot:
        return ""
    return (
        f"; leave a picot of {both(knot_step.picot)} at each side: so much more of each working "
        "cord stands out above the knot in a loop"
    )


def _added(added: AddCords) -> str:
    first, last = added.places
    side = "left" if added.left else "right"
    now = f"; it then hangs in place {last + 1}" if added.left else ""
    if added.cords == 1:
        return (
            f"loop a new cord, folded in half, by a {_one(added.name)} onto the cord in place "
            f"{added.place}: its 2 ends hang to the {side} of it, in places {first}–{last}{now}"
        )
    return (
        f"loop {added.cords} new cords, each folded in half, by {_many(added.name)} onto the cord "
        f"in place {added.place}, the uppermost furthest out: their {2 * added.cords} ends hang to "
        f"the {side} of it, in places {first}–{last}{now}"
    )


def _ended(ended: EndCords) -> str:
    left = f"with {both(ended.length)} left at the back"
    if len(ended.places) == 1:
        return (
            f"end the cord in place {ended.places[0]}, {left}, and count places without it from "
            "here on"
        )
    places = listed([str(place) for place in ended.places])
    return (
        f"end the cords in places {places}, each {left}, and count places without them from here on"
    )


def _fillers(knot_step: PlacesKnot) -> str:
    if knot(knot_step.name).as_one:
        return ", all cords taken as one"
    count = knot_step.last - knot_step.first + 1
    manner = Manner(count, knot_step.facing, knot_step.workers)
    roles = knot(knot_step.name).roles(manner)
    working, fillers = roles.count("working"), roles.count("filler")
    several = {2: "two", 4: "four", 6: "six"}.get(working, str(working))
    if not fillers:
        return ", both work" if working == 2 else f", all {several} work"
    rest = f"{_cords(fillers)} {'is a filler' if fillers == 1 else 'are fillers'}"
    if working == 1:
        return f": the one at the {knot_step.facing} works, {rest}"
    return f": the {'outer' if roles[0] == 'working' else 'inner'} {several} work, {rest}"


def _bar(bar: Bar) -> str:
    side = "right" if bar.to > bar.start else "left"
    lie = "diagonal" if bar.angle is None else "horizontal" if bar.angle == 0 else (
        f"diagonal ({bar.angle:g}° below level)"
    )  # fmt: skip
    n = bar.hitches
    passed = f"the {n} cords it passes are hitched onto it one after another" if n > 1 else (
        "the cord it passes is hitched onto it"
    )  # fmt: skip
    row = f"a {lie} row of {_many(bar.name)}" if n > 1 else _one(bar.name)
    text = f"the cord in place {bar.start} leads to the {side}, to place {bar.to}: {row}; {passed}"
    if bar.times > 1:
        text += (
            f"; work this {bar.times} times in all, each time with the cord that then hangs in "
            f"place {bar.start}"
        )
    return text


def _facing(name: str, facing: str | None, workers: int) -> str:
    text = name if facing is None else f"{name} facing {facing}"
    return f"{text}, 2 working cords a side," if workers == 2 else text


def _rows(rows: tuple[int, ...]) -> str:
    """List row numbers that are two apart, the middle of a long list left out."""
    if len(rows) == 1:
        return f"Row {rows[0]}"
    if len(rows) > 6:
        return f"Rows {rows[0]}, {rows[1]}, {rows[2]}, … {rows[-1]}"
    return f"Rows {', '.join(map(str, rows))}"


def _span(span: tuple[int, int]) -> str:
    return f"{span[0]}–{span[1]}"


def _spans(noun: str, span: tuple[int, int]) -> str:
    return f"{noun} {span[0]}" if span[0] == span[1] else f"{noun}s {_span(span)}"


def _more(times: int) -> str:
    return "once more" if times == 1 else f"{times} more times"


def _one(name: str) -> str:
    return knot(name).words[LANGUAGE].one


def _many(name: str) -> str:
    return knot(name).words[LANGUAGE].many


def _quoted(name: str) -> str:
    """Quote a maker's own name; quotes within it become single ones, line breaks spaces."""
    return "“" + " ".join(name.split()).replace("“", "‘").replace("”", "’") + "”"


def _cords(count: int) -> str:
    return _count(count, "cord")


def _count(count: int, one: str, many: str | None = None) -> str:
    return f"{count} {one if count == 1 else many or one + 's'}"
