"""The sheet as a PDF: its outline, its links, its fonts, the same bytes every time."""

from __future__ import annotations

from functools import cache
from io import BytesIO

import pytest
from pypdf import PdfReader
from pypdf.generic import Destination, IndirectObject
from pypdfium2 import PdfDocument
from sheet_sample import PATTERNS, made, sheet

from knotplot.api import build
from knotplot.output import Document
from knotplot.pattern.load import loads
from knotplot.sheet.document import PAPERS

EVERY = [(name, paper) for name in PATTERNS for paper in PAPERS]
each = pytest.mark.parametrize(("name", "paper"), EVERY)


@cache
def pdf(name: str, paper: str) -> bytes:
    return Document(sheet(name, paper)).pdf()


def reader(name: str, paper: str) -> PdfReader:
    return PdfReader(BytesIO(pdf(name, paper)))


def titles(outline: list[Destination | list], level: int = 0) -> list[tuple[int, str]]:
    found = []
    for entry in outline:
        if isinstance(entry, list):
            found += titles(entry, level + 1)
        else:
            found.append((level, entry.title))
    return found


@each
def test_it_has_the_pages_and_what_stands_in_its_metadata(name, paper):
    found = reader(name, paper)
    pattern = made(name).pattern
    assert len(found.pages) == len(sheet(name, paper).pages)
    width, height = PAPERS[paper]
    for page in found.pages:
        assert float(page.mediabox.width) == pytest.approx(width * 72 / 25.4, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(height * 72 / 25.4, abs=0.01)
    assert found.metadata is not None
    assert found.metadata.title == pattern.title
    assert found.metadata.author == (pattern.designer or "")
    assert "wide, drop" in (found.metadata.subject or "")


@each
def test_the_outline_has_an_entry_a_part_and_the_sections_of_rows_below(name, paper):
    found = titles(reader(name, paper).outline)
    assert [title for level, title in found if level == 0] == [
        "Cover", "About this pattern", "Materials and tools", "Sizes and measuring", "Knots used",
        "Chart", "Row by row", "Finishing and care", "Safety", "Glossary and licence",
    ]  # fmt: skip
    at = [title for _, title in found].index("Row by row")
    assert found[at + 1][0] == 1
    assert found[at + 1][1].startswith("1. Mounting")


@each
def test_every_link_leads_to_a_place_in_the_document(name, paper):
    found = reader(name, paper)
    names = found.named_destinations
    pages = {page.indirect_reference.idnum for page in found.pages}
    count = 0
    for page in found.pages:
        for note in page.get("/Annots") or ():
            target = note.get_object()["/Dest"]
            place = names[str(target)] if not isinstance(target, list) else target
            where = place["/Page"] if isinstance(place, Destination) else place[0]
            assert isinstance(where, IndirectObject)
            assert where.idnum in pages
            count += 1
    assert count >= 8


@each
def test_only_shipped_fonts_are_used_and_all_are_embedded(name, paper):
    for page in reader(name, paper).pages:
        for font in page["/Resources"]["/Font"].values():
            font = font.get_object()
            assert "SourceSans3" in font["/BaseFont"]
            assert "/FontFile2" in font["/FontDescriptor"].get_object()


@pytest.mark.parametrize("name", PATTERNS)
def test_the_text_can_be_taken_out(name):
    pages = PdfDocument(pdf(name, "a4"))
    words = " ".join(page.get_textpage().get_text_bounded() for page in pages)
    for title in ("Materials and tools", "Row by row", "Longest free strand", "Glossary"):
        assert title in words


def test_the_same_pattern_gives_the_same_bytes():
    again = Document(build(loads(PATTERNS["curtain"])).sheet("letter").sheet).pdf()
    assert again == pdf("curtain", "letter")


def test_a_sheet_is_written_whole(tmp_path):
    place = tmp_path / "sheet.pdf"
    data = made("plain").sheet().pdf(place)
    assert place.read_bytes() == data == pdf("plain", "a4")
