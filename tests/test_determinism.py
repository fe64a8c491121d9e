"""The same input gives the same bytes: on any run, hash seed, time zone, second and folder."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from cli_sample import GOOD

PATTERNS = sorted((Path(__file__).resolve().parents[1] / "patterns").glob("*.yaml"))


def made(pattern: Path, folder: Path, **environment: str) -> dict[str, bytes]:
    """Make a pattern in a process of its own and return what it wrote."""
    folder.mkdir()
    done = subprocess.run(
        [sys.executable, "-m", "knotplot", "make", str(pattern), "-o", "out"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), **environment},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode()
    return {place.name: place.read_bytes() for place in sorted((folder / "out").iterdir())}


@pytest.mark.parametrize("pattern", ["sample", *PATTERNS], ids=str)
def test_two_runs_write_the_same_bytes(tmp_path: Path, pattern: str | Path) -> None:
    if isinstance(pattern, str):
        pattern = tmp_path / "sample.yaml"
        pattern.write_text(GOOD)
    one = made(pattern, tmp_path / "one", PYTHONHASHSEED="1", TZ="Pacific/Kiritimati", LC_ALL="C")
    other = made(pattern, tmp_path / "other", PYTHONHASHSEED="77", TZ="America/St_Johns")
    assert list(one) == ["chart.svg", "cord.svg", "figures.json", "sheet.pdf"]
    assert [name for name in one if one[name] != other[name]] == []


def test_nothing_written_knows_where_or_when_it_was_made(tmp_path: Path) -> None:
    pattern = tmp_path / "sample.yaml"
    pattern.write_text(GOOD)
    for name, data in made(pattern, tmp_path / "one").items():
        assert str(tmp_path).encode() not in data, name
