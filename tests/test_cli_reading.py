"""How files are read: once, from a pipe too, and never more of them than a pattern may have."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from cli_sample import GOOD, changed, names

from knotplot.pattern.source import MOST_BYTES

ROOM = 1 << 30  # bytes of address space; the libraries take some 150 MB of it


def small() -> None:
    """Let the process that comes have little room, so that no test fills the machine's."""
    resource.setrlimit(resource.RLIMIT_AS, (ROOM, ROOM))


@pytest.mark.parametrize("kind", ["endless", "gigantic"])
def test_no_more_is_read_than_a_pattern_may_have(tmp_path, kind):
    file = Path("/dev/zero")
    if kind == "gigantic":
        file = tmp_path / "sparse.yaml"
        with file.open("wb") as made:
            made.truncate(20 << 30)
    command = [sys.executable, "-m", "knotplot", "check", str(file)]
    done = subprocess.run(command, preexec_fn=small, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == f"{file}: larger than 8 MB; that is no pattern; leave out what isn't\n"


def test_a_file_as_large_as_one_may_be_is_read(run, tmp_path):
    file = tmp_path / "large.yaml"
    file.write_text(GOOD + "#" * (MOST_BYTES - len(GOOD)))
    assert file.stat().st_size == MOST_BYTES
    assert run("check", str(file))[0] == 0
    file.write_text(GOOD + "#" * (MOST_BYTES + 1 - len(GOOD)))
    assert "larger than 8 MB" in run("check", str(file))[2][0]


def test_a_pipe_is_checked_in_every_size(run, tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    text = changed("  tall: {", "  short: {sections: {net: {rows: 2}}}\n  tall: {")
    writer = threading.Thread(target=pipe.write_text, args=(text,))
    writer.start()
    code, printed, errors = run("check", str(pipe))
    writer.join()
    assert (code, errors) == (0, [])
    assert "\nsize short: good; " in printed
    assert "\nsize tall: good; " in printed


def test_a_file_is_read_once_whatever_is_checked(run, pattern, monkeypatch):
    opened = []
    real = Path.open
    monkeypatch.setattr(Path, "open", lambda p, *a, **k: (opened.append(p), real(p, *a, **k))[1])
    assert run("check", pattern)[0] == 0
    assert opened.count(Path(pattern)) == 1


@pytest.mark.parametrize("bad", ["-o", "--sheet"])
@pytest.mark.parametrize("there", [True, False])
def test_the_list_and_the_sheet_of_knots_are_written_together(run, pattern, tmp_path, bad, there):
    good = {"-o": "--sheet", "--sheet": "-o"}[bad]
    place = {"-o": "list.svg", "--sheet": "sheet.pdf"}
    if there:
        (tmp_path / place[good]).write_text("old")
    before = names(tmp_path)
    missing = f"{tmp_path}/none/{place[bad]}"
    code, printed, errors = run(
        "knots", pattern, good, f"{tmp_path}/{place[good]}", bad, missing
    )  # fmt: skip
    assert (code, printed) == (1, "")
    assert errors == [
        f"{missing}: its folder does not exist; make the folder first, or name another"
    ]
    assert names(tmp_path) == before
    if there:
        assert (tmp_path / place[good]).read_text() == "old"
