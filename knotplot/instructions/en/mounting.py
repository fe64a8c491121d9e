"""How cords are hung, and in which colours."""

from __future__ import annotations

from collections.abc import Mapping

from knotplot.instructions.en.names import count_cords, one_knot, spaced, times_more
from knotplot.instructions.records import ColourOrder, FoldMark, Opening, OtherColours
from knotplot.tying.names import capital, counted, ranges
from knotplot.units import both

MOUNTS = {
    "rod_pocket": "rod pocket",
    "larks_head": "lark's heads on a rod",
    "reverse_larks_head": "reverse lark's heads on a rod",
    "hitched": "double half hitches on a branch or rod",
    "picot": "picots above double half hitches on a branch or rod",
    "ring": "through a ring",
    "open": "no support",
}
_SUPPORTS = {
    "ring": "the top of the ring",
    "open": "the top ends of the cords",
    "hitched": "the top of the branch or rod",
    "picot": "the top of the branch or rod",
}
DO = {
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
    "mount_picot": "Fold each of the {cut} in half. Hitch both ends onto the branch or rod, {rod} "
    "thick, side by side, the left one first, with a double half hitch each. Leave a loop of "
    "{loop}, measured along the cord from hitch to hitch, standing above the rod: about {stands} "
    "high. Pin its fold to the board at that height while you tie. {cords} then hang.",
    "fold_each": "Fold each of the {cut} at its own place, measured from the end that hangs on the "
    "left, and mark the fold with a pin:",
    "fold_by_list": "Fold each of the {cut} at its own place, which the cut list gives.",
    "mount_larks_head_uneven": "Loop them over the rod, {rod} thick, from left to right, each with "
    "its measured side on the left: the loop goes over the rod to the back, both ends come through "
    "it, and the bar of the loop lies in front. {cords} then hang.",
    "mount_reverse_larks_head_uneven": "Loop them over the rod, {rod} thick, from left to right, "
    "each with its measured side on the left: the loop comes over the rod from behind, both ends "
    "go through it, and the bar of the loop lies behind. {cords} then hang.",
    "mount_picot_uneven": "Hitch both ends of each onto the branch or rod, {rod} thick, side by "
    "side, the measured side on the left and first, with a double half hitch each. Leave a loop of "
    "{loop}, measured along the cord from hitch to hitch, standing above the rod, the fold at its "
    "top: about {stands} high. Pin the fold to the board at that height while you tie. {cords} "
    "then hang.",
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
}
FAULTS = {
    "rod_pocket": "The band narrows as you work: measure its width every few rows, and hold the "
    "rod against it before you fold.",
    "larks_head": "A bar that lies behind: that cord went over the rod the other way.",
    "reverse_larks_head": "A bar that lies in front: that cord went over the rod the other way.",
    "hitched": "A single turn slips: every cord goes round the branch or rod twice.",
    "picot": "Loops of uneven height: pin every fold level with the first one, and let no cord "
    "slip as you tighten its hitches.",
    "ring": "Cords of uneven ends: pull both ends level before you begin.",
    "ring_uneven": "A cord that slips in the ring loses its fold: tie each loosely until its first "
    "knot holds it.",
    "open": "Cords that creep: clamp them all at one height before you begin.",
}


def opening(record: Opening) -> str:
    """Return how many cords hang, and how they are counted."""
    hang = "hangs" if record.cut == 1 else "hang"
    if record.cut < record.cords:
        folded = "folded" if record.fold == "uneven" else "folded in half"
        hang = f"{folded} {hang} as {count_cords(record.cords)}"
    return (
        f"{count_cords(record.cut)} {hang} side by side. "
        "Cords are counted from the left, as they hang at that moment."
    )


def colour_order(record: ColourOrder) -> str:
    """Say in which colours cords are hung, as `* 6 natural, 2 rust; repeat from * 3 more times`."""
    told = _runs(record.unit)
    if record.times > 1:
        told = f"* {told}; repeat from * {times_more(record.times - 1)}"
    if record.rest:
        told += f"{'; then ' * bool(record.unit)}{_runs(record.rest)}"
    cords = counted(record.cut, "folded cord" if record.folded else "cord")
    if not record.mirror:
        return f"Colours of the {cords} from the left: {told}."
    if record.cut % 2:
        back = "From there on, the same in reverse; the middle cord is there once."
        return f"Colours of the {cords} from the left to the middle one: {told}. {back}"
    back = "From the middle on, the same in reverse."
    return f"Colours of the {cords} from the left to the middle: {told}. {back}"


def other_colours(record: OtherColours) -> str:
    """Say in which colours leaders, wrapping cords and added cords are."""
    told = [f"{ranges(cords)} {colour}" for colour, cords in record.cords]
    return f"Colours of the other cords: {'; '.join(told)}."


def fold_mark(record: FoldMark) -> str:
    """Return where cords are folded."""
    which = "Cord" if len(record.cords) == 1 else "Cords"
    return f"{which} {ranges(record.cords)}: fold {both(record.length)} from the left end."


def _runs(runs: tuple[tuple[int, str], ...]) -> str:
    return ", ".join(f"{count} {colour}" for count, colour in runs)


def mounted(mount: Mapping[str, float | int | str], told: Mapping[str, str]) -> str:
    """Return how cords are hung by a mount that has no words of its own: what is known of any.

    `told` has the values of the mount in words.
    """
    parts = [f"Hang the {told['cut']} side by side, from left to right"]
    if mount["each"] == 2:
        parts.append("each folded in half")
    if mount["rod"]:
        parts.append(f"on a rod {told['rod']} thick")
    if mount["tied"]:
        parts.append(f"each tied with a {one_knot(told['tied'])}")
    text = f"{', '.join(parts)} ({spaced(told['kind'])})."
    if mount["tail"]:
        text += f" Leave an end of {told['tail']} above."
    return f"{text} {capital(told['cords'])} then hang."


def support_name(mount: str) -> str:
    """Return what depths are measured from."""
    known = _SUPPORTS.get(mount, "the top of the rod")
    return known if mount in MOUNTS else "where the cords begin"
