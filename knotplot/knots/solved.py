"""Solved knots: the cord they take and the room they need, as data beside them.

`solved.json` is made by `python -m knotplot.cord_use.solver`: each entry an ideal rope pulled
tight, in cord diameters. `excess` is a strand's length over the straight way past the knot, by
role, which doesn't depend on how far away its ends are held (it does on whether they may hang
behind a leader or rod, as a hitch's may); `pitch` what a knot takes of a stack,
`spacing` what a hitch takes of its leader, `width` from outside to outside.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import lru_cache
from itertools import pairwise
from types import MappingProxyType
from typing import Any

from knotplot.discovery import read_data

_FLAT = 2  # so many fillers lie in a row whatever pulls them


@lru_cache(maxsize=1)
def _data() -> Mapping[str, Any]:
    return MappingProxyType(json.loads(read_data("knotplot.knots", "solved.json")))


def table() -> Mapping[str, Mapping[str, Any]]:
    """Return every entry by name, as `knot/what it is tied on/how`."""
    entries: Mapping[str, Mapping[str, Any]] = _data()["entries"]
    return entries


def excess(entry: str, role: str) -> float:
    """Return a role's cord over the straight way, in diameters."""
    return float(table()[entry]["excess"][role])


@lru_cache(maxsize=256)
def series(pattern: str, what: str) -> tuple[tuple[float, float], ...]:
    """Return (size, value) of the entries whose name is `pattern` with a number for its `*`.

    `what` is a role, for its excess, or a measure.

    >>> [size for size, _ in series("larks_head/on *", "mount")][:3]
    [0.5, 1.0, 2.0]
    """
    before, after = pattern.split("*")
    found = []
    for name, entry in table().items():
        if name.startswith(before) and name.endswith(after):
            size = name[len(before) : len(name) - len(after)]
            value = entry[what] if what in entry else entry["excess"][what]
            found.append((float(size), float(value)))
    return tuple(sorted(found))


def at_size(pattern: str, what: str, size: float) -> float:
    """Return a value at a size: straight lines between entries, beyond them as the fit grows."""
    points = series(pattern, what)
    if points[0][0] <= size <= points[-1][0]:
        for (a, at_a), (b, at_b) in pairwise(points):
            if size <= b:
                return at_a + (at_b - at_a) * (size - a) / (b - a)
    end, at_end = points[0] if size < points[0][0] else points[-1]
    fit = _data()["fits"][f"{pattern} {what}"]
    return float(at_end + fit["b"] * (size ** fit["power"] - end ** fit["power"]))


def flat_excess(knot: str, fillers: int, workers: int, outer: float, crossings: int) -> float:
    """Return a working strand's excess in a flat knot, in diameters.

    Fillers lie in a row or in a bundle; `outer`, how far from the middle the working strands leave,
    tells how flat it is. On no filler a knot has two states (it lies flat, or capsizes): neither is
    taken, but what one filler takes, less what a filler adds: more than both.
    Each working strand more a side is taken to cost a diameter more in every one of its
    `crossings`, in which working strands change sides.
    """
    taken = at_size(f"{knot}/*/row", "working", fillers)
    if fillers > _FLAT:
        bundled = at_size(f"{knot}/*/bundle", "working", fillers)
        wide = _outer(f"{knot}/*/row", fillers)
        narrow = _outer(f"{knot}/*/bundle", fillers)
        share = min(1.0, max(0.0, (outer - narrow) / (wide - narrow)))
        taken = bundled + share * (taken - bundled)
    return taken + crossings * (workers - 1)


def flat_width(knot: str, fillers: int) -> float:
    """Return how wide a flat knot is, in diameters: as solved, its fillers in a row or a bundle.

    Cord doesn't give in width as it does in height: nothing presses a knot from the sides. A chain
    of square knots is twice as wide as thick, 1/4 by 1/8 in (V. McGaw, Construction Work for Rural
    and Elementary Schools, 1909); solved, it is 5.94 by 3.00, and no narrower one was found told.
    """
    if fillers == 0:
        return float(table()["square_knot/0/reef"]["width"])
    return at_size(f"{knot}/*/{'row' if fillers <= _FLAT else 'bundle'}", "width", fillers)


def _outer(pattern: str, fillers: int) -> float:
    """Return how far from the middle the working strands of a solved knot leave it."""
    return (at_size(pattern, "width", fillers) - 1.0) / 2.0
