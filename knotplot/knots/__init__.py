"""Knots, one file each, found by discovery: a file names its knots in `KNOTS`."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache
from types import MappingProxyType

from knotplot.errors import Refusal
from knotplot.knots.base import Form, Knot, Manner
from knotplot.knots.cross import CROSS


@cache
def catalogue() -> MappingProxyType[str, Knot]:
    """Return every knot by name, sorted; raises ImportError where two files claim one name."""
    found: dict[str, tuple[Knot, str]] = {}
    for info in pkgutil.iter_modules(__path__):
        module = importlib.import_module(f"{__name__}.{info.name}")
        for knot in getattr(module, "KNOTS", ()):
            if knot.name in found:
                places = f"{found[knot.name][1]} and {module.__file__}"
                raise ImportError(f"two files claim the knot {knot.name!r}: {places}")
            found[knot.name] = (knot, str(module.__file__))
    return MappingProxyType({name: found[name][0] for name in sorted(found)})


def knot(name: str) -> Knot:
    """Return the knot of that name ("cross" too); raises `Refusal` where there is none."""
    if name == CROSS.name:
        return CROSS
    try:
        return catalogue()[name]
    except KeyError:
        known = ", ".join(catalogue())
        raise Refusal("there is no such knot", f"use one of {known}", value=name) from None


@cache
def form(name: str, manner: Manner) -> Form:
    """Return the curves of a knot tied in that manner (kept, since a piece repeats a few)."""
    return knot(name).form(manner)
