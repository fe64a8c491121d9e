"""Hanging, trimming, and what becomes of the ends."""

from __future__ import annotations

from knotplot.instructions.records import TrimMark
from knotplot.units import both

DO = {
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
FAULTS = {
    "trimming": "Trimming while it lies flat: knots settle when it hangs, so trim it hanging.",
}


def trim_mark(record: TrimMark) -> str:
    """Return where a mark of the trim line stands."""
    where = f"{both(record.x)} from the left edge"
    return f"At {where}: {both(record.offset)} above the string."
