"""Which techniques a piece uses, found in its record.

A feature is a word or two, as a technique's file names it: "mesh", "sennit NAME" of a knot (and
"sennit NAME alike" or "alternate", by how its knots face), "bar separate", "bar level" and "bar
falls" (rows of hitches by their leader), "vertical", "picot", "gathered overhand", "added",
"tassel added", "ended". What comes only once in a piece is none.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from knotplot.kinds import kind_of
from knotplot.techniques import techniques
from knotplot.tying.piece import Piece, Placement, Row
from knotplot.tying.shape import Shape, ShapeTie
from knotplot.tying.stacks import LEAST, stacks

LEVEL = 0.15  # sine of a leader's fall, up to which a row of hitches is called level


def used_techniques(piece: Piece) -> tuple[str, ...]:
    """Return the techniques a piece uses, from easy to hard."""
    there = features(piece)
    found = [name for name, each in techniques().items() if each.feature in there]
    return in_order(found)


def in_order(names: Iterable[str]) -> tuple[str, ...]:
    """Return techniques from easy to hard."""
    return tuple(sorted(names, key=lambda name: (techniques()[name].difficulty, name)))


def features(piece: Piece) -> frozenset[str]:
    """Return what a piece has that techniques are named for."""
    found = set[str]()
    adds = any(cord.added for cord in piece.cords)
    rows: dict[int, list[Row]] = {}
    for row in piece.rows:
        rows.setdefault(row.section, []).append(row)
    for section, part in enumerate(piece.parts):
        found |= set(kind_of(part).features(rows.get(section, ()), adds))
    placements = [p for row in piece.rows if row.section for p in row.placements]
    for shape in {id(p.shape): p.shape for p in placements}.values():
        found |= set(_of_shape(shape))
    if sum(tie.knot == "overhand" and len(tie.who) > 1 for tie in _ties(placements)) > 1:
        found.add("gathered overhand")
    if piece.ended:
        found.add("ended")
    return frozenset(found)


def _ties(placements: Iterable[Placement]) -> Iterator[ShapeTie]:
    for placement in placements:
        yield from placement.shape.ties


def _of_shape(shape: Shape) -> Iterator[str]:
    for _, group in groupby(shape.ties, key=lambda tie: (tie.knot, tie.lanes, tie.leader)):
        row = list(group)
        if len(row) >= LEAST and row[0].manner.leader is None:
            yield from stacks(row)
    for tie in shape.ties:
        if tie.picot:
            yield "picot"
        if tie.carried is not None:
            yield "added"
        elif tie.knot.startswith("vertical_") and tie.leader is not None:
            yield "vertical"
        elif tie.leader == -1 and "knotting" in tie.roles:
            yield "bar separate"
        elif "leader" in tie.roles:
            yield "bar level" if tie.manner.sin < LEVEL else "bar falls"
