"""What the SVG and the PDF renderer share: numbers, path data, names, and where links may lead.

Numbers have two decimals everywhere, a hundredth of a millimetre; -0.00 is written 0.00 and what
is not finite is refused. A run of paths is written by one %-format a path, the quickest way
Python has (0.7 × the time of f-strings, measured; tests/benchmarks/bench_render.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from math import isfinite
from typing import NamedTuple

from knotplot.drawing.shapes import Anchor, Group, Item, Point, Symbol

_NAME = re.compile(r"[A-Za-z0-9._-]+")
_SYMBOL_NAME = re.compile(r"[a-z0-9-]+")


class PathForm(NamedTuple):
    """How a path is written: %-templates for its start, each of its steps, and its end.

    `afresh` counts each cubic from its start (`relative`).
    """

    start: str
    step: str
    end: str = ""
    afresh: bool = False


def number(value: float) -> str:
    """Write a number with two decimals; ValueError where it is not finite.

    >>> number(-0.001), number(12.345678)
    ('0.00', '12.35')
    """
    if not isfinite(value):
        raise ValueError(f"a drawing has a number that is not finite: {value}")
    text = f"{value:.2f}"
    return "0.00" if text == "-0.00" else text


def path_data(paths: Sequence[tuple[float, ...]], form: PathForm) -> str:
    """Write paths one after another; ValueError for a number not finite or a count that can't be.

    Neither `form` nor what it writes may hold an `n` other than that of `nan` or `inf`.
    """
    a_step = form.step.count("%")
    templates: dict[int, str] = {}
    for length in set(map(len, paths)):
        steps, over = divmod(length - 2, a_step)
        if over or steps < 1:
            raise ValueError(f"a path has {length} numbers: 2 and a multiple of {a_step} do")
        templates[length] = form.start + form.step * steps + form.end
    if form.afresh and set(templates) == {8}:  # one cubic each, as nearly all: in one go
        template = templates[8]
        text = "".join(
            [
                template % (x, y, a - x, b - y, c - x, d - y, e - x, f - y)
                for x, y, a, b, c, d, e, f in paths
            ]
        )
    elif form.afresh:
        text = "".join([templates[len(path)] % relative(path) for path in paths])
    elif len(templates) == 1:
        (template,) = templates.values()
        text = "".join(map(template.__mod__, paths))
    else:
        text = "".join([templates[len(path)] % path for path in paths])
    if "n" in text:
        raise ValueError("a drawing has a path with a number that is not finite")
    return text.replace("-0.00", "0.00") if "-0.00" in text else text


def relative(curve: tuple[float, ...]) -> tuple[float, ...]:
    """Return a curve with each of its cubics counted from its start.

    Runs alike then read alike wherever they lie, and a file of them packs to a third or less. The
    points are taken at whole hundredths first, so that nothing drifts along them.

    >>> relative((1.0, 2.0, 1.0, 3.0, 2.004, 3.0, 3.0, 3.5))
    (1.0, 2.0, 0.0, 1.0, 1.0, 1.0, 2.0, 1.5)
    """
    at = [round(value, 2) for value in curve]
    x, y, *rest = at
    moved = at[:2]
    for k in range(0, len(rest), 6):
        a, b, c, d, e, f = rest[k : k + 6]
        moved += (a - x, b - y, c - x, d - y, e - x, f - y)
        x, y = e, f
    return tuple(moved)


def places(at: Sequence[Point], template: str) -> str:
    """Write `template` once for each place; ValueError for a number that is not finite."""
    if not isfinite(sum(chain.from_iterable(at))):
        raise ValueError("a drawing has a place with a number that is not finite")
    text = "".join(map(template.__mod__, at))
    return text.replace("-0.00", "0.00") if "-0.00" in text else text


def chunks(paths: Sequence[tuple[float, ...]], size: int) -> Iterator[Sequence[tuple[float, ...]]]:
    """Cut a sequence into parts of at most `size`."""
    for first in range(0, len(paths), size):
        yield paths[first : first + size]


def anchors(items: Iterable[Item]) -> Iterator[tuple[Anchor, float]]:
    """Yield every anchor with its y in the frame of `items`; ValueError for a name not allowed."""
    for item in items:
        if isinstance(item, Anchor):
            if not _NAME.fullmatch(item.name):
                raise ValueError(f"an anchor can't be called {item.name!r}: use A-Z a-z 0-9 . _ -")
            yield item, item.y
        elif isinstance(item, Group):
            for anchor, y in anchors(item.items):
                yield anchor, y * item.scale + item.dy


def link_name(target: str) -> str | None:
    """Return the anchor's name of a link within, None for an https address; else ValueError."""
    if target.startswith("#"):
        return target[1:]
    if target.startswith("https://") and target.isascii() and target.isprintable():
        return None
    raise ValueError(f"a link can't lead to {target!r}: use #name or an https address")


def register(symbol: Symbol, known: dict[str, Symbol]) -> bool:
    """Enter a symbol under its name, and say whether it is new.

    Raises ValueError where the name can't be, or belongs to another symbol.
    """
    met = known.get(symbol.name)
    if met is symbol or met == symbol:
        return False
    if met is not None:
        raise ValueError(f"two symbols of one drawing are called {symbol.name!r}")
    if not _SYMBOL_NAME.fullmatch(symbol.name):
        raise ValueError(f"a symbol can't be called {symbol.name!r}: use a-z 0-9 and -")
    known[symbol.name] = symbol
    return True
