"""How long a piece takes: every tie by its knot's minutes, every cord measured and cut.

A knot's minutes are, the first that is given: the maker's own (`work.minutes`); the usual ones
scaled by a timed swatch; the usual ones (common practice). A swatch scales the knots of the
section or kind it is `of`; one that says of none, all that no other speaks for. All is reckoned
in exact fractions, since an hour has a price.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal, NamedTuple, TypeAlias

from knotplot.brief import Brief
from knotplot.kinds import kind_of
from knotplot.knots import knot
from knotplot.materials.calibration import part_of
from knotplot.tying.finish import KNOT, knotted
from knotplot.tying.piece import Piece, Row

CORD_MINUTES = Fraction(1, 2)  # measuring and cutting one cord, common practice

#: Whose minutes a knot is reckoned with.
Whose: TypeAlias = Literal["own", "swatch", "usual"]


class Timed(NamedTuple):
    """A swatch that was timed: what it is of, its rows and strands, and the minutes it took."""

    of: str | None
    rows: int
    strands: int
    minutes: Fraction


@dataclass(frozen=True, slots=True)
class KnotTime:
    """So many ties of one knot, the minutes each takes, and whose minutes they are."""

    knot: str
    count: int
    minutes: Fraction
    whose: Whose

    @property
    def hours(self) -> Fraction:
        """Return the hours they take together."""
        return self.count * self.minutes / 60


@dataclass(frozen=True, slots=True, repr=False)
class WorkTime(Brief):
    """The time of a piece: `knots` by name (one twice where its minutes differ), and its cords."""

    knots: tuple[KnotTime, ...]
    cords: int

    @property
    def cutting(self) -> Fraction:
        """Return the hours in which the cords are measured and cut."""
        return self.cords * CORD_MINUTES / 60

    @property
    def exact(self) -> Fraction:
        """Return the hours in all, unrounded."""
        return sum((each.hours for each in self.knots), self.cutting)

    @property
    def hours(self) -> Decimal:
        """Return the hours in all to 0.01: as they are told, and charged."""
        return hundredths(self.exact)

    @property
    def told(self) -> tuple[Decimal, ...]:
        """Return the hours of every line, the cords' last, to 0.01: they add up to `hours`."""
        return adding_up([*(each.hours for each in self.knots), self.cutting])


def work_time(
    piece: Piece, own: Mapping[str, float] | None = None, swatches: Iterable[Timed] = ()
) -> WorkTime:
    """Return the time of a piece; `own` has the maker's minutes for one tie, by knot."""
    mine = {name: exactly(minutes) for name, minutes in (own or {}).items()}
    factors = _factors(piece, swatches)
    found: dict[tuple[str, Whose, Fraction], int] = {}
    for part, counts in _in_all(piece).items():
        for name, count in counts.items():
            whose: Whose = "own" if name in mine else "swatch" if part in factors else "usual"
            minutes = mine.get(name, _usual(name) * factors.get(part, 1))
            key = (name, whose, minutes)
            found[key] = found.get(key, 0) + count
    lines = (KnotTime(name, count, minutes, whose) for (name, whose, minutes), count
             in sorted(found.items()))  # fmt: skip
    return WorkTime(tuple(lines), len(piece.cords))


def knot_counts(piece: Piece) -> dict[str, int]:
    """Return how many ties there are of every kind of knot, by name.

    Mounts are among them, and the knots in the ends of a knotted fringe.
    """
    total: dict[str, int] = {}
    for counts in _in_all(piece).values():
        for name, count in counts.items():
            total[name] = total.get(name, 0) + count
    return dict(sorted(total.items()))


def _in_all(piece: Piece) -> dict[int, dict[str, int]]:
    """Return how many ties of each knot the sections have, the knots in their ends too."""
    found = _by_part(piece.rows)
    for section in knotted(piece).values():
        counts = found.setdefault(section, {})
        counts[KNOT] = counts.get(KNOT, 0) + 1
    return found


def _by_part(rows: Iterable[Row]) -> dict[int, dict[str, int]]:
    """Return how many ties of each knot those rows have, by the number of their section."""
    found: dict[int, dict[str, int]] = {}
    inside: dict[int, dict[str, int]] = {}
    for row in rows:
        counts = found.setdefault(row.section, {})
        for placement in row.placements:
            shape = placement.shape
            if id(shape) not in inside:
                one: dict[str, int] = {}
                for tie in shape.ties:
                    if tie.knot != "cross":
                        one[tie.knot] = one.get(tie.knot, 0) + 1
                inside[id(shape)] = one
            for name, count in inside[id(shape)].items():
                counts[name] = counts.get(name, 0) + count
    return found


# --- the maker's speed ---------------------------------------------------------------------------


def _factors(piece: Piece, swatches: Iterable[Timed]) -> dict[int, Fraction]:
    """Return how many times the usual minutes a section's knots take, where a swatch says it."""
    known: dict[str | None, Fraction] = {}
    for swatch in swatches:
        part = part_of(piece, swatch.of)
        usual = Fraction(0) if part is None else _swatch_usual(piece, part, swatch)
        if usual:
            known[swatch.of] = swatch.minutes / usual
    found = {
        i: known.get(section.name, known.get(section.kind, known.get(None)))
        for i, section in enumerate(piece.parts)
    }
    return {i: factor for i, factor in found.items() if factor is not None}


def _swatch_usual(piece: Piece, part: int, swatch: Timed) -> Fraction:
    """Return the usual minutes of a swatch's knots.

    A net is counted as it is worked on the swatch's strands, two of which hang at each side of
    every other row. Of all else the swatch has its share of the section's first rows, by strands;
    a section of fewer rows is taken to go on alike.
    """
    section = piece.parts[part]
    if kind_of(section).net:
        knots = sum(max(0, swatch.strands - 2 * (row % 2)) // 4 for row in range(swatch.rows))
        return knots * _usual("square_knot")
    rows = [row for row in piece.rows if row.section == part][: swatch.rows]
    counts = _by_part(rows)[part]
    minutes = sum((count * _usual(name) for name, count in counts.items()), Fraction(0))
    return minutes * swatch.strands / section.strands * swatch.rows / len(rows)


def _usual(name: str) -> Fraction:
    return exactly(knot(name).minutes)


# --- exact numbers -------------------------------------------------------------------------------


def exactly(number: float) -> Fraction:
    """Return a number as it is written, free of what binary makes of it.

    >>> exactly(3 * 0.15)
    Fraction(9, 20)
    """
    return Fraction(str(round(number, 9)))


def hundredths(exact: Fraction) -> Decimal:
    """Return an amount rounded half-even to 0.01, however large it is.

    >>> hundredths(Fraction(1, 8)), hundredths(Fraction(3, 8))
    (Decimal('0.12'), Decimal('0.38'))
    """
    return Decimal(f"{round(100 * exact)}e-2")


def adding_up(parts: Sequence[Fraction]) -> tuple[Decimal, ...]:
    """Return amounts to 0.01 that add up to their sum rounded: the largest rests are rounded up.

    None is 0.01 off, and one that is exact stays so (the method of largest remainders).

    >>> [str(part) for part in adding_up([Fraction(1, 3)] * 3)]
    ['0.34', '0.33', '0.33']
    """
    cents = [100 * part for part in parts]
    whole = [math.floor(each) for each in cents]
    missing = round(sum(cents)) - sum(whole)
    by_rest = sorted(range(len(cents)), key=lambda i: (whole[i] - cents[i], i))
    for i in by_rest[:missing]:
        whole[i] += 1
    return tuple(Decimal(f"{each}e-2") for each in whole)
