"""Running tests within one process: recording what lines each runs, and holding mutants to them.

A mutant runs in a fork of a process that has everything imported and collected, with the code of
the changed function put in place. Where the change is read while modules are imported, the fork
comes from a process that hasn't imported the package, and a loader serves the changed source.
"""

from __future__ import annotations

import contextlib
import gc
import importlib.abc
import importlib.util
import json
import os
import resource
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from importlib.machinery import ModuleSpec, SourceFileLoader
from itertools import zip_longest
from pathlib import Path
from types import CodeType, FunctionType
from typing import IO, Any

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import Phase, settings

from mutation.mutator import Mutant, mutated
from mutation.recorder import Recorder

EXAMPLES = 15  # of each property: drawn the same on every run
MOST_MEMORY = 6 << 30  # bytes
OPTIONS = ("-q", "-p", "no:xdist", "-p", "no:cacheprovider", "--no-header")
Say = Callable[[str], None]
SURVIVED, KILLED, TIMED_OUT, UNABLE = "survived", "killed", "timed out", "unable"


def run_pytest(root: Path, files: Sequence[str], plugin: object) -> int:
    """Collect the tests of those files (from the root), for a plugin that runs them."""
    os.chdir(root)
    return int(pytest.main([*OPTIONS, f"--rootdir={root}", *files], plugins=[plugin]))


def quiet() -> None:
    """Send what this process prints to nowhere."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)


class Few:
    """Draws few examples of every property, the same each time, and doesn't shrink."""

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        for item in items:
            function = getattr(item, "obj", None)
            function = getattr(function, "__func__", function)
            given = getattr(function, "_hypothesis_internal_use_settings", None)
            if given is not None:
                few = settings(
                    given, max_examples=min(given.max_examples, EXAMPLES), deadline=None,
                    derandomize=True, database=None, phases=(Phase.explicit, Phase.generate),
                )  # fmt: skip
                function._hypothesis_internal_use_settings = few


def passes(item: pytest.Item, after: pytest.Item | None) -> bool:
    """Run one test, and tell whether it passes."""
    return not any(report.failed for report in runtestprotocol(item, nextitem=after, log=False))


# --- which lines each test runs ------------------------------------------------------------------


class Recording(Few):
    """Writes, for each file of tests, what lines each of its tests runs, and how long that takes.

    Each file is recorded in a fork of its own, so that none profits from what another has made.
    """

    def __init__(self, recorder: Recorder, write: Callable[[str, Any], None], jobs: int) -> None:
        self.recorder = recorder
        self.write = write
        self.jobs = jobs

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        files: dict[str, list[pytest.Item]] = {}
        for item in session.items:
            files.setdefault(item.nodeid.partition("::")[0], []).append(item)
        forks = Forks(self.jobs, lambda *_: None)
        for file, items in files.items():

            def record(_: object, file: str = file, items: list[pytest.Item] = items) -> str:
                self.write(file, self._recorded(items))
                return SURVIVED

            forks.start(record, file)
        forks.end()
        return True

    def _recorded(self, items: list[pytest.Item]) -> dict[str, Any]:
        found = {}
        for item, after in zip_longest(items, items[1:]):
            begin = time.process_time()
            with self.recorder.on() as lines:
                passed = passes(item, after)
            found[item.nodeid] = {
                "passed": passed,
                "seconds": round(time.process_time() - begin, 3),
                "lines": {file: sorted(seen) for file, seen in sorted(lines.items())},
            }
        return found


# --- holding a mutant to its tests ---------------------------------------------------------------


class Held:
    """Tests to run in this order, each with the most CPU seconds it may take."""

    def __init__(self, limits: dict[str, float]) -> None:
        self.limits = limits

    def first_failure(self, items: dict[str, pytest.Item], say: Say) -> bool:
        """Run the tests till one fails, and tell whether one does; `say` is told each before."""
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
        chosen = [items[name] for name in self.limits if name in items]
        for item, after in zip_longest(chosen, chosen[1:]):
            say(item.nodeid)
            limit = self.limits[item.nodeid]
            signal.setitimer(signal.ITIMER_PROF, limit)
            signal.alarm(int(10 * limit))  # for what waits without working
            if not passes(item, after):
                return True
        return False


class Forks:
    """Runs things in forks, some at a time; `done` is told what came of each, and its last word.

    What is run is given a function that says words, and returns a verdict. A fork that is killed on
    the way ran out of time.
    """

    def __init__(self, jobs: int, done: Callable[[Any, str, str], None]) -> None:
        self.jobs, self.done = jobs, done
        self._running: dict[int, tuple[Any, IO[bytes]]] = {}

    def start(self, run: Callable[[Say], str], what: Any) -> None:
        """Run that in a fork as soon as there is room; `what` stands for it when it is done."""
        while len(self._running) >= self.jobs:
            self._reap()
        told = tempfile.TemporaryFile()  # noqa: SIM115  # closed once the fork has ended
        child = os.fork()
        if not child:
            verdict = UNABLE
            try:
                quiet()
                signal.signal(signal.SIGPROF, signal.SIG_DFL)
                signal.signal(signal.SIGALRM, signal.SIG_DFL)
                verdict = run(lambda word: _write(told, word))
            finally:
                _write(told, f"={verdict}")
                os._exit(0)
        self._running[child] = what, told

    def end(self) -> None:
        """Wait for all that still runs."""
        while self._running:
            self._reap()

    def _reap(self) -> None:
        child, _ = os.waitpid(-1, 0)
        if child in self._running:
            what, told = self._running.pop(child)
            with told:
                told.seek(0)
                said = told.read().decode().splitlines()
            verdict = said.pop()[1:] if said and said[-1].startswith("=") else TIMED_OUT
            self.done(what, verdict, said[-1] if said else "")


