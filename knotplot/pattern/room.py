"""What to do where the work is too long for its drop: the least drop, and the most rows, that fit.

Both are tried out before they are told, so that whoever follows one isn't refused again.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from itertools import islice
from typing import NamedTuple

from knotplot.errors import Path, Refusal
from knotplot.pattern.trial import Trial
from knotplot.sections.base import walk
from knotplot.tying.bench import CLOSE, NoRoom, TooMuch
from knotplot.tying.names import counted
from knotplot.units import LONGEST_MM, cm

STEP = 5.0  # mm in which a drop is told
FEW_TIES = 100_000  # of a trial: what takes more is hardly meant, and its drop isn't told
QUICK_TIES = 10_000  # of a trial that may be made a dozen times
MOST_OF_POCKET = 500  # rows of a rod pocket that are tried
MOST_TRIED = 3  # sections whose rows are counted down


class Fewer(NamedTuple):
    """Where fewer rows (or knots) would fit: the path of their number, what it is, the most."""

    path: Path
    asked: int
    unit: str
    where: str
    most: int = 0


def shortfall(bench: Trial, numbers: Mapping[Path, float], refused: NoRoom | None) -> Refusal:
    """Say by how much the work is too long, which drop would do, and how many rows at most.

    `refused` is what a section said that found no room; None where all was tied, but is too long.
    """
    drop, now = least_drop(bench, numbers), bench.edge.drop_mm
    own = refused.fault if refused is not None and refused.fault.value is not None else None
    fewer = _fewer(bench, numbers, own.path if own else ())
    place, value = _drop_path(bench), cm(now)
    by = "" if drop is None else f"{cm(drop[0] - now)} "
    problem, remedies = f"the work is {by}too long for a drop of {cm(now)}", []
    if drop is not None:
        remedies.append(f"a drop of {cm(drop[1])} or more")
    if fewer is not None:
        remedies.append(f"{counted(fewer.most, fewer.unit)} at most in {fewer.where}")
        place, value = fewer.path, str(fewer.asked)
    if own is not None:
        problem, place, value = own.problem, own.path, own.value or ""
    remedy = f"use {', or '.join(remedies)}" if remedies else "take sections out of it"
    return Refusal(problem, remedy, place, int(value) if value.isdecimal() else value)


def _drop_path(bench: Trial) -> Path:
    return ("size" if bench.pattern.size else "opening", "drop")


# --- the least drop --------------------------------------------------------------------------


def least_drop(bench: Trial, numbers: Mapping[Path, float]) -> tuple[float, float] | None:
    """Return the least drop (mm) that the work fits in, exactly and as it is told.

    None where none up to a kilometre does. Under a shaped edge a shorter drop may take motifs
    away; the least that was found so is told, of work that is quickly tied again.
    """
    try:
        ample = bench.tie(numbers, float(LONGEST_MM), FEW_TIES)
    except Refusal:
        return None

    def fits(steps: int) -> bool:
        try:
            return bench.tie(numbers, steps * STEP, FEW_TIES).slack >= -CLOSE
        except Refusal:
            return False

    exact = LONGEST_MM - ample.slack
    high = math.ceil(exact / STEP - CLOSE)
    bands = any(section.motifs for _, section in walk(bench.pattern.sections))
    if not bench.edge.rise_mm or not bands or ample.rack.ties > QUICK_TIES:
        return exact, high * STEP
    low = int(bench.edge.drop_mm / STEP)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if fits(middle) else (middle, high)
    return min(exact, high * STEP), high * STEP


# --- the most rows ---------------------------------------------------------------------------


def _fewer(bench: Trial, numbers: Mapping[Path, float], first: Path) -> Fewer | None:
    """Return the first number that could be less, that at path `first` before all, or None."""
    found = sorted(_counts(bench), key=lambda each: each.path != first)
    for each in islice((each for each in found if each.path not in numbers), MOST_TRIED):
        most = _most_of(bench, numbers, each)
        if most:
            return each._replace(most=most)
    return None


def _counts(bench: Trial) -> Iterator[Fewer]:
    """Yield every number of rows or knots above 1, from the last section up."""
    for path, section in reversed(tuple(walk(bench.pattern.sections))):
        key, unit = section.counts
        asked = getattr(section, key, None)
        if isinstance(asked, int) and asked > 1:
            yield Fewer((*path, key), asked, unit, section.label)
    mount = bench.pattern.mount
    rows = getattr(mount, "rows", None)
    if isinstance(rows, int) and rows > 1:
        yield Fewer(("mount", "rows"), rows, "row", mount.kind)


def _most_of(bench: Trial, numbers: Mapping[Path, float], of: Fewer) -> int:
    """Return the largest number below the one asked that fits; 0 where none is found."""

    def fits(count: int) -> float | None:
        try:
            slack = bench.tie({**numbers, of.path: float(count)}, most=FEW_TIES).slack
        except TooMuch:
            raise
        except Refusal:
            return None
        return slack if slack >= -CLOSE else None

    try:
        if of.path[0] == "mount":  # too few rows of a pocket don't go round the rod
            most = 0
            for count in range(1, min(of.asked, MOST_OF_POCKET)):
                if fits(count) is not None:
                    most = count
                elif most:
                    break
            return most
        return 0 if fits(1) is None else most_rows(fits, of.asked)
    except TooMuch:
        return 0


def most_rows(fits: Callable[[int], float | None], most: int) -> int:
    """Return the largest count below `most` that fits; `fits` returns the room left, if any.

    One fits. Rows stand evenly as a rule, so that two measures tell where to look; where another
    part of the piece is deeper at first, they don't, and the count is doubled instead.
    """
    slack, three = fits(1), fits(3) if most > 3 else None
    if three is None or slack is None:
        return 2 if most > 2 and fits(2) is not None else 1
    pitch = (slack - three) / 2.0
    low, high = 3, min(most, 6 if pitch < CLOSE else max(4, 2 + int(slack / pitch)))
    while high < most and fits(high) is not None:
        low, high = high, min(most, high * 2)
    while high - low > 1:
        # The guess is nearly always right: try just below `high` first, then halve.
        middle = high - 1 if high - low > 8 and fits(high - 2) is not None else (low + high) // 2
        low, high = (middle, high) if fits(middle) is not None else (low, middle)
    return low
