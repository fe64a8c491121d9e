"""Swatch calibration: how much of their usual excess the maker's knots take, by section.

A strand's cord over some rows is Σh + runs + κ·Σε·D: the ways past its knots, the runs between
them, and the excess of its working and knotting parts. A swatch's `cord_used` gives κ, so that a
swatch fed back gives itself; fillers and leaders keep their way whatever κ is (contract, 5).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from knotplot.cord_use import Taking
from knotplot.errors import Path
from knotplot.geometry.layout import followed
from knotplot.kinds import kind_of
from knotplot.materials.allowance import SHARED_ERROR_MEASURED
from knotplot.notice import Notice
from knotplot.tying.piece import Piece, Row

# An end of cord, or an edge of knots, is read to 2 mm (common practice); a length has two.
READING = 2.0 * math.sqrt(2.0)


# Tight and loose hands, thin and soft cord: beyond these something else was measured.
LEAST_FACTOR, MOST_FACTOR = 0.6, 1.7


class Measured(NamedTuple):
    """A swatch that says its cord: what it is of, over how many rows, how much a strand (mm).

    `path` is its place in the pattern.
    """

    of: str | None
    rows: int
    cord_used: float
    path: Path = ("swatch",)


class Scale(NamedTuple):
    """What a swatch's cord says of its section's knots.

    `factor` is κ, on the excess of working and knotting strands, or None where less cord was
    measured than the strand's way alone: that is no strand of these rows. `ratio` is the cord
    measured over the usual, `error` the standard deviation of the cord in its knots (a share),
    `rows_needed` over how many rows that error would be the one the allowance counts on, and `path`
    the swatch's place in the pattern.
    """

    of: str | None
    rows: int
    factor: float | None
    ratio: float
    error: float
    rows_needed: int
    path: Path

    @property
    def unsure(self) -> bool:
        """Tell whether the allowance takes the swatch to be surer than it is."""
        return self.error > SHARED_ERROR_MEASURED + 1e-12


class _Sample(NamedTuple):
    """What is tied together in the middle of a section, over its first rows, as in a swatch."""

    rows: Sequence[Row]
    strands: tuple[int, ...]
    section: int


Own = Mapping[str, Mapping[str, float]]  # the maker's own figures by knot and role, diameters


def swatch_scales(
    piece: Piece, swatches: Iterable[Measured], own: Own | None = None
) -> tuple[Scale, ...]:
    """Return what every swatch says of the cord its section's knots take.

    The model's length is that of one interior strand over the swatch's rows: the mean of those of
    the knot (or motif) in the section's middle, since not all of them work. A section of fewer
    rows than the swatch is measured as if it went on alike. A swatch of no section says nothing.
    """
    bare, usual = Taking(own or {}, otherwise=0.0), Taking(own or {}, otherwise=1.0)
    found = []
    for swatch in swatches:
        part = part_of(piece, swatch.of)
        if part is None:
            continue
        sample = _sample(piece, part, swatch.rows)
        more = swatch.rows / len(sample.rows) / max(1, len(sample.strands))
        way = followed(piece, sample.rows, sample.strands, bare) * more
        model = followed(piece, sample.rows, sample.strands, usual) * more
        if model > way:
            factor = (swatch.cord_used - way) / (model - way)
            ties, sigma = _ties(sample, usual)
            found.append(
                Scale(
                    swatch.of, swatch.rows, factor if factor >= 0.0 else None,
                    swatch.cord_used / model,
                    measuring_error(swatch, ties * more, sigma),
                    rows_needed(swatch, ties * more, sigma),
                    swatch.path,
                )
            )  # fmt: skip
    return tuple(found)


def scales(piece: Piece, known: Sequence[Scale]) -> Mapping[int, float]:
    """Return the factor (κ) on the excess of each section's knots, of those a swatch serves."""
    factors = {each.of: each.factor for each in reversed(known) if each.factor is not None}
    by_part = served(piece, [each.of for each in known if each.factor is not None])
    return {part: factors[of] for part, of in by_part.items()}


