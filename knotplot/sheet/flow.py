"""Strips of a page, put one below another: none parted that belong together.

A strip is as wide as the page is written on and never split. `tied` strips stay with the next
one, so that no heading stands alone at the foot of a page and no single line is left over.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from knotplot.drawing.shapes import Group, Item


@dataclass(frozen=True, slots=True)
class Strip:
    """What stands side by side: its height, its items from its own upper left corner, in mm.

    `space` is kept free above it, save at the top of a page. `again` is what is put before it
    where it begins a page: a heading said again.
    """

    height: float
    items: tuple[Item, ...] = ()
    space: float = 0.0
    tied: bool = False
    again: tuple[Strip, ...] = ()


def compose(strips: Iterable[Strip], room: float) -> list[tuple[Item, ...]]:
    """Return the items of every page of `room` mm that the strips take, from its upper left.

    A run of tied strips taller than a page is parted as if it were not tied.
    """
    pages: list[list[Item]] = [[]]
    left = room
    fresh = True
    for run in _runs(strips, room):
        need = run[0].space * (not fresh) + _height(run)
        if need > left + 1e-6 and not fresh:
            pages.append([])
            left, fresh = room, True
            run = [*run[0].again, *run]
        for strip in run:
            by = 0.0 if fresh else strip.space
            if strip.items:
                pages[-1].append(Group(strip.items, dy=room - left + by))
            left -= by + strip.height
            fresh = False
    return [tuple(page) for page in pages]


def carried(strips: Iterable[Strip], again: Sequence[Strip]) -> list[Strip]:
    """Return strips before which `again` is put wherever one of them begins a page."""
    return [replace(strip, again=(*again, *strip.again)) for strip in strips]


def tied(strips: Sequence[Strip]) -> list[Strip]:
    """Return strips that stay together, the last free to part from what follows."""
    return [*(replace(strip, tied=True) for strip in strips[:-1]), *strips[-1:]]


def led(strips: Sequence[Strip]) -> list[Strip]:
    """Return strips that stay together and with what follows: a heading."""
    return [replace(strip, tied=True) for strip in strips]


def spaced(strips: Sequence[Strip], space: float) -> list[Strip]:
    """Return strips with so much kept free above the first (mm)."""
    return [replace(strip, space=space) if i == 0 else strip for i, strip in enumerate(strips)]


def _height(run: Sequence[Strip]) -> float:
    return sum(strip.height for strip in run) + sum(strip.space for strip in run[1:])


def _runs(strips: Iterable[Strip], room: float) -> Iterator[list[Strip]]:
    """Yield the strips that stay together; singly where together they are too tall."""
    run: list[Strip] = []
    for strip in strips:
        run.append(strip)
        if not strip.tied:
            yield from _short(run, room)
            run = []
    if run:
        yield from _short(run, room)


def _short(run: list[Strip], room: float) -> Iterator[list[Strip]]:
    repeated = sum(strip.height + strip.space for strip in run[0].again)
    if _height(run) + repeated <= room:
        yield run
    else:
        yield from ([strip] for strip in run)
