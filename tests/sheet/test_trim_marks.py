"""The trim line on paper: turns first, then what lies between, in order over columns and pages."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument
from sheet_sample import anchors

from knotplot.api import WorkedPiece, build
from knotplot.curves.lower_edge import trim_places
from knotplot.pattern.load import load
from knotplot.renderers import pdf
from knotplot.units import cm

LANTERN = Path(__file__).parents[2] / "patterns" / "lantern-doorway.yaml"
ALDER = LANTERN.with_name("alder-branch-hanging.yaml")
_LENGTH = r"(\d+(?:\.\d)?) cm \([^)]+ in\)"


def printed(made: WorkedPiece, paper: str) -> str:
    """Return what is printed of finishing."""
    pages = made.sheet(paper).sheet.pages
    first, last = (
        next(i for i, page in enumerate(pages) if any(a.name == name for a in anchors(page)))
        for name in ("finishing", "care")
    )
    found = PdfDocument(pdf.render(pages[first : last + 1], "Finishing"))
    text = "\n".join(page.get_textpage().get_text_bounded() for page in found).replace("\r", "")
    return text[text.index("Stretch a string") : text.index("\nCare\n")]


def turns(text: str) -> list[tuple[str, str, str]]:
    """Return what is told of each turn: what it is, from the left and up, in cm."""
    names = "side|sharp tip|sharp notch|crown|lowest place"
    return re.findall(rf"^({names}) {_LENGTH} {_LENGTH}$", text, re.MULTILINE)


def between(text: str) -> list[tuple[str, str]]:
    """Return the other marks in the order they are read: down, then across, table by table."""
    found: list[tuple[str, str]] = []
    for table in re.split(r"From the left Up from the string From the left .*\n", text)[1:]:
        rows = []
        for line in table.splitlines():
            hit = re.fullmatch(rf"{_LENGTH} {_LENGTH}(?: {_LENGTH} {_LENGTH})?", line)
            if hit is None:
                break
            rows.append(hit.groups())
        found += [(row[0], row[1]) for row in rows]
        found += [(row[2], row[3]) for row in rows if row[2]]
    return found


def check(made: WorkedPiece, paper: str, step: float = 50.0) -> str:
    edge, text = made.layout.piece.edge, printed(made, paper)
    names = {"tip": "sharp tip", "notch": "sharp notch", "dip": "lowest place"}
    assert turns(text) == [
        (names.get(turn.what, turn.what), *(cm(x)[:-3] for x in (turn.x_mm, turn.offset_mm)))
        for turn in edge.turns()
    ]
    rest = [place for place in trim_places(edge, step) if place.what == "between"]
    assert between(text) == [(cm(x.x_mm)[:-3], cm(x.offset_mm)[:-3]) for x in rest]
    assert all(Fraction(a) < Fraction(b) for (a, _), (b, _) in pairwise(between(text)))
    return " ".join(text.split())


@pytest.mark.parametrize("size", [None, "small", "medium", "tall"])
def test_three_scallops_have_their_tips_marked_and_kept_sharp(size) -> None:
    made = build(load(LANTERN, size))
    width = float(made.pattern.width)
    for paper in ("a4", "letter"):
        text = check(made, paper)
        tips = re.search(rf"3 arches meeting in sharp tips at {_LENGTH} and {_LENGTH}\.", text)
        assert tips is not None
        assert [f"{tip} cm" for tip in tips.groups()] == [cm(width / 3), cm(2 * width / 3)]
        assert "keep every tip sharp" in text
        assert "one smooth line" not in text


def test_a_vee_is_three_marks_joined_straight() -> None:
    for paper in ("a4", "letter"):
        text = check(build(load(ALDER)), paper)
        assert "straight from mark to mark" in text
        assert "smooth" not in text
        assert between(text) == []


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_many_marks_stay_in_order_over_columns_and_pages(paper) -> None:
    edge = "lower_edge={profile: scallops, count: 9, rise: -5 cm}"
    sets = ["opening.width=3 m", "opening.drop=120 cm", "sizes=null", edge]
    made = build(load(LANTERN, sets=sets))
    text = check(made, paper)
    assert "The line is 9 scallops meeting in sharp notches. Join the marks of each" in text


def test_a_smooth_edge_of_the_makers_own_is_joined_in_one_line() -> None:
    points = "[[0, 0.2], [0.2, 1], [0.5, 0], [0.8, 0.7], [1, 0]]"
    edge = f"lower_edge={{profile: points, at: {points}, rise: 8 cm}}"
    text = check(build(load(LANTERN, sets=["lower_edge=null", edge])), "a4")
    assert "Join the marks in one smooth line." in text
