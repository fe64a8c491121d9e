"""Places that can't be written: exit 1 (2 for the pattern itself), and nothing half written."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from cli_sample import FILES, GOOD, names

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
