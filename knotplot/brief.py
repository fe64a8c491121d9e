"""Short forms of the records of a piece, for whoever looks at one at a prompt or in a notebook."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING

from knotplot.errors import shortened

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

#: Characters of a short form at the most: one line at a prompt.
MOST = 96
_PLAIN = (bool, int, float, str, type(None))


class Brief:
    """Makes `repr` of a dataclass one line; the dataclass itself is made with `repr=False`.

    Plain values are written out, of anything longer only how much there is of it.
    """

    __slots__ = ()

    def __repr__(self: DataclassInstance) -> str:
        return brief(self)


def brief(record: DataclassInstance) -> str:
    """Return a dataclass on one line of at most `MOST` characters."""
    told = (f"{each.name}={_short(getattr(record, each.name))}" for each in fields(record))
    return fit_line(f"{type(record).__name__}({', '.join(told)})")


def fit_line(text: str) -> str:
    """Return a short form in one line of at most `MOST` characters, its bracket closed.

    >>> fit_line("Cord(" + "a" * 200 + ")")[-4:]
    'aa…)'
    """
    short = shortened(text, MOST)
    return short if not short.endswith("…") else short[:-2] + "…)"


def _short(value: object) -> str:
    if isinstance(value, _PLAIN):
        return repr(value)
    if isinstance(value, tuple | list | dict | set | frozenset):
        return f"<{len(value)}>"
    return type(value).__name__
