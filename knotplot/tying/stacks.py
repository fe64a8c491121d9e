"""Knots one below another on the same cords: which stacks they make, by knot and facing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from knotplot.tying.shape import ShapeTie

LEAST = 3  # knots one below another


def stacks(ties: Iterable[ShapeTie]) -> Iterator[str]:
    """Yield the stacks that ties make: "sennit KNOT", and with "alike" or "alternate" facings."""
    facings: dict[str, set[str | None]] = {}
    for tie in ties:
        facings.setdefault(tie.knot, set()).add(tie.facing)
    for knot, ways in facings.items():
        yield f"sennit {knot}"
        yield f"sennit {knot} {'alternate' if len(ways) > 1 else 'alike'}"
