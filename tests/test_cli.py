"""The commands: what they write and print."""

from __future__ import annotations

import json

import pytest
from cli_sample import FILES, changed, names
from lxml import etree
from pypdf import PdfReader

import knotplot
from knotplot.knots import catalogue
from knotplot.techniques import techniques


def test_make_writes_four_files_into_a_new_folder(run, pattern, tmp_path):
    out = tmp_path / "a" / "b"
    code, said, _ = run("make", pattern, "-o", str(out))
    assert code == 0
    assert names(out) == FILES
    assert sorted(said.splitlines()) == [str(out / name) for name in FILES]
    assert json.loads((out / "figures.json").read_text()) == json.loads(run("figures", pattern)[1])
    for name in ("chart.svg", "cord.svg"):
        assert etree.parse(out / name).getroot().tag == "{http://www.w3.org/2000/svg}svg"
    assert (out / "sheet.pdf").read_bytes().startswith(b"%PDF-")


def test_make_again_replaces_the_files(run, pattern, tmp_path):
    run("make", pattern, "-o", str(tmp_path / "out"), "--size", "tall")
    tall = (tmp_path / "out" / "figures.json").read_bytes()
    assert run("make", pattern, "-o", str(tmp_path / "out"))[0] == 0
    assert (tmp_path / "out" / "figures.json").read_bytes() != tall
    assert names(tmp_path / "out") == FILES


def test_the_commands_say_what_the_python_calls_say(run, pattern, tmp_path):
    piece = knotplot.build(knotplot.load(pattern, size="tall"))
    assert json.loads(run("figures", pattern, "--size", "tall")[1]) == piece.figures()
    rows = json.loads(run("figures", pattern, "--size", "tall", "--rows")[1])
    assert rows == json.loads(json.dumps(piece.figures(rows=True)))
    assert run("words", pattern, "--size", "tall")[1] == piece.words()
    picture, sheet = tmp_path / "x.svg", tmp_path / "x.pdf"
    for view in ("chart", "cord", "outline", "trim"):
        assert run("draw", pattern, "--size", "tall", "--view", view, "-o", str(picture))[0] == 0
        assert picture.read_text() == piece.draw(view).svg()
    assert run("sheet", pattern, "--size", "tall", "-o", str(sheet))[0] == 0
    assert sheet.read_bytes() == piece.sheet().pdf()


def test_a_sheet_on_letter_paper(run, pattern, tmp_path):
    file = tmp_path / "sheet.pdf"
    assert run("sheet", pattern, "--paper", "letter", "-o", str(file))[0] == 0
    box = PdfReader(file).pages[0].mediabox
    assert (round(box.width), round(box.height)) == (612, 792)  # US Letter, 8.5 × 11 in


def test_a_view_as_png(run, pattern, tmp_path):
    file = tmp_path / "cord.PNG"
    assert run("draw", pattern, "--view", "cord", "-o", str(file))[0] == 0
    assert file.read_bytes().startswith(b"\x89PNG\r\n")


def test_a_png_too_large_for_its_resolution_is_made_with_fewer_pixels_and_says_so(
    run, pattern, tmp_path, monkeypatch
):
    monkeypatch.setattr("knotplot.renderers.png.MOST_PIXELS", 100_000)
    file = tmp_path / "trim.png"
    code, _, told = run("draw", pattern, "--view", "trim", "-o", str(file))
    assert code == 0
    assert file.read_bytes().startswith(b"\x89PNG\r\n")
    (line,) = [line for line in told if "pixels a millimetre" in line]
    assert line.startswith(str(file))
    assert "in place of 4, since a picture has 100,000 at most" in line


@pytest.mark.parametrize("knot", catalogue())
def test_every_knot_is_drawn_by_itself(run, pattern, tmp_path, knot):
    file = tmp_path / "knot.svg"
    assert run("draw", pattern, "--view", f"knot:{knot}", "-o", str(file))[0] == 0
    root = etree.parse(file).getroot()
    assert root.findtext("{*}title").lower() == catalogue()[knot].words["en"].one.lower()
    assert root.findall(".//{*}path")


