"""Every length to cut on paper: in centimetres as the figures have it, in inches never less."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument
from sheet_sample import anchors

from knotplot.api import WorkedPiece, build
from knotplot.drawing.shapes import Drawing
from knotplot.pattern.load import load, loads
from knotplot.renderers import pdf

PATTERNS = Path(__file__).parents[2] / "patterns"
SIZES = [
    (path.name, size)
    for path in sorted(PATTERNS.glob("*.yaml"))
    for size in (None, *load(path).sizes)
]
PAPERS = ("a4", "letter")
PARTS = ("materials", "sizes")

# Cords of more than 10 m: worked all the way down, of knots that take much.
LONG = """
knotplot: 1
title: Room divider
units: {units}
size: {{width: 1.2 m, drop: 3.5 m}}
cord: {{diameter: 6 mm, spool: 100 m}}
strands: {{count: 48}}
mount: {{kind: larks_head, rod: 30 mm, fold: {fold}}}
sections:
  - {{kind: hitch_line, overhang: 10 cm}}
  - {{kind: sennits, knot: square_knot, strands: 4, count: 60}}
  - {{kind: gather, wrap: 12 cm}}
lower_edge: {{profile: vee, rise: -60 cm}}
cut: {{groups: 4}}
"""

_LENGTH = r"(\d+(?:\.\d+)?) cm \(((?:\d+ ft ?)?(?:(?:\d+ )?\d+(?:/\d+)? in)?)\)"


def inches(text: str) -> Fraction:
    feet, _, rest = text.rpartition(" ft")
    parts = rest.strip().removesuffix(" in").split()
    return 12 * int(feet or 0) + sum(map(Fraction, parts), Fraction(0))


def has(page: Drawing, name: str) -> bool:
    return any(anchor.name == name for anchor in anchors(page))


def printed(made: WorkedPiece, paper: str) -> str:
    """Return what is printed from the part on materials to that on sizes."""
    pages = made.sheet(paper).sheet.pages
    first, last = (next(i for i, page in enumerate(pages) if has(page, name)) for name in PARTS)
    pages = PdfDocument(pdf.render(pages[first : last + 1], "Cutting"))
    return "\n".join(page.get_textpage().get_text_bounded() for page in pages).replace("\r", "")


def cut_list(text: str, made: WorkedPiece) -> dict[str, tuple[Fraction, Fraction]]:
    """Return the lengths of the cut list by label, as printed: mm and inches."""
    listed = text[text.index("Cut list\n") : text.index("Cords are numbered")]
    found = {}
    for line in made.bill.cutting:
        hit = re.search(rf"^{line.label} .*? {len(line.cords)} {_LENGTH}", listed, re.MULTILINE)
        assert hit, (line.label, listed)
        found[line.label] = 10 * Fraction(hit[1]), inches(hit[2])
    return found


def check_cut_list(made: WorkedPiece, paper: str) -> None:
    text = printed(made, paper)
    found = cut_list(text, made)
    assert len(found) == len(made.figures()["cutting"])
    for line in made.figures()["cutting"]:
        mm, told = found[line["label"]]
        assert float(mm) == line["length_mm"]
        assert told * Fraction(127, 5) >= mm
    if made.bill.fold_saves is not None:
        check_folds(text, found, made)
    listed = text[text.index("Cut list\n") : text.index("Cords are numbered")]
    assert re.search(r"\d m\b|\d yd\b", listed) is None  # one unit: centimetres, and inches
    check_bars(text, found)


def check_bars(text: str, found: dict[str, tuple[Fraction, Fraction]]) -> None:
    """The bars of where the cord goes say the same lengths again."""
    goes = text[text.index("Where the cord goes\n") :]
    bars = re.findall(rf"^([A-Z]+) {_LENGTH}", goes, re.MULTILINE)
    assert bars
    for label, cm, told in bars:
        assert (10 * Fraction(cm), inches(told)) == found[label]


def check_folds(text: str, found: dict[str, tuple[Fraction, Fraction]], made: WorkedPiece) -> None:
    """Both sides of a fold add up to the cut list's length, in either system."""
    folds = text[text.index("Where to fold\n") : text.index("Measure the left side")]
    rows = re.findall(rf"^([A-Z]+) {_LENGTH} {_LENGTH} M", folds, re.MULTILINE)
    assert len(rows) >= len({each.fold for each in made.bill.lengths if each.fold is not None})
    for label, left_cm, left_in, right_cm, right_in in rows:
        left, right = 10 * Fraction(left_cm), 10 * Fraction(right_cm)
        assert (left + right, inches(left_in) + inches(right_in)) == found[label]
        assert inches(left_in) * Fraction(127, 5) >= left
        assert inches(right_in) * Fraction(127, 5) >= right


@pytest.mark.parametrize(("name", "size"), SIZES)
def test_the_shipped_sheets_print_every_length_as_it_is_cut(name, size) -> None:
    made = build(load(PATTERNS / name, size))
    for paper in PAPERS:
        check_cut_list(made, paper)


@pytest.mark.parametrize("units", ["cm", "in"])
@pytest.mark.parametrize("fold", ["middle", "uneven"])
def test_cords_of_more_than_ten_metres_are_cut_as_long_as_they_are_reckoned(units, fold) -> None:
    made = build(loads(LONG.format(units=units, fold=fold)))
    assert max(line.length for line in made.bill.cutting) > 10_000
    check_cut_list(made, "a4")


def test_words_fold_where_the_sheet_does() -> None:
    made = build(loads(LONG.format(units="cm", fold="uneven")))
    words = " ".join(made.words().split())
    told = re.findall(rf"fold {_LENGTH} from the left end", words)
    assert told
    places = {each.fold for each in made.bill.lengths if each.fold is not None}
    assert {float(10 * Fraction(cm)) for cm, _ in told} <= places
    assert all(inches(text) * 254 >= 100 * Fraction(cm) for cm, text in told)


def test_a_warning_says_lengths_to_cut_as_the_cut_list_would() -> None:
    sets = ["mount=null", "mount={kind: open, tail: 12 cm}", "cut.groups=1", "size.drop=270 cm"]
    made = build(loads(LONG.format(units="cm", fold="uneven"), sets=sets))
    (warning,) = [each for each in made.warnings if "'groups: 2'" in each]
    lengths = re.findall(_LENGTH, warning.split("under 'cut', ")[1])
    assert len(lengths) == 2
    assert all(Fraction(cm) % 5 == 0 for cm, _ in lengths)
    assert all(inches(text) * Fraction(127, 50) >= Fraction(cm) for cm, text in lengths)
