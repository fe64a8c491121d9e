"""What a maker gave that can't be used, or looks wrong: told before anything is cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction

from knotplot.kinds import section_name
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.materials.cord_mass import fibre_in, packing, tight_diameter_mm
from knotplot.materials.shopping import Buy
from knotplot.pattern.models import Pattern
from knotplot.sections.base import walk
from knotplot.tying.names import few
from knotplot.units import both

# Shares of fibre in a cord. Of the cords we know figures of, none has more than 0.60 slack (see
# `cord_mass`), a yarn under strong tension up to 0.9; soft single strand has 0.35 to 0.4 (from
# memory). The limits are ours.
MOST_FIBRE = 0.75
LIGHT = 0.45
LEAST_FIBRE = 0.15
OR_ITS_MASS = (
    ", or its mass wrong; wind ten turns of it round a pencil, touching, take a tenth of their "
    "width as its thickness, weigh 10 m of it, and correct the one that is wrong"
)
LONG_END = Fraction(1000)  # mm: no longer end is wanted by mistake, common practice
FEWEST_STRANDS = 4  # in a scallop that can be seen as one
USUAL = 4  # strands a knot's figures are compared on
ODD = 2.0  # times the solved figure, or under one over it: hardly meant


def odd_figures(pattern: Pattern) -> tuple[str, ...]:
    """Return a warning for every figure of the maker's own that is far from the solved one."""
    told = []
    for name, roles in pattern.cord_use.items():
        kind = knot(name)
        strands = min(max(USUAL, kind.least), kind.most or USUAL)
        manner = Manner(strands, leader=0 if "leader" in kind.roles(Manner(strands)) else None)
        usual = kind.cord(manner).by_role
        told += [
            f"cord_use: {name.replace('_', ' ')}, {role} {float(value):g} diameters, where such a "
            f"knot pulled tight takes {usual[role]:.1f}; it is taken as given"
            for role, value in roles.items()
            if role in usual and not 1.0 / ODD <= float(value) / usual[role] <= ODD
        ]
    return tuple(told)


def packed(pattern: Pattern) -> Iterator[str]:
    """Yield a warning for every cord whose mass doesn't go with its thickness.

    Of a cord whose fibre isn't known nothing is said.
    """
    measured = any(swatch.cord_used is not None for swatch in pattern.all_swatches)
    for kind, cord in pattern.cord_types.items():
        fibre = fibre_in(cord.fibre or "cotton")
        if cord.mass_per_length is None or fibre is None:
            continue
        place = "cord" if pattern.cord is not None else f"cords.{kind}"
        thick, mass = float(cord.diameter), float(cord.mass_per_length)
        share = packing(thick, mass, fibre)
        what = f"{place}: {mass:.9f}".rstrip("0").rstrip(".") + f" g/m of {fibre}"
        cord_told = f"a cord {thick:g} mm thick"
        if share > MOST_FIBRE:
            yield f"{what} don't fit into {cord_told}: its thickness is too small{OR_ITS_MASS}"
        elif share < LEAST_FIBRE:
            yield (
                f"{what} leave {cord_told} nearly all air: its thickness is too large{OR_ITS_MASS}"
            )
        elif share < LIGHT and not (measured and kind == "main"):
            tight = tight_diameter_mm(mass, fibre)
            yield (
                f"{what} is light for {cord_told}: pulled tight it is about {tight:.1f} mm; "
                "knots come out smaller and take less cord than reckoned; knot a swatch and "
                "measure the cord it takes"
            )


def overlong(pattern: Pattern) -> Iterator[str]:
    """Yield a warning for ends that are longer than the piece: every cord is cut so much longer."""
    tail = getattr(pattern.mount, "tail", None)
    if tail is not None and tail > max(LONG_END, pattern.drop):
        yield (
            f"mount: a tail of {both(tail)} is longer than the whole piece, and every cord is cut "
            "so much longer; see that it is meant"
        )
    for _, section in walk(pattern.sections):
        over = section.stands_out
        if over > max(LONG_END, pattern.width):
            yield (
                f"{section_name(section.label, section.kind)}: its leader stands out {both(over)} "
                "at each side, more than the piece is wide; see that it is meant"
            )


def narrow_scallops(pattern: Pattern, strands: int) -> Iterator[str]:
    """Yield a warning for scallops too narrow to be seen in the fringe."""
    edge = pattern.lower_edge
    if not edge.straight and edge.count is not None and strands < FEWEST_STRANDS * edge.count:
        wide, most = strands / edge.count, max(1, strands // FEWEST_STRANDS)
        yield (
            f"lower_edge: {edge.count} scallops on {strands} strands are {wide:.1f} strands wide "
            f"each, too narrow to be seen; use {most} or fewer"
        )


def named_twice(pattern: Pattern) -> tuple[str, ...]:
    """Return one warning of all sections that two swatches or more are of."""
    of = Counter(swatch.of for swatch in pattern.all_swatches)
    twice = [each or "two that do not say what they are of" for each in of if of[each] > 1]
    if not twice:
        return ()
    return (f"swatches: {few(twice)}: given more than once; the first one counts",)


def untimed(pattern: Pattern) -> Iterator[str]:
    """Yield one warning of all swatches whose minutes can't be used."""
    found = [
        "swatch" if pattern.swatch is not None else f"swatches[{i}]"
        for i, s in enumerate(pattern.all_swatches)
        if s.minutes is not None and (s.rows is None or s.strands is None)
    ]
    if found:
        its = "its" if len(found) == 1 else "their"
        yield (
            f"{few(found)}: {its} minutes don't say how long a knot takes without {its} rows and "
            "strands; give both"
        )


def spools_by_colour(pattern: Pattern, bought: Iterable[Buy]) -> Iterator[str]:
    """Yield a warning where spools at hand serve several colours: which is of which isn't told."""
    found = Counter(buy.kind for buy in bought)
    for kind, cord in pattern.cord_types.items():
        if cord.spools is not None and found[kind] > 1:
            place = "cord" if pattern.cord is not None else f"cords.{kind}"
            yield (
                f"{place}: its spools don't say of which colour they are, so each of the "
                f"{found[kind]} colours is counted as having them all; see that they suffice, or "
                f"give 'spool', what one holds"
            )
