"""All kinds of parts by name, and what a part of a piece is called in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from knotplot.kind import Kind, KindWords
from knotplot.mounts.base import MOUNTS, Mount
from knotplot.sections.base import SECTIONS, Section
from knotplot.tying.names import listed
from knotplot.tying.piece import Part

LANGUAGE = "en"  # of refusals and notices


@lru_cache(maxsize=1)
def kinds() -> Mapping[str, type[Kind]]:
    """Return every kind of section and mount by name; raise ValueError where two have one name."""
    both = SECTIONS.keys() & MOUNTS.keys()
    if both:
        raise ValueError(f"a section and a mount are both called {sorted(both)[0]!r}")
    return {**SECTIONS, **MOUNTS}


def kind_of(part: Part) -> type[Kind]:
    """Return the kind of a part of a piece."""
    return kinds()[part.kind]


def section_kind(part: Part) -> type[Section] | None:
    """Return the kind of a section of a piece; None for its mounting."""
    return SECTIONS.get(part.kind)


def mount_kind(name: str) -> type[Mount]:
    """Return the kind of a mount by its name."""
    return MOUNTS[name]


def kind_words(kind: str, language: str = LANGUAGE) -> KindWords:
    """Return the words of a kind, by its name; raise KeyError for a language it has none in."""
    return kinds()[kind].words[language]


def section_name(name: str, kind: str) -> str:
    """Return what a section is called: its own name in quotes, else the trade's word for its kind.

    >>> section_name("top line", "hitch_line"), section_name("hitch_line", "hitch_line")
    ('“top line”', 'the row of double half hitches')
    """
    if name != kind:
        return "the mounting" if name == "mount" else f"“{name}”"
    return kind_words(kind).one


def section_names(sections: Iterable[tuple[str, str]]) -> str:
    """Return what several sections, (name, kind) each, are called, every name said once.

    >>> section_names([("a", "sennits"), ("sennits", "sennits"), ("sennits", "sennits")])
    '“a” and the sennits'
    """
    given = list(sections)
    called = []
    for name, kind in dict.fromkeys(given):
        many = given.count((name, kind)) > 1 and name == kind
        called.append(kind_words(kind).many if many else section_name(name, kind))
    return listed(called)
