"""What a maker gave that can't be used, or looks wrong: told before anything is cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.materials.shopping import Buy
from knotplot.pattern.models import Pattern
from knotplot.tying.names import few

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
