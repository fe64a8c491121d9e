"""The swatch's word on cord: what was measured over what the model says, section by section."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from knotplot.geometry.layout import Take, followed
from knotplot.tying.piece import Piece


class Measured(NamedTuple):
    """A swatch that says its cord: what it is of, over how many rows, how much a strand (mm)."""

    of: str | None
    rows: int
    cord_used: float


def scales(piece: Piece, swatches: Iterable[Measured], take: Take) -> Mapping[int, float]:
    """Return the factor on the cord of each section's knots.

    A swatch scales the section or kind it is of; the first one all sections that no other names.
    The model's length is that of one interior strand over the swatch's rows: the mean of the four
    in the section's middle, since which of them work changes from row to row.
    """
    known: dict[str | None, float] = {}
    for swatch in swatches:
        part = _part(piece, swatch.of)
        if part is None:
            continue
        model = _model(piece, part, swatch.rows, take)
        if model > 0.0:
            known[swatch.of] = swatch.cord_used / model
    if not known:
        return {}
    first = next(iter(known.values()))
    return {
        i: known.get(part.name, known.get(part.kind, first)) for i, part in enumerate(piece.parts)
    }


def _part(piece: Piece, of: str | None) -> int | None:
    """Return the number of the section a swatch is of: by name, by kind, else the first tied."""
    tied = {row.section for row in piece.rows}
    parts = [(i, part) for i, part in enumerate(piece.parts) if i in tied]
    if of is None:
        return next((i for i, part in parts if part.name != "mount"), None)
    named = next((i for i, part in parts if part.name == of), None)
    return next((i for i, part in parts if part.kind == of), None) if named is None else named


def _model(piece: Piece, part: int, rows: int, take: Take) -> float:
    """Return the mean length (mm) of four strands in the middle over a section's first rows."""
    section = piece.parts[part]
    chosen = [row for row in piece.rows if row.section == part][:rows]
    middle = section.lane + max(0, section.strands // 2 - 2)
    strands = chosen[0].order_after[middle : middle + 4]
    total = followed(piece, chosen, strands, take)
    # A section of fewer rows than the swatch is measured as if it went on alike.
    return total / max(1, len(strands)) * rows / len(chosen)
