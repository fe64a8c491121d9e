"""A pattern to begin from: the small one and the shipped ones, never over a file."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import knotplot
from knotplot.errors import OutputError
from knotplot.renderers import files
from knotplot.renderers.files import write_first

ROOT = Path(__file__).resolve().parents[1]


def test_two_commands_give_a_sheet(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    code, out, said = run("new", "my mat.yaml")
    assert (code, said) == (0, [])
    command = "knotplot sheet 'my mat.yaml' -o 'my mat.pdf'"
    assert out == f"my mat.yaml: written; now: {command}\n"
    assert run("sheet", "my mat.yaml", "-o", "my mat.pdf") == (0, "", [])
    assert Path("my mat.pdf").read_bytes().startswith(b"%PDF-")


def test_the_small_one_is_good_whole_and_commented() -> None:
    text = knotplot.starter()
    piece = knotplot.build(knotplot.loads(text))
    assert piece.warnings == ()
    keys = re.findall(r"^(\w+):", text, re.MULTILINE)
    assert {"size", "cord", "swatch", "mount", "sections", "lower_edge"} <= set(keys)
    for key in keys:
        if key not in ("knotplot", "title"):
            assert re.search(rf"^# .*\n{key}:", text, re.MULTILINE), key
    quoted = text.replace("# work:", "work:")
    assert knotplot.build(knotplot.loads(quoted)).quote().total > 0


def test_every_shipped_pattern_can_be_begun_from(run, tmp_path: Path) -> None:
    places = sorted(ROOT.glob("patterns/*.yaml"))
    assert knotplot.shipped() == tuple(place.stem for place in places)
    for place in places:
        made = tmp_path / place.name
        assert run("new", str(made), "--from", place.stem)[0] == 0
        assert made.read_bytes() == place.read_bytes()


def test_a_file_that_is_there_stays(run, tmp_path: Path) -> None:
    place = tmp_path / "mat.yaml"
    place.write_text("mine")
    code, out, said = run("new", str(place))
    assert (code, out) == (1, "")
    told = "there is a file already, and it stays as it is; name another place"
    assert said == [f"{place}: {told}"]
    assert place.read_text() == "mine"
    link = tmp_path / "link.yaml"
    link.symlink_to(tmp_path / "nowhere")
    assert run("new", str(link))[0] == 1
    assert sorted(each.name for each in tmp_path.iterdir()) == ["link.yaml", "mat.yaml"]


@pytest.mark.parametrize(
    ("argv", "code", "told"),
    [
        (["{}/x.yaml", "--from", "lantern-dorway"], 2, "did you mean 'lantern-doorway'?"),
        (["{}/x.yaml", "--from", "../secret"], 2, "no pattern '../secret' comes with knotplot"),
        (["{}/no/x.yaml"], 1, "its folder does not exist; make the folder first"),
        (["{}"], 1, "a folder stands there; give the name of a file"),
        ([""], 2, "an empty name; name a place to write to"),
        ([], 2, "the following arguments are required: FILE"),
    ],
)
def test_what_can_not_be_begun_is_said(run, tmp_path: Path, argv, code, told) -> None:
    found = run("new", *(part.format(tmp_path) for part in argv))
    assert found[:2] == (code, "")
    assert told in found[2][0]
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_comes_in_between_stays(tmp_path: Path, monkeypatch) -> None:
    place, write = tmp_path / "mat.yaml", files._write_new

    def meanwhile(*given: object) -> None:
        write(*given)  # type: ignore[arg-type]
        place.write_text("another's")

    monkeypatch.setattr(files, "_write_new", meanwhile)
    with pytest.raises(OutputError, match="there is a file already"):
        write_first(place, b"mine")
    assert place.read_text() == "another's"
    assert list(tmp_path.iterdir()) == [place]


def test_a_disk_without_second_names_does_too(tmp_path: Path, monkeypatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError

    monkeypatch.setattr("os.link", refuse)
    write_first(tmp_path / "mat.yaml", b"mine")
    assert (tmp_path / "mat.yaml").read_bytes() == b"mine"
    assert list(tmp_path.iterdir()) == [tmp_path / "mat.yaml"]
