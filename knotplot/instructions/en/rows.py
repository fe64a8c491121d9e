"""Rows: what is done in one, action by action."""

from __future__ import annotations

from typing import assert_never

from knotplot.instructions.en.names import (
    count_cords,
    facing_knot,
    figure,
    from_to,
    numbered,
    one_knot,
    times_more,
)
from knotplot.instructions.records import (
    Action,
    Bare,
    Hang,
    HitchLine,
    Join,
    Knot,
    Leave,
    Motif,
    RowsAgain,
    RowsAs,
    RowWork,
    Starred,
    Wrap,
)
from knotplot.instructions.wording import Wording
from knotplot.tying.names import capital
from knotplot.units import both


def action(record: Action) -> str:
    """Return the words for one action of a row."""
    match record:
        case Leave():
            return f"leave {count_cords(record.cords)} hanging"
        case Bare():
            return f"leave {both(record.length)} of cord bare"
        case Knot():
            name = facing_knot(one_knot(record.name), record.facing, record.workers)
            return f"{name} on the next {count_cords(record.cords)}"
        case Motif():
            text = f"{figure(record.figure)} on the next {count_cords(record.figure.cords)}"
            same = record.after == record.figure.cords
            return text if same else f"{text}, of which {record.after} then hang"
        case Join():
            name = facing_knot(one_knot(record.name), record.facing, 1)
            n = record.cords
            return (
                f"{name} with the next {n} tails over the next {count_cords(n)}: the outer two "
                "tails work, all others are fillers"
            )
        case Hang():
            hanging = " folded" if record.cords == 2 else ""
            return f"{one_knot(record.name)} with the next{hanging} cord"
        case HitchLine():
            what = "tail" if record.layer == "tails" else "cord"
            next_ones = f"each of the next {record.cords} {what}s" if record.cords > 1 else (
                f"the next {what}"
            )  # fmt: skip
            return f"{one_knot(record.name)} {next_ones} onto leader {record.leader}"
        case Wrap():
            return (
                f"{one_knot(record.name)} round the next {count_cords(record.cords)}, with "
                f"wrapping cord {record.cord}, {both(record.height)} high"
            )
        case Starred():
            inner = "; ".join(map(action, record.actions))
            return f"* {inner}; repeat from * {times_more(record.times - 1)}"
    assert_never(record)


def row_line(record: RowWork | RowsAs | RowsAgain) -> Wording:
    """Return the line of one row or of several; which they are is its label."""
    match record:
        case RowWork():
            which = f"Row {record.first}" if record.first == record.last else (
                f"Rows {record.first}–{record.last}, each"
            )  # fmt: skip
            return Wording(f"{'; '.join(map(action, record.actions))}.", which)
        case RowsAs():
            return Wording(f"as row {record.like}.", _row_list(record.rows))
        case RowsAgain():
            over = f", over cords {from_to(record.cords)}" if record.cords else ""
            rows, like = (numbered("row", span) for span in (record.rows, record.like))
            return Wording(f"as {like}{over}.", capital(rows))
    assert_never(record)


def _row_list(rows: tuple[int, ...]) -> str:
    """List row numbers that are two apart, the middle of a long list left out."""
    if len(rows) == 1:
        return f"Row {rows[0]}"
    if len(rows) > 6:
        return f"Rows {rows[0]}, {rows[1]}, {rows[2]}, … {rows[-1]}"
    return f"Rows {', '.join(map(str, rows))}"
