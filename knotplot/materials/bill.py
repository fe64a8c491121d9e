"""The bill of materials of a piece: every cord's length, the cut list, what to buy, the time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from knotplot.brief import Brief
from knotplot.cord_use import Taking
from knotplot.errors import Path, Refusal
from knotplot.geometry.layout import Layout, lay
from knotplot.materials.allowance import SHARED_ERROR_MEASURED, SHARED_ERROR_TABLE
from knotplot.materials.calibration import (
    Measured,
    Scale,
    doubtful,
    scales,
    swatch_scales,
    unsure,
)
from knotplot.materials.cautions import cautions
from knotplot.materials.cord_mass import fibre_in
from knotplot.materials.given import (
    named_twice,
    narrow_scallops,
    odd_figures,
    overlong,
    packed,
    spools_by_colour,
    untimed,
)
from knotplot.materials.hours import Timed, WorkTime, exactly, knot_counts, work_time
from knotplot.materials.lengths import CordLength, Cutting, Terms, cord_lengths, cutting_list
from knotplot.materials.quote import Quote, quote, unpriced
from knotplot.materials.report import CordReport, Flat, Waste, flat_tenth, report, waste
from knotplot.materials.shopping import Buy, CordGoods, shopping, spool_count
from knotplot.materials.support import Support, piece_mass, support, support_notices
from knotplot.notice import Notice
from knotplot.pattern.cord_parts import Cord
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import INCH_UNITS
from knotplot.quantities import Spool
from knotplot.tying.piece import Piece
from knotplot.units import cm

LONGEST = 1_000_000  # mm
WORTH_FOLDING = Fraction(1, 10)  # of the cord: what an uneven fold must save (contract, 2)
FRINGE = 40.0  # mm of a tail that should hang below its last knot, about 1 1/2 in


@dataclass(frozen=True, slots=True, repr=False)
class Bill(Brief):
    """What a piece takes: `lengths` of its cords, `cutting`, `shopping`, time, ties by knot.

    `measured` tells that a swatch's cord was measured; `quote` is there where the pattern has a
    rate; `notices` are what the maker should know of all this. `report` says where each cord
    goes, `waste` what fewer lengths would cost, `flat` what a flat tenth would add in place of the
    allowance, and `fold_saves` how much less cord (mm) an uneven fold takes than one in the middle,
    None where cords aren't folded so. `support` is the rod under it, where one is given; `scales`
    are what the swatches' cord says.
    """

    lengths: tuple[CordLength, ...]
    cutting: tuple[Cutting, ...]
    shopping: tuple[Buy, ...]
    time: WorkTime
    knots: dict[str, int]
    measured: bool
    quote: Quote | None
    notices: tuple[Notice, ...]
    report: tuple[CordReport, ...]
    waste: tuple[Waste, ...]
    flat: Flat
    fold_saves: Fraction | None
    support: Support | None
    scales: tuple[Scale, ...]


def terms(pattern: Pattern) -> Terms:
    """Return on what terms the cords of a pattern are cut."""
    error = SHARED_ERROR_MEASURED if _measured(pattern) else SHARED_ERROR_TABLE
    grain = Fraction(127, 10) if pattern.units in INCH_UNITS else Fraction(10)
    cut = pattern.cut
    groups = None if cut.groups == "auto" else cut.groups
    spools = spool_count(_all_goods(pattern))
    return Terms(error, pattern.allowance.confidence, groups, cut.step, grain, spools)


def laid(pattern: Pattern, piece: Piece) -> Layout:
    """Return the layout of a piece, its knots measured by the maker's figures and swatches.

    Raises `Refusal` where a pocket's tails can't be tied even with the cord that the knots take
    at the least; where only the swatch says that they run out, `bill` has a notice.
    """
    own = _own(pattern)
    plain = lay(piece, Taking(own))
    takes = tail_taken(plain)
    if piece.mounting.pocket is not None and takes > piece.mounting.tail:
        raise Refusal(
            f"the tails are too short to tie: their knots take {cm(takes)}",
            f"use a tail of {cm(takes + FRINGE)} or more",
            ("mount", "tail"),
            cm(piece.mounting.tail),
        )
    factors = scales(piece, scaled(pattern, piece))
    layout = lay(piece, Taking(own, factors)) if factors else plain
    return _with_fold(pattern, layout)


def _with_fold(pattern: Pattern, layout: Layout) -> Layout:
    """Return the layout with its fold chosen, where the pattern leaves it open.

    Cords are folded in the middle unless an uneven fold saves a spool or a tenth of the cord.
    """
    mounting = layout.piece.mounting
    if mounting.fold != "auto":
        return layout
    fold = "middle"
    if mounting.strands_per_cord == 2:
        on = terms(pattern)
        middle, uneven = (cord_lengths(layout, on, how) for how in ("middle", "uneven"))
        if _cord(uneven) <= (1 - WORTH_FOLDING) * _cord(middle) or (
            _spools(uneven, on) < _spools(middle, on)
        ):
            fold = "uneven"
    piece = replace(layout.piece, mounting=replace(mounting, fold=fold))
    return replace(layout, piece=piece)


def _cord(lengths: Iterable[CordLength]) -> Fraction:
    """Return all that is cut (mm)."""
    return sum((each.cut for each in lengths), Fraction(0))


def _spools(lengths: tuple[CordLength, ...], on: Terms) -> int:
    """Return the spools they take, of those cords whose spools are known."""
    goods: dict[tuple[str, str | None], list[tuple[Fraction, int]]] = {}
    for line in cutting_list(lengths):
        goods.setdefault((line.kind, line.colour), []).append((line.length, len(line.cords)))
    return sum(on.spools(kind, pieces) or 0 for (kind, _), pieces in goods.items())


def scaled(pattern: Pattern, piece: Piece) -> tuple[Scale, ...]:
    """Return what the swatches' cord says of the knots of a piece."""
    return swatch_scales(piece, _measured(pattern), _own(pattern))


