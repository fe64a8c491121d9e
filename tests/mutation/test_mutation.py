"""The mutator itself: what it changes, that tests notice a change, and that a mark is no blot."""

from __future__ import annotations

import ast
import importlib
import os
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from mutation.mutator import mutants, mutated, sites
from mutation.recorder import Recorder
from mutation.run import MODULES, ROOT, without_equivalents

RUN = Path(__file__).with_name("run.py")


def changes(tmp_path: Path, source: str) -> list[tuple[int, str, str]]:
    """Return line, change and the changed line of each mutant of a source."""
    (tmp_path / "m.py").write_text(source)
    return [
        (m.line, m.change, ast.unparse(mutated(tmp_path, m))) for m in mutants(tmp_path, "m.py")
    ]


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ("a < b", {"Lt->LtE": "a <= b"}),
        ("a in b", {"In->NotIn": "a not in b"}),
        ("a + b", {"Add->Sub": "a - b"}),
        ("a / 2", {"Div->Mult": "a * 2", "2->3": "a / 3"}),
        ("a and b", {"and->or": "a or b"}),
        ("x = not a", {"not x->x": "x = not not a"}),
        ("x = -a", {"-x->x": "x = +a"}),
        ("x = True", {"True->False": "x = False"}),
        ("x = 0.0", {"0.0->0.5": "x = 0.5"}),
        ("x = 2.0", {"2.0->2.5": "x = 2.5"}),
        ("x = min(a)", {"min->max": "x = max(a)"}),
        ("x = math.ceil(a)", {"ceil->floor": "x = math.floor(a)"}),
        ("x = a if b else c", {"swap branches": "x = c if b else a"}),
        ("f(a)", {"call removed": "pass"}),
        ("a += b", {"statement removed": "pass"}),
        ("a.b = c", {"statement removed": "pass"}),
        ("if a:\n    b", {"if c->if not c": "if not a:\n    b"}),
        ("if a == b:\n    c", {"Eq->NotEq": "if a != b:\n    c"}),
        ("raise E(a)", {"raise removed": "pass"}),
        ("for a in b:\n    break", {"break->continue": "for a in b:\n    continue"}),
        ("x: Literal[1] = a", {}),
        ("x = 'a' + b", {}),
        ("assert a < 1", {}),
        ("def f(a: Annotated[int, 5]) -> tuple[int, 3]:\n    pass", {}),
        ("x = f'{a:.1f}'", {}),
    ],
)
def test_a_change_of_each_kind(tmp_path: Path, source: str, found: dict[str, str]) -> None:
    assert {change: text for _, change, text in changes(tmp_path, source)} == found


def test_mutants_are_numbered_in_the_order_of_lines(tmp_path: Path) -> None:
    found = changes(tmp_path, "x = a < b\nif x:\n    y = 1 + z\n")
    assert [(line, change) for line, change, _ in found] == [
        (1, "Lt->LtE"), (2, "if c->if not c"), (3, "Add->Sub"), (3, "1->2"),
    ]  # fmt: skip


def test_every_mutant_of_the_package_can_be_compiled() -> None:
    found = list(sites(ROOT, list(MODULES)))
    assert len(found) > 3000
    for mutant in found[:: len(found) // 100]:
        compile(mutated(ROOT, mutant), mutant.file, "exec")


def test_every_mark_of_an_equivalent_stands_at_a_mutant() -> None:
    found = list(sites(ROOT, list(MODULES)))
    kept, stale = without_equivalents(found)
    assert stale == []
    assert len(kept) <= len(found)


# --- on a small package of its own ---------------------------------------------------------------

PACKAGE = {
    "knotplot/__init__.py": "",
    "knotplot/sums.py": """
        from functools import cache

        LIMIT = 10

        @cache
        def doubled(n):
            return n * 2

        def capped(n):
            if n > LIMIT:
                return LIMIT
            return n + 0

        def unseen(n):
            return n + 1
        """,
    "tests/test_sums.py": """
        from knotplot.sums import capped, doubled

        def test_doubled():
            assert doubled(3) == 6

        def test_doubled_again():
            assert doubled(3) == 6

        def test_capped():
            assert (capped(5), capped(12)) == (5, 10)
        """,
    "tests/mutation/golden.py": "",
}
SUMMARY = """\
knotplot/sums.py:10 Gt->GtE
knotplot/sums.py:12 Add->Sub
knotplot/sums.py:15 Add->Sub (no test runs this)
knotplot/sums.py:15 1->2 (no test runs this)
sums.py         5 of    9 killed,  56 %
all             5 of    9 killed, 55.6 % (0 of them ran too long), 4 survived
"""


def test_known_mutants_are_killed_and_known_equivalents_survive(tmp_path: Path) -> None:
    for name, text in PACKAGE.items():
        place = tmp_path / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(textwrap.dedent(text).lstrip("\n"))
    for part in Path(__file__).parent.glob("*.py"):
        if part.name not in ("golden.py", Path(__file__).name):
            (tmp_path / "tests/mutation" / part.name).write_text(part.read_text())
    (tmp_path / "tests/mutation/equivalent.toml").write_text("")
    words = [sys.executable, "tests/mutation/run.py", "knotplot/sums.py", "--sample", "0"]
    words += ["--least", "60"]
    environment = {**os.environ, "TMPDIR": str(tmp_path / "kept"), "PYTHONPATH": str(tmp_path)}
    (tmp_path / "kept").mkdir()
    done = subprocess.run(
        words, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
    )
    assert done.stdout == SUMMARY, done.stderr
    assert done.returncode == 1


def test_a_cached_value_is_seen_through(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "cachedsums.py").write_text(textwrap.dedent(PACKAGE["knotplot/sums.py"]))
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr("functools.lru_cache", importlib.import_module("functools").lru_cache)
    monkeypatch.setattr("functools.cache", importlib.import_module("functools").cache)
    recorder = Recorder(tmp_path, {"cachedsums.py"})
    recorder.see_through_caches()
    module = importlib.import_module("cachedsums")
    runs = []
    for _ in range(2):
        with recorder.on() as lines:
            assert module.doubled(3) == 6
        runs.append(lines)
    assert runs[0] == runs[1]
    assert 8 in runs[1]["cachedsums.py"]
