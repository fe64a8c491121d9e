"""How cords are hung, and in which colours."""

from __future__ import annotations

from knotplot.instructions.en.names import count_cords, times_more
from knotplot.instructions.records import ColourOrder, FoldMark, Opening, OtherColours
from knotplot.tape import fold_place
from knotplot.tying.names import counted, ranges

DO = {
    "fold_each": "Fold each of the {cut} at its own place, measured from the end that hangs on the "
    "left, and mark the fold with a pin:",
    "fold_by_list": "Fold each of the {cut} at its own place, which the cut list gives.",
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
    return f"{which} {ranges(record.cords)}: fold {fold_place(record.length)} from the left end."


def _runs(runs: tuple[tuple[int, str], ...]) -> str:
    return ", ".join(f"{count} {colour}" for count, colour in runs)
