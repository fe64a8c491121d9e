"""How much cord should be left on a strand below a row: what a maker checks while there is time."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from knotplot.geometry.layout import Layout, followed
from knotplot.materials.lengths import CordLength


def remaining(layout: Layout, lengths: Iterable[CordLength]) -> Callable[[int, int], float | None]:
    """Return a function of strand and row (from 0): the cord (mm) left below that row.

    It counts from the cut lengths, so that it has the allowance in it; None where a strand's
    share of its cord isn't known.
    """
    shares = _shares(layout, lengths)

    def left(strand: int, row: int) -> float | None:
        share = shares.get(strand)
        return None if share is None else share - used(layout, strand, row)

    return left


def _shares(layout: Layout, lengths: Iterable[CordLength]) -> dict[int, float]:
    """Return what of its cut cord each strand has (mm): up to the fold, or all but the tail."""
    mounting = layout.piece.mounting
    shares: dict[int, float] = {}
    for each in lengths:
        cut = float(each.cut)
        if each.cord.role != "main":
            continue
        if each.fold is not None:
            left, right = each.cord.strands
            shares[left], shares[right] = each.fold, cut - each.fold
        elif mounting.pocket is not None:
            body, tail = each.cord.strands
            shares[body], shares[tail] = cut - mounting.tail, mounting.tail
        else:
            shares[each.cord.strands[0]] = cut - mounting.tail
    return shares


def folds(lengths: Iterable[CordLength]) -> tuple[tuple[float, tuple[str, ...]], ...]:
    """Return where the mounting's folded cords are folded: mm from the left end, and their ids.

    Cords of the same cut length and fold stand together, the longest cut first. Cords that are
    added in the work are folded in the middle.
    """
    found: dict[tuple[float, float], list[str]] = {}
    for each in lengths:
        if each.fold is not None and not each.cord.added:
            found.setdefault((-float(each.cut), each.fold), []).append(each.cord.id)
    return tuple((fold, tuple(cords)) for (_, fold), cords in sorted(found.items()))


def used(layout: Layout, strand: int, row: int) -> float:
    """Return the cord (mm) a strand has used when that row (from 0) is tied."""
    piece = layout.piece
    start = piece.mounting.starts[strand]
    starts = {} if start is None else {strand: start}
    return followed(piece, piece.rows[: row + 1], (strand,), layout.take, starts)
