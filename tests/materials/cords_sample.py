"""Pieces whose cords are folded, for the tests of lengths."""

from __future__ import annotations

from functools import cache

from knotplot.api import WorkedPiece, build
from knotplot.pattern.load import loads

SENNITS = """
knotplot: 1
title: Four braids
units: {units}
size: {{width: 12 cm, drop: 70 cm}}
cord: {{diameter: 4 mm, mass_per_length: 9.6 g/m, spool: 30 m}}
strands: {{count: 16}}
mount: {{kind: larks_head, rod: 20 mm, fold: {fold}}}
sections:
  - {{name: braids, kind: sennits, knot: square_knot, strands: 4, count: {count}}}
  - {{kind: fringe, length: 6 cm}}
allowance: {{confidence: {confidence}}}
cut: {{groups: {groups}, step: {step}}}
"""
USUAL = {
    "units": "cm", "fold": "uneven", "confidence": 0.99, "groups": 4, "step": "5 cm", "count": 35,
}  # fmt: skip


@cache
def sennits(**given: object) -> WorkedPiece:
    """Return a piece of sennits, the outer strands of which work in every row."""
    return build(loads(SENNITS.format(**{**USUAL, **given})))
