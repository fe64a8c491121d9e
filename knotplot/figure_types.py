"""The figures of a piece as types: what `figures()` returns, and its JSON Schema.

Names end in their unit: `_mm`, `_m`, `_g`, `_mpa`. What may be null is written `| None`.
"""

from __future__ import annotations

from typing import Annotated, Any, NotRequired

from pydantic import Field, TypeAdapter
from typing_extensions import TypedDict


class Extent(TypedDict):
    """A width and a drop."""

    width_mm: float
    drop_mm: float


class StrandOption(TypedDict):
    """A count of strands that can be worked, and what the piece then measures."""

    count: int
    width_mm: Annotated[float | None, Field(description="null without a swatch")]
    gauge_change: Annotated[
        float | None, Field(description="how far the gauge changes to keep the width: 0.05 is 5 %")
    ]


class StrandFigures(TypedDict):
    """How many strands there are: plus + k·repeat can be worked, `count` was chosen."""

    estimate: Annotated[float | None, Field(description="what the first swatch says")]
    count: int
    repeat: int
    plus: int
    options: list[StrandOption]


class SectionFigures(TypedDict):
    """A section as it hangs, counted down from the top of the support."""

    name: str
    kind: str
    top_mm: float
    bottom_mm: float
    natural_width_mm: Annotated[float, Field(description="how wide its knots come out unspread")]


class CordUseFigures(TypedDict):
    """Where the cord that is used goes."""

    knots_mm: float
    runs_mm: Annotated[float, Field(description="between knots")]
    finish_mm: Annotated[float, Field(description="below the last knot: fringe or tail")]


class CordFigures(TypedDict):
    """One cord as cut."""

    cord: Annotated[str, Field(description="M1… main, L1… leaders, W1… wraps")]
    role: Annotated[str, Field(description="main, leader or wrap")]
    cord_type: Annotated[str, Field(description="the kind of cord: main or wrap")]
    colour: str | None
    strands: Annotated[list[int], Field(description="from 1, left to right as mounted")]
    fold_mm: Annotated[float | None, Field(description="where it is folded, null if it isn't")]
    used_mm: float
    cut_mm: float
    use: CordUseFigures


class CuttingFigures(TypedDict):
    """A length to cut, and how often."""

    label: str
    role: str
    cord_type: str
    colour: str | None
    length_mm: float
    count: Annotated[int, Field(description="for all kits")]
    cords: Annotated[list[str], Field(description="of one piece")]


class ShoppingFigures(TypedDict):
    """What to buy of one kind and colour of cord."""

    cord_type: str
    colour: str | None
    total_m: float
    spools: Annotated[int | None, Field(description="null where the pattern names no spool")]
    lower_bound: Annotated[int | None, Field(description="fewer spools can't be enough")]
    mass_g: float
    cost: float | None
    currency: str | None


class SupportFigures(TypedDict):
    """How the rod bears the piece."""

    load_g: float
    sag_mm: Annotated[float, Field(description="at once")]
    sag_later_mm: Annotated[float, Field(description="in the course of years; has the limit")]
    limit_mm: float
    holds: bool
    rod_g: float
    rod_mm: float
    stress_mpa: float
    stress_limit_mpa: float
    bracket_g: Annotated[float, Field(description="what each bracket carries")]
    smallest_mm: Annotated[float | None, Field(description="the thinnest that is sold and holds")]
    longest_span_mm: float


class WorkFigures(TypedDict):
    """The time that one knot takes, or measuring and cutting."""

    what: Annotated[str, Field(description="a knot, or cutting")]
    count: int
    minutes_each: float
    minutes_from: Annotated[str, Field(description="whose pace it is; usual is that of most hands")]
    hours: float


class QuoteLineFigures(TypedDict):
    """A line of a quote: a count at a price each, or a percentage of a base."""

    what: str
    cord_type: str | None
    colour: str | None
    count: float | None
    price: float | None
    percent: float | None
    base: float | None
    amount: float | None


class QuoteFigures(TypedDict):
    """What a commission costs."""

    currency: str
    lines: list[QuoteLineFigures]
    net: float
    tax_percent: float
    tax: float | None
    total: float
    left_out: Annotated[list[str], Field(description="what has no price")]
    left_over: Annotated[float | None, Field(description="the price of the cord that is left")]


class EdgePoint(TypedDict):
    """A point of the lower edge: from the left, and down from the top of the support."""

    x_mm: float
    y_mm: float


class TieFigures(TypedDict):
    """One tie; `lanes`, `strands` and `roles` are parallel and run left to right."""

    knot: str
    facing: str | None
    lanes: Annotated[list[int], Field(description="from 1")]
    strands: list[int]
    roles: list[str]
    leader: Annotated[int | str | None, Field(description="a strand, or a leader such as L1")]
    layers: list[str]
    params: dict[str, object]
    step: Annotated[int | None, Field(description="of its motif, from 1")]
    x_mm: float
    y_mm: float


class RowFigures(TypedDict):
    """One row and its ties, in the order worked."""

    row: Annotated[int, Field(description="from 1")]
    section: str
    layer: str
    ties: list[TieFigures]
    order_after: Annotated[list[int], Field(description="the strands of the layer, left to right")]


class Figures(TypedDict):
    """Every number of a piece. Lengths are rounded half-even to 0.01 mm, all else to 0.01."""

    schema: Annotated[int, Field(description="the version of this format")]
    knotplot: Annotated[str, Field(description="the version of the program")]
    title: str
    version: Annotated[str | None, Field(description="of the pattern")]
    size: Annotated[Extent, Field(description="finished and hanging")]
    board: Annotated[Extent, Field(description="as worked, before it hangs")]
    strands: StrandFigures
    knots: Annotated[dict[str, int], Field(description="how many ties there are of each knot")]
    sections: list[SectionFigures]
    cord_use: Annotated[str, Field(description="where the cord that knots take is known from")]
    cords: list[CordFigures]
    cutting: list[CuttingFigures]
    shopping: list[ShoppingFigures]
    support: Annotated[SupportFigures | None, Field(description="null without a support")]
    hours: float
    hours_by_knot: list[WorkFigures]
    quote: Annotated[QuoteFigures | None, Field(description="null without a rate")]
    lower_edge: list[EdgePoint]
    warnings: list[str]
    rows: Annotated[NotRequired[list[RowFigures]], Field(description="where they are asked for")]


def figures_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of what `figures` returns and prints."""
    made = TypeAdapter(Figures).json_schema()
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **made,
        "title": "knotplot figures",
    }
