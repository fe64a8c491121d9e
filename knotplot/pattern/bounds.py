"""Measures that no hand can work: cords thinner than thread, rings too small for their cords."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from knotplot.errors import Fault, Path, Refusal
from knotplot.pattern.models import Pattern
from knotplot.tying.gauge import Gauge

THINNEST = Fraction(1, 10)  # mm: about a sewing thread, common practice
LEAST_SIZE = Fraction(1)  # mm: below this a width would be printed as none


def out_of_bounds(pattern: Pattern) -> Iterator[Fault]:
    """Yield the measures that are too small, whatever the count of strands."""
    for kind, cord in pattern.cord_types.items():
        place: Path = ("cord",) if pattern.cord is not None else ("cords", kind)
        yield from _thin((*place, "diameter"), cord.diameter, "the cord's thickness, as 4 mm")
    for key in ("rod", "diameter"):
        thick = getattr(pattern.mount, key, None)
        if thick is not None:
            yield from _thin(("mount", key), thick, "what the cords hang on, as 20 mm")
    size = "size" if pattern.size is not None else "opening"
    for key, length in (("width", pattern.width), ("drop", pattern.drop)):
        if length < LEAST_SIZE:
            remedy = f"give a {key} of {float(LEAST_SIZE):g} mm or more"
            yield Fault((size, key), "smaller than can be knotted", remedy, _mm(length))


def _thin(path: Path, thick: Fraction, what: str) -> Iterator[Fault]:
    if thick < THINNEST:
        problem = f"thinner than {float(THINNEST):g} mm, about a sewing thread"
        yield Fault(path, problem, f"give {what}", _mm(thick))


def check_room(pattern: Pattern, gauge: Gauge) -> None:
    """Raise `Refusal` where the mount, or the scallops, have no room for so many strands."""
    pattern.mount.check_room(gauge)
    count = pattern.lower_edge.count
    if not pattern.lower_edge.straight and count is not None and count > gauge.strands:
        raise Refusal(
            f"{count} scallops on {gauge.strands} strands: some would have none",
            f"use {max(1, gauge.strands // 4)} scallops at most, so that four strands hang in each",
            ("lower_edge", "count"),
            str(count),
        )


def _mm(length: Fraction) -> str:
    return f"{float(length):g} mm"
