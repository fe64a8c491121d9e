"""The numbers of a piece as one JSON document, as other programs read them.

Lengths are rounded half-even to 0.01 mm, the gauge change to 0.0001, all else to 0.01; what is
computed from a number takes it unrounded.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import knotplot
from knotplot.cord_use import SOURCE
from knotplot.curves.lower_edge import trim_offsets
from knotplot.figure_types import (
    CordFigures,
    CuttingFigures,
    Extent,
    Figures,
    QuoteFigures,
    QuoteLineFigures,
    RowFigures,
    SectionFigures,
    ShoppingFigures,
    StrandFigures,
    SupportFigures,
    TieFigures,
    WorkFigures,
)
from knotplot.geometry.layout import Layout
from knotplot.materials.bill import Bill
from knotplot.materials.hours import CORD_MINUTES, WorkTime
from knotplot.materials.lengths import CordLength, Cutting
from knotplot.materials.quote import Line, Quote
from knotplot.materials.report import CordReport
from knotplot.materials.shopping import Buy
from knotplot.materials.support import Support
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count
from knotplot.tying.piece import Part, Piece, Tie

#: Knots of which figures tell `facing`, "null for all else" (contract, 5).
FACING = ("square_knot", "half_knot")


def figures(
    pattern: Pattern, count: Count, layout: Layout, made: Bill, warnings: Sequence[str]
) -> Figures:
    """Return every number of a piece, and its warnings; rows are added by `rows`."""
    piece = layout.piece
    return {
        "schema": 1,
        "knotplot": knotplot.__version__,
        "title": pattern.title,
        "version": pattern.version,
        "size": {"width_mm": mm(pattern.width), "drop_mm": mm(pattern.drop)},
        "board": board(pattern),
        "strands": _strands(count),
        "knots": made.knots,
        "sections": [_section(part) for part in piece.parts if part.name != "mount"],
        "cord_use": SOURCE + (", scaled by the swatch" if made.measured else ""),
        "cords": [
            _cord(length, goes) for length, goes in zip(made.lengths, made.report, strict=True)
        ],
        "cutting": [_cutting(line, pattern.kits) for line in made.cutting],
        "shopping": [_buy(buy) for buy in made.shopping],
        "support": None if made.support is None else _support(made.support),
        "hours": float(made.time.hours),
        "hours_by_knot": _hours(made.time),
        "quote": None if made.quote is None else _quote(made.quote),
        "lower_edge": [
            {"x_mm": mm(offset.x_mm), "y_mm": mm(offset.y_mm)}
            for offset in trim_offsets(piece.edge)
        ],
        "warnings": list(warnings),
    }


def rows(piece: Piece) -> list[RowFigures]:
    """Return every row with its ties."""
    return list(_rows(piece))


def _rows(piece: Piece) -> Iterator[RowFigures]:
    for row in piece.rows:
        yield {
            "row": row.number,
            "section": piece.parts[row.section].name,
            "layer": row.layer,
            "ties": [_tie(tie, piece) for tie in row.ties(piece.gauge)],
            "order_after": list(row.order_after),
        }


def _tie(tie: Tie, piece: Piece) -> TieFigures:
    # The mean of the lanes, exactly: (2·Σlanes − n)·width/(2·n·N), so that halves round to even; N
    # lanes are there then.
    lanes, width = tie.lanes, Fraction(piece.gauge.width).limit_denominator(10**6)
    across = Fraction(2 * sum(lanes) - len(lanes), 2 * len(lanes) * tie.among)
    return {
        "knot": tie.knot,
        "facing": tie.facing if tie.knot in FACING else None,
        "lanes": list(tie.lanes),
        "strands": list(tie.strands),
        "roles": list(tie.roles),
        "leader": tie.leader,
        "layers": list(tie.layers),
        "params": {key: _param(value) for key, value in _params(tie).items()},
        "step": tie.step,
        "x_mm": mm(across * width),
        "y_mm": mm(tie.y),
    }


def _params(tie: Tie) -> dict[str, object]:
    """Return a tie's params; how a knot of the catalogue's faces that isn't a flat one is there."""
    told = dict(tie.params)
    if tie.facing is not None and tie.knot not in FACING:
        told["facing"] = tie.facing
    return told


def _param(value: object) -> object:
    return mm(value) if isinstance(value, float) else value


def _strands(count: Count) -> StrandFigures:
    return {
        "estimate": None if count.estimate is None else rounded(count.estimate),
        "count": count.count,
        "repeat": count.repeat,
        "plus": count.plus,
        "options": [
            {
                "count": option.count,
                "width_mm": None if option.width_mm is None else mm(option.width_mm),
                "gauge_change": (
                    None if option.gauge_change is None else rounded(option.gauge_change, 4)
                ),
            }
            for option in count.options
        ],
    }


def _section(part: Part) -> SectionFigures:
    return {
        "name": part.name,
        "kind": part.kind,
        "top_mm": mm(part.top),
        "bottom_mm": mm(part.bottom),
        "natural_width_mm": mm(part.natural_width),
    }


