"""The cord view of a large piece is small enough to be sent and to open at once."""

from __future__ import annotations

import gzip

from views_sample import CURTAIN, lay_out

from knotplot.drawing.cord_view import cord_view
from knotplot.renderers import svg

LARGEST = 1_000_000  # bytes compressed, as the issue of the cord view asks


def test_a_curtain_of_200_strands_stays_under_a_megabyte() -> None:
    layout = lay_out(CURTAIN.replace("net, kind: square_knot_mesh, rows: 3", NET), 1400, 3000, 204)
    assert layout.piece.gauge.strands >= 200
    assert layout.piece.tie_count > 8_000
    text = svg.render(cord_view(layout))
    assert len(gzip.compress(text.encode(), 6, mtime=0)) < LARGEST


NET = "net, kind: square_knot_mesh, rows: 150"
