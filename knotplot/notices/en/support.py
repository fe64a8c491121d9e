"""English: what is noticed of what a piece hangs on."""

from __future__ import annotations

from fractions import Fraction

from knotplot.materials.support import fine
from knotplot.notices.en.terms import Sentence, Terms
from knotplot.units import both


def support_unlike_mount(terms: Terms, support: Fraction, mount: Fraction) -> str:
    """Say that the support isn't as thick as what the cords are mounted on."""
    alike = terms.pick("give mount.rod and support.diameter alike", "take one thickness for both")
    return (
        f"support: {both(support)} thick, but the cords are mounted on {both(mount)}; {alike}, "
        "since what is tied on the rod depends on it"
    )


def brackets_inside_pocket(_: Terms, span: float, width: float) -> str:
    """Say that brackets would stand within the rod pocket."""
    return (
        f"support: brackets {both(span)} apart would stand inside the rod pocket, which is "
        f"{both(width)} wide; set them further apart than that"
    )


def support_too_weak(
    _: Terms, called: str, stock: str, diameter: float, sag: float, later: float,
    limit: float, creeps: bool, gives_way: bool, stress: float, stress_limit: float,
    smallest: float | None, overhangs: bool, spacing: float, middle_share: float | None,
    all_g: float,
) -> str:  # fmt: skip
    """Say what is wrong with a rod that doesn't hold, and what would hold.

    `sag`, `later` and `limit` (mm) are at once, in the end and at the most; stresses are in MPa.
    `smallest` is the thinnest usual stock that holds, `spacing` how far apart brackets may stand
    under this one, and `middle_share` what one in the middle would carry of `all_g` grams.
    """
    faults = []
    if later > limit:
        faults.append(_sags(sag, later, limit, creeps, gives_way))
    if stress > stress_limit:
        faults.append(
            f"is bent to {stress:.0f} MPa, where no more than {stress_limit:g} should be counted on"
        )
    what = f"support: {called}, {both(diameter)} thick, {' and '.join(faults)}"
    if smallest is not None:
        return f"{what}; use {both(smallest)} or thicker"
    where, carries = "more brackets", ""
    if middle_share is not None:
        whole = all_g / 1000.0
        where = "a bracket in the middle too"
        carries = (
            f" (the one in the middle then carries {100.0 * middle_share:.0f} % of it all, "
            f"{middle_share * whole:.1f} of {whole:.1f} kg)"
        )
    elif overhangs:
        where = "brackets out to the edges of the piece"
    return (
        f"{what}; no usual {stock} holds it: set {where}, so that they stand {both(spacing)} apart "
        f"or closer{carries}, or use a stiffer material"
    )


def _sags(sag: float, later: float, limit: float, creeps: bool, gives_way: bool) -> str:
    by = "more than a tenth of the span" if gives_way else fine(later)
    if creeps and not gives_way:
        by = f"{fine(sag)} at once and {by} in the course of years"
    return f"sags {by}, where a 200th of the span is {fine(limit)}"


SENTENCES: tuple[Sentence, ...] = (support_unlike_mount, brackets_inside_pocket, support_too_weak)