def _own(pattern: Pattern) -> dict[str, dict[str, float]]:
    """Return the maker's own figures, by knot and role, in cord diameters."""
    return {
        name: {role: float(value) for role, value in roles.items()}
        for name, roles in pattern.cord_use.items()
    }


def _measured(pattern: Pattern) -> list[Measured]:
    """Return the swatches that say how much cord they took."""
    return [
        Measured(s.of, s.rows, float(s.cord_used), path)
        for path, s in pattern.swatches_at
        if s.cord_used is not None and s.rows is not None
    ]


def tail_taken(layout: Layout) -> float:
    """Return the most (mm) that knots and runs take of any tail; 0 where there are none."""
    tails = (layout.uses[strand] for strand in layout.piece.tails)
    return max((use.knots + use.runs for use in tails), default=0.0)


def _short_tails(layout: Layout) -> Iterator[Notice]:
    """Yield that hardly anything of a pocket's tails is left to hang below their knots."""
    mounting, takes = layout.piece.mounting, tail_taken(layout)
    if mounting.pocket is not None and takes + FRINGE > mounting.tail:
        values = {"takes": takes, "tail": mounting.tail, "hangs": FRINGE}
        yield Notice("tails_short", ("mount", "tail"), "warning", values)


def bill(pattern: Pattern, layout: Layout) -> Bill:
    """Return the bill of a piece laid out; raise `Refusal` where its cord can't be had."""
    piece = layout.piece
    measured = bool(_measured(pattern))
    on = terms(pattern)
    lengths = cord_lengths(layout, on)
    _endless(lengths, pattern.size is not None)
    cutting = cutting_list(lengths)
    bought = shopping(cutting, _all_goods(pattern))
    time = work_time(piece, pattern.work.minutes if pattern.work else {}, _timed(pattern))
    told = cautions(pattern, layout, lengths, on)
    known = scaled(pattern, piece)
    notices = (
        *_short_tails(layout),
        *doubtful(known),
        *unsure(known),
        *packed(pattern),
        *overlong(pattern),
        *narrow_scallops(pattern, piece.gauge.strands),
        *odd_figures(pattern),
        *named_twice(pattern),
        *spools_by_colour(pattern, bought),
        *told,
        *untimed(pattern),
        *unpriced(pattern, bought),
    )
    masses = {buy.kind: buy.mass for buy in bought}
    estimated = any(mass.estimated for mass in masses.values())
    held = support(pattern, piece_mass(lengths, masses), estimated)
    if held is not None:
        notices = (*notices, *support_notices(pattern, held))
    return Bill(
        lengths, cutting, bought, time, knot_counts(piece), measured,
        quote(pattern, bought, time), notices,
        report(layout, lengths), waste(lengths, on.step), flat_tenth(lengths),
        _fold_saves(layout, lengths, on), held, known,
    )  # fmt: skip


