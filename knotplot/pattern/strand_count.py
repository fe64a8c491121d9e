"""How many strands a piece has: what its parts ask, and what the swatch says of the width.

All in exact fractions: a count is never computed from a float.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from knotplot.brief import Brief
from knotplot.errors import Refusal
from knotplot.fields import MOST_STRANDS
from knotplot.pattern.models import Pattern
from knotplot.sections.base import Ask, meet_all
from knotplot.sections.columns import at_least, counts, disagreement, nearest


@dataclass(frozen=True, slots=True, repr=False)
class Option(Brief):
    """A count that can be worked; its width in mm and how far the gauge must change for it.

    Both are None without a swatch.
    """

    count: int
    width_mm: Fraction | None
    gauge_change: Fraction | None


@dataclass(frozen=True, slots=True, repr=False)
class Count(Brief):
    """The strands of a piece: the counts plus + k·repeat can be worked, `count` was chosen.

    `estimate` is what the first swatch says for the width, None without one.
    """

    estimate: Fraction | None
    count: int
    repeat: int
    plus: int
    options: tuple[Option, ...]


def strand_count(pattern: Pattern) -> Count:
    """Choose the count of strands; raise `Refusal`, with the path of what is at fault."""
    asked = together(pattern)
    estimate = _estimate(pattern)
    chosen = pattern.strands.count
    if chosen is not None:
        _check_given(chosen, asked)
    elif estimate is None:
        raise _no_estimate(pattern)
    else:
        chosen = rounded(estimate, asked, pattern.strands.rounding)
    if chosen > MOST_STRANDS:
        raise Refusal(
            f"{chosen} strands, more than {MOST_STRANDS}", "make it narrower", ("strands",)
        )
    lowest = at_least(asked.plus, asked.repeat, asked.least)
    options = tuple(
        _option(count, pattern)
        for count in (chosen - asked.repeat, chosen, chosen + asked.repeat)
        if lowest <= count <= MOST_STRANDS
    )
    return Count(estimate, chosen, asked.repeat, asked.plus, options)


def asks(pattern: Pattern) -> Iterator[Ask]:
    """Yield what the mount and every section ask."""
    plus, repeat = pattern.mount.ask()
    yield Ask(plus, repeat, plus or repeat, ("mount",), pattern.mount.kind)
    motifs = pattern.all_motifs
    for i, section in enumerate(pattern.sections):
        yield from section.asks(motifs, ("sections", i))


def together(pattern: Pattern) -> Ask:
    """Return what all parts together ask; raise `Refusal` naming two that disagree."""
    met = meet_all(asks(pattern))
    if isinstance(met, Ask):
        return met
    raise disagreement(*met)


def rounded(estimate: Fraction, asked: Ask, rounding: str) -> int:
    """Return the count plus + k·repeat by `rounding`: nearest (a tie goes up), up or down.

    It is never below the least that gives every part one repeat.
    """
    steps = (estimate - asked.plus) / asked.repeat
    if rounding == "up":
        k = -(-steps.numerator // steps.denominator)
    elif rounding == "down":
        k = steps.numerator // steps.denominator
    else:
        k = (2 * steps.numerator + steps.denominator) // (2 * steps.denominator)
    return max(asked.plus + k * asked.repeat, at_least(asked.plus, asked.repeat, asked.least))


def _estimate(pattern: Pattern) -> Fraction | None:
    """Return the strands the first swatch gives for the width, None if it can't say."""
    for swatch in pattern.all_swatches[:1]:
        if swatch.strands is not None and swatch.gauge_width is not None:
            return pattern.width * swatch.strands / swatch.gauge_width
    return None


def _no_estimate(pattern: Pattern) -> Refusal:
    if pattern.all_swatches:
        return Refusal(
            "the first swatch doesn't say its strands and width",
            "give it 'strands' and 'width', or give 'strands: {count: …}'",
            ("swatch",) if pattern.swatch else ("swatches", 0),
        )
    return Refusal(
        "no swatch and no count of strands",
        "knot a swatch and give its 'strands' and 'width', or give 'strands: {count: …}'",
        ("strands",),
    )


def _check_given(count: int, asked: Ask) -> None:
    if count >= asked.least and (count - asked.plus) % asked.repeat == 0:
        return
    raise Refusal(
        f"the parts need {counts(asked)} strands, {asked.least} at the least",
        f"use {nearest(count, asked.plus, asked.repeat, asked.least)}",
        ("strands", "count"),
        count,
    )


def _option(count: int, pattern: Pattern) -> Option:
    for swatch in pattern.all_swatches[:1]:
        if swatch.strands is not None and swatch.gauge_width is not None:
            width = count * swatch.gauge_width / swatch.strands
            return Option(count, width, pattern.width / width - 1)
    return Option(count, None, None)
