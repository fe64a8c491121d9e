"""How tall a maker's knots come out: found from the swatches' heights, before anything is tied.

The height of n rows runs from the top of the first row's knots to the bottom of the last row's;
bare cord asked between them (`spacing`, `gap`) is in it, and isn't stretched. A few repeats of the
section are tied by themselves, with the piece's lanes and cord, and the knots' height is changed
until their rows are as high as the swatch's.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from typing import NamedTuple

from knotplot.curves.lower_edge import LowerEdge
from knotplot.errors import Path, Refusal
from knotplot.notice import Notice, Value
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import Swatch
from knotplot.sections.base import Section
from knotplot.tying.gauge import Gauge
from knotplot.tying.heights import Heights
from knotplot.tying.job import Job
from knotplot.tying.ports import Port
from knotplot.tying.rack import Rack

# Knots pulled as hard as they go, or left quite loose; a swatch beyond was hardly of these rows.
SHORTEST, TALLEST = 0.6, 1.6
CLOSE = 1e-3  # mm, in the first `FEW` trials
NARROW = 1e-6  # of a factor: a motif's height leaps where its bars or runs must be steeper
HALVINGS = 6
FEW, TRIALS = 5, 12  # a net takes two or three; a motif whose bars turn is given up at `OFF`
REPEATS = 3  # side by side in a sample: one in the middle, with a neighbour at each side
SAMPLE_ROWS = 8  # rows of a sample at most: those below repeat the last two
AMPLE = 1e7  # mm of drop
OFF = 0.1  # mm: more than this and a maker is told


class _Rows(NamedTuple):
    """What a swatch is of: a section, and the lanes it has in the piece."""

    kind: str
    rank: int
    section: Section
    lanes: int


class _Solved(NamedTuple):
    """The factor on the knots' height, and how high (mm) the rows then are."""

    tall: float
    height: float


def heights(pattern: Pattern, gauge: Gauge) -> tuple[Heights, tuple[Notice, ...]]:
    """Return how tall knots are, section by section, and what a maker should know of it.

    A swatch says it of the section or kind it is of; the first one of all that no other names.
    The hung height counts, else that as worked. A height that would take knots outside `SHORTEST`
    to `TALLEST` of the usual is noticed and dropped.
    """
    known: dict[str | None, float] = {}
    notices: list[Notice] = []
    for path, swatch in pattern.swatches_at:
        notices += unused(pattern, gauge.strands, swatch, path)
        measured = swatch.gauge_height
        sampled = section_of(pattern, gauge.strands, swatch.of)
        if swatch.of in known:
            continue  # the first one counts
        if measured is None or swatch.rows is None or sampled is None:
            continue
        height = partial(_height, pattern, gauge, sampled, swatch.rows)
        found = _solved(height, float(measured))
        if found is None:
            continue
        near = abs(found.height - float(measured)) <= OFF
        if near or SHORTEST < found.tall < TALLEST:
            known.setdefault(swatch.of, round(found.tall, 6))
        if not near:
            notices.append(_beyond(swatch, path, sampled.section, found, float(measured)))
    named = {of: tall for of, tall in known.items() if of is not None}
    all_found = Heights(named, next(iter(known.values()), 1.0), tuple(known))
    lower = dict(_too_tall(pattern, gauge, all_found))
    notices += [
        Notice(
            "knots_too_tall", ("swatch" if pattern.swatch else "swatches",), "doubt",
            {"section": (label, kind), "asked": all_found.of(label, kind), "taken": tall},
        )
        for (label, kind), tall in lower.items()
    ]  # fmt: skip
    named |= {label: tall for (label, _), tall in lower.items()}
    return replace(all_found, known=named), tuple(notices)


def _too_tall(
    pattern: Pattern, gauge: Gauge, found: Heights
) -> Iterator[tuple[tuple[str, str], float]]:
    """Yield the bands (name, kind) that can't be worked with knots so tall, and how tall they can.

    It is the swatch of another section that says so of them, as their own was tried with them.
    """

    def works(band: _Rows, tall: float) -> bool:
        try:
            _levels(pattern, gauge, band, 2, tall)
        except Refusal:
            return False
        return True

    for band in _knotted(pattern.sections, gauge.strands):
        label, tall = band.section.label, found.of(band.section.label, band.kind)
        motifs = band.section.motifs
        if tall == 1.0 or not motifs or not works(band, 1.0) or works(band, tall):
            continue
        good, bad = 1.0, tall
        for _ in range(HALVINGS):
            middle = (good + bad) / 2.0
            good, bad = (middle, bad) if works(band, middle) else (good, middle)
        yield (label, band.kind), round(good, 6)


def section_of(pattern: Pattern, strands: int, of: str | None) -> _Rows | None:
    """Return the section a swatch is of, with its lanes; None where there is none to measure.

    By name, then by kind; one that doesn't say is of the kind of the lowest rank, a plain net
    first, since that is what a swatch is in this trade.
    """
    found = list(_knotted(pattern.sections, strands))
    mount, hung = pattern.mount, pattern.mount.sample()
    if hung is not None and mount.swatch_rank is not None:
        found.append(_Rows(mount.kind, mount.swatch_rank, hung, strands))
    if of is None:
        return min(found, key=lambda each: each.rank, default=None)
    named = [each for each in found if each.section.name == of]
    named += [each for each in found if each.kind == of]
    return next(iter(named), None)


