"""Parts put on pages one after another: one may begin below another that leaves much room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from knotplot.drawing.shapes import Anchor, Group, Item
from knotplot.sheet.flow import Strip, compose
from knotplot.sheet.paper import Paper
from knotplot.sheet.subject import Part, placed

_ABOVE = 15.0  # mm kept free above a part that begins below another
_CLOSER = 0.6  # of the space above each strip, at the least
_LOWEST = 0.6  # of a page's height, the lowest at which a part may begin
_TOP = 1.0  # mm from the top of a page, below which a part begins under another


class Page(NamedTuple):
    """A page: the titles of what stands on it, the anchors of parts that begin, its items."""

    titles: tuple[str, ...]
    begun: tuple[str, ...]
    items: tuple[Item, ...]


def laid(paper: Paper, parts: Sequence[Part]) -> list[Page]:
    """Return the pages of parts in their order."""
    found: list[Page] = []
    for run in _joined(paper, parts):
        strips = _strips(run)
        title = run[0].title
        for items in _composed(strips, paper.room):
            begun = {name for name, _ in anchors(items)}
            here = [each for each in run if each.key in begun]
            titles = [each.title for each in here]
            if not here or here[0] is not run[0]:
                titles.insert(0, title)
            title = titles[-1]
            keys = tuple(each.key for each in here)
            found.append(Page(tuple(titles), keys, placed(paper, items)))
        last = run[-1]
        found += [Page((last.title,), (), items) for items in last.more]
    return found


def _joined(paper: Paper, parts: Sequence[Part]) -> list[list[Part]]:
    """Return the parts in runs, each of which goes on without a new page for a part."""
    runs: list[list[Part]] = []
    for each in parts:
        joins = runs and not each.alone and not runs[-1][-1].more
        if joins and _suits(paper, runs[-1], each):
            runs[-1].append(each)
        else:
            runs.append([each])
    return runs


def _suits(paper: Paper, run: Sequence[Part], each: Part) -> bool:
    """Say whether a part does well to begin below others: not at a page's foot.

    It saves a page; or it costs none, much of a page would else stay empty, and the part takes
    several pages in any case.
    """
    room = paper.room
    alone = len(_composed(each.strips, room))
    apart = len(_composed(_strips(run), room)) + alone
    together = _composed(_strips([*run, each]), room)
    if len(together) >= apart + (alone > 1 and not each.tall):
        return False
    start = next(y for page in together for name, y in anchors(page) if name == each.key)
    return _TOP < start <= _LOWEST * paper.room


def _composed(strips: Sequence[Strip], room: float) -> list[tuple[Item, ...]]:
    """Return the pages of strips, a little closer to each other where that saves a page."""
    pages = compose(strips, room)
    if len(pages) == 1:
        return pages
    closer = compose([replace(strip, space=_CLOSER * strip.space) for strip in strips], room)
    return closer if len(closer) < len(pages) else pages


def _strips(run: Sequence[Part]) -> list[Strip]:
    """Return the strips of parts one below another."""
    first, *others = run
    strips = list(first.strips)
    for each in others:
        head, *rest = each.strips
        strips += [replace(head, space=_ABOVE), *rest]
    return strips


def anchors(items: Sequence[Item], y: float = 0.0) -> Iterator[tuple[str, float]]:
    """Yield the anchors among items, each with how far down it stands (mm)."""
    for item in items:
        if isinstance(item, Anchor):
            yield item.name, item.y + y
        elif isinstance(item, Group):
            yield from anchors(item.items, y + item.dy)
