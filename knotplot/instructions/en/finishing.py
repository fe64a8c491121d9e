"""Hanging, trimming, and what becomes of the ends."""

from __future__ import annotations

from knotplot.instructions.records import TrimLine, TrimMark
from knotplot.tying.names import listed
from knotplot.units import both, cm

DO = {
    "hang": "Hang the piece and let it settle for a day.",
    "string": "Stretch a string level, {drop} below {support}.",
    "trim_level": "Trim every cord level with the string.",
    "trim_marks": "Mark the trim line, measured from the left edge and up from the string:",
    "trim_turns": "Mark the trim line, measured from the left edge and up from the string. Begin "
    "with the sides and every place where it turns:",
    "trim_between": "Then mark these places between them:",
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


_TURNS = {"tip": "Tip", "dip": "Lowest place", "notch": "Notch", "crown": "Crown"}
_CORNERS = {"tip": ("arch", "arches", "tips"), "notch": ("scallop", "scallops", "notches")}
_MOST_TOLD = 6  # corners whose places are told again, where the marks are joined


def trim_mark(record: TrimMark) -> str:
    """Return where a mark of the trim line stands, and what it is."""
    where = f"{both(record.x)} from the left edge"
    if record.what == "side":
        where = f"Right edge, {where.removesuffix(' edge')} one" if record.x else "Left edge"
    else:
        where = f"At {where}" if record.what == "between" else f"{_TURNS[record.what]}, {where}"
    high = f"{both(record.offset)} above" if cm(record.offset) != "0 cm" else "level with"
    return f"{where}: {high} the string."


def trim_line(record: TrimLine) -> str:
    """Return how the marks are joined."""
    if record.straight:
        meets = f"; its sides meet in a sharp {record.corner}" if record.corner else ""
        return f"Draw the line straight from mark to mark{meets}."
    if record.corner is None:
        return "Join the marks in one smooth line."
    one, many, corners = _CORNERS[record.corner]
    count = len(record.corners)
    sharp, every = (
        (f"sharp {corners}", "every") if count > 1 else (f"a sharp {record.corner}", "the")
    )
    at = f" at {listed([both(x) for x in record.corners])}" if count <= _MOST_TOLD else ""
    return (
        f"The line is {count + 1} {many} meeting in {sharp}{at}. Join the marks of each {one} in a "
        f"smooth line, and keep {every} {record.corner} sharp."
    )