def test_one_step_of_a_knot_for_either_hand(run, pattern, tmp_path):
    file, view = tmp_path / "step.svg", ("--view", "knot:half_knot")
    told = []
    for hand in ((), ("--left-handed",)):
        assert run("draw", pattern, *view, "--step", "1", *hand, "-o", str(file))[0] == 0
        told.append(etree.parse(file).getroot().findtext("{*}desc"))
    assert told[0].startswith("1. Lay the left working cord over both filler cords and under")
    assert told[1].startswith("1. Lay the right working cord over both filler cords and under")
    whole = knotplot.build(knotplot.load(pattern)).draw("knot:half_knot").drawing
    assert whole.desc.count("working cord") == 3
    assert " 3. Pull both working cords evenly" in whole.desc


@pytest.mark.parametrize(
    ("argv", "told"),
    [
        (("knot:half_knot", "--step", "4"), "it is tied in 3 steps: use 1 to 3"),
        (("knot:half_knot", "--step", "0"), "half_knot has no step 0"),
        (("knot:half_knot", "--step", "two"), "'two' is not the number of a step"),
        (("cord", "--step", "1"), "view cord has no steps; only a knot's has: use knot:NAME"),
        (("chart", "--left-handed"), "view chart has no left-handed edition"),
    ],
)
def test_a_step_there_is_not_is_refused(run, pattern, tmp_path, argv, told):
    file = tmp_path / "step.svg"
    code, _, said = run("draw", pattern, "--view", *argv, "-o", str(file))
    assert code == 2
    assert told in said[0]
    assert not file.exists()


def test_overrides_are_laid_over_after_the_size_in_order(run, pattern):
    lay = ("--set", "sections.net.rows=3", "--size", "tall", "--set", "sections.net.rows=2")
    made = json.loads(run("figures", pattern, "--rows", *lay)[1])
    assert made["size"]["drop_mm"] == 600
    assert [row["section"] for row in made["rows"]].count("net") == 2
    wide = json.loads(run("figures", pattern, "--set", 'size.width="0.2 m"')[1])
    assert wide["size"]["width_mm"] == 200


def test_kits_are_laid_over_the_pattern(run, pattern):
    one = run("figures", pattern)[1]
    assert run("figures", pattern, "--kits", "1")[1] == one
    assert run("figures", pattern, "--set", "kits=7", "--kits", "1")[1] == one
    code, _, said = run("figures", pattern, "--kits", "7")
    assert (code, len(said)) == (1, 1)
    assert said[0].startswith("--kits: kits: 7: not built yet")


def test_check_says_what_is_good_of_every_size(run, pattern):
    code, said, errors = run("check", pattern)
    lines = said.splitlines()
    assert (code, errors) == (0, [])
    assert lines[0] == f"{pattern}: good"
    assert 'title: Harbour <b>mat</b> & "sons"' in lines
    assert "strands: 24" in lines
    assert any(line.startswith("size tall: good; strands: 24; rows: ") for line in lines)
    assert "size tall" not in run("check", pattern, "--size", "tall")[1]


def test_check_builds_every_size(run, tmp_path):
    file = tmp_path / "mat.yaml"
    file.write_text(changed("rows: 8}", "rows: 80}"))
    assert run("figures", str(file))[0] == 0
    code, _, said = run("check", str(file))
    assert (code, len(said)) == (1, 1)
    assert "sizes.tall.sections.net.rows: 80: the work is" in said[0]
    assert "rows at most in net" in said[0]


def test_the_schema_is_json_and_requires_kinds(run):
    schema = json.loads(run("schema")[1])
    assert schema["$schema"].startswith("https://json-schema.org/")
    assert "knotplot" in schema["required"]
    assert "kind" in schema["$defs"]["SquareKnotMesh"]["required"]


