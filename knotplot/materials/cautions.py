"""What a maker should know of the cords before cutting: said where it is worth a change.

Very uneven needs of cords, or of the two sides of a folded one; strands that work in every row
beside others that never do; nets nobody measured. What is alike is told in one line. Sections that
don't suit the width stand in `widths`, what will not look as meant in `looks`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from knotplot.geometry.layout import Layout, shape_use
from knotplot.kinds import kind_of
from knotplot.materials.cutting import group_lengths
from knotplot.materials.groups import alike
from knotplot.materials.lengths import CordLength, Side, Terms, cord_lengths
from knotplot.materials.looks import look_cautions
from knotplot.materials.widths import width_cautions
from knotplot.notice import Notice, Value
from knotplot.pattern.models import Pattern
from knotplot.tying.piece import Part, Row

UNEVEN = 2.5  # times the cord of another (common practice)
WORTH = 0.02  # of all cord: what another way must save to be worth a word
FEWEST_TIES = 4  # of a strand in a section, to speak of "every row"


def cautions(
    pattern: Pattern, layout: Layout, lengths: Sequence[CordLength], terms: Terms
) -> tuple[Notice, ...]:
    """Return what to know of the lengths and widths of a piece, one for each kind of thing."""
    return (
        *_one_length(lengths, terms),
        *_fold(pattern, layout, lengths, terms),
        *_swap(layout, lengths, terms),
        *width_cautions(pattern, layout),
        *look_cautions(pattern, layout),
        *_unmeasured_nets(layout),
    )


# --- cords of very different needs -----------------------------------------------------------


def _one_length(lengths: Sequence[CordLength], terms: Terms) -> Iterator[Notice]:
    """Advise two lengths where one is asked for, and some cord needs far more than another."""
    if terms.groups != 1:
        return
    for mine in alike(each.cord for each in lengths).values():
        cords = [lengths[i] for i in mine]
        needs = [each.need for each in cords]
        if max(needs) <= UNEVEN * min(needs):
            continue
        two = group_lengths(needs, terms.step, 2)
        longer = [each for each, cut in zip(cords, two, strict=True) if cut == max(two)]
        saved = sum(each.cut for each in cords) - sum(two, Fraction(0))
        values: Mapping[str, Value] = {
            "longer": tuple(each.cord.id for each in longer),
            "most": max(needs), "least": min(needs), "long": max(two), "short": min(two),
            "saved": saved,
        }  # fmt: skip
        yield Notice("lengths_uneven", ("cut", "groups"), "advice", values)


def _fold(
    pattern: Pattern, layout: Layout, lengths: Sequence[CordLength], terms: Terms
) -> Iterator[Notice]:
    """Advise an uneven fold where a cord's one strand takes far more than its other."""
    mounting = layout.piece.mounting
    if mounting.strands_per_cord != 2 or mounting.fold != "middle":
        return
    if getattr(pattern.mount, "fold", None) == "auto":
        return  # it was tried, and saves too little
    lopsided = [
        each.cord.id
        for each in lengths
        if each.cord.role == "main"
        and not each.cord.added
        and _times(side.used for side in each.sides) > UNEVEN
    ]
    if not lopsided:
        return
    saved = _saved(lengths, cord_lengths(layout, terms, "uneven"))
    if saved is not None:
        values: Mapping[str, Value] = {"cords": tuple(lopsided), "times": UNEVEN, "saved": saved}
        yield Notice("folds_uneven", ("mount", "fold"), "advice", values)


def _times(lengths: Iterator[float]) -> float:
    """Return how many times the least of some lengths the largest is."""
    found = list(lengths)
    return max(found) / max(1e-9, min(found))


def _saved(now: Sequence[CordLength], other: Sequence[CordLength]) -> Fraction | None:
    """Return how much less cord another way takes (mm); None where it isn't worth a word."""
    total = sum((each.cut for each in now), Fraction(0))
    saved = total - sum(each.cut for each in other)
    return saved if saved > WORTH * float(total) else None


# --- strands that work in every row ----------------------------------------------------------


@dataclass(slots=True)
class _Bench:
    """Strands tied with each other alone throughout a section: roles, cord in knots, rows.

    `taken` is each strand's cord in this section's knots (mm), `errors` its Σσ² (mm²).
    """

    roles: dict[int, set[str]] = field(default_factory=dict)
    rows: list[int] = field(default_factory=list)
    taken: dict[int, float] = field(default_factory=dict)
    errors: dict[int, float] = field(default_factory=dict)

    def by_role(self, role: str) -> list[int]:
        """Return the strands that have this role in every tie."""
        return sorted(strand for strand, roles in self.roles.items() if roles == {role})


