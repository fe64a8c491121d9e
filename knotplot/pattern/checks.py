"""What must hold across a pattern's parts, beyond its single fields.

`form_faults` works on the plain tree, so that it can speak of a file whose fields are at fault
too; `model_faults` needs the measures read.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from knotplot.discovery import hint
from knotplot.errors import Fault, Path, shown
from knotplot.knots import catalogue
from knotplot.motifs.motif import Motif, steps_within
from knotplot.motifs.shipped import shipped_names
from knotplot.motifs.steps import KnotStep
from knotplot.pattern.models import VERSION, Pattern
from knotplot.pattern.parts import rise_fault
from knotplot.pattern.tree import parts_of
from knotplot.sections.base import SECTIONS, walk
from knotplot.sections.columns import Columns
from knotplot.sections.sennits import Sennits


class _Found(NamedTuple):
    """A section in the tree and its path."""

    path: Path
    section: Mapping[str, Any]


def form_faults(document: Mapping[str, Any]) -> Iterator[Fault]:
    """Yield what is wrong with the form of a whole document, whatever else is wrong with it."""
    yield from _first_key(document)
    for one, other, needed in (
        ("size", "opening", True),
        ("cord", "cords", True),
        ("swatch", "swatches", False),
    ):
        given = [key for key in (one, other) if document.get(key) is not None]
        if len(given) == 2:
            yield Fault((other,), f"both '{one}' and '{other}'", "give one of the two")
        elif needed and not given:
            yield Fault((), f"neither '{one}' nor '{other}'", f"add '{one}'")
    found = tuple(_sections(document.get("sections"), ("sections",)))
    yield from _names(found)
    yield from _fills(found)
    yield from _below_tassels(document.get("sections"), ("sections",))
    yield from _motifs(document, found)
    yield from _knots(document, found)
    yield from _swatches(document, found)


def _first_key(document: Mapping[str, Any]) -> Iterator[Fault]:
    first = next(iter(document), None)
    if "knotplot" in document and first != "knotplot":
        problem = f"'knotplot' isn't the first key, '{first}' is"
        yield Fault(("knotplot",), problem, f"begin the file with 'knotplot: {VERSION}'")


def _sections(tree: Any, path: Path) -> Iterator[_Found]:
    """Yield every section, those inside others too, in a tree that may be junk elsewhere."""
    for i, section in _listed(tree):
        if isinstance(section, Mapping):
            yield _Found((*path, i), section)
            for steps, held in _held(section):
                yield from _sections(held, (*path, i, *steps))


def _listed(tree: Any) -> Iterable[tuple[int, Any]]:
    return enumerate(tree) if isinstance(tree, list | tuple) else ()


def _held(section: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    yield ("sections",), section.get("sections")
    for i, part in _listed(section.get("parts")):
        if isinstance(part, Mapping):
            yield ("parts", i, "sections"), part.get("sections")


def _names(found: tuple[_Found, ...]) -> Iterator[Fault]:
    seen: set[str] = set()
    for path, section in found:
        name = section.get("name")
        if isinstance(name, str) and name in seen:
            yield Fault(
                (*path, "name"), "another section has this name", "give it its own", shown(name)
            )
        elif isinstance(name, str):
            seen.add(name)


def _fills(found: tuple[_Found, ...]) -> Iterator[Fault]:
    filling = [
        (*path, key)
        for path, section in found
        for key in ("rows", "length")
        if section.get(key) == "fill"
    ]
    for path in filling[1:]:
        yield Fault(path, "a second 'fill'", "say a number: only one can take the rest", "'fill'")


def _below_tassels(tree: Any, path: Path) -> Iterator[Fault]:
    above = False
    for i, section in _listed(tree):
        if not isinstance(section, Mapping):
            continue
        here = (*path, i)
        if above and section.get("kind") != "fringe":
            kind = section.get("kind")
            value = shown(kind) if isinstance(kind, str) else None
            yield Fault(here, "below a tassel", "only a fringe may follow a tassel", value)
        inside = any(
            under.section.get("kind") == "tassel"
            for steps, held in _held(section)
            for under in _sections(held, steps)
        )
        if inside and section.get("kind") == "repeat" and section.get("times") != 1:
            yield Fault((*here, "times"), "a tassel that is repeated", "put it below the repeat")
        above = above or inside or section.get("kind") == "tassel"
        for steps, held in _held(section):
            yield from _below_tassels(held, here + steps)


def _motifs(document: Mapping[str, Any], found: tuple[_Found, ...]) -> Iterator[Fault]:
    own = document.get("motifs")
    known = dict.fromkeys([*(own if isinstance(own, Mapping) else ()), *shipped_names()])
    for path, section in found:
        name = section.get("motif")
        if section.get("kind") == "motif_band" and isinstance(name, str) and name not in known:
            yield _unknown((*path, "motif"), name, "motif", known)


def _knots(document: Mapping[str, Any], found: tuple[_Found, ...]) -> Iterator[Fault]:
    known = [name for name, knot in catalogue().items() if knot.by_name]
    for path, section in found:
        name = section.get("knot")
        if section.get("kind") == "sennits" and isinstance(name, str) and name not in known:
            yield _unknown((*path, "knot"), name, "knot", known)
    for path, step in _steps(document.get("motifs"), ("motifs",)):
        name = step.get("kind")
        if isinstance(name, str) and name not in known:
            yield _unknown((*path, "kind"), name, "knot", known)
    use = document.get("cord_use")
    for name in use if isinstance(use, Mapping) else ():
        if name not in catalogue():
            yield _unknown(("cord_use", name), name, "knot", list(catalogue()))


def _steps(tree: Any, path: Path) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """Yield the `knot` steps anywhere below."""
    for key, part in parts_of(tree):
        here = (*path, key)
        if key == "knot" and isinstance(part, Mapping):
            yield here, part
        elif isinstance(part, Mapping | list | tuple):
            yield from _steps(part, here)


def _swatches(document: Mapping[str, Any], found: tuple[_Found, ...]) -> Iterator[Fault]:
    names = [s["name"] for _, s in found if isinstance(s.get("name"), str)]
    known = dict.fromkeys([*names, *SECTIONS])
    listed = [(("swatches", i), s) for i, s in _listed(document.get("swatches"))]
    for path, swatch in [(("swatch",), document.get("swatch")), *listed]:
        of = swatch.get("of") if isinstance(swatch, Mapping) else None
        if isinstance(of, str) and of not in known:
            yield _unknown((*path, "of"), of, "section", known)


def _unknown(path: Path, name: str, what: str, known: Collection[str]) -> Fault:
    return Fault(path, f"no {what} is called that", hint(name, known, 3), shown(name))


def model_faults(pattern: Pattern) -> Iterator[Fault]:
    """Yield what is wrong with the measures of a pattern that reads well."""
    wrong = rise_fault(pattern.lower_edge, pattern.width, pattern.drop)
    if wrong:
        rise = f"{float(pattern.lower_edge.rise):g} mm"
        yield Fault(("lower_edge", "rise"), *wrong, rise)
    motifs = pattern.all_motifs
    for path, section in walk(pattern.sections):
        if isinstance(section, Columns):
            for refusal in section.refusals(motifs, path):
                yield refusal.fault
        elif isinstance(section, Sennits):
            wrong = _knot_fault(section.knot, section.strands, 1)
            if wrong:
                yield Fault((*path, "strands"), *wrong, str(section.strands))
    for name, motif in pattern.motifs.items():
        yield from _motif_faults(("motifs", name), motif)


def _motif_faults(path: Path, motif: Motif) -> Iterator[Fault]:
    """Yield the knots of a motif that can't be tied on so many lanes."""
    for place, step in steps_within(motif.steps):
        if isinstance(step, KnotStep):
            wrong = _knot_fault(step.kind, len(step.lanes), step.workers)
            if wrong:
                yield Fault((*path, *place, "lanes"), *wrong, str(list(step.lanes)))


def _knot_fault(name: str, lanes: int, workers: int) -> tuple[str, str] | None:
    """Return why a knot can't be tied on so many lanes; that it isn't known is said elsewhere."""
    tied = catalogue().get(name)
    if tied is None or not tied.by_name:
        known = ", ".join(each for each, knot in catalogue().items() if knot.by_name)
        return (f"{shown(name)} is no knot to tie on lanes", f"use one of {known}")
    return tied.fault(lanes, workers)
