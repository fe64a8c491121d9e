"""English: what is noticed of the lengths to cut."""

from __future__ import annotations

from fractions import Fraction
from typing import TypeAlias

from knotplot.kinds import section_names
from knotplot.notices.en.terms import Section, Sentence, Terms, metres
from knotplot.tape import to_cut
from knotplot.tying.names import listed, ranges
from knotplot.units import both

MOST_TOLD = 3  # sections in one line
#: A section whose strands could change places: its first and last row, and the row to do it from;
#: the strands that work throughout.
Swap: TypeAlias = tuple[Section, int, int, int, tuple[int, ...]]


def lengths_uneven(
    terms: Terms, longer: tuple[str, ...], most: float, least: float, long: Fraction,
    short: Fraction, saved: Fraction,
) -> str:  # fmt: skip
    """Say what two lengths would save where all cords are cut alike."""
    two = terms.pick("with 'groups: 2' under 'cut'", "in two lengths")
    return (
        f"{ranges(longer)} need up to {both(most)}, and others as little as {both(least)}, but all "
        f"are cut alike: {two}, {to_cut(long)} and {to_cut(short)}, {metres(saved)} less cord is "
        "cut"
    )


def folds_uneven(terms: Terms, cords: tuple[str, ...], times: float, saved: Fraction) -> str:
    """Say what an uneven fold would save where a cord's one strand takes far more."""
    fold = terms.pick("with 'fold: uneven' under 'mount'", "folded unevenly, each at its own place")
    return (
        f"one strand of {ranges(cords)} takes more than {times:g} times the cord of the other, and "
        f"a cord folded in the middle is cut for twice the longer one: {fold}, {metres(saved)} "
        "less cord is cut"
    )


def workers_unswapped(_: Terms, swaps: tuple[Swap, ...], saved: Fraction) -> str:
    """Say what it saves to let workers and fillers change places halfway."""
    told = [
        f"{ranges([str(each) for each in working])} in {section_names([section])} (rows "
        f"{first}–{last}; swap from row {row})"
        for section, first, last, row, working in swaps[:MOST_TOLD]
    ]
    if len(swaps) > MOST_TOLD:
        told.append(f"others in {len(swaps) - MOST_TOLD} more sections")
    return (
        f"some strands work in every row, and their neighbours only fill: {listed(told)}; let "
        f"working cords and fillers change places there, about halfway, and {metres(saved)} less "
        "cord has to be cut (the lengths given here are for not swapping)"
    )


SENTENCES: tuple[Sentence, ...] = (lengths_uneven, folds_uneven, workers_unswapped)
