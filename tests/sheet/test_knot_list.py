"""The list of knots drawn: every knot with its mark and name, nothing over its edge."""

from __future__ import annotations

from pathlib import Path

import pytest

import knotplot
from knotplot.drawing.bounds import bounds, of_text
from knotplot.drawing.shapes import Drawing, Group, Text
from knotplot.errors import Refusal
from knotplot.knots import catalogue
from knotplot.sheet.knot_list import BOX, MARGIN, WIDE, knot_list, knots_drawn
from knotplot.techniques import techniques

PATTERN = Path(__file__).parents[2] / "patterns" / "harbour-cafe-curtain.yaml"


def cells(drawing: Drawing) -> list[Group]:
    return [item for item in drawing.items if isinstance(item, Group)]


def texts(cell: Group) -> list[Text]:
    return [item for item in cell.items if isinstance(item, Text)]


def test_every_knot_and_technique_is_drawn_in_the_order_of_the_list() -> None:
    drawn = [texts(cell)[1].text for cell in cells(knots_drawn())]
    assert drawn == [name for name, _ in knot_list()]
    assert set(drawn) == {*catalogue(), *techniques()} - {"cross"}


def test_pictures_and_texts_stay_in_their_cells() -> None:
    drawing = knots_drawn()
    for cell in cells(drawing):
        picture = bounds([cell.items[1]])
        assert picture[0] >= 0.0
        assert picture[1] >= 0.0
        assert picture[2] <= BOX[0]
        assert picture[3] <= BOX[1]
        for text in texts(cell):
            box = of_text(text)
            assert box is not None
            assert box[0] > BOX[0]
            assert box[2] < WIDE
    left, top, right, bottom = bounds(drawing.items)
    assert min(left, top) >= MARGIN - 0.1
    assert right < drawing.width
    assert bottom < drawing.height


def test_a_piece_lists_its_own() -> None:
    piece = knotplot.build(knotplot.load(PATTERN))
    names = [texts(cell)[1].text for cell in cells(piece.knot_list().drawing)]
    assert names == [name for name, _ in knot_list(piece.layout.piece)]
    assert "double_half_hitch" in names
    assert "berry_knot" not in names
    assert knotplot.knot_list().svg().startswith("<svg")


def test_no_words_in_another_language() -> None:
    with pytest.raises(Refusal):
        knots_drawn(language="xx")
