"""The commands: what they write, print and answer, and that nothing is ever half done."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from cli_sample import GOOD, changed
from lxml import etree
from pypdf import PdfReader

import knotplot
from knotplot.cli import main
from knotplot.knots import catalogue
from knotplot.techniques import techniques

FILES = ["chart.svg", "cord.svg", "figures.json", "sheet.pdf"]


@pytest.fixture
def pattern(tmp_path: Path) -> str:
    file = tmp_path / "mat.yaml"
    file.write_text(GOOD)
    return str(file)


def names(folder: Path) -> list[str]:
    return sorted(str(place.relative_to(folder)) for place in folder.rglob("*"))


# --- what they make ------------------------------------------------------------------------------


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
    assert "row 1 of lace doesn't fit above the lower edge" in said[0]


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


# --- wrong usage: exit 2, one line ---------------------------------------------------------------

WRONG = [
    ([], "the following arguments are required: COMMAND"),
    (["mak"], "invalid choice: 'mak'"),
    (["make", "{file}"], "the following arguments are required: -o"),
    (["make", "-o", "{out}"], "the following arguments are required: FILE"),
    (["make", "{file}", "-o"], "expected one argument"),
    (["make", "{file}", "-o", ""], "name a place to write to"),
    (["make", "{file}", "{file}", "-o", "{out}"], "unrecognized arguments"),
    (["make", "{file}", "-o", "{out}", "--siz", "tall"], "unrecognized arguments: --siz"),
    (["make", "{file}", "-o", "{out}", "--kits", "0"], "'0' is not a whole number from 1 up"),
    (["make", "{file}", "-o", "{out}", "--kits", "-3"], "argument --kits"),
    (["make", "{file}", "-o", "{out}", "--kits", "1.5"], "'1.5' is not a whole number from 1 up"),
    (["make", "{file}", "-o", "{out}", "--size", "tal"], "no size 'tal'; did you mean 'tall'?"),
    (["make", "{file}", "-o", "{out}", "--set", "rows"], "--set rows: not a path and a value"),
    (["make", "{file}", "-o", "{out}", "--set", "=3"], "--set =3: not a path and a value"),
    (["make", "{file}", "-o", "{out}", "--paper", "a4"], "unrecognized arguments: --paper"),
    (["sheet", "{file}", "-o", "{out}"], "use a name that ends in .pdf"),
    (["sheet", "{file}", "-o", "{out}.pdf", "--paper", "a5"], "invalid choice: 'a5'"),
    (["draw", "{file}", "-o", "{out}.svg"], "the following arguments are required: --view"),
    (["draw", "{file}", "--view", "cord"], "the following arguments are required: -o"),
    (["draw", "{file}", "--view", "cord", "-o", "{out}.gif"], "use a name that ends in .svg or .p"),
    (["draw", "{file}", "--view", "side", "-o", "{out}.svg"], "no view 'side'; use chart, cord"),
    (["draw", "{file}", "--view", "knot:", "-o", "{out}.svg"], "no view 'knot:'"),
    (["draw", "{file}", "--view", "knot:bow", "-o", "{out}.svg"], "there is no such knot"),
    (["draw", "{file}", "--view", "knot:half_not", "-o", "{out}.svg"], "mean 'half_knot'?"),
    (["schema", "{file}"], "unrecognized arguments"),
    (["knots", "--set", "a=b"], "unrecognized arguments"),
    (["knots", "--paper", "a4"], "--paper: only a knot sheet has it; write --sheet X.pdf too"),
    (["knots", "--left-handed"], "--left-handed: only a knot sheet has it"),
    (["knots", "--sheet", "{out}.svg"], "use a name that ends in .pdf"),
    (["knots", "--sheet", "{out}.pdf", "--paper", "a5"], "invalid choice: 'a5'"),
    (["knots", "--sheet"], "expected one argument"),
]


@pytest.mark.parametrize(("argv", "said"), WRONG, ids=lambda value: " ".join(value)[:60])
def test_wrong_usage_is_told_on_one_line(run, pattern, tmp_path, argv, said):
    before = names(tmp_path)
    argv = [word.format(file=pattern, out=tmp_path / "out") for word in argv]
    code, printed, errors = run(*argv)
    assert (code, printed, len(errors)) == (2, "", 1)
    assert said in errors[0]
    assert errors[0].startswith("knotplot")
    assert names(tmp_path) == before


def test_help_and_version_are_good(run):
    assert run("--version")[:2] == (0, f"knotplot {knotplot.__version__}\n")
    for command in ("make", "sheet", "draw", "figures", "words", "check", "schema", "knots"):
        assert command in run("--help")[1]
        assert run(command, "--help")[0] == 0


@pytest.mark.parametrize("option", ["--left-handed", "--large-print"])
def test_an_edition_that_is_not_built_yet_is_refused(run, pattern, tmp_path, option):
    code, _, errors = run("sheet", pattern, "-o", str(tmp_path / "x.pdf"), option)
    assert (code, errors) == (1, [f"{option}: not built yet; leave {option} out"])
    assert not (tmp_path / "x.pdf").exists()


# --- places that can't be written: exit 1, and nothing half written ------------------------------

PLACES = [
    ("file", "it is a file, not a folder; name another place"),
    ("file/deep", "what should be its folder is a file"),
    ("x" * 300, "file name too long"),
    ("loop", "name another place"),
    ("taken", "sheet.pdf: a folder stands there"),
    ("piped", "chart.svg: it is a device or a pipe"),
]


@pytest.mark.parametrize(("place", "said"), PLACES)
def test_a_place_that_cant_be_written(run, pattern, tmp_path, place, said):
    (tmp_path / "file").write_text("keep")
    (tmp_path / "loop").symlink_to("loop")
    (tmp_path / "taken" / "sheet.pdf").mkdir(parents=True)
    (tmp_path / "piped").mkdir()
    os.mkfifo(tmp_path / "piped" / "chart.svg")
    before = names(tmp_path)
    code, printed, errors = run("make", pattern, "-o", str(tmp_path / place))
    assert (code, printed, len(errors)) == (1, "", 1)
    assert said in errors[0]
    assert names(tmp_path) == before
    assert (tmp_path / "file").read_text() == "keep"


@pytest.mark.parametrize("fails_at", [1, 2, 3, 4])
@pytest.mark.parametrize("there", ["nothing", "old files"])
def test_a_failure_half_way_leaves_everything_as_it_was(
    run, pattern, tmp_path, monkeypatch, fails_at, there
):
    out = tmp_path / "out"
    if there == "old files":
        out.mkdir()
        for name in FILES:
            (out / name).write_text(f"old {name}")
    before = names(tmp_path)
    real, done = Path.replace, iter(range(1, 100))

    def replace(self: Path, target: Path) -> Path:
        if next(done) == fails_at:
            raise OSError(28, "No space left on device")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    code, printed, errors = run("make", pattern, "-o", str(out))
    assert (code, printed, len(errors)) == (1, "", 1)
    assert "no space left on device; name another place" in errors[0]
    assert names(tmp_path) == before
    if there == "old files":
        assert [(out / name).read_text() for name in FILES] == [f"old {name}" for name in FILES]


def test_the_pattern_itself_is_never_written_over(run, tmp_path):
    file = tmp_path / "figures.json"
    file.write_text(GOOD)
    code, _, errors = run("make", str(file), "-o", str(tmp_path))
    assert (code, len(errors)) == (2, 1)
    assert "would write over the pattern" in errors[0]
    assert file.read_text() == GOOD
    assert names(tmp_path) == ["figures.json"]


# --- faults of our own, interruptions, streams ---------------------------------------------------


def test_an_error_of_our_own_is_one_line_that_asks_for_a_report(run, pattern, monkeypatch):
    def broken(_: object) -> None:
        raise KeyError("lane\n7")

    monkeypatch.setattr("knotplot.cli._made", broken)
    code, printed, errors = run("figures", pattern)
    assert (code, printed, len(errors)) == (1, "", 1)
    assert "KeyError" in errors[0]
    assert "test_cli.py, line " in errors[0]
    assert errors[0].endswith("please report it, with the pattern")


def test_an_interruption_is_quiet(run, pattern, monkeypatch):
    def stopped(_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("knotplot.cli._made", stopped)
    assert run("figures", pattern) == (130, "", [])


def test_a_full_stdout_is_told(capsys, pattern, monkeypatch):
    class Full(io.StringIO):
        def write(self, _: str) -> int:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(sys, "stdout", Full())
    assert main(["figures", pattern]) == 1
    assert capsys.readouterr().err == (
        "standard output: no space left on device; send it elsewhere\n"
    )


def module(*argv: str, **more: object) -> subprocess.Popen[bytes]:
    """Start `python -m knotplot` with those arguments."""
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    return subprocess.Popen([sys.executable, "-m", "knotplot", *argv], **{**pipes, **more})


def test_a_reader_that_goes_away_is_no_fault():
    reading, writing = os.pipe()
    os.close(reading)
    running = module("schema", stdout=writing)
    os.close(writing)
    assert (running.communicate()[1], running.returncode) == (b"", 0)


def test_what_is_printed_is_utf_8_wherever_it_runs(tmp_path):
    file = tmp_path / "café.yaml"
    file.write_text(changed("Harbour", "Café ◆ Harbour"), "utf-8")
    plain = {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"}
    running = module("check", str(file), env={**os.environ, **plain})
    said, errors = running.communicate()
    assert (running.returncode, errors) == (0, b"")
    assert "title: Café ◆ Harbour" in said.decode("utf-8")


def test_python_dash_m_answers_with_the_exit_code(tmp_path):
    running = module("check", str(tmp_path / "none.yaml"))
    said, errors = running.communicate()
    assert (running.returncode, said) == (1, b"")
    assert errors.decode().count("\n") == 1
    assert b"can't be read: no such file or directory; give a pattern's file" in errors
