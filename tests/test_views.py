"""What can be chosen of a view: rows, lanes, text, scale; one repeat; a knot without a piece."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from cli_sample import GOOD
from lxml import etree

import knotplot
from knotplot.drawing.shapes import Drawing, Group, Item, Text
from knotplot.knots import catalogue
from knotplot.techniques import techniques
from knotplot.views import OPTIONS, VIEWS, options_of

MESH = """\
knotplot: 1
size: {width: 60 cm, drop: 60 cm}
cord: {diameter: 4 mm}
strands: {count: 40}
mount: {kind: larks_head, rod: 12 mm}
sections: [{kind: square_knot_mesh, rows: 12}, {kind: fringe, length: 8 cm}]
"""


@pytest.fixture(scope="module")
def piece() -> knotplot.WorkedPiece:
    return knotplot.build(knotplot.loads(MESH))


def texts(drawing: Drawing) -> list[Text]:
    """Return all texts of a drawing."""

    def within(items: tuple[Item, ...]) -> list[Text]:
        found: list[Text] = []
        for item in items:
            if isinstance(item, Text):
                found.append(item)
            elif isinstance(item, Group):
                found += within(tuple(item.items))
        return found

    return within(tuple(drawing.items))


def test_a_chart_of_some_rows_and_lanes_is_smaller_and_says_so(piece: knotplot.WorkedPiece) -> None:
    whole, part = piece.draw("chart"), piece.draw("chart", rows=(3, 8), lanes=(1, 16))
    assert part.drawing.desc == "Cords 1–16, rows 3 to 8, drawn as worked."
    assert part.size[0] < 0.7 * whole.size[0]
    assert part.size[1] < 0.8 * whole.size[1]
    rows = piece.draw("chart", rows=(3, 8))
    assert rows.drawing.desc == "Cords 1–40, rows 3 to 8, drawn as worked."
    lanes = piece.draw("chart", lanes=(5, 12))
    assert lanes.drawing.desc == "Cords 5–12, rows 1 to 13, drawn as worked."


def test_one_repeat_and_the_key_are_views(piece: knotplot.WorkedPiece) -> None:
    repeat = piece.draw("repeat")
    assert repeat.size[0] < piece.draw("chart").size[0]
    assert {"left edge", "right edge"} <= {text.text for text in texts(repeat.drawing)}
    key = piece.draw("key")
    assert "square knot" in {text.text for text in texts(key.drawing)}
    assert max(key.size) < 200


@pytest.mark.parametrize("view", ["chart", "repeat", "key", "outline", "trim"])
def test_the_text_of_a_view_has_the_size_asked_for(piece: knotplot.WorkedPiece, view: str) -> None:
    sizes = {text.size for text in texts(piece.draw(view, text_mm=7).drawing)}
    assert 7 in sizes
    assert max(sizes) <= 7 * 1.3


def test_a_piece_is_drawn_to_scale(piece: knotplot.WorkedPiece) -> None:
    whole, quarter = piece.draw("cord"), piece.draw("cord", scale=0.25)
    assert quarter.size == pytest.approx([side / 4 for side in whole.size])
    assert quarter.drawing.desc.endswith("drawn as cord at 0.25 of full size.")
    assert piece.draw("cord", scale=1).svg() == whole.svg()


def test_the_marks_of_the_trim_line_stand_as_far_apart_as_asked() -> None:
    shaped = knotplot.build(knotplot.loads(MESH + "lower_edge: {profile: parabola, rise: 5 cm}\n"))
    told = [int(shaped.draw("trim", every_mm=mm).drawing.desc.split()[-2]) for mm in (100, 20)]
    assert told == [7, 31]  # both sides, the crown, and between them every 10 cm, every 2 cm


def test_every_view_takes_known_options_only() -> None:
    assert {"chart", "cord", "key", "outline", "repeat", "trim"} <= set(VIEWS)
    for view in VIEWS:
        assert set(options_of(view)) <= set(OPTIONS)


@pytest.mark.parametrize(
    ("view", "options", "told"),
    [
        ("cord", {"rows": (1, 2)}, "view cord has no choice of rows; use chart or repeat"),
        ("trim", {"lanes": (1, 2)}, "view trim has no choice of lanes; use chart"),
        ("cord", {"text_mm": 3}, "no size of text; use chart or key or outline or repeat or trim"),
        ("chart", {"scale": 0.5}, "view chart has no scale; use cord"),
        ("cord", {"every_mm": 50}, "view cord has no distance between marks; use trim"),
        ("chart", {"step": 1}, "view chart has no steps; only a knot's has: use knot:NAME"),
        ("chart", {"left_handed": True}, "no left-handed edition; only a knot's has"),
        ("knot:overhand", {"rows": (1, 2)}, "view knot:overhand has no choice of rows"),
        ("knot:overhand", {"step": 1.5}, "step 1.5: not the number of a step; use 1 or more"),
        ("knot:overhand", {"step": 9}, "use 1 to"),
        ("chart", {"rows": 3}, "rows is 3: give the first and the last, as (3, 8)"),
        ("chart", {"rows": (8, 3)}, "rows 8 to 3: there are 1 to 13"),
        ("chart", {"lanes": (1, 41)}, "lanes 1 to 41: there are 1 to 40"),
        ("repeat", {"rows": (0, 2)}, "rows 0 to 2: there are 1 to 13"),
        ("outline", {"text_mm": 0}, "text_mm is 0: use a number above 0"),
        ("cord", {"scale": float("nan")}, "scale is nan: use a number above 0"),
        ("trim", {"every_mm": 1}, "every_mm is 1: use 5 or more"),
        ("chart", {"language": "xx"}, "there are no words in 'xx': use one of en"),
        ("side", {}, "there is no view 'side'; use chart, cord, key, outline, repeat, trim or"),
    ],
)
def test_what_a_view_has_not_is_refused(
    piece: knotplot.WorkedPiece, view: str, options: dict[str, Any], told: str
) -> None:
    with pytest.raises(knotplot.UsageError) as caught:
        piece.draw(view, **options)
    assert told in str(caught.value)


@pytest.mark.parametrize("name", list(catalogue()))
def test_a_knot_is_drawn_without_a_piece(name: str) -> None:
    picture = knotplot.knot(name, diameter=5)
    assert picture.title.lower() == catalogue()[name].words["en"].one.lower()
    assert etree.fromstring(picture.svg().encode()).findall(".//{*}path")


def test_a_knot_alone_is_the_one_of_a_piece_of_that_cord(piece: knotplot.WorkedPiece) -> None:
    for options in ({}, {"step": 2}, {"left_handed": True}):
        alone = knotplot.knot("square_knot", diameter=4, **options)  # type: ignore[arg-type]
        assert alone.svg() == piece.draw("knot:square_knot", **options).svg()  # type: ignore[arg-type]


def test_a_way_of_working_is_drawn_without_a_piece() -> None:
    name = next(iter(techniques()))
    whole, step = knotplot.technique(name), knotplot.technique(name, step=1, ids="one")
    assert whole.drawing.desc.startswith(step.drawing.desc)
    assert 'id="one-title"' in step.svg()


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (lambda: knotplot.knot("squar_knot"), "no knot 'squar_knot'; did you mean 'square_knot'?"),
        (lambda: knotplot.knot("added_tassel"), "it is a way of working: use technique('added_"),
        (lambda: knotplot.technique("overhand"), "it is a knot: use knot('overhand')"),
        (lambda: knotplot.technique("x"), "there is no way of working 'x'; use one of"),
        (lambda: knotplot.knot("overhand", step=7), "it is tied in"),
        (lambda: knotplot.knot("overhand", diameter=0), "give the cord's thickness in mm"),
    ],
)
def test_a_knot_there_is_not_is_refused(call: Any, told: str) -> None:
    with pytest.raises(knotplot.UsageError) as caught:
        call()
    assert told in str(caught.value)


# --- the command ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("options", "asked"),
    [
        (
            "chart --rows 2-5 --lanes 1-8 --text 3mm",
            {"rows": (2, 5), "lanes": (1, 8), "text_mm": 3},
        ),
        ("chart --rows 3 --text 3mm", {"rows": (3, 3), "text_mm": 3}),
        ("repeat --ids one", {"ids": "one"}),
        ("key --text 1/8in", {"text_mm": 3.175}),
        ("cord --scale 1:4", {"scale": 0.25}),
        ("cord --scale 0.25", {"scale": 0.25}),
        ("trim --every 10cm", {"every_mm": 100}),
        ("knot:overhand --step 1 --left-handed", {"step": 1, "left_handed": True}),
    ],
)
def test_the_command_draws_what_python_does(run, pattern, tmp_path, options, asked) -> None:
    view, *rest = options.split()
    place = tmp_path / "view.svg"
    assert run("draw", pattern, "--view", view, *rest, "-o", str(place)) == (0, "", [])
    assert place.read_text() == knotplot.build(knotplot.loads(GOOD)).draw(view, **asked).svg()


def test_the_command_draws_a_knot_without_a_pattern(run, tmp_path: Path) -> None:
    place = tmp_path / "knot.svg"
    for name, made in (("overhand", knotplot.knot), ("added_tassel", knotplot.technique)):
        assert run("draw", "--view", f"knot:{name}", "-o", str(place)) == (0, "", [])
        assert place.read_text() == made(name).svg()


@pytest.mark.parametrize(
    ("argv", "told"),
    [
        (["--view", "chart"], "--view chart needs a pattern: knotplot draw FILE --view chart"),
        (["--view", "knot:overhand", "--size", "tall"], "--size needs a pattern"),
        (["--view", "knot:bow"], "there is no such knot"),
        (["--view", "chart", "--rows", "3-"], "'3-' is no first and last; write them as 3-8"),
        (["--view", "chart", "--rows", "1-99"], "rows 1 to 99"),
        (["--view", "chart", "--text", "3"], "'3': needs a unit; write '3 mm'"),
        (["--view", "cord", "--scale", "0:1"], "'0:1' is no scale; write 0.25 or 1:4"),
        (["--view", "cord", "--rows", "3"], "view cord has no choice of rows"),
        (["--view", "trim", "--ids", "3"], "ids can't begin with '3'"),
    ],
)
def test_the_command_refuses_what_does_not_fit(run, pattern, tmp_path, argv, told) -> None:
    place = tmp_path / "view.svg"
    file = [] if "knot:" in argv[1] or "needs a pattern" in told else [pattern]
    code, out, said = run("draw", *file, *argv, "-o", str(place))
    assert (code, out, len(said)) == (2, "", 1)
    assert re.search(re.escape(told), said[0])
    assert not place.exists()
