"""Change the code in small ways and see whether the tests notice.

    python tests/mutation/run.py [MODULE…] [--sample N] [--seed S] [--seconds T] [--jobs N]

MODULE is a file or folder from the root, as knotplot/tying; without any, those that compute. Prints
each survivor as file:line and change, then how many of each part of the package were killed. What
lines each test runs is recorded once and kept in the folder for temporary files. Exits 1 where
fewer than `--least` per cent are killed.
"""

from __future__ import annotations

import argparse
import contextlib
import importlib
import os
import random
import sys
import time
import tomllib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from mutation.choose import Chooser  # noqa: E402  # found on the path above
from mutation.lines import known, test_files  # noqa: E402
from mutation.mutator import Mutant, sites  # noqa: E402
from mutation.session import (  # noqa: E402
    KILLED,
    SURVIVED,
    TIMED_OUT,
    UNABLE,
    Forks,
    Held,
    Swapping,
    hold_import,
    quiet,
    run_pytest,
)

EQUIVALENT = Path(__file__).with_name("equivalent.toml")
MODULES = (
    "knotplot/tying", "knotplot/geometry", "knotplot/cord_use/__init__.py",
    "knotplot/knots/base.py", "knotplot/knots/sizes.py", "knotplot/knots/solved.py",
    "knotplot/materials", "knotplot/mounts", "knotplot/sections", "knotplot/pattern",
)  # fmt: skip
# Imported before the forks, where they are installed: tests use them.
LIBRARIES = (
    "hypothesis", "lxml.etree", "numba", "numpy", "pydantic", "pypdf", "pypdfium2", "pytest",
    "reportlab.pdfgen.canvas", "scipy.optimize", "spherogram", "svgwrite", "yaml",
)  # fmt: skip


@dataclass
class Score:
    """What became of the mutants, and a line for each as it is known."""

    whole: int
    found: list[tuple[Mutant, str]] = field(default_factory=list)

    def add(self, mutant: Mutant, verdict: str, test: str) -> None:
        self.found.append((mutant, verdict))
        if verdict == SURVIVED:
            why = "" if test else " (no test runs this)"
            print(f"{mutant}{why}", flush=True)
        elif sys.stderr.isatty():
            sys.stderr.write(f"\r{len(self.found)} of {self.whole} ")

    def summary(self) -> float:
        """Print the score by part of the package, and return it for all, in per cent."""
        parts = Counter(_part(mutant) for mutant, _ in self.found)
        survived = Counter(_part(m) for m, verdict in self.found if verdict == SURVIVED)
        late = sum(verdict == TIMED_OUT for _, verdict in self.found)
        for part, count in sorted(parts.items()):
            killed = count - survived[part]
            print(f"{part:<12} {killed:4} of {count:4} killed, {100 * killed / count:3.0f} %")
        total, left = len(self.found), survived.total()
        score = 100 * (total - left) / total if total else 100.0
        print(
            f"all          {total - left:4} of {total:4} killed, {score:.1f} % "
            f"({late} of them ran too long), {left} survived"
        )
        return score


def _part(mutant: Mutant) -> str:
    return mutant.file.split("/")[1]


def without_equivalents(found: list[Mutant]) -> tuple[list[Mutant], list[str]]:
    """Return the mutants that can be noticed, and the markers that mark none any more."""
    marks = {
        (mark["file"], mark["text"], mark["change"]): mark["why"]
        for mark in tomllib.loads(EQUIVALENT.read_text("utf-8")).get("mutant", [])
    }
    keys = {(mutant.file, mutant.text, mutant.change) for mutant in found}
    kept = [m for m in found if (m.file, m.text, m.change) not in marks]
    return kept, [f"{file}: {text}: {change}" for file, text, change in set(marks) - keys]


