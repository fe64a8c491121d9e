"""The public names: sorted, complete, documented, and the same however they are reached."""

from __future__ import annotations

import inspect
import re
import subprocess
import sys
from pathlib import Path

import pytest
from cli_sample import GOOD

import knotplot
from knotplot.cli import main
from knotplot.motifs.shipped import shipped_names

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text("utf-8")


def test_all_is_sorted_and_about_a_dozen() -> None:
    assert list(knotplot.__all__) == sorted(set(knotplot.__all__))
    assert 8 <= len(knotplot.__all__) <= 24


@pytest.mark.parametrize("name", knotplot.__all__)
def test_a_public_name_is_there_and_says_what_it_is(name: str) -> None:
    thing = getattr(knotplot, name)
    assert callable(thing)
    assert inspect.getdoc(thing)
    assert thing.__module__.startswith("knotplot.")
    assert name in dir(knotplot)


@pytest.mark.parametrize("name", knotplot.__all__)
def test_a_public_name_stands_in_the_readme(name: str) -> None:
    assert re.search(rf"`(knotplot\.)?{name}\b", README)


def test_an_unknown_name_is_refused_as_ever() -> None:
    with pytest.raises(AttributeError, match="module 'knotplot' has no attribute 'loadd'"):
        _ = knotplot.loadd  # type: ignore[attr-defined]


@pytest.mark.parametrize("first", ["", "knotplot.loads", "import knotplot.cli, knotplot.api"])
def test_dir_shows_the_public_names_and_no_module_has_the_name_of_one(first: str) -> None:
    code = f"import knotplot\n{first}\nprint(*dir(knotplot))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == sorted(knotplot.__all__)
    modules = {file.stem for file in Path(knotplot.__file__).parent.iterdir()}
    assert modules.isdisjoint(knotplot.__all__)


def test_the_version_is_one() -> None:
    written = re.search(r'^version = "(.+)"$', (ROOT / "pyproject.toml").read_text("utf-8"), re.M)
    assert written
    assert knotplot.__version__ == written[1]


def blocks(language: str) -> list[str]:
    """Return README's code of one language."""
    found: list[str] = re.findall(rf"```{language}\n(.*?)```", README, re.S)
    return found


def test_the_readmes_pattern_is_good_in_all_its_sizes(capsys, tmp_path):
    (text,) = blocks("yaml")
    file = tmp_path / "pantry.yaml"
    file.write_text(text, "utf-8")
    assert main(["check", str(file)]) == 0
    assert "size long: good" in capsys.readouterr().out


def test_the_readmes_fault_is_what_is_said(capsys, tmp_path, monkeypatch):
    (text,) = blocks("yaml")
    monkeypatch.chdir(tmp_path)
    Path("pantry.yaml").write_text(text.replace("rows: 4}", "rows: 0}"), "utf-8")
    assert main(["make", "pantry.yaml", "-o", "out"]) == 1
    (said,) = blocks("text")
    assert capsys.readouterr().err == said


def test_the_readmes_python_runs(tmp_path, monkeypatch, capsys):
    (code,) = blocks("python")
    (tmp_path / "patterns").symlink_to(ROOT / "patterns")
    monkeypatch.chdir(tmp_path)
    exec(compile(code, "README.md", "exec"), {})
    assert int(capsys.readouterr().out) > 0
    assert Path("chart.svg").read_text("utf-8").startswith("<svg ")
    assert Path("sheet.pdf").read_bytes().startswith(b"%PDF-")


def test_ci_runs_the_readmes_two_commands() -> None:
    script = (ROOT / ".ci" / "run").read_text("utf-8")
    make, tests = blocks("sh")
    for command in (*make.split(" -o ")[0].split(" && "), *tests.split(" && ")[2:]):
        assert command.strip().removeprefix("pip install ") in script


def test_every_shipped_pattern_and_motif_stands_in_the_readme() -> None:
    for pattern in ROOT.glob("patterns/*.yaml"):
        assert f"gallery/{pattern.stem})" in README
    for name in shipped_names():
        assert f"`{name}`" in README


def test_the_calls_of_the_contract_work(tmp_path: Path) -> None:
    piece = knotplot.build(knotplot.loads(GOOD))
    assert piece.figures()["strands"]["count"] == 24
    assert piece.draw("chart").svg().startswith("<svg ")
    piece.sheet().pdf(tmp_path / "sheet.pdf")
    assert (tmp_path / "sheet.pdf").stat().st_size > 1000
    with pytest.raises(knotplot.PatternError) as caught:
        knotplot.loads(GOOD.replace("rows: 4}", "rows: -4}"))
    assert [fault.line for fault in caught.value.faults] == [12]
    with pytest.raises(knotplot.UsageError):
        piece.draw("side")


def test_a_pattern_written_in_python_is_the_one_in_the_file() -> None:
    made = knotplot.Pattern(
        knotplot=1,
        size={"width": "30 cm", "drop": "40 cm"},
        cord={"diameter": "4 mm"},
        strands={"count": 24},
        mount={"kind": "larks_head", "rod": "12 mm"},
        sections=[{"kind": "square_knot_mesh", "rows": 4}],
    )
    text = """\
knotplot: 1
size: {width: 30 cm, drop: 40 cm}
cord: {diameter: 4 mm}
strands: {count: 24}
mount: {kind: larks_head, rod: 12 mm}
sections: [{kind: square_knot_mesh, rows: 4}]
"""
    assert made == knotplot.loads(text)
    assert knotplot.build(made).figures() == knotplot.build(knotplot.loads(text)).figures()
