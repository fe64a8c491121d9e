"""Hanging, trimming, and what becomes of the ends."""

from __future__ import annotations

from knotplot.instructions.records import TrimMark
from knotplot.units import both

DO = {
    "hang": "Hang the piece and let it settle for a day.",
    "string": "Stretch a string level, {drop} below {support}.",
    "trim_level": "Trim every cord level with the string.",
    "trim_marks": "Mark the trim line, measured from the left edge and up from the string:",
    "trim_join": "Join the marks in one smooth line.",
    "trim_shaped": "Trim every cord along the line.",
    "trim_level_others": "Trim all other cords level with the string.",
    "trim_shaped_others": "Trim all other cords along the line.",
    "knot_level": "Tie an overhand knot in every end with its lower edge level with the string, "
    "then cut all tails {least} to {most} below the knots.",
    "knot_shaped": "Tie an overhand knot in every end with its lower edge at the line, then cut "
    "all tails {least} to {most} below the knots.",
    "knot_level_some": "Tie an overhand knot in each of the ends {ends}, counted from the left, "
    "with its lower edge level with the string, then cut their tails {least} to {most} below the "
    "knots.",
    "knot_shaped_some": "Tie an overhand knot in each of the ends {ends}, counted from the left, "
    "with its lower edge at the line, then cut their tails {least} to {most} below the knots.",
    "finish_combed": "Comb the fringe out from the ends upwards, then trim it once more.",
    "finish_cut": "Leave the ends as they are cut.",
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
HINTS = {
    "knot_slide": "Tie each knot loosely, put a pin through it, slide both to the line, pull the "
    "knot tight there, and draw the pin out.",
}
FAULTS = {
    "trimming": "Trimming while it lies flat: knots settle when it hangs, so trim it hanging.",
}


def trim_mark(record: TrimMark) -> str:
    """Return where a mark of the trim line stands."""
    where = f"{both(record.x)} from the left edge"
    return f"At {where}: {both(record.offset)} above the string."
