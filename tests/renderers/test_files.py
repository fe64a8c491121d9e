"""Whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from knotplot.errors import OutputError
from knotplot.renderers.files import write_whole


def names(folder: Path) -> list[str]:
    return sorted(place.name for place in folder.iterdir())


def test_writes_and_replaces(tmp_path):
    place = tmp_path / "sheet.pdf"
    write_whole(place, b"first")
    write_whole(str(place), b"second")
    assert place.read_bytes() == b"second"
    assert names(tmp_path) == ["sheet.pdf"]


def test_permissions_are_those_of_any_new_file(tmp_path):
    (tmp_path / "plain").write_bytes(b"")
    write_whole(tmp_path / "made", b"")
    assert (tmp_path / "made").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_link_is_replaced_and_never_followed(tmp_path):
    outside = tmp_path / "outside"
    outside.write_bytes(b"keep")
    (tmp_path / "out").mkdir()
    link = tmp_path / "out" / "chart.svg"
    link.symlink_to(outside)
    write_whole(link, b"chart")
    assert (outside.read_bytes(), link.read_bytes()) == (b"keep", b"chart")
    assert not link.is_symlink()


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("missing/sheet.pdf", "sheet.pdf: its folder does not exist; make the folder first"),
        ("folder", "folder: a folder stands there; give the name of a file"),
        ("file/sheet.pdf", "what should be its folder is a file"),
        ("x" * 300, "name another place"),
        ("nul\0byte", r"nul\\x00byte: "),
        ("pipe", "a device or a pipe"),
    ],
)
def test_places_that_cannot_be_written_are_named_and_left_alone(tmp_path, name, message):
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_bytes(b"keep")
    os.mkfifo(tmp_path / "pipe")
    before = names(tmp_path)
    with pytest.raises(OutputError, match=message):
        write_whole(tmp_path / name, b"data")
    assert names(tmp_path) == before
    assert (tmp_path / "file").read_bytes() == b"keep"


@pytest.mark.parametrize("step", ["replace", "write"])
def test_a_failure_half_way_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch, step):
    place = tmp_path / "sheet.pdf"
    place.write_bytes(b"old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    if step == "replace":
        monkeypatch.setattr(Path, "replace", full)
    else:
        real = os.open
        monkeypatch.setattr(os, "open", lambda *a, **k: (os.close(real(*a, **k)), full()))
    with pytest.raises(OutputError, match=r"sheet\.pdf: no space left on device"):
        write_whole(place, b"new")
    assert place.read_bytes() == b"old"
    assert names(tmp_path) == ["sheet.pdf"]
