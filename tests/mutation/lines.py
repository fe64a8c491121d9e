"""What lines each test runs, kept outside the repository between runs, file of tests by file.

Recorded again where the package, what tests share, or the file itself has changed.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mutation.recorder import Recorder
from mutation.session import Recording, dump, quiet, run_pytest

GOLDEN = "tests/mutation/golden.py"
SOLVER = "knotplot/cord_use/solver/"
# Tests that pull ropes tight, for minutes: for mutants of the solver alone.
PULLING = ("tests/cord_use/test_centre_lines.py", "tests/cord_use/test_solver.py")
# Tests of pages and pictures take long and hold little that is computed: for mutants of their own
# parts alone. The gallery's pictures are looked at for all.
LOOKING = ("drawing", "renderers", "sheet")


@dataclass(frozen=True, slots=True)
class Known:
    """The tests that pass without a mutant: their lines by file, their CPU seconds.

    `imported` has the lines that run while modules are imported and tests collected.
    """

    lines: dict[str, dict[str, frozenset[int]]]
    seconds: dict[str, float]
    failing: tuple[str, ...]
    imported: dict[str, frozenset[int]]


def test_files(root: Path, scope: set[str]) -> list[str]:
    """Return the files that hold tests (from the root), doctests and the gallery's among them."""
    pulls = any(file.startswith(SOLVER) for file in scope)
    parts = {file.split("/")[1] for file in scope}
    unseen = tuple(f"tests/{part}/" for part in LOOKING if part not in parts)
    own = {"fuzz", "mutation"}
    found = [at for at in sorted(root.glob("tests/**/test_*.py")) if not own & set(at.parts)]
    doctests = [at for at in sorted(root.glob("knotplot/**/*.py")) if ">>> " in at.read_text()]
    files = [at.relative_to(root).as_posix() for at in (*found, *doctests)] + [GOLDEN]
    return [
        file for file in files
        if (pulls or file not in PULLING) and not file.startswith(unseen)
    ]  # fmt: skip


def known(root: Path, scope: set[str], jobs: int) -> Known:
    """Return the lines of all tests in the files of `scope`, recording what isn't known yet.

    Records `jobs` files of tests at a time.
    """
    folder = Path(tempfile.gettempdir()) / f"knotplot-mutation-{os.getuid()}"
    folder.mkdir(exist_ok=True, parents=True)
    shared = _shared(root, scope)
    files = test_files(root, scope)
    places = {file: folder / f"{_digest(shared, root / file)}.json" for file in files}
    imports = folder / f"{shared}.import.json"
    lacking = [file for file in files if not places[file].is_file()]
    if not imports.is_file():
        lacking = files
    if lacking:
        sys.stderr.write(f"recording the lines of {len(lacking)} files of tests …\n")
        _record(root, scope, lacking, places, imports, jobs)
    found: dict[str, Any] = {}
    for file in files:
        if places[file].is_file():
            found |= json.loads(places[file].read_text("utf-8"))
    good = {name: each for name, each in found.items() if each["passed"]}
    return Known(
        {name: _sets(each["lines"]) for name, each in good.items()},
        {name: each["seconds"] for name, each in good.items()},
        tuple(name for name in found if name not in good),
        _sets(json.loads(imports.read_text("utf-8"))),
    )


def _record(
    root: Path,
    scope: set[str],
    files: list[str],
    places: dict[str, Path],
    imports: Path,
    jobs: int,
) -> None:
    child = os.fork()
    if not child:
        try:
            quiet()
            recorder = Recorder(root, scope)
            recorder.see_through_caches()

            def write(file: str, found: Any) -> None:
                dump(places[file], found)

            plugin = _Collecting(recorder, write, imports, jobs)
            run_pytest(root, files, plugin)
        finally:
            os._exit(0)
    os.waitpid(child, 0)
    if not imports.is_file():
        raise SystemExit("the tests can't be collected; run pytest to see why")
    for file in files:
        if not places[file].is_file():  # it holds no test
            dump(places[file], {})


class _Collecting(Recording):
    """Records the lines of import and collection too, as it must begin before both."""

    def __init__(self, recorder: Recorder, write: Any, imports: Path, jobs: int) -> None:
        super().__init__(recorder, write, jobs)
        self._imports = imports
        self._on = recorder.on()
        self._found = self._on.__enter__()

    def pytest_collection_finish(self) -> None:
        self._on.__exit__(None, None, None)
        if self._imports.is_file():  # not all files are collected this time
            for file, seen in json.loads(self._imports.read_text("utf-8")).items():
                self._found.setdefault(file, set()).update(seen)
        dump(self._imports, {file: sorted(seen) for file, seen in self._found.items()})


def _sets(lines: dict[str, list[int]]) -> dict[str, frozenset[int]]:
    return {file: frozenset(seen) for file, seen in lines.items()}


def _shared(root: Path, scope: set[str]) -> str:
    """Return a digest of what every test may depend on."""
    found = hashlib.sha256(repr((sys.version, sorted(scope))).encode())
    for folder in ("knotplot", "patterns", "tests", "gallery"):
        for place in sorted((root / folder).rglob("*")):
            own = folder == "tests" and place.relative_to(root).parts[1] in ("mutation", "fuzz")
            is_test = folder == "tests" and place.name.startswith("test_")
            if own:
                continue
            if place.suffix in (".py", ".yaml", ".json", ".txt") and not is_test:
                found.update(place.read_bytes())
    return found.hexdigest()[:16]


def _digest(shared: str, place: Path) -> str:
    return hashlib.sha256(f"{shared} {place}".encode() + place.read_bytes()).hexdigest()[:24]
