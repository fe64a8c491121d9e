"""The chart as a view of a piece: all of it, or the rows and lanes that are asked for."""

from __future__ import annotations

from knotplot.drawing.chart import chart, chart_part
from knotplot.drawing.limits import check_ties
from knotplot.drawing.shapes import Drawing
from knotplot.geometry.layout import Layout


def chart_view(
    layout: Layout,
    rows: tuple[int, int] | None = None,
    lanes: tuple[int, int] | None = None,
    text_mm: float | None = None,
    language: str = "en",
) -> Drawing:
    """Return the chart of a piece or, where `rows` or `lanes` are given (from 1), of that part.

    `text_mm` is the size of its text in mm of the piece. Raises UsageError for rows or lanes that
    aren't there, and `Refusal` for a piece of too many ties.
    """
    if rows is None and lanes is None:
        return chart(layout, text_mm, language)
    check_ties(layout.piece)
    return chart_part(layout, lanes or (1, layout.piece.gauge.strands), rows, text_mm, language)


VIEW = ("chart", chart_view)
