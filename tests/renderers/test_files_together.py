"""Runs side by side, killed runs, permissions, and files that belong together."""

from __future__ import annotations

import importlib.util
import os
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

from knotplot.errors import OutputError
from knotplot.renderers import files
from knotplot.renderers.files import write_folder, write_together, write_whole


def names(folder: Path) -> list[str]:
    return sorted(place.name for place in folder.iterdir())


def another() -> ModuleType:
    """Return the module as another process has it: loaded for itself, nothing counted yet."""
    spec = importlib.util.spec_from_file_location("another", files.__file__)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("at", [1, 2, 3])
def test_two_containers_with_one_process_number_share_a_folder(tmp_path, monkeypatch, at):
    monkeypatch.setattr(os, "getpid", lambda: 1)  # the first process of each container
    one, two = another(), another()
    real, count = Path.replace, iter(range(1, 100))

    def replace(self: Path, target: Path) -> Path:
        if next(count) == at:  # the other one runs, whole, in the middle of this one
            two.write_folder(tmp_path, {"c": b"two's c", "d": b"two's d"})
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    one.write_folder(tmp_path, {"a": b"one's a", "b": b"one's b", "e": b"one's e"})
    found = {name: (tmp_path / name).read_text() for name in names(tmp_path)}
    assert found == {
        "a": "one's a", "b": "one's b", "c": "two's c", "d": "two's d", "e": "one's e"
    }  # fmt: skip


def test_a_name_that_is_taken_is_left_to_whoever_has_it(tmp_path, monkeypatch):
    names_drawn = iter([b"\0" * 8, b"\0" * 8, b"\1" * 8])
    monkeypatch.setattr(os, "urandom", lambda _: next(names_drawn))
    folder = tmp_path / f".knotplot-{'00' * 8}"
    folder.mkdir()
    (folder / "notes.txt").write_text("somebody's")
    write_whole(tmp_path / "sheet.pdf", b"sheet")
    assert (folder / "notes.txt").read_text() == "somebody's"
    assert (tmp_path / "sheet.pdf").read_bytes() == b"sheet"
    assert names(tmp_path) == [folder.name, "sheet.pdf"]


KILLED = """
import os, sys
from pathlib import Path
from knotplot.renderers.files import write_folder
real = Path.replace
def replace(self, target):
    if target.name == "b":
        print("here", flush=True)
        sys.stdin.readline()
        os._exit(9)
    return real(self, target)
Path.replace = replace
write_folder(sys.argv[1], {"a": b"new a", "b": b"new b", "c": b"new c"})
"""


def test_what_a_killed_run_left_is_removed_and_what_a_living_one_has_is_not(tmp_path):
    for name in "abc":
        (tmp_path / name).write_text(f"old {name}")
    command = [sys.executable, "-c", KILLED, str(tmp_path)]
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
    with subprocess.Popen(command, **pipes) as running:
        assert running.stdout.readline() == b"here\n"
        (work,) = (place for place in tmp_path.iterdir() if place.is_dir())
        held = names(work)
        write_whole(tmp_path / "d", b"d")
        assert names(work) == held  # it lives
        running.communicate(b"\n")
    assert running.returncode == 9
    assert [(tmp_path / name).read_text() for name in "abc"] == ["new a", "old b", "old c"]
    write_whole(tmp_path / "d", b"d")
    assert names(tmp_path) == ["a", "b", "c", "d"]


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o444])
def test_a_new_file_has_the_permissions_of_the_old_one(tmp_path, mode):
    place = tmp_path / "sheet.pdf"
    place.write_bytes(b"old")
    place.chmod(mode)
    write_whole(place, b"new")
    assert (place.read_bytes(), place.stat().st_mode & 0o777) == (b"new", mode)


def test_a_link_gives_no_permissions(tmp_path):
    (tmp_path / "outside").write_bytes(b"keep")
    (tmp_path / "outside").chmod(0o777)
    (tmp_path / "link").symlink_to("outside")
    (tmp_path / "plain").write_bytes(b"")
    write_whole(tmp_path / "link", b"new")
    assert (tmp_path / "link").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_the_disk_has_all_files_before_the_first_gets_its_name(tmp_path, monkeypatch):
    done = []
    fsync, replace = os.fsync, Path.replace
    monkeypatch.setattr(os, "fsync", lambda file: (done.append("fsync"), fsync(file))[1])
    monkeypatch.setattr(Path, "replace", lambda a, b: (done.append("name"), replace(a, b))[1])
    write_folder(tmp_path, {"a": b"a", "b": b"b"})
    assert done == ["fsync", "fsync", "name", "name", "fsync"]


@pytest.mark.parametrize("old", [True, False])
def test_files_of_several_folders_are_written_whole_or_not_at_all(tmp_path, old):
    (tmp_path / "one").mkdir()
    if old:
        (tmp_path / "one" / "list.svg").write_bytes(b"old")
    before = names(tmp_path / "one")
    places = {tmp_path / "one" / "list.svg": b"list", tmp_path / "two" / "sheet.pdf": b"sheet"}
    with pytest.raises(OutputError, match=r"two/sheet\.pdf: its folder does not exist"):
        write_together(places)
    assert names(tmp_path / "one") == before
    if old:
        assert (tmp_path / "one" / "list.svg").read_bytes() == b"old"
    (tmp_path / "two").mkdir()
    write_together(places)
    assert [place.read_bytes() for place in places] == [b"list", b"sheet"]


@pytest.mark.parametrize("fails_at", [2, 3])
@pytest.mark.parametrize("what", ["file", "link", "nothing"])
def test_without_second_names_on_the_disk_a_failure_leaves_the_old_files(
    tmp_path, monkeypatch, fails_at, what
):
    def no_links(*_: object, **__: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    if what == "file":
        (tmp_path / "a").write_bytes(b"old")
        (tmp_path / "a").chmod(0o640)
    elif what == "link":
        (tmp_path / "a").symlink_to("elsewhere")
    before = [(n, (tmp_path / n).lstat().st_mode) for n in names(tmp_path)]
    real, count, lost = Path.replace, iter(range(1, 100)), []

    def replace(self: Path, target: Path) -> Path:
        lost.append(what != "nothing" and not os.path.lexists(tmp_path / "a"))
        if next(count) == fails_at:
            raise OSError(28, "No space left on device")
        return real(self, target)

    monkeypatch.setattr(os, "link", no_links)
    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(OutputError, match="no space left"):
        write_folder(tmp_path, {"a": b"a", "b": b"b", "c": b"c"})
    assert [(n, (tmp_path / n).lstat().st_mode) for n in names(tmp_path)] == before
    assert not any(lost)
    if what == "file":
        assert (tmp_path / "a").read_bytes() == b"old"
