"""The knot sheet: every knot with its facts, frames and page, on both papers, for both hands."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations

import pytest
from sheet_sample import anchors, links, made, said, texts

from knotplot.api import knot_sheet
from knotplot.drawing.bounds import meet
from knotplot.drawing.chart_key import knots_used
from knotplot.drawing.how_to import frames
from knotplot.drawing.technique_frames import technique_frames
from knotplot.errors import UsageError
from knotplot.knots import catalogue, knot
from knotplot.knots.base import Difficulty, Manner
from knotplot.knots.usual import usual_manner
from knotplot.sheet.document import PAPERS, Sheet
from knotplot.sheet.knot_facts import knot_facts, pace, takes, tied_on
from knotplot.sheet.knot_list import knot_list
from knotplot.sheet.words import sheet_words
from knotplot.techniques import techniques
from knotplot.techniques.found import in_order, used_techniques

SAY = sheet_words("en")
CASES = [
    (name, paper, left)
    for name in ("", "curtain", "hanging")
    for paper in PAPERS
    for left in (False, True)
]


@cache
def sheet_of(name: str, paper: str = "a4", left: bool = False) -> Sheet:
    """Return the knot sheet of one of the patterns; of the whole catalogue where none is named."""
    document = made(name).knot_sheet(paper, left) if name else knot_sheet(paper, left)
    return document.sheet


def whole(sheet: Sheet) -> str:
    return " ".join(map(said, sheet.pages))


def manners(name: str) -> dict[str, Manner]:
    """Return the knots that a sheet is to teach, each as it is tied there."""
    if not name:
        return {each: usual_manner(mine) for each, mine in catalogue().items()}
    return {name: manner for name, manner, _ in knots_used(made(name).layout.piece)}


def ways(name: str) -> list[str]:
    """Return the techniques that a sheet is to teach."""
    return list(used_techniques(made(name).layout.piece) if name else techniques())


@pytest.mark.parametrize(("name", "paper", "left"), CASES)
def test_every_frame_of_every_knot_is_there_in_words(name: str, paper: str, left: bool) -> None:
    text = whole(sheet_of(name, paper, left))
    for each, manner in manners(name).items():
        for number, frame in enumerate(frames(each, manner, left), start=1):
            assert f"{number}. {frame.text}" in text
        assert knot(each).words["en"].fault in text
    for each in ways(name):
        for number, frame in enumerate(technique_frames(each, left), start=1):
            assert f"{number}. {frame.text}" in text
        assert techniques()[each].words["en"].when in text
        assert techniques()[each].words["en"].fault in text


@pytest.mark.parametrize(("name", "paper", "left"), CASES)
def test_nothing_overlaps_or_leaves_the_page(name: str, paper: str, left: bool) -> None:
    for page in sheet_of(name, paper, left).pages:
        here = texts(page)
        for x0, y0, x1, y1 in (placed.box for placed in here):
            assert 14.0 < x0 < x1 < page.width - 14.0
            assert 8.0 < y0 < y1 < page.height - 10.0
        for one, other in combinations(here, 2):
            shared = meet(one.box, other.box)
            assert not shared or min(shared[2] - shared[0], shared[3] - shared[1]) < 0.06


@pytest.mark.parametrize(("name", "paper", "left"), CASES)
def test_the_contents_name_the_page_of_every_knot(name: str, paper: str, left: bool) -> None:
    pages = sheet_of(name, paper, left).pages
    place = {a.name: i for i, page in enumerate(pages, 1) for a in anchors(page)}
    targets = [link.target for link in links(pages[0])]
    expected = {f"#knot-{each.replace('_', '-')}" for each in [*manners(name), *ways(name)]}
    assert set(targets) == expected
    first = said(pages[0])
    for target in targets:
        (title,) = {a.title for page in pages for a in anchors(page) if f"#{a.name}" == target}
        assert f"{title} {place[target[1:]]}" in first
    assert max(place.values()) >= len(pages) - 1  # the last may go on overleaf


def test_the_hand_is_stated_on_every_page_and_mirrors_what_is_said() -> None:
    right, left = sheet_of(""), sheet_of("", left=True)
    assert "left-handed" not in whole(right)
    assert "For the left hand" not in whole(right)
    assert "For the left hand: pictures, marks and words are mirrored." in said(left.pages[0])
    assert all("left-handed" in said(page) for page in left.pages)
    assert "it faces left or right, here left" in whole(right)
    assert "it faces left or right, here right" in whole(left)
    assert "here left" not in whole(left)


@pytest.mark.parametrize(("name", "paper", "left"), CASES)
def test_pages_are_headed_by_the_knots_on_them(name: str, paper: str, left: bool) -> None:
    for page in sheet_of(name, paper, left).pages[1:]:
        head, body = texts(page)[1].text, [placed.text for placed in texts(page)[2:]]
        begun = {text.removesuffix(" (continued)").lower() for text in body}
        assert set(head.lower().split(" · ")) <= begun
        titles = [a.title for a in anchors(page) if a.name.startswith("knot-")]
        assert all(str(title).lower() in head.lower() for title in titles)


def test_a_pattern_has_its_title_its_counts_and_its_own_cord() -> None:
    sheet = sheet_of("hanging")
    assert sheet.title == f"{made('hanging').pattern.title}: its knots"
    assert sheet.author == made("hanging").pattern.designer
    text = whole(sheet)
    assert "in 5 mm cord that is" in text
    count = made("hanging").bill.knots["square_knot"]
    assert f"{count:,} knots in this piece" in text
    assert "in this piece" not in whole(sheet_of(""))


def test_what_a_knot_takes_is_what_its_file_says() -> None:
    """17.0 diameters are 68 mm of 4 mm cord: 6.8 cm, 2 5/8 in to the next eighth of 2.68."""
    mine, manner = knot("square_knot"), Manner(4, "left")
    told = takes(mine, manner, 4.0, SAY)
    working = mine.cord(manner).by_role["working"]
    assert told.startswith(f"about {working:.0f} cord diameters for each working cord and ")
    assert "in 4 mm cord that is 6.8 cm (2 5/8 in) and " in told


@pytest.mark.parametrize(
    ("name", "manner", "told"),
    [
        ("square_knot", Manner(4, "left"), "2 to 400 cords, here 2 working cords and 2 filler"),
        (
            "square_knot",
            Manner(3, "left"),
            "2 to 400 cords, here 2 working cords and 1 filler cord",
        ),
        (
            "double_half_hitch",
            Manner(1, leader=-1),
            "1 or 2 cords, here 1 knotting cord and 1 lead",
        ),
        ("gathering_knot", Manner(8, reach=3.0), "here 8 filler cords and 1 wrapping cord"),
        ("larks_head", Manner(2, reach=2.5), "both sides of a folded cord on a rod 2 cm (3/4 in)"),
        ("double_half_hitch", Manner(1, leader=-1, rod=5.0), "on a rod 2 cm (3/4 in) thick"),
    ],
)
def test_what_it_is_tied_on(name: str, manner: Manner, told: str) -> None:
    assert told in tied_on(knot(name), manner, 4.0, SAY)


def test_time_is_told_no_finer_than_it_is_known() -> None:
    paces = {name: pace(knot(name), SAY) for name in ("half_hitch", "square_knot")}
    assert paces == {
        "half_hitch": "about 10 seconds, with practice",
        "square_knot": "about 30 seconds, with practice",
    }
    assert pace(knot("gathering_knot"), SAY) == "about 4 minutes, with practice"


@pytest.mark.parametrize("name", catalogue())
def test_every_knot_has_words_for_its_facts(name: str) -> None:
    told = knot_facts(name, usual_manner(knot(name)), 4.0, SAY)
    assert [label for label, _ in told] == ["Tied on", "Cord it takes", "Time", "Difficulty"]
    assert all(text for _, text in told)
    assert told[-1][1] in ("easy", "some practice", "takes practice")


@pytest.mark.parametrize("name", catalogue())
def test_every_knot_says_how_hard_it_is_and_how_to_see_what_went_wrong(name: str) -> None:
    """Its own file (or a class in it) says both; nothing is left to what a knot is by default."""
    mine = knot(name)
    assert "difficulty" in vars(type(mine)) | vars(mine)
    fault = mine.words["en"].fault
    assert fault.startswith("If ")  # what is seen
    assert len(re.split(r"[,:] ", fault)) > 1  # and what was done wrong


def test_all_knots_go_from_easy_to_hard() -> None:
    places = [a.name for page in sheet_of("").pages for a in anchors(page)]
    shown = [name for name in places if name.removeprefix("knot-").replace("-", "_") in catalogue()]
    steps = [knot(name.removeprefix("knot-").replace("-", "_")).difficulty for name in shown]
    assert len(steps) == len(catalogue())
    assert steps == sorted(steps)
    assert (min(steps), max(steps)) == (Difficulty.EASY, Difficulty.MUCH)


def test_the_list_is_of_the_catalogue_or_of_a_piece() -> None:
    names = [name for name, _ in knot_list()]
    assert names == [*catalogue(), *in_order(techniques())]
    piece = made("curtain").layout.piece
    names = [name for name, _ in knot_list(piece)]
    assert names == [*manners("curtain"), *used_techniques(piece)]


# The brief of the sheet: techniques are told short, so that it grows by two pages at the most.
@pytest.mark.parametrize("name", ["curtain", "hanging"])
def test_a_pattern_s_sheet_shows_its_techniques_after_its_knots(name: str) -> None:
    here = [page for page in made(name).sheet().sheet.pages if "Ways of working" in said(page)]
    assert len(here) >= 1
    used_there = used_techniques(made(name).layout.piece)
    pages = made(name).sheet().sheet.pages
    where = {a.name: i for i, page in enumerate(pages) for a in anchors(page)}
    places = [where[f"knot-{each.replace('_', '-')}"] for each in used_there]
    assert places == sorted(places)
    assert places[0] >= max(where[f"knot-{each.replace('_', '-')}"] for each in manners(name))
    assert where["chart"] - places[0] <= 2


def test_it_is_the_same_every_time() -> None:
    assert knot_sheet().pdf() == knot_sheet().pdf()


def test_paper_there_is_not_is_refused() -> None:
    for make in (knot_sheet, made("plain").knot_sheet):
        with pytest.raises(UsageError, match="there is no paper 'a5'; use one of a4, letter"):
            make("a5")
