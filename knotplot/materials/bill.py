"""The bill of materials of a piece: every cord's length, the cut list, what to buy, the time."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from knotplot.cord_use import Taking
from knotplot.errors import Path, Refusal
from knotplot.geometry.layout import Layout, lay
from knotplot.materials.allowance import SHARED_ERROR_MEASURED, SHARED_ERROR_TABLE
from knotplot.materials.calibration import Measured, scales
from knotplot.materials.cord_mass import FIBRE_DENSITY_G_CM3, FIBRE_NAMES
from knotplot.materials.lengths import CordLength, Cutting, cord_lengths, cutting_list
from knotplot.materials.shopping import Buy, CordGoods, hours, knot_counts, shopping
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import Cord
from knotplot.quantities import Spool
from knotplot.tying.piece import Piece
from knotplot.units import cm

FRINGE = 40.0  # mm of a tail that should hang below its last knot, about 1 1/2 in


@dataclass(frozen=True, slots=True)
class Bill:
    """What a piece takes: `lengths` of its cords, `cutting`, `shopping`, hours, ties by knot.

    `measured` tells that a swatch's cord was measured.
    """

    lengths: tuple[CordLength, ...]
    cutting: tuple[Cutting, ...]
    shopping: tuple[Buy, ...]
    hours: float
    knots: dict[str, int]
    measured: bool


def laid(pattern: Pattern, piece: Piece) -> Layout:
    """Return the layout of a piece, its knots measured by the maker's figures and swatches.

    Raises `Refusal` where a pocket's tails can't be tied even with the cord that the knots take
    at the least; where only the swatch says that they run out, the piece gets a warning.
    """
    own = {
        name: {role: float(value) for role, value in roles.items()}
        for name, roles in pattern.cord_use.items()
    }
    plain = lay(piece, Taking(own))
    takes = tail_taken(plain)
    if piece.mounting.pocket is not None and takes > piece.mounting.tail:
        raise Refusal(
            f"the tails are too short to tie: their knots take {cm(takes)}",
            f"use a tail of {cm(takes + FRINGE)} or more",
            ("mount", "tail"),
            cm(piece.mounting.tail),
        )
    factors = scales(piece, _measured(pattern), Taking(own))
    layout = lay(piece, Taking(own, factors)) if factors else plain
    takes = tail_taken(layout)
    if piece.mounting.pocket is not None and takes + FRINGE > piece.mounting.tail:
        warning = (
            f"mount: the tails' knots take {cm(takes)} of {cm(piece.mounting.tail)}, so that "
            f"less than {cm(FRINGE)} is left to hang; a tail of {cm(takes + FRINGE)} would do"
        )
        layout = replace(layout, piece=replace(piece, warnings=(*piece.warnings, warning)))
    return layout


def _measured(pattern: Pattern) -> list[Measured]:
    """Return the swatches that say how much cord they took."""
    return [
        Measured(s.of, s.rows, float(s.cord_used))
        for s in pattern.all_swatches
        if s.cord_used is not None and s.rows is not None
    ]


def tail_taken(layout: Layout) -> float:
    """Return the most (mm) that knots and runs take of any tail; 0 where there are none."""
    strands = layout.piece.gauge.strands
    return max((use.knots + use.runs for use in layout.uses[strands + 1 :]), default=0.0)


def bill(pattern: Pattern, layout: Layout) -> Bill:
    """Return the bill of a piece laid out; raise `Refusal` where its cord can't be had."""
    piece = layout.piece
    measured = bool(_measured(pattern))
    error = SHARED_ERROR_MEASURED if measured else SHARED_ERROR_TABLE
    lengths = cord_lengths(
        layout, error, pattern.allowance.confidence, pattern.cut.groups, pattern.cut.step
    )
    cutting = cutting_list(lengths)
    goods = {kind: _goods(kind, cord, pattern) for kind, cord in pattern.cord_types.items()}
    return Bill(
        lengths, cutting, shopping(cutting, goods),
        hours(piece, len(piece.cords), _minutes(pattern)), knot_counts(piece), measured,
    )  # fmt: skip


def _goods(kind: str, cord: Cord, pattern: Pattern) -> CordGoods:
    place: Path = ("cord",) if pattern.cord is not None else ("cords", kind)
    sizes = cord.spools or ((cord.spool,) if cord.spool is not None else ())
    return CordGoods(
        float(cord.diameter), cord.construction, known_fibre(cord.fibre or "cotton"),
        None if cord.mass_per_length is None else float(cord.mass_per_length),
        tuple(_held(size) for size in sizes),
        cord.spools is None,
        cord.price_per_spool.amount if cord.price_per_spool else None,
        cord.price_per_spool.currency if cord.price_per_spool else None,
        (*place, "spools" if cord.spools else "spool"),
    )  # fmt: skip


def _minutes(pattern: Pattern) -> dict[str, float]:
    """Return the maker's minutes for a square knot, from a mesh swatch that was timed."""
    for swatch in pattern.all_swatches:
        if swatch.minutes is not None and swatch.rows and swatch.strands and swatch.strands >= 4:
            return {"square_knot": swatch.minutes / (swatch.rows * swatch.strands / 4.0)}
    return {}


def _held(spool: Spool) -> tuple[Fraction, bool]:
    """Return what a spool holds, and whether that is a mass (g) rather than a length (mm)."""
    if spool.length_mm is not None:
        return spool.length_mm, False
    return spool.mass_g or Fraction(0), True


def known_fibre(name: str) -> str:
    """Return the fibre a name speaks of, for its density; cotton where it speaks of none known.

    >>> known_fibre("recycled cotton"), known_fibre("moonsilk thread")
    ('cotton', 'silk')
    """
    lower = name.lower()
    known = [fibre for fibre in (*FIBRE_DENSITY_G_CM3, *FIBRE_NAMES) if fibre in lower]
    return max(known, key=len) if known else "cotton"
