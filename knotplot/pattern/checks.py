"""What must hold across a pattern's parts, beyond its single fields.

`form_faults` works on the plain tree, so that it can speak of a file whose fields are at fault
too; `model_faults` needs the measures read.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from knotplot import stock
from knotplot.discovery import hint
from knotplot.errors import Fault, Path, shown
from knotplot.examples import example
from knotplot.fields import plain_text
from knotplot.knots import catalogue
from knotplot.knots.base import Manner
from knotplot.motifs.motif import Motif, steps_within
from knotplot.motifs.shipped import shipped_names
from knotplot.motifs.steps import KnotStep
from knotplot.mounts.base import MOUNTS, Mount
from knotplot.pattern.bounds import out_of_bounds
from knotplot.pattern.models import VERSION, Pattern
from knotplot.pattern.parts import ROLES, Support, rise_fault
from knotplot.pattern.tree import parts_of
from knotplot.quantities import Money
from knotplot.sections.base import SECTIONS, Section, walk
from knotplot.tying.checking import lanes_fault, picot_fault


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
            yield Fault((), f"neither '{one}' nor '{other}'", f"add {example(one)}")
    found = tuple(_sections(document.get("sections"), ("sections",)))
    yield from _names(found)
    yield from _fills(found)
    tassels: list[Fault] = []
    _below_tassels(document.get("sections"), ("sections",), tassels)
    yield from tassels
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


def _kind(section: Mapping[str, Any]) -> type[Section] | None:
    """Return what kind of section a mapping is; None where it names no kind that there is."""
    kind = section.get("kind")
    return SECTIONS.get(kind) if isinstance(kind, str) else None


def _names(found: tuple[_Found, ...]) -> Iterator[Fault]:
    seen: set[str] = set()
    for path, section in found:
        name = _word(section.get("name"))
        if name in seen:
            yield Fault(
                (*path, "name"), "another section has this name", "give it its own", shown(name)
            )
        elif name is not None:
            seen.add(name)


def _word(value: object) -> str | None:
    """Return what is read as text: a number stands for how it is written. None for all else."""
    return plain_text(value) if isinstance(value, str | int | float) else None


def _fills(found: tuple[_Found, ...]) -> Iterator[Fault]:
    filling = [
        (*path, key)
        for path, section in found
        for key in ("rows", "length")
        if section.get(key) == "fill"
    ]
    for path in filling[1:]:
        yield Fault(path, "a second 'fill'", "say a number: only one can take the rest", "'fill'")


def _below_tassels(tree: Any, path: Path, faults: list[Fault]) -> bool:
    """Note what stands below a tassel, and tassels in a repeat; tell whether there is a tassel."""
    above = False
    for i, section in _listed(tree):
        if not isinstance(section, Mapping):
            continue
        here, kind = (*path, i), _kind(section)
        if above and not (kind and kind.below_end):
            value = shown(section["kind"]) if isinstance(section.get("kind"), str) else None
            faults.append(Fault(here, "below a tassel", "only a fringe may follow a tassel", value))
        inside = [_below_tassels(held, here + steps, faults) for steps, held in _held(section)]
        again = kind.times_key if kind else None
        if any(inside) and again and section.get(again) != 1:
            place = (*here, again)
            faults.append(Fault(place, "a tassel that is repeated", "put it below the repeat"))
        above = above or any(inside) or bool(kind and kind.ends_work)
    return above


def _motifs(document: Mapping[str, Any], found: tuple[_Found, ...]) -> Iterator[Fault]:
    own = document.get("motifs")
    known = dict.fromkeys([*(own if isinstance(own, Mapping) else ()), *shipped_names()])
    for path, section in found:
        kind = _kind(section)
        for key, name in _named(section, kind.motif_keys if kind else ()):
            if name not in known:
                yield _unknown((*path, key), name, "motif", known)


def _named(section: Mapping[str, Any], keys: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Yield those of the keys that hold a name, with it."""
    for key in keys:
        name = _word(section.get(key))
        if name is not None:
            yield key, name


def _knots(document: Mapping[str, Any], found: tuple[_Found, ...]) -> Iterator[Fault]:
    known = [name for name, knot in catalogue().items() if knot.by_name]
    for path, section in found:
        kind = _kind(section)
        for key, name in _named(section, kind.knot_keys if kind else ()):
            if name not in known:
                yield _unknown((*path, key), name, "knot", known)
    for path, step in _steps(document.get("motifs"), ("motifs",)):
        for key, name in _named(step, ("kind",)):
            if name not in known:
                yield _unknown((*path, key), name, "knot", known)
    work = document.get("work")
    minutes = work.get("minutes") if isinstance(work, Mapping) else None
    for place, use in ((("cord_use",), document.get("cord_use")), (("work", "minutes"), minutes)):
        for name in use if isinstance(use, Mapping) else ():
            if name not in catalogue():
                yield _unknown((*place, name), name, "knot", list(catalogue()))
    own = document.get("cord_use")
    for name, roles in own.items() if isinstance(own, Mapping) else ():
        if name in catalogue() and isinstance(roles, Mapping):
            yield from _roles(("cord_use", name), name, roles)


def _roles(path: Path, name: str, roles: Mapping[str, Any]) -> Iterator[Fault]:
    """Yield the roles of cord that a knot hasn't; a word that is no role is said elsewhere."""
    knot = catalogue()[name]
    strands = min(max(knot.least, 4), knot.most or 4)
    leads = "leader" in knot.roles(Manner(strands))
    has = list(knot.cord(Manner(strands, "left", leader=0 if leads else None)).by_role)
    for role in roles:
        if role in ROLES and role not in has:
            problem = f"{name} has no {role} cord"
            yield Fault((*path, role), problem, f"use {' or '.join(has)}", shown(role))


