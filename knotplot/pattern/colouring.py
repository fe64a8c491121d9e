"""The colours of a pattern's cords: who gets which, and what to know where they don't come out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from knotplot.fields import MOST_STRANDS
from knotplot.notice import Notice, Value
from knotplot.pattern.cord_parts import Colours
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import together
from knotplot.sections.base import walk
from knotplot.sections.columns import at_least
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


# --- what to know of them --------------------------------------------------------------------


def colour_notices(pattern: Pattern, strands: int) -> Iterator[Notice]:
    """Yield where the order of colours doesn't come out on so many strands, and unused inks."""
    given = pattern.colours
    if given is None:
        return
    cords = strands // pattern.mount.strands_per_cord
    if not _whole(given, cords):
        yield _broken(pattern, given, strands, cords)
    used = dict.fromkeys([run.colour for run in given.order])
    used |= dict.fromkeys(
        section.own_colour for _, section in walk(pattern.sections) if section.own_colour
    )
    spare = tuple(colour for colour in given.palette if colour not in used)
    if spare:
        values = {"spare": spare, "used": tuple(used)}
        yield Notice("colours_unused", ("colours", "palette"), "doubt", values)


def _unit(given: Colours) -> int:
    """Return how many cords the order of colours has."""
    return sum(run.count for run in given.order)


def _whole(given: Colours, cords: int) -> bool:
    """Tell whether the order comes out on so many cords; mirrored, on those to the middle."""
    return ((cords + 1) // 2 if given.mirror else cords) % _unit(given) == 0


def _broken(pattern: Pattern, given: Colours, strands: int, cords: int) -> Notice:
    """Return where the order of colours breaks off, and on how many strands it wouldn't."""
    asked = together(pattern)
    lowest, each = at_least(asked.plus, asked.repeat, asked.least), pattern.mount.strands_per_cord
    tries = (
        range(strands - asked.repeat, lowest - 1, -asked.repeat),
        range(strands + asked.repeat, MOST_STRANDS + 1, asked.repeat),
    )
    found = [next((n for n in these if _whole(given, n // each)), None) for these in tries]
    values: Mapping[str, Value] = {
        "runs": tuple((run.count, run.colour) for run in given.order),
        "mirror": given.mirror,
        "cords": cords,
        "strands_per_cord": each,
        "whole": tuple(n for n in found if n is not None),
    }
    return Notice("colours_break_off", ("colours", "order"), "warning", values)