def hold(mutants: list[Mutant], chooser: Chooser, score: Score, until: float, jobs: int) -> None:
    """Hold each mutant to its tests, until that time, `jobs` at a time."""
    swapped = [m for m in mutants if not chooser.imported(m)]
    served = [m for m in mutants if chooser.imported(m)]
    unable = _swapped(swapped, chooser, score, until, jobs)

    def done(mutant: Mutant, verdict: str, test: str) -> None:
        if verdict == UNABLE:
            raise RuntimeError(f"{mutant}: no tests could be run")
        if verdict != SURVIVED:
            chooser.killed(mutant, test)
        score.add(mutant, verdict, test)

    forks = Forks(jobs, done)
    for mutant in (*unable, *served):
        if time.monotonic() < until:
            hold_import(ROOT, mutant, chooser.tests(mutant), forks)
    forks.end()


def _swapped(
    mutants: list[Mutant], chooser: Chooser, score: Score, until: float, jobs: int
) -> list[Mutant]:
    """Hold mutants of functions to their tests; return those whose code can't be changed live.

    The tests are collected in a process of its own, so that this one never imports the package.
    """
    if not mutants:
        return []
    reads, writes = os.pipe()
    child = os.fork()
    if not child:
        quiet()

        def work() -> Iterator[tuple[Mutant, Held]]:
            for mutant in mutants:
                if time.monotonic() < until:
                    yield mutant, chooser.tests(mutant)

        def done(mutant: Mutant, verdict: str, test: str) -> None:
            if verdict in (KILLED, TIMED_OUT):
                chooser.killed(mutant, test)
            os.write(writes, f"{mutants.index(mutant)}\t{verdict}\t{test}\n".encode())

        try:
            files = test_files(ROOT, chooser.scope)
            run_pytest(ROOT, files, Swapping(ROOT, work(), Forks(jobs, done)))
        finally:
            os._exit(0)
    os.close(writes)
    unable = []
    with os.fdopen(reads, encoding="utf-8") as told:
        for line in told:
            index, verdict, test = line.rstrip("\n").split("\t")
            if verdict == UNABLE:
                unable.append(mutants[int(index)])
            else:
                score.add(mutants[int(index)], verdict, test)
    os.waitpid(child, 0)
    return unable


def main(argv: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("modules", nargs="*", default=MODULES, metavar="MODULE")
    parser.add_argument("--sample", type=int, default=400, help="how many mutants, 0 for all")
    parser.add_argument("--seed", type=int, default=1, help="which ones")
    parser.add_argument("--seconds", type=float, default=1e9, help="begin no mutant after that")
    parser.add_argument("--each", type=float, default=15.0, help="CPU seconds of tests a mutant")
    parser.add_argument("--jobs", type=int, default=2, help="how many at a time")
    parser.add_argument("--least", type=float, default=0.0, help="the score to reach, in per cent")
    asked = parser.parse_args(argv)
    found, stale = without_equivalents(list(sites(ROOT, list(asked.modules))))
    for mark in stale if asked.modules is MODULES else ():
        sys.stderr.write(f"equivalent.toml marks what isn't there: {mark}\n")
    if 0 < asked.sample < len(found):
        found = random.Random(asked.seed).sample(found, asked.sample)
    for library in LIBRARIES:
        with contextlib.suppress(ImportError):
            importlib.import_module(library)
    scope = {m.file for m in sites(ROOT, list({*MODULES, *asked.modules}))}
    runs = known(ROOT, scope, asked.jobs)
    for test in runs.failing:
        sys.stderr.write(f"left out, as it fails without a mutant: {test}\n")
    score = Score(len(found))
    chooser = Chooser(ROOT, scope, runs, asked.each)
    hold(found, chooser, score, time.monotonic() + asked.seconds, asked.jobs)
    if len(score.found) < len(found):
        print(f"{len(found) - len(score.found)} mutants weren't reached in time")
    return 1 if score.summary() < asked.least else 0


if __name__ == "__main__":
    sys.exit(main())
