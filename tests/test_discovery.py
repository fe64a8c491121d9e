from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from knotplot.discovery import Registry, collect, hint, modules
from knotplot.mounts.base import MOUNTS
from knotplot.sections.base import SECTIONS

SECTION = '''
from __future__ import annotations
from typing import Literal
from knotplot.fields import Length
from knotplot.kind import KindWords
from knotplot.sections.base import Section

class Ladder(Section):
    """A section dropped in."""
    kind: Literal["ladder"] = "ladder"
    rung: Length
    words = {"en": KindWords("Ladder", "the ladder", "the ladders", "ladder", "A rung is lost.")}

    def ask(self, motifs):
        return (1, 7)

    def work(self, job):
        raise NotImplementedError
'''

USE = '''
import json, sys
import knotplot.sections
knotplot.sections.__path__.append(sys.argv[1])
from knotplot.pattern.load import loads
from knotplot.pattern.schema import json_schema
from knotplot.pattern.strand_count import strand_count
pattern = loads("""
knotplot: 1
size: {width: 40, drop: 60}
cord: {diameter: 4 mm}
strands: {count: 15}
mount: {kind: open, tail: 1 cm}
sections:
  - {kind: ladder, rung: 3}
  - kind: repeat
    times: 2
    sections: [{kind: ladder, rung: 4}]
""")
assert pattern.sections[1].sections[0].rung == 40
assert loads(json.dumps(pattern.model_dump(mode="json"))) == pattern
assert strand_count(pattern).repeat == 7
assert json_schema()["$defs"]["Ladder"]["required"] == ["kind", "rung"]
print("used")
'''


def test_a_section_dropped_in_is_used(tmp_path: Path) -> None:
    (tmp_path / "ladder.py").write_text(SECTION)
    done = subprocess.run(
        [sys.executable, "-c", USE, str(tmp_path)], capture_output=True, text=True, check=False
    )
    assert (done.stdout, done.stderr) == ("used\n", "")


def test_kinds_are_found_by_their_files() -> None:
    assert list(MOUNTS) == [
        "hitched", "larks_head", "open", "picot", "reverse_larks_head", "ring", "rod_pocket",
    ]  # fmt: skip
    assert {
        "columns", "free", "fringe", "gather", "hitch_line", "motif_band", "repeat", "sennits",
        "square_knot_mesh", "tassel",
    } <= set(SECTIONS)  # fmt: skip


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "found_things"
    folder.mkdir()
    (folder / "__init__.py").write_text("")
    (folder / "base.py").write_text("raise RuntimeError")
    (folder / "_private.py").write_text("raise RuntimeError")
    (folder / "b.py").write_text("THINGS = ('two',)")
    (folder / "a.py").write_text("THINGS = ('one',)")
    monkeypatch.syspath_prepend(str(tmp_path))
    for name in [name for name in sys.modules if name.startswith("found_things")]:
        monkeypatch.delitem(sys.modules, name)
    return folder


@pytest.mark.usefixtures("package")
def test_modules_come_by_name_without_base_and_private() -> None:
    import found_things

    assert [module.__name__ for module in modules(found_things)] == [
        "found_things.a",
        "found_things.b",
    ]


def test_two_files_that_claim_one_name_are_refused_with_both_paths(package: Path) -> None:
    (package / "b.py").write_text("THINGS = ('one',)")
    registry = Registry("found_things", lambda module: ((name, name) for name in module.THINGS))
    with pytest.raises(ValueError, match=r"name 'one': .*a\.py and .*b\.py"):
        registry["one"]


def test_two_places_with_one_file_name_are_refused(package: Path, tmp_path: Path) -> None:
    import found_things

    other = tmp_path / "other"
    other.mkdir()
    (other / "a.py").write_text("THINGS = ('three',)")
    found_things.__path__.append(str(other))
    with pytest.raises(ValueError, match=rf"name 'a': .*{package.name}.*other"):
        modules(found_things)


def test_what_is_found_comes_sorted() -> None:
    assert list(collect([pytest, json], lambda module: [(module.__name__, 1)])) == [
        "json",
        "pytest",
    ]


def test_hints() -> None:
    assert hint("x", []) == "there is none"
    assert hint(3, ["a", "b"]) == "use one of a, b"
    assert hint("zz", [str(i) for i in range(99)]).endswith("19, …")
    assert hint("parabla", ["arc", "parabola"]) == "did you mean 'parabola'?"
