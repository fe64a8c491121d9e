"""What is read and checked, but not built yet: refused, never ignored.

One entry a thing; whoever builds it takes its entry away. README, the JSON Schema and the commands'
help name what stands here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from knotplot.errors import Fault, shown

if TYPE_CHECKING:
    from knotplot.pattern.models import Pattern


class NotBuilt(NamedTuple):
    """A key of the pattern file with the one value it may have, what others ask for, the remedy."""

    key: str
    plain: object
    what: str
    remedy: str


NOT_BUILT = (
    NotBuilt("worked", "flat", "working in the round", "use 'worked: flat'"),
    NotBuilt("kits", 1, "kits for more than one piece", "use 'kits: 1'"),
    NotBuilt("language", "en", "another language than English", "use 'language: en'"),
)
#: Options of `knotplot sheet` that are read and refused, and what they ask for.
OPTIONS = {
    "--left-handed": "a sheet for the left hand",
    "--large-print": "a sheet in large print",
}


def not_built(pattern: Pattern) -> Iterator[Fault]:
    """Yield what the pattern asks for that isn't built yet."""
    for each in NOT_BUILT:
        value = getattr(pattern, each.key)
        if value != each.plain:
            problem = f"not built yet: {each.what}"
            yield Fault((each.key,), problem, each.remedy, shown(value))
