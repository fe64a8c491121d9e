"""Which tests a mutant is held to: those that run its lines, quickest first.

A line that is read while modules are imported (a constant, a default) is run by no test. Where it
gives names, the lines that use those names count; else the lines of all its file.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from mutation.lines import Known
from mutation.mutator import Mutant
from mutation.session import Held

SLOWEST = 5.0  # CPU seconds any test may take with a mutant, and as often as without, below
TIMES = 8.0


@dataclass
class Chooser:
    """Chooses tests for mutants; `seconds` of CPU is what all tests of one may take together."""

    root: Path
    scope: set[str]
    known: Known
    seconds: float
    killers: dict[str, list[str]] = field(default_factory=dict)  # by file, the last one first
    _uses: dict[str, dict[str, set[int]]] | None = None

    def imported(self, mutant: Mutant) -> bool:
        """Tell whether what is changed is read while modules are imported or tests collected."""
        lines = self.known.imported.get(mutant.file, frozenset())
        return any(line in lines for line in range(mutant.line, mutant.last + 1))

    def tests(self, mutant: Mutant) -> Held:
        """Return the tests to hold a mutant to, in order."""
        found = self._running({mutant.file: set(range(mutant.line, mutant.last + 1))})
        if self.imported(mutant):
            names = _given(self.root, mutant)
            found |= self._running(self._users(names)) if names else set()
            if not found:
                found = self._running({mutant.file: None})
        return self._in_order(mutant, found)

    def killed(self, mutant: Mutant, test: str) -> None:
        """Note that a test noticed a mutant: others of its file are held to it first."""
        first = self.killers.setdefault(mutant.file, [])
        if test in first:
            first.remove(test)
        first.insert(0, test)
        del first[3:]

    def _running(self, lines: dict[str, set[int] | None]) -> set[str]:
        """Return the tests that run any of those lines by file (None: of all its lines)."""
        found = set()
        for name, runs in self.known.lines.items():
            for file, wanted in lines.items():
                seen = runs.get(file)
                if seen and (wanted is None or not wanted.isdisjoint(seen)):
                    found.add(name)
                    break
        return found

    def _in_order(self, mutant: Mutant, found: set[str]) -> Held:
        """Return tests quickest first, those for the mutant's own part of the package before."""
        part = "/".join(mutant.file.split("/")[1:2])
        seconds = self.known.seconds

        def rank(name: str) -> tuple[bool, bool, float]:
            killer = name in self.killers.get(mutant.file, ())
            return (not killer, not name.startswith(f"tests/{part}/"), seconds[name])

        limits, left = {}, self.seconds
        for name in sorted(found, key=rank):
            left -= seconds[name]
            if left < 0.0 and limits:
                continue  # a quicker one may still fit
            limits[name] = SLOWEST + TIMES * seconds[name]
        return Held(limits)

    def _users(self, names: set[str]) -> dict[str, set[int] | None]:
        """Return the lines of functions that use a name, or one that is made from it on import."""
        if self._uses is None:
            self._uses = {file: _uses(self.root / file) for file in sorted(self.scope)}
        names, grown = set(names), 0
        found: dict[str, set[int] | None] = {}
        while grown != len(names):
            grown = len(names)
            for file, uses in self._uses.items():
                lines = {line for name in names for line in uses.get(name, ())}
                if lines:
                    found[file] = lines
                    names |= _made_from(self.root / file, lines)
        return found


def _given(root: Path, mutant: Mutant) -> set[str]:
    """Return the names that the statement of the module around a mutant gives."""
    tree = ast.parse((root / mutant.file).read_text("utf-8"))
    for statement in tree.body:
        if statement.lineno <= mutant.line <= (statement.end_lineno or 0):
            return set(_targets(statement))
    return set()


def _targets(statement: ast.stmt) -> Iterator[str]:
    targets: Iterable[ast.expr] = ()
    if isinstance(statement, ast.Assign):
        targets = statement.targets
    elif isinstance(statement, ast.AnnAssign):
        targets = (statement.target,)
    for target in targets:
        yield from (node.id for node in ast.walk(target) if isinstance(node, ast.Name))


def _uses(place: Path) -> dict[str, set[int]]:
    """Return the lines on which each name is read, or is an attribute."""
    found: dict[str, set[int]] = {}
    for node in ast.walk(ast.parse(place.read_text("utf-8"))):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
            found.setdefault(node.id, set()).add(node.lineno)
        elif isinstance(node, ast.Attribute):
            found.setdefault(node.attr, set()).add(node.lineno)
    return found


def _made_from(place: Path, lines: set[int]) -> set[str]:
    """Return the names that the module gives on those lines."""
    return {
        name
        for statement in ast.parse(place.read_text("utf-8")).body
        if any(statement.lineno <= line <= (statement.end_lineno or 0) for line in lines)
        for name in _targets(statement)
    }