def _write(file: IO[bytes], word: str) -> None:
    os.write(file.fileno(), f"{word}\n".encode())


class Swapping(Few):
    """Holds mutants of functions to their tests, each in a fork with the function's code changed.

    `work` yields (mutant, its tests).
    """

    def __init__(
        self,
        root: Path,
        work: Iterator[tuple[Mutant, Held]],
        forks: Forks,
    ) -> None:
        self.root, self.work, self.forks = root, work, forks

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        gc.collect()
        functions: dict[str, list[FunctionType]] = {}
        for thing in gc.get_objects():
            if isinstance(thing, FunctionType):
                functions.setdefault(thing.__code__.co_filename, []).append(thing)
        gc.freeze()  # forks share the memory of what isn't looked at
        for mutant, tests in self.work:

            def run(say: Say, mutant: Mutant = mutant, tests: Held = tests) -> str:
                if not swap(self.root, mutant, functions):
                    return UNABLE
                return KILLED if tests.first_failure(items, say) else SURVIVED

            self.forks.start(run, mutant)
        self.forks.end()
        return True


def swap(root: Path, mutant: Mutant, functions: dict[str, list[FunctionType]]) -> bool:
    """Put the mutant's code into the live functions of its file; tell whether that was possible."""
    place = str(root / mutant.file)
    source = Path(place).read_text("utf-8")
    old = list(codes(compile(source, place, "exec", dont_inherit=True)))
    new = list(codes(compile(mutated(root, mutant), place, "exec", dont_inherit=True)))
    if [code.co_qualname for code in old] != [code.co_qualname for code in new]:
        return False
    found = False
    for before, after in zip(old[1:], new[1:], strict=True):  # the first is the module's own
        if before == after:
            continue
        for function in functions.get(place, ()):
            if function.__code__ == before:
                try:
                    function.__code__ = after
                except ValueError:  # other variables from around it
                    return False
                found = True
    return found


def codes(code: CodeType) -> Iterator[CodeType]:
    """Yield a code and all codes within it."""
    yield code
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield from codes(part)


# --- where the change is read during import ------------------------------------------------------


class Importing(Few):
    """Holds the mutant that is served to its tests, and tells what became of it."""

    def __init__(self, tests: Held, say: Say) -> None:
        self.tests, self.say = tests, say
        self.verdict = KILLED  # unless the tests are collected and pass

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        if not session.testsfailed:
            items = {item.nodeid: item for item in session.items}
            failed = self.tests.first_failure(items, self.say)
            self.verdict = KILLED if failed else SURVIVED
        return True


def hold_import(root: Path, mutant: Mutant, tests: Held, forks: Forks) -> None:
    """Hold a mutant that is read during import to its tests, in a fork of this process."""

    def run(say: Say) -> str:
        signal.setitimer(signal.ITIMER_PROF, 120.0)
        sys.meta_path.insert(0, Served(root, mutant))
        plugin = Importing(tests, say)
        run_pytest(root, list(dict.fromkeys(n.partition("::")[0] for n in tests.limits)), plugin)
        return plugin.verdict

    forks.start(run, mutant)


class Served(importlib.abc.MetaPathFinder):
    """Finds one module of the package with its changed source."""

    def __init__(self, root: Path, mutant: Mutant) -> None:
        self.root, self.mutant = root, mutant
        parts = mutant.file.removesuffix(".py").split("/")
        self.package = parts[-1] == "__init__"
        self.name = ".".join(parts[:-1] if self.package else parts)

    def find_spec(self, name: str, path: Any = None, target: Any = None) -> ModuleSpec | None:
        if name != self.name:
            return None
        place = str(self.root / self.mutant.file)
        code = compile(mutated(self.root, self.mutant), place, "exec", dont_inherit=True)
        return importlib.util.spec_from_file_location(
            name, place, loader=_Loader(name, place, code)
        )


class _Loader(SourceFileLoader):
    def __init__(self, name: str, place: str, code: CodeType) -> None:
        super().__init__(name, place)
        self._code = code

    def get_code(self, fullname: str) -> CodeType:
        return self._code


def dump(place: Path, found: Any) -> None:
    """Write JSON so that nobody ever reads half of it."""
    part = place.with_suffix(f".{os.getpid()}")
    part.write_text(json.dumps(found), "utf-8")
    with contextlib.suppress(OSError):
        part.replace(place)
