"""The colours of a pattern's cords: who gets which, and what to know where they don't come out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import Colours
from knotplot.tying.colouring import PLAIN, Colouring, order_of
from knotplot.tying.piece import Cord, Row


def coloured(
    pattern: Pattern, cords: Sequence[Cord], rows: Sequence[Row]
) -> tuple[tuple[Cord, ...], Colouring]:
    """Return the cords of a piece with their colours, by name, and its colouring.

    Main cords have them in order, leaders the first; a wrap has the one named for it, else the
    first; a cord added in the work has that of the strand it hangs on.
    """
    given = pattern.colours
    if given is None:
        return tuple(cords), PLAIN
    mounted = [cord for cord in cords if cord.role == "main" and not cord.added]
    order = order_of(given.order, given.mirror, len(mounted))
    by_id = {cord.id: colour for cord, colour in zip(mounted, order, strict=True)}
    by_id |= _added(cords, rows, by_id)
    first = given.order[0].colour
    found = tuple(replace(cord, colour=cord.colour or by_id.get(cord.id, first)) for cord in cords)
    return found, _colouring(found, given)


def _added(
    cords: Sequence[Cord], rows: Sequence[Row], mounted: Mapping[str, str]
) -> Iterator[tuple[str, str]]:
    """Yield each added cord's id with the colour of the strand it hangs on."""
    if not any(cord.added for cord in cords):
        return
    cord_of = {strand: cord.id for cord in cords for strand in cord.strands}
    known = dict(mounted)
    for row in rows:
        for shape, _, strands, _, _ in row.placements:
            for tie in shape.ties if shape.added else ():
                if tie.carried is not None and tie.leader is not None:
                    new = cord_of[strands[tie.who[0]]]
                    known[new] = known[cord_of[strands[tie.leader]]]
                    yield new, known[new]


def _colouring(cords: Sequence[Cord], given: Colours) -> Colouring:
    by_cord = {cord.id: given.palette.get(cord.colour or "") for cord in cords}
    by_strand = {strand: by_cord[cord.id] for cord in cords for strand in cord.strands}
    strands = tuple(by_strand.get(strand) for strand in range(1 + max(by_strand, default=0)))
    return Colouring(given.order, given.mirror, dict(given.palette), strands, by_cord)