class _Swap(NamedTuple):
    """Strands of one section that work throughout, and the row from which others should."""

    section: tuple[str, str]
    first: int
    last: int
    row: int
    working: tuple[int, ...]


def _swap(layout: Layout, lengths: Sequence[CordLength], terms: Terms) -> Iterator[Notice]:
    """Advise to swap workers and fillers halfway, where the same strands always work."""
    sides = {
        side.strand: side for each in lengths for side in each.sides if side.strand is not None
    }
    if _times(side.used for side in sides.values()) <= UNEVEN:
        return  # most pieces: not worth a walk over every tie
    swaps, benches = [], []
    for index, part in enumerate(layout.piece.parts):
        rows = [row for row in layout.piece.rows if row.section == index]
        found = [bench for bench in _benches(layout, rows) if _lopsided(bench, sides)]
        if index and found:
            benches += found
            swaps.append(_swapped(part, found))
    if not swaps:
        return
    given = [tuple(_shared(side, benches) for side in each.sides) for each in lengths]
    saved = _saved(lengths, cord_lengths(layout, terms, given=given))
    if saved is not None:
        values: Mapping[str, Value] = {"swaps": tuple(swaps), "saved": saved}
        yield Notice("workers_unswapped", ("sections",), "advice", values)


def _benches(layout: Layout, rows: Sequence[Row]) -> list[_Bench]:
    """Return the sets of strands that are knotted with each other alone in some rows."""
    found: dict[frozenset[int], _Bench] = {}
    partners: dict[int, set[frozenset[int]]] = {}
    diameter = layout.piece.gauge.diameter
    for row in rows:
        for shape, _, strands, _, _ in row.placements:
            together = frozenset(strands)
            bench = found.setdefault(together, _Bench())
            bench.rows.append(row.number)
            for strand in strands:
                partners.setdefault(strand, set()).add(together)
            for tie in shape.ties:
                for who, role in zip(tie.who, tie.roles, strict=True):
                    bench.roles.setdefault(strands[who], set()).add(role)
            for who, use in shape_use(shape, row.section, layout.take, diameter):
                if who >= 0:
                    strand = strands[who]
                    bench.taken[strand] = bench.taken.get(strand, 0.0) + use.knots
                    bench.errors[strand] = bench.errors.get(strand, 0.0) + use.errors
    return [
        bench
        for together, bench in found.items()
        if len(bench.rows) >= FEWEST_TIES and all(len(partners[each]) == 1 for each in together)
    ]


def _lopsided(bench: _Bench, sides: Mapping[int, Side]) -> bool:
    """Say whether its workers use far more cord in all than its fillers."""
    working, fillers = bench.by_role("working"), bench.by_role("filler")
    if not working or not fillers or len(working) + len(fillers) < len(bench.roles):
        return False
    return min(sides[each].used for each in working) > UNEVEN * min(
        sides[each].used for each in fillers
    )


def _swapped(part: Part, benches: Sequence[_Bench]) -> _Swap:
    """Return the swap of a section's strands: from the row after half of their knots."""
    rows = sorted({row for bench in benches for row in bench.rows})
    working = sorted(each for bench in benches for each in bench.by_role("working"))
    return _Swap(
        (part.name, part.kind), rows[0], rows[-1], rows[(len(rows) + 1) // 2], tuple(working)
    )


def _shared(side: Side, benches: Sequence[_Bench]) -> Side:
    """Return a side with its knots shared evenly with the strands it is tied with."""
    for bench in benches:
        if side.strand in bench.roles:
            count = len(bench.roles)
            mean, errors = sum(bench.taken.values()) / count, sum(bench.errors.values()) / count
            side = side._replace(
                knots=side.knots - bench.taken[side.strand] + mean,
                errors=max(0.0, side.errors - bench.errors[side.strand] + errors),
            )
    return side


# --- nets whose rows nobody measured ----------------------------------------------------------


def _unmeasured_nets(layout: Layout) -> Iterator[Notice]:
    """Name the nets whose cord nothing but the usual height of a row supports.

    The first swatch serves every section that no other names, so any height measured will do.
    """
    if layout.piece.heights.swatches:
        return
    nets = tuple(
        (part.name, part.kind)
        for i, part in enumerate(layout.piece.parts)
        if kind_of(part).net and sum(row.section == i for row in layout.piece.rows) > 1
    )
    if nets:
        yield Notice("nets_unmeasured", ("swatch",), "advice", {"nets": nets})