def served(piece: Piece, given: Sequence[str | None]) -> Mapping[int, str | None]:
    """Return which of the swatches, by what they are of, each section of a piece goes by.

    A swatch serves the section or kind it is of; the first one all sections that no other names.
    """
    if not given:
        return {}
    return {
        i: part.name if part.name in given else part.kind if part.kind in given else given[0]
        for i, part in enumerate(piece.parts)
    }


def part_of(piece: Piece, of: str | None) -> int | None:
    """Return the number of the section a swatch is of: by name, then by kind.

    A swatch that doesn't say is of the piece's plain net, if it has one: of the
    kind of the lowest rank.
    """
    tied = {row.section for row in piece.rows}
    parts = [(i, part) for i, part in enumerate(piece.parts) if i in tied]
    if of is None:
        ranks = {i: kind_of(part).swatch_rank for i, part in parts}
        rest = [i for i, part in parts if ranks[i] is None and part.name != "mount"]
        ranked = sorted((rank, i) for i, rank in ranks.items() if rank is not None)
        return next((i for _, i in ranked), next(iter(rest), None))
    named = next((i for i, part in parts if part.name == of), None)
    return next((i for i, part in parts if part.kind == of), None) if named is None else named


def measuring_error(swatch: Measured, ties: float, sigma: float) -> float:
    """Return how far off (a share) a swatch's cord may be, with so many ties of one strand.

    Reading the tape, and the spread of ties: `sigma`, a tie's own error, over the root of their
    number.
    """
    return math.hypot(READING / swatch.cord_used, sigma / math.sqrt(ties) if ties else 0.0)


def rows_needed(swatch: Measured, ties: float, sigma: float) -> int:
    """Return over how many rows the error would be that of the allowance, or less.

    Cord and ties grow with the rows n, so that a/n² + b/n = s² (a, b for one row).
    """
    aim = SHARED_ERROR_MEASURED**2
    a = (READING * swatch.rows / swatch.cord_used) ** 2
    b = sigma**2 * swatch.rows / ties if ties else 0.0
    return max(1, math.ceil((b + math.sqrt(b * b + 4.0 * a * aim)) / (2.0 * aim) - 1e-9))


def unsure(known: Iterable[Scale]) -> tuple[Notice, ...]:
    """Return the swatches that are too small for the allowance."""
    return tuple(
        Notice("swatch_unsure", (*scale.path, "rows"), "advice", {
            "of": scale.of, "rows": scale.rows, "error": scale.error,
            "counted_on": SHARED_ERROR_MEASURED, "rows_needed": scale.rows_needed,
        })
        for scale in known
        if scale.unsure
    )  # fmt: skip


def doubtful(known: Iterable[Scale]) -> tuple[Notice, ...]:
    """Return the swatches whose cord is hardly that of one strand over their rows."""
    return tuple(
        Notice("swatch_doubtful", (*scale.path, "cord_used"), "doubt", {
            "of": scale.of, "rows": scale.rows, "ratio": scale.ratio,
            "used": scale.factor is not None,
        })
        for scale in known
        if scale.factor is None or not LEAST_FACTOR <= scale.ratio <= MOST_FACTOR
    )  # fmt: skip


def _sample(piece: Piece, part: int, rows: int) -> _Sample:
    section = piece.parts[part]
    chosen = [row for row in piece.rows if row.section == part][:rows]
    middle = section.lane + section.strands / 2.0
    placed = min(
        chosen[0].placements, key=lambda each: abs(each.lane + each.shape.span / 2 - middle)
    )
    return _Sample(chosen, placed.strands, part)


def _ties(sample: _Sample, take: Taking) -> tuple[float, float]:
    """Return how many ties the sample's strands have together, and what one tie's error is."""
    sigmas = [
        take(tie.knot, tie.manner, sample.section).sigma
        for row in sample.rows
        for placement in row.placements
        for tie in placement.shape.ties
        for who in tie.who
        if tie.knot != "cross" and placement.strands[who] in sample.strands
    ]
    mean = math.sqrt(sum(sigma**2 for sigma in sigmas) / len(sigmas)) if sigmas else 0.0
    return float(len(sigmas)), mean