def _steps(tree: Any, path: Path) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """Yield the `knot` steps anywhere below."""
    for key, part in parts_of(tree):
        here = (*path, key)
        if key == "knot" and isinstance(part, Mapping):
            yield here, part
        elif isinstance(part, Mapping | list | tuple):
            yield from _steps(part, here)


def _swatches(document: Mapping[str, Any], found: tuple[_Found, ...]) -> Iterator[Fault]:
    named = {name: s.get("kind") for _, s in found if (name := _word(s.get("name"))) is not None}
    mount = document.get("mount")
    hung = str(mount.get("kind")) if isinstance(mount, Mapping) else ""
    knotted = hung in MOUNTS and MOUNTS[hung].swatch_rank is not None
    known = dict.fromkeys([*named, *SECTIONS, *[hung][:knotted]])
    holders = [name for name, kind in SECTIONS.items() if kind.holds]
    listed = [(("swatches", i), s) for i, s in _listed(document.get("swatches"))]
    for path, swatch in [(("swatch",), document.get("swatch")), *listed]:
        of = _word(swatch.get("of")) if isinstance(swatch, Mapping) else None
        if of is not None and of not in known:
            yield _unknown((*path, "of"), of, "section", known)
        elif of is not None and named.get(of, of) in holders:
            problem = "it only holds other sections, and those may be knotted in other ways"
            yield Fault((*path, "of"), problem, "name the one that was knotted", shown(of))


def _unknown(path: Path, name: str, what: str, known: Collection[str]) -> Fault:
    return Fault(path, f"no {what} is called that", hint(name, known, 3), shown(name))


def model_faults(pattern: Pattern) -> Iterator[Fault]:
    """Yield what is wrong with the measures of a pattern that reads well."""
    wrong = rise_fault(pattern.lower_edge, pattern.width, pattern.drop)
    if wrong:
        rise = f"{float(pattern.lower_edge.rise):g} mm"
        yield Fault(("lower_edge", "rise"), *wrong, rise)
    yield from out_of_bounds(pattern)
    yield from _other_currencies(pattern)
    motifs = pattern.all_motifs
    for path, section in walk(pattern.sections):
        for refusal in section.refusals(motifs, path):
            yield refusal.fault
    for name, motif in pattern.motifs.items():
        yield from _motif_faults(("motifs", name), motif)
    if pattern.support is not None:
        yield from _support_faults(pattern.support, pattern.mount)


def _other_currencies(pattern: Pattern) -> Iterator[Fault]:
    """Yield the prices that can't go into one quote with the rate."""
    if pattern.work is None:
        return
    prices: list[tuple[Path, Money | None]] = []
    for kind, cord in pattern.cord_types.items():
        place: Path = ("cord",) if pattern.cord is not None else ("cords", kind)
        prices.append(((*place, "price_per_spool"), cord.price_per_spool))
    if pattern.support is not None:
        prices.append((("support", "price"), pattern.support.price))
    rate = pattern.work.rate
    for path, price in prices:
        if price is not None and price.currency != rate.currency:
            problem = f"another currency than the rate's ({rate})"
            yield Fault(path, problem, "give all prices in one currency", str(price))


THINNEST, THICKEST = 2, 200  # mm of a rod
SHORTEST, LONGEST = 50, 10_000  # mm between its brackets
SLENDER = 4  # times its thickness a rod must span, or it is no rod on two brackets


def _support_faults(given: Support, mount: Mount) -> Iterator[Fault]:
    """Yield what makes a support one that can't be reckoned."""
    if mount.support != "rod":
        what = "no support" if mount.support == "none" else "a ring, not a rod on two brackets"
        remedy = "leave 'support' out, or mount on a rod, as with kind: larks_head"
        yield Fault(("support",), f"the piece hangs on {what}", remedy)
    thick, span = given.diameter, given.span
    if not THINNEST <= thick <= THICKEST:
        remedy = f"give the rod's thickness, {THINNEST} to {THICKEST} mm"
        yield Fault(("support", "diameter"), "no thickness of a rod", remedy, _mm(thick))
    if not SHORTEST <= span <= LONGEST or span < SLENDER * thick:
        least = max(SHORTEST, float(SLENDER * thick))
        remedy = f"give how far apart the brackets stand, {least / 10:g} to {LONGEST // 10} cm"
        yield Fault(("support", "span"), "no distance between two brackets", remedy, _mm(span))
    if given.wall is not None:
        tube = stock.material(given.material)
        wrong = None
        if not tube.hollow:
            remedy = "leave it out, or use a tube, as steel tube"
            wrong = (f"a wall, but {given.material} is solid", remedy)
        elif 2 * given.wall >= thick:
            wrong = ("a wall of half the thickness or more", f"use less than {_mm(thick / 2)}")
        if wrong:
            yield Fault(("support", "wall"), *wrong, _mm(given.wall))


def _mm(length: Fraction) -> str:
    return f"{float(length):g} mm"


def _motif_faults(path: Path, motif: Motif) -> Iterator[Fault]:
    """Yield the knots of a motif that can't be tied on so many lanes."""
    for place, step in steps_within(motif.steps):
        if isinstance(step, KnotStep):
            wrong = lanes_fault(step.kind, len(step.lanes), step.workers)
            if wrong and step.workers > 1 and not lanes_fault(step.kind, len(step.lanes), 1):
                yield Fault((*path, *place, "workers"), *wrong, str(step.workers))
            elif wrong:
                yield Fault((*path, *place, "lanes"), *wrong, shown(list(step.lanes)))
            elif step.picot is not None:
                wrong = picot_fault(step.kind, len(step.lanes), step.workers)
                if wrong:
                    yield Fault((*path, *place, "picot"), *wrong, _mm(step.picot))