def _cutting(line: Cutting, kits: int) -> CuttingFigures:
    return {
        "label": line.label,
        "role": line.role,
        "cord_type": line.kind,
        "colour": line.colour,
        "length_mm": mm(line.length),
        "count": len(line.cords) * kits,
        "cords": list(line.cords),
    }


def _cord(length: CordLength, goes: CordReport) -> CordFigures:
    return {
        "cord": length.cord.id,
        "role": length.cord.role,
        "cord_type": length.cord.kind,
        "colour": length.cord.colour,
        "strands": list(length.cord.strands),
        "fold_mm": None if length.fold is None else mm(length.fold),
        "used_mm": mm(length.used),
        "cut_mm": mm(length.cut),
        "use": {
            "knots_mm": mm(sum(each.mount + each.knots for each in goes.strands)),
            "runs_mm": mm(sum(each.runs for each in goes.strands)),
            "finish_mm": mm(sum(each.finish for each in goes.strands)),
        },
    }


def _buy(buy: Buy) -> ShoppingFigures:
    return {
        "cord_type": buy.kind,
        "colour": buy.colour,
        "total_m": rounded(buy.total / 1000),
        "spools": None if buy.spools is None else len(buy.spools.spools),
        "lower_bound": None if buy.spools is None else buy.spools.lower_bound,
        "mass_g": rounded(buy.mass.mass_g(float(buy.total))),
        "cost": None if buy.cost is None else rounded(Fraction(buy.cost)),
        "currency": buy.currency,
    }


def _support(support: Support) -> SupportFigures:
    """Return how the rod bears the piece: loads in g, lengths in mm, stress in MPa.

    `sag_mm` is the sag at once, `sag_later_mm` what it comes to in time, which has the limit.
    """
    least = support.smallest
    return {
        "load_g": rounded(support.load_g),
        "sag_mm": mm(support.bent.sag_mm),
        "sag_later_mm": mm(support.bent.later_mm),
        "limit_mm": mm(support.limit_mm),
        "holds": support.bent.holds,
        "rod_g": rounded(support.bent.rod_g),
        "rod_mm": mm(support.rod_length),
        "stress_mpa": rounded(support.bent.stress),
        "stress_limit_mpa": rounded(support.stock.stress),
        "bracket_g": rounded(support.bracket_g),
        "smallest_mm": None if least is None else mm(least.size.diameter),
        "longest_span_mm": mm(support.spacing),
    }


def _hours(time: WorkTime) -> list[WorkFigures]:
    """Return the hours by knot, their cords' measuring and cutting last: they add up to `hours`."""
    *knots, cutting = map(float, time.told)
    lines: list[WorkFigures] = [
        {
            "what": each.knot,
            "count": each.count,
            "minutes_each": rounded(each.minutes),
            "minutes_from": each.whose,
            "hours": hours,
        }
        for each, hours in zip(time.knots, knots, strict=True)
    ]
    last: WorkFigures = {
        "what": "cutting",
        "count": time.cords,
        "minutes_each": rounded(CORD_MINUTES),
        "minutes_from": "usual",
        "hours": cutting,
    }
    return [*lines, last]


def _quote(quote: Quote) -> QuoteFigures:
    return {
        "currency": quote.currency,
        "lines": [_quote_line(line) for line in quote.lines],
        "net": float(quote.net),
        "tax_percent": rounded(100 * (quote.tax.share or Fraction(0))),
        "tax": _number(quote.tax.amount),
        "total": float(quote.total),
        "left_out": list(quote.left_out),
        "left_over": _number(quote.left_over),
    }


def _quote_line(line: Line) -> QuoteLineFigures:
    """Return a line: `count` at a `price` each, or a percentage of a `base`."""
    return {
        "what": line.what,
        "cord_type": line.cord,
        "colour": line.colour,
        "count": _number(line.count),
        "price": _number(line.price),
        "percent": None if line.share is None else rounded(100 * line.share),
        "base": _number(line.base),
        "amount": _number(line.amount),
    }


def _number(value: Decimal | None) -> float | None:
    return None if value is None else rounded(Fraction(value))


def board(pattern: Pattern) -> Extent:
    """Return the size as worked on the board: by the first swatch, hung against as worked."""
    width, drop = pattern.width, pattern.drop
    for swatch in pattern.all_swatches[:1]:
        if swatch.width is not None and swatch.hung_width is not None:
            width = width * swatch.width / swatch.hung_width
        if swatch.height is not None and swatch.hung_height is not None:
            drop = drop * swatch.height / swatch.hung_height
    return {"width_mm": mm(width), "drop_mm": mm(drop)}


def mm(length: float | Fraction) -> float:
    """Return a length as it is printed: half-even to 0.01 mm."""
    return rounded(length, 2)


def rounded(value: float | Fraction, places: int = 2) -> float:
    """Return a number rounded half-even on its exact value, never minus nought.

    >>> rounded(0.125), rounded(-0.001), rounded(Fraction(2, 21), 4)
    (0.12, 0.0, 0.0952)
    """
    if isinstance(value, Fraction):
        return float(round(value, places)) + 0.0
    step = Decimal(1).scaleb(-places)
    return float(Decimal(value).quantize(step, ROUND_HALF_EVEN)) + 0.0
