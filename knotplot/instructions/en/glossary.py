"""Words of the sheet, what else they are called, and what they mean."""

from __future__ import annotations

from typing import NamedTuple


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
    Term("overhand knot", "thumb knot", "a cord led once through its own loop"),
    Term("row of double half hitches", "bar, rib", "double half hitches side by side on a leader"),
    Term("sennit", "sinnet, braid", "a braid of one knot tied again and again"),
    Term("square knot", "flat knot, double knot", "two half knots, the second begun from the "
         "other side"),
)  # fmt: skip
