"""What is read and checked, but not built yet: refused, never ignored.

One entry a thing; whoever builds it takes its entry away.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from knotplot.errors import Fault, Path, shown
from knotplot.motifs.motif import steps_within
from knotplot.motifs.step import Step
from knotplot.motifs.steps import AddStep, EndStep, KnotStep
from knotplot.pattern.models import Pattern
from knotplot.sections.base import walk
from knotplot.sections.motif_band import MotifBand

Found = Iterable[tuple[Path, str | None]]


def _given(key: str) -> Callable[[Pattern], Found]:
    def find(pattern: Pattern) -> Found:
        return [((key,), None)] if getattr(pattern, key) is not None else []

    return find


def _other(key: str, plain: object) -> Callable[[Pattern], Found]:
    def find(pattern: Pattern) -> Found:
        value = getattr(pattern, key)
        return [((key,), shown(value))] if value != plain else []

    return find


def _steps(suits: Callable[[Step], bool]) -> Callable[[Pattern], Found]:
    """Find steps in the motifs that are the pattern's own, and in shipped ones it uses."""

    def find(pattern: Pattern) -> Iterator[tuple[Path, str | None]]:
        for name, motif in pattern.motifs.items():
            for path, step in steps_within(motif.steps):
                if suits(step):
                    yield ("motifs", name, *path), None
        for path, section in walk(pattern.sections):
            if isinstance(section, MotifBand) and section.motif not in pattern.motifs:
                steps = pattern.motif(section.motif).steps
                if any(suits(step) for _, step in steps_within(steps)):
                    yield (*path, "motif"), shown(section.motif)

    return find


NOT_BUILT: tuple[tuple[Callable[[Pattern], Found], str, str], ...] = (
    (_other("worked", "flat"), "working in the round", "use 'worked: flat'"),
    (_given("colours"), "colours", "leave 'colours' out"),
    (_other("kits", 1), "kits for more than one piece", "use 'kits: 1'"),
    (_other("language", "en"), "another language than English", "use 'language: en'"),
    (_steps(lambda s: isinstance(s, AddStep)), "adding cords", "begin with all strands"),
    (_steps(lambda s: isinstance(s, EndStep)), "ending strands", "let all strands go on"),
    (
        _steps(lambda s: isinstance(s, KnotStep) and s.picot is not None),
        "picots",
        "leave 'picot' out",
    ),
)


def not_built(pattern: Pattern) -> Iterator[Fault]:
    """Yield what the pattern asks for that isn't built yet."""
    for find, what, remedy in NOT_BUILT:
        for path, value in find(pattern):
            yield Fault(path, f"not built yet: {what}", remedy, value)
