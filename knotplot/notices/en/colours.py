"""English: what is noticed of the colours of cords."""

from __future__ import annotations

from knotplot.discovery import hint
from knotplot.notices.en.terms import Sentence, Terms
from knotplot.tying.names import few, listed

MOST_TOLD = 6  # runs of an order


def colours_break_off(
    _: Terms, runs: tuple[tuple[int, str], ...], mirror: bool, cords: int,
    strands_per_cord: int, whole: tuple[int, ...],
) -> str:  # fmt: skip
    """Say where the order of colours breaks off, and on how many strands it wouldn't."""
    unit = sum(count for count, _ in runs)
    half = (cords + 1) // 2 if mirror else cords
    counted = f"{half} from a side to the middle" if mirror else f"{cords} cords"
    where = "in the middle" if mirror else "at the right"
    what = listed([f"{count} {colour}" for count, colour in runs[:MOST_TOLD]])
    more = " and so on" if len(runs) > MOST_TOLD else ""
    if whole:
        counts = (_strands(count, strands_per_cord) for count in whole)
        remedy = f"{' or '.join(counts)} would come out whole"
    else:
        remedy = "no count that the parts can be worked on comes out whole; change the order"
    return (
        f"colours: {what}{more}, {unit} cords, don't come out on {counted}: the last of them break "
        f"off {where} after {half % unit}; {remedy}"
    )


def _strands(count: int, each: int) -> str:
    return f"{count} strands" + (f" ({count // each} cords)" if each > 1 else "")


def colours_unused(_: Terms, spare: tuple[str, ...], used: tuple[str, ...]) -> str:
    """Say which colours of the palette no cord has, and which there are."""
    one = len(spare) == 1
    are, them = ("is", "it") if one else ("are", "them")
    near = hint(spare[0], used) if one else f"use one of {few(used)}"
    return f"colours: {few(spare)} {are} in the palette, but no cord has {them}; {near}"


SENTENCES: tuple[Sentence, ...] = (colours_break_off, colours_unused)
