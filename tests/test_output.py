"""Pictures and documents: their sizes, their pages, the files they are written to."""

from __future__ import annotations

from pathlib import Path

import pytest
from cli_sample import GOOD
from lxml import etree

import knotplot


@pytest.fixture(scope="module")
def piece() -> knotplot.WorkedPiece:
    return knotplot.build(knotplot.loads(GOOD))


def test_a_picture_tells_its_size(piece: knotplot.WorkedPiece) -> None:
    picture = piece.draw("outline")
    width, height = picture.size
    root = etree.fromstring(picture.svg().encode())
    assert float(root.get("width").removesuffix("mm")) == pytest.approx(width, abs=0.01)
    assert float(root.get("height").removesuffix("mm")) == pytest.approx(height, abs=0.01)
    png = picture.png(2)
    assert int.from_bytes(png[16:20]) == pytest.approx(2 * width, abs=1)


def test_the_ids_of_a_picture_begin_as_asked(piece: knotplot.WorkedPiece) -> None:
    plain = piece.draw("trim")
    asked = piece.draw("trim", ids="figure-2")
    for svg in (plain.svg(ids="figure-2"), asked.svg()):
        ids = etree.fromstring(svg.encode()).xpath("//@id")
        assert ids
        assert all(each.startswith("figure-2-") for each in ids)
    assert asked.svg(ids="") == plain.svg() == piece.draw("trim").svg()
    with pytest.raises(knotplot.UsageError, match="ids can't begin with '2': use a letter"):
        plain.svg(ids="2")


def test_a_document_has_pages(piece: knotplot.WorkedPiece, tmp_path: Path) -> None:
    sheet = piece.sheet("letter")
    assert len(sheet) == sheet.page_count > 3
    assert sheet.size == (215.9, 279.4)
    page = sheet.page(2)
    assert page.size == sheet.size
    page.save(tmp_path / "page.svg")
    page.save(tmp_path / "page.png")
    root = etree.parse(tmp_path / "page.svg").getroot()
    assert root.findtext("{*}title") == page.title
    assert (tmp_path / "page.png").read_bytes().startswith(b"\x89PNG")
    for number in (0, len(sheet) + 1, 1.5, True, "1"):
        with pytest.raises(knotplot.UsageError, match=f"use 1 to {len(sheet)}"):
            sheet.page(number)  # type: ignore[arg-type]


def test_a_document_is_saved_as_pdf_and_as_nothing_else(
    piece: knotplot.WorkedPiece, tmp_path: Path
) -> None:
    sheet = piece.knot_sheet()
    sheet.save(tmp_path / "knots.PDF")
    assert (tmp_path / "knots.PDF").read_bytes() == sheet.pdf()
    with pytest.raises(knotplot.UsageError, match=r"use one that ends in \.pdf"):
        sheet.save(tmp_path / "knots.svg")
    assert not (tmp_path / "knots.svg").exists()


def test_the_warnings_of_a_piece_are_those_of_its_figures() -> None:
    heavy = GOOD.replace("mass_per_length: 9.6 g/m", "mass_per_length: 60 g/m")
    piece = knotplot.build(knotplot.loads(heavy))
    assert piece.warnings
    assert list(piece.warnings) == piece.figures()["warnings"]
    for warning in piece.warnings:
        assert warning in piece._repr_html_().replace("&#x27;", "'").replace("&quot;", '"')
