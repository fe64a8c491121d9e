"""Knots, one file each, found by discovery: a file names its knots in `KNOTS`."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from knotplot.discovery import Registry
from knotplot.errors import Refusal
from knotplot.knots.base import Form, Knot, Manner
from knotplot.knots.cross import CROSS

_KNOTS: Registry[Knot] = Registry(
    __name__, lambda module: ((knot.name, knot) for knot in getattr(module, "KNOTS", ()))
)


def catalogue() -> Mapping[str, Knot]:
    """Return every knot by name; two files that claim one name are refused."""
    return _KNOTS


def knot(name: str) -> Knot:
    """Return the knot of that name ("cross" too); raises `Refusal` where there is none."""
    if name == CROSS.name:
        return CROSS
    try:
        return catalogue()[name]
    except KeyError:
        known = ", ".join(catalogue())
        raise Refusal("there is no such knot", f"use one of {known}", value=name) from None


@lru_cache(maxsize=1024)
def form(name: str, manner: Manner) -> Form:
    """Return the curves of a knot tied in that manner (kept, since a piece repeats a few)."""
    return knot(name).tied(manner)


def tight(name: str, manner: Manner) -> Form:
    """Return the curves of a knot tied in that manner as they look pulled tight."""
    return knot(name).tight(manner)
