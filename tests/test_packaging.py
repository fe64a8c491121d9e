"""What is packed and how it is started: the licence's text, the command, a run from a zip."""

from __future__ import annotations

import importlib
import os
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from cli_sample import FILES, GOOD

ROOT = Path(__file__).resolve().parents[1]
CONFIG = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
PROJECT, SETUPTOOLS = CONFIG["project"], CONFIG["tool"]["setuptools"]


def test_the_licence_is_packed_with_its_text():
    assert PROJECT["license"] == "MIT"
    texts = [(ROOT / name).read_text("utf-8") for name in PROJECT["license-files"]]
    assert texts[0].startswith("MIT License\n\nCopyright (c) ")
    assert "THE SOFTWARE IS PROVIDED" in texts[0]
    assert "SIL OPEN FONT LICENSE" in texts[1].upper()


def test_the_command_is_there_to_start():
    module, _, function = PROJECT["scripts"]["knotplot"].partition(":")
    assert callable(getattr(importlib.import_module(module), function))


def test_every_package_is_packed_and_so_are_the_patterns_from_their_only_place():
    folders = {file.parent.relative_to(ROOT) for file in ROOT.glob("knotplot/**/__init__.py")}
    packages = [str(folder).replace(os.sep, ".") for folder in folders]
    assert SETUPTOOLS["packages"] == sorted([*packages, "knotplot.patterns"])
    assert SETUPTOOLS["package-dir"] == {"knotplot.patterns": "patterns"}
    assert not (ROOT / "knotplot" / "patterns").exists()


def test_every_file_beside_the_modules_is_packed():
    packed = {
        file
        for package, globs in SETUPTOOLS["package-data"].items()
        for glob in globs
        for file in (ROOT / SETUPTOOLS["package-dir"].get(package, package)).glob(glob)
    }
    there = {*ROOT.glob("knotplot/**/*"), *ROOT.glob("patterns/*")}
    others = {file for file in there if file.is_file() and "__pycache__" not in file.parts}
    texts = {ROOT / name for name in PROJECT["license-files"]}
    assert {file for file in others if file.suffix != ".py"} - texts <= packed


@pytest.fixture(scope="module")
def zipped(tmp_path_factory) -> Path:
    place = tmp_path_factory.mktemp("zipped") / "knotplot.zip"
    with zipfile.ZipFile(place, "w") as made:
        for folder, inside in (("knotplot", "knotplot"), ("patterns", "knotplot/patterns")):
            for file in sorted((ROOT / folder).rglob("*")):
                if file.is_file() and "__pycache__" not in file.parts:
                    made.write(file, inside / file.relative_to(ROOT / folder))
    return place


@pytest.mark.parametrize(
    ("command", "written"),
    [
        ("make {} -o out", FILES),
        ("draw {} --view chart -o chart.png", ["chart.png"]),
        ("knots --sheet knots.pdf", ["knots.pdf"]),
        ("new new.yaml", ["new.yaml"]),
        ("new lantern.yaml --from lantern-doorway", ["lantern.yaml"]),
    ],
)
def test_it_runs_from_a_zip_as_from_a_folder(tmp_path, zipped, command, written):
    (tmp_path / "mat.yaml").write_text(GOOD)
    found = []
    for home, place in ((zipped, "zip"), (ROOT, "folder")):
        where = tmp_path / place
        where.mkdir()
        argv = [sys.executable, "-m", "knotplot", *command.format("../mat.yaml").split()]
        environment = {**os.environ, "PYTHONPATH": str(home), "PYTHONDONTWRITEBYTECODE": "1"}
        done = subprocess.run(argv, cwd=where, env=environment, capture_output=True, check=False)
        assert (done.returncode, done.stderr) == (0, b"")
        found.append({file.name: file.read_bytes() for file in where.rglob("*.*")})
    assert sorted(found[0]) == written
    assert found[0] == found[1]
