"""Solved shapes: the centre lines of knots pulled tight, as data, and how they meet the ports.

`shapes.json` is made with `solved.json`, by the same command. An ideal rope gives nowhere; knots of
cotton are a little smaller (`SOFTNESS`), and stand between the ports of the form they are drawn
for: what lies in the middle is drawn shorter or longer, what turns keeps its shape.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import lru_cache
from typing import Any

from knotplot.curves.space import Cubic3, Point3, SpaceCurve, mapped, smooth
from knotplot.discovery import read_data
from knotplot.knots.sizes import SOFTNESS


@lru_cache(maxsize=1)
def _data() -> dict[str, Any]:
    made: dict[str, Any] = json.loads(read_data("knotplot.knots", "shapes.json"))
    return made


@lru_cache(maxsize=128)
def centre_lines(entry: str) -> tuple[SpaceCurve, ...]:
    """Return the strands of a solved entry, left to right as they enter, without straight ends.

    In cord diameters about the knot's middle, as pulled ideally tight.

    >>> len(centre_lines("square_knot/2/sennit"))
    2
    """
    return tuple(_curve(flat) for flat in _data()[entry]["strands"])


def _curve(flat: list[float]) -> SpaceCurve:
    return tuple(tuple(flat[k : k + 12]) for k in range(0, len(flat) - 3, 9))


@lru_cache(maxsize=128)
def softened(entry: str) -> tuple[SpaceCurve, ...]:
    """Return the strands of a solved entry, as much smaller as cord gives, but for their depth."""
    return tuple(
        mapped(curve, lambda x, y, z: (SOFTNESS * x, SOFTNESS * y, z))
        for curve in centre_lines(entry)
    )


def led(body: SpaceCurve, form: SpaceCurve) -> SpaceCurve:
    """Return a curve led to where that of a form begins and ends, and as it runs there.

    It keeps its depth: ports lie in the plane of the piece, which has none.
    """
    first, last, begin, end = body[0], body[-1], form[0], form[-1]
    before = smooth(
        [(begin[0], begin[1], first[2]), _point(first, 0)],
        _towards(begin[:3], begin[3:6]), _towards(first[:3], first[3:6]),
    )  # fmt: skip
    after = smooth(
        [_point(last, 9), (end[9], end[10], last[11])],
        _towards(last[6:9], last[9:]), _towards(end[6:9], end[9:]),
    )  # fmt: skip
    return (*before, *body, *after)


def _point(cubic: Cubic3, k: int) -> Point3:
    return (cubic[k], cubic[k + 1], cubic[k + 2])


def _towards(a: tuple[float, ...], b: tuple[float, ...]) -> Point3:
    return (b[0] - a[0], b[1] - a[1], b[2] - a[2])


def moved(curve: SpaceCurve, move: Callable[[Point3], Point3]) -> SpaceCurve:
    """Return a curve with each joint moved by `move`, and the two handles at it along with it.

    So that what turns between two joints near each other keeps its shape, wherever it is moved.
    """

    def cubic(one: Cubic3) -> Cubic3:
        a, b = _point(one, 0), _point(one, 9)
        by_a, by_b = _towards(a, move(a)), _towards(b, move(b))
        shifts = (*by_a, *by_a, *by_b, *by_b)
        return tuple(value + shift for value, shift in zip(one, shifts, strict=True))

    return tuple(cubic(one) for one in curve)
