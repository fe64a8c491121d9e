"""What is read and checked, but not built yet: refused, never ignored.

One entry a thing; whoever builds it takes its entry away.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from knotplot.errors import Fault, Path, shown
from knotplot.pattern.models import Pattern

Found = Iterable[tuple[Path, str | None]]


def _other(key: str, plain: object) -> Callable[[Pattern], Found]:
    def find(pattern: Pattern) -> Found:
        value = getattr(pattern, key)
        return [((key,), shown(value))] if value != plain else []

    return find


NOT_BUILT: tuple[tuple[Callable[[Pattern], Found], str, str], ...] = (
    (_other("worked", "flat"), "working in the round", "use 'worked: flat'"),
    (_other("kits", 1), "kits for more than one piece", "use 'kits: 1'"),
    (_other("language", "en"), "another language than English", "use 'language: en'"),
)


def not_built(pattern: Pattern) -> Iterator[Fault]:
    """Yield what the pattern asks for that isn't built yet."""
    for find, what, remedy in NOT_BUILT:
        for path, value in find(pattern):
            yield Fault(path, f"not built yet: {what}", remedy, value)
