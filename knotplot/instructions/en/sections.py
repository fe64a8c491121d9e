"""Headings of sections, what is told within one, and how to check it."""

from __future__ import annotations

from knotplot.instructions.en.names import (
    LANGUAGE,
    count_cords,
    numbered,
    quoted,
    support_name,
    times_more,
)
from knotplot.instructions.records import Check, Section, SectionsAgain
from knotplot.instructions.wording import Wording
from knotplot.kinds import kind_words
from knotplot.tying.names import counted
from knotplot.units import both

DO = {
    "set_aside": "Lay {added} aside: they are added in the course of the work, in this order, each "
    "folded in half.",
    "recounted": "The {cords} of this section have become {after}; rows below count these.",
    "bare": "Let these cords hang bare for {length}.",
    "hang_down": "Let these cords hang down to the trim line, which is marked at the end. Cut "
    "nothing yet.",
    "fringe_combed": "This fringe is combed out at the end.",
    "fringe_cut": "This fringe is cut at the end.",
    "fringe_knotted": "An overhand knot is tied in each end of this fringe at the trim line, once "
    "the piece hangs.",
    "no_rows": "Nothing is tied in this section.",
    "gap_between_rows": "Leave {length} of cord bare between one row and the next.",
    "leader": "Lay leader {leader} level across them: it spans {length} and stands out "
    "{overhang} at each side.",
    "motif_as_before": "The motif is worked as told in section {section}.",
}
HINTS = {
    "facing": "A knot that faces left begins with its left working cord: it passes over the "
    "fillers and under the right one. A knot that faces right begins with the right one.",
    "places": "Places of a motif count from its left, from 1. A place keeps its number when cords "
    "change places: place 1 is wherever the leftmost cord of the motif hangs at that moment.",
    "edge_parts": "At the edges only a part of the motif has room. Work it after its neighbour: "
    "its line is then easier to find. Steps that need cords it hasn't got are left out.",
}


def section_heading(record: Section) -> str:
    """Return the heading of a section, or of the mounting."""
    if record.kind == "mount":
        return f"{record.number}. Mounting: {kind_words(record.name or '', LANGUAGE).heading}"
    name = f" {quoted(record.name)}" if record.name else ""
    what = "tail" if record.layer == "tails" else "cord"
    over = numbered(what, (record.first, record.last))
    kind = kind_words(record.kind, LANGUAGE).heading
    return f"{record.number}. {kind}{name}, over {'all ' if record.whole else ''}{over}"


def again_heading(record: SectionsAgain) -> str:
    """Return the heading of sections that are worked again."""
    sections = numbered("section", (record.first, record.last))
    text = f"{record.number}. Work {sections} again, {times_more(record.times)}"
    if not record.shift:
        return f"{text}, on the same cords"
    each = "each time " if record.times > 1 else ""
    return f"{text}, {each}{count_cords(record.shift)} further to the right"


def check(record: Check) -> Wording:
    """Return what to measure and count below a section."""
    what = "tail" if record.layer == "tails" else "cord"
    support = support_name(record.support)
    text = f"the last row ends {both(record.depth)} below {support}"
    a, b = record.free_left, record.free_right
    if a == b == 0:
        text += f"; no {what} hangs free at the sides"
    elif a == b:
        text += f"; {counted(a, what)} {'hangs' if a == 1 else 'hang'} free at each side"
    else:
        text += f"; {counted(a, what)} free at the left side, {counted(b, what)} at the right"
    if record.left is not None:
        text += f"; about {both(record.left)} of {what} {record.cord} is left below it"
    return Wording(text + ".", "Check")