def test_knots_lists_the_catalogue_with_trade_names_and_counts(run):
    lines = run("knots")[1].splitlines()
    names = [line.split()[0] for line in lines]
    assert names[: len(catalogue())] == list(catalogue())
    assert sorted(names[len(catalogue()) :]) == list(techniques())
    found = dict(line.split(maxsplit=1) for line in lines)
    assert found["square_knot"] == (
        "square knot: 2 to 400 cords, here 2 working cords and 2 filler cords; "
        "it faces left or right, here left; "
        "about 17 cord diameters for each working cord and 3.5 for each filler cord; "
        "in 4 mm cord that is 6.8 cm (2 5/8 in) and 1.4 cm (1/2 in); "
        "about 30 seconds, with practice; easy; in motifs and sennits by name"
    )
    assert "both sides of a folded cord on a rod 1.6 cm (5/8 in) thick" in found["larks_head"]
    assert found["overhand"].startswith("overhand knot: 1 to 60 cords, here 1 working cord; ")
    assert "the leader runs straight through" in found["double_half_hitch"]


def test_knots_of_a_pattern_are_listed_as_they_are_tied_in_it(run, pattern):
    code, said, _ = run("knots", pattern)
    names = [line.split()[0] for line in said.splitlines()]
    assert code == 0
    knots = set(json.loads(run("figures", pattern)[1])["knots"]) - {"cross"}
    assert set(names[: len(knots)]) == knots
    assert set(names[len(knots) :]) <= set(techniques())


@pytest.mark.parametrize("options", [[], ["--paper", "letter"], ["--left-handed"]])
@pytest.mark.parametrize("whole", [True, False])
def test_a_knot_sheet_is_written(run, pattern, tmp_path, options, whole):
    place = tmp_path / "knots.pdf"
    file = [] if whole else [pattern]
    code, said, errors = run("knots", *file, "--sheet", str(place), *options)
    assert (code, said, errors) == (0, "", [])
    reader = PdfReader(place)
    wide = 612 if "letter" in options else 595
    assert {round(float(page.mediabox.width)) for page in reader.pages} == {wide}
    assert ("left-handed" in (reader.metadata.title or "")) is ("--left-handed" in options)


@pytest.mark.parametrize("whole", [True, False])
def test_the_list_of_knots_is_drawn_with_marks(run, pattern, tmp_path, whole):
    place = tmp_path / "knots.svg"
    file = [] if whole else [pattern]
    assert run("knots", *file, "-o", str(place)) == (0, "", [])
    told = {line.split()[0] for line in run("knots", *file)[1].splitlines()}
    texts = {each.text for each in etree.parse(place).getroot().iter("{*}text")}
    assert told <= texts


def test_markup_in_a_title_is_text(run, pattern, tmp_path):
    out = tmp_path / "out"
    assert run("make", pattern, "-o", str(out))[0] == 0
    for name in ("chart.svg", "cord.svg"):
        assert not etree.parse(out / name).getroot().findall(".//{*}b")
    assert 'Harbour <b>mat</b> & "sons"' in (PdfReader(out / "sheet.pdf").metadata.title or "")
    assert 'Harbour <b>mat</b> & "sons"' in run("words", pattern)[1]


def test_warnings_go_to_stderr_and_do_no_harm(run, tmp_path):
    file = tmp_path / "flare.yaml"
    file.write_text(changed("width: 19.2 cm", "width: 12 cm"))
    code, said, errors = run("words", str(file))
    assert code == 0
    assert errors
    assert all(line.startswith(f"{file}: warning: ") for line in errors)
    assert "warning" not in said
    assert [
        f"warning: {text}" for text in json.loads(run("figures", str(file))[1])["warnings"]
    ] == [line for line in run("check", str(file))[1].splitlines() if line.startswith("warning: ")]
