"""What is kept between pieces is bounded, so that a process may build pieces without end."""

from __future__ import annotations

import functools
import importlib
import pkgutil
from collections.abc import Iterator
from typing import Any

import knotplot
from knotplot.tying.ports import looped_ports

MOST = 8192  # entries of one cache; a large piece has some hundred knots that differ


def caches() -> Iterator[tuple[str, Any]]:
    """Yield every cached function of the package, of its classes too, by its full name."""
    for info in pkgutil.walk_packages(knotplot.__path__, "knotplot."):
        if info.name.startswith("knotplot.cord_use.solver"):
            continue  # makes the shipped data, and is not part of a program that uses it
        module = importlib.import_module(info.name)
        for owner in (module, *(c for c in vars(module).values() if isinstance(c, type))):
            for name, thing in vars(owner).items():
                if isinstance(thing, functools._lru_cache_wrapper):
                    yield f"{module.__name__}.{name}", thing


def test_every_cache_has_a_bound():
    found = dict(caches())
    assert len(found) > 20
    unbounded = [name for name, kept in found.items() if kept.cache_info().maxsize is None]
    assert unbounded == []
    assert max(kept.cache_info().maxsize for kept in found.values()) <= MOST


def test_pieces_that_differ_do_not_fill_them():
    most = looped_ports.cache_info().maxsize
    for i in range(2 * most):
        looped_ports(False, 4.0 + i / 1000.0)
    assert looped_ports.cache_info().currsize == most
