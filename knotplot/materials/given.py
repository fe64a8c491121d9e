"""What a maker gave that can't be used, or looks wrong: told before anything is cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from knotplot.errors import Path
from knotplot.knots import knot
from knotplot.knots.base import Manner
from knotplot.materials.cord_mass import fibre_in, packing, tight_diameter_mm
from knotplot.materials.shopping import Buy
from knotplot.notice import Notice, Value
from knotplot.pattern.models import Pattern
from knotplot.sections.base import walk

# Shares of fibre in a cord. Of the cords we know figures of, none has more than 0.60 slack (see
# `cord_mass`), a yarn under strong tension up to 0.9; soft single strand has 0.35 to 0.4 (from
# memory). The limits are ours.
MOST_FIBRE = 0.75
LIGHT = 0.45
LEAST_FIBRE = 0.15
LONG_END = Fraction(1000)  # mm: no longer end is wanted by mistake, common practice
FEWEST_STRANDS = 4  # in a scallop that can be seen as one
USUAL = 4  # strands a knot's figures are compared on
ODD = 2.0  # times the solved figure, or under one over it: hardly meant


def odd_figures(pattern: Pattern) -> Iterator[Notice]:
    """Yield every figure of the maker's own that is far from the solved one."""
    for name, roles in pattern.cord_use.items():
        kind = knot(name)
        strands = min(max(USUAL, kind.least), kind.most or USUAL)
        manner = Manner(strands, leader=0 if "leader" in kind.roles(Manner(strands)) else None)
        usual = kind.cord(manner).by_role
        for role, value in roles.items():
            if role in usual and not 1.0 / ODD <= float(value) / usual[role] <= ODD:
                values: Mapping[str, Value] = {
                    "knot": name,
                    "role": role,
                    "given": value,
                    "usual": usual[role],
                }
                yield Notice("cord_use_odd", ("cord_use", name, role), "doubt", values)


def packed(pattern: Pattern) -> Iterator[Notice]:
    """Yield every cord whose mass doesn't go with its thickness.

    Of a cord whose fibre isn't known nothing is said.
    """
    measured = any(swatch.cord_used is not None for swatch in pattern.all_swatches)
    for kind, cord in pattern.cord_types.items():
        fibre = fibre_in(cord.fibre or "cotton")
        if cord.mass_per_length is None or fibre is None:
            continue
        thick, mass = float(cord.diameter), float(cord.mass_per_length)
        share = packing(thick, mass, fibre)
        place = _place(pattern, kind)
        values: dict[str, Value] = {"cord": place, "mass": mass, "fibre": fibre, "thick": thick}
        if share > MOST_FIBRE:
            yield Notice("cord_overfull", place, "doubt", values)
        elif share < LEAST_FIBRE:
            yield Notice("cord_mostly_air", place, "doubt", values)
        elif share < LIGHT and not (measured and kind == "main"):
            values["tight"] = tight_diameter_mm(mass, fibre)
            yield Notice("cord_light", place, "doubt", values)


def _place(pattern: Pattern, kind: str) -> Path:
    """Return where a pattern says what a kind of cord is."""
    return ("cord",) if pattern.cord is not None else ("cords", kind)


def overlong(pattern: Pattern) -> Iterator[Notice]:
    """Yield the ends that are longer than the piece: every cord is cut so much longer."""
    tail = getattr(pattern.mount, "tail", None)
    if tail is not None and tail > max(LONG_END, pattern.drop):
        yield Notice("tail_overlong", ("mount", "tail"), "doubt", {"tail": tail})
    for path, section in walk(pattern.sections):
        over = section.stands_out
        if over > max(LONG_END, pattern.width):
            values: Mapping[str, Value] = {"section": (section.label, section.kind), "over": over}
            yield Notice("leader_overlong", path, "doubt", values)


def narrow_scallops(pattern: Pattern, strands: int) -> Iterator[Notice]:
    """Yield scallops too narrow to be seen in the fringe."""
    edge = pattern.lower_edge
    if not edge.straight and edge.count is not None and strands < FEWEST_STRANDS * edge.count:
        most = max(1, strands // FEWEST_STRANDS)
        values = {"count": edge.count, "strands": strands, "most": most}
        yield Notice("scallops_narrow", ("lower_edge", "count"), "warning", values)


def named_twice(pattern: Pattern) -> Iterator[Notice]:
    """Yield, together, all sections that two swatches or more are of; None is a swatch of none."""
    of = Counter(swatch.of for swatch in pattern.all_swatches)
    twice = tuple(each for each in of if of[each] > 1)
    if twice:
        yield Notice("swatches_of_one", ("swatches",), "doubt", {"of": twice})


def untimed(pattern: Pattern) -> Iterator[Notice]:
    """Yield, together, all swatches whose minutes can't be used."""
    found = tuple(
        path
        for path, s in pattern.swatches_at
        if s.minutes is not None and (s.rows is None or s.strands is None)
    )
    if found:
        yield Notice("swatch_untimed", found[0], "doubt", {"swatches": found})


def spools_by_colour(pattern: Pattern, bought: Iterable[Buy]) -> Iterator[Notice]:
    """Yield where spools at hand serve several colours: which is of which isn't told."""
    found = Counter(buy.kind for buy in bought)
    for kind, cord in pattern.cord_types.items():
        if cord.spools is not None and found[kind] > 1:
            place = _place(pattern, kind)
            values: Mapping[str, Value] = {"cord": place, "colours": found[kind]}
            yield Notice("spools_of_no_colour", (*place, "spools"), "doubt", values)