def _endless(lengths: tuple[CordLength, ...], sized: bool) -> None:
    """Raise `Refusal` for a cord longer than anybody can handle."""
    longest = max(lengths, key=lambda each: each.cut, default=None)
    if longest is not None and longest.cut > LONGEST:
        raise Refusal(
            f"cord {longest.cord.id} would be {float(longest.cut) / 1000:,.0f} m long, more than "
            f"{LONGEST // 1000:,} m",
            "make the piece smaller, or look over 'cord_use' and the swatches' 'cord_used'",
            ("size" if sized else "opening",),
        )


def _fold_saves(layout: Layout, lengths: tuple[CordLength, ...], on: Terms) -> Fraction | None:
    """Return how much less cord (mm) is cut than for folds in the middle; None for these."""
    mounting = layout.piece.mounting
    if mounting.strands_per_cord != 2 or mounting.fold == "middle":
        return None
    middle = cord_lengths(layout, on, "middle")
    return _cord(middle) - _cord(lengths)


def _all_goods(pattern: Pattern) -> dict[str, CordGoods]:
    """Return the cords of a pattern as they are sold, by kind."""
    return {kind: _goods(kind, cord, pattern) for kind, cord in pattern.cord_types.items()}


def _goods(kind: str, cord: Cord, pattern: Pattern) -> CordGoods:
    place: Path = ("cord",) if pattern.cord is not None else ("cords", kind)
    sizes = cord.spools or ((cord.spool,) if cord.spool is not None else ())
    return CordGoods(
        float(cord.diameter), cord.construction, known_fibre(cord.fibre or "cotton"),
        None if cord.mass_per_length is None else float(cord.mass_per_length),
        tuple(_held(size) for size in sizes),
        cord.spools is None,
        cord.price_per_spool.amount if cord.price_per_spool else None,
        cord.price_per_spool.currency if cord.price_per_spool else None,
        (*place, "spools" if cord.spools else "spool"),
    )  # fmt: skip


def _timed(pattern: Pattern) -> list[Timed]:
    """Return the swatches that say how long they took."""
    return [
        Timed(s.of, s.rows, s.strands, exactly(s.minutes))
        for s in pattern.all_swatches
        if s.minutes is not None and s.rows is not None and s.strands is not None
    ]


def _held(spool: Spool) -> tuple[Fraction, bool]:
    """Return what a spool holds, and whether that is a mass (g) rather than a length (mm)."""
    if spool.length_mm is not None:
        return spool.length_mm, False
    return spool.mass_g or Fraction(0), True


def known_fibre(name: str) -> str:
    """Return the fibre a name speaks of, for its density; cotton where it speaks of none known.

    >>> known_fibre("recycled cotton"), known_fibre("moonsilk thread")
    ('cotton', 'silk')
    """
    return fibre_in(name) or "cotton"