def _knotted(sections: Iterable[Section], lanes: int) -> Iterator[_Rows]:
    """Yield the sections that are rows of knots, those inside others too, from the top."""
    for section in sections:
        if section.swatch_rank is not None:
            yield _Rows(section.kind, section.swatch_rank, section, lanes)
        for _, share, held in section.held(lanes):
            yield from _knotted(held, share)


def unused(pattern: Pattern, strands: int, swatch: Swatch, path: Path) -> Iterator[Notice]:
    """Yield what of a swatch can't be used; `path` is its own."""
    given = tuple(
        key
        for key, value in (("cord_used", swatch.cord_used), ("height", swatch.gauge_height))
        if value is not None
    )
    if not given:
        return
    values: Mapping[str, Value] = {"of": swatch.of, "given": given}
    if swatch.rows is None:
        yield Notice("swatch_without_rows", path, "doubt", values)
    elif swatch.of and section_of(pattern, strands, swatch.of) is None:
        yield Notice("swatch_of_nothing", path, "doubt", values)


def _beyond(
    swatch: Swatch, path: Path, section: Section, found: _Solved, measured: float
) -> Notice:
    """Return that knots can't be so tall, or so low."""
    values: Mapping[str, Value] = {
        "of": swatch.of or section.label,
        "rows": swatch.rows,
        "height": found.height,
        "tall": found.tall,
        "end": "most" if found.tall == TALLEST else "least" if found.tall == SHORTEST else None,
        "measured": measured,
        "bare_key": section.bare_key,
    }
    return Notice("swatch_beyond_reach", path, "doubt", values)


# --- a sample --------------------------------------------------------------------------------


def _height(pattern: Pattern, gauge: Gauge, of: _Rows, rows: int, tall: float) -> float:
    """Return how high (mm) so many rows are, with knots so tall."""
    if rows <= SAMPLE_ROWS:
        return _levels(pattern, gauge, of, rows, tall)[-1]
    # Rows stand alike two by two, offset and not.
    worked = SAMPLE_ROWS - (SAMPLE_ROWS - rows) % 2
    levels = _levels(pattern, gauge, of, worked, tall)
    return levels[-1] + (rows - worked) / 2.0 * (levels[-1] - levels[-3])


def _levels(pattern: Pattern, gauge: Gauge, of: _Rows, rows: int, tall: float) -> list[float]:
    """Return the depth (mm) of each of so many rows' bottom below the first one's top."""
    motifs = pattern.all_motifs
    lanes = min(of.lanes, REPEATS * of.section.ask(motifs)[1])
    if any(motifs[name].recounts for name in of.section.motifs):
        lanes = of.lanes  # what suits all of them needn't suit a few
    gauge = Gauge(lanes * gauge.pitch, lanes, gauge.diameter)
    for asked in (rows, 2 * rows):  # on few lanes every second row may tie nothing
        rack = Rack(gauge, Heights(others=tall))
        starts = (Port(gauge.x(lane), 0.0, 0.0, 1.0, "knot") for lane in range(lanes))
        rack.hang("body", range(1, lanes + 1), (None, *starts))
        edge = LowerEdge(gauge.width, AMPLE, 0.0, "straight")
        job = Job(rack, 0, lanes, (), edge, 0.0, {}, motifs)
        for section in of.section.sample(asked):
            section.work(job)
        if len(rack.rows) >= rows:
            break
    top = min(
        each.y + min(tie.top for tie in each.shape.ties if tie.knot != "cross")
        for each in rack.rows[0].placements
    )
    bottom, levels = -math.inf, []
    for row in rack.rows[:rows]:
        bottom = max(bottom, *(each.y + each.shape.bottom for each in row.placements))
        levels.append(bottom - top)
    return levels


# --- the height that fits ----------------------------------------------------------------------


def _solved(height: Callable[[float], float], wanted: float) -> _Solved | None:
    """Return the factor in bounds at which `height` is nearest to `wanted`; None where it can't.

    Secant steps, halves where those leave what is known to hold the answer; a motif whose strands
    would cross at some height isn't tried beyond it.
    """
    try:
        best = here = _Solved(1.0, height(1.0))
    except Refusal:
        return None  # the piece itself will say why
    low, high, tried = SHORTEST, TALLEST, {1.0}
    slope = here.height  # as if nothing but knots stood there
    while abs(best.height - wanted) > (CLOSE if len(tried) < FEW else OFF) and len(tried) < TRIALS:
        if here.height < wanted:
            low = max(low, here.tall)
        else:
            high = min(high, here.tall)
        if high - low < NARROW:
            break
        tall = here.tall + (wanted - here.height) / slope if slope > 0.0 else low
        tall = min(max(tall, low), high)
        if tall in tried:
            tall = (low + high) / 2.0
        tried.add(tall)
        try:
            there = _Solved(tall, height(tall))
        except Refusal:
            low, high = (low, tall) if tall > here.tall else (tall, high)
            continue
        slope = (there.height - here.height) / (there.tall - here.tall)
        here = there
        best = min(best, here, key=lambda each: abs(each.height - wanted))
    return best
