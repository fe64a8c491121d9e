"""A kind is named in its own file only: sources are parsed for its name, and for tests of its type.

What a kind is called in a pattern may be a word of the trade or of the program too; those are left
out where they stand for something else, each with its reason.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import knotplot
from knotplot.kinds import kinds

HOME = Path(knotplot.__file__).parent
#: Words that stand for something else, by file.
OTHER = {
    "drawing/view_words.py": {"repeat"},  # the words beside a repeat of the chart
    "drawing/chart_frame.py": {"repeat"},  # those words
    "instructions/en/glossary.py": {"fringe"},  # a term of the trade
    "sheet/en/making.py": {"repeat"},  # the heading above one repeat of the chart
    "sheet/chart_part.py": {"repeat"},  # that heading's key
    "figures.py": {"repeat"},  # a key of the strands' count
    "motifs/steps.py": {"repeat"},  # a step of motifs
    "pattern/checks.py": {"picot"},  # a key of a knot step
    "drawing/chart.py": {"repeat"},  # a view: one repeat of the chart
    "examples.py": {"repeat"},  # that step
    # Examples for the reference: what stands round a section that ties nothing by itself.
    "pattern/specimens.py": {"fringe", "larks_head", "motif_band", "square_knot_mesh"},
    "techniques/found.py": {"picot"},  # a feature: knots with loops at their sides
    # What a mount by loops is tied with is a knot of the same name.
    "tying/ports.py": {"larks_head"},
    "cord_use/solver/entries.py": {"larks_head", "reverse_larks_head"},
}
#: Where things of the same name stand: knots, and what drawings show.
SUPPORTS = ("rod", "ring", "none")


def own_files() -> set[str]:
    """Return the files of the kinds, and of the knots that some are called after."""
    files = {Path(str(kind.__module__).replace(".", "/") + ".py") for kind in kinds().values()}
    return {file.relative_to("knotplot").as_posix() for file in files}


def sources() -> Iterator[tuple[str, ast.Module]]:
    own = own_files()
    for path in sorted(HOME.rglob("*.py")):
        file = path.relative_to(HOME).as_posix()
        if file not in own and not file.startswith("knots/"):
            yield file, ast.parse(path.read_text("utf-8"))


def named(tree: ast.AST) -> Iterator[str]:
    """Yield the names of kinds that stand as text in a source, docstrings left out."""
    said = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    supports = {
        id(other)
        for node in ast.walk(tree)
        if isinstance(node, ast.Compare) and getattr(node.left, "attr", "") == "support"
        for other in node.comparators
    }
    left_out = said | supports
    for node in ast.walk(tree):
        text = node.value if isinstance(node, ast.Constant) else None
        if isinstance(text, str) and id(node) not in left_out and text in kinds():
            yield text


def type_tests(tree: ast.AST) -> Iterator[str]:
    """Yield the classes of kinds that a source tests for, by `isinstance` or `case`."""
    classes = {kind.__name__ for kind in kinds().values()}
    imported = {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom)
        and str(node.module).startswith(("knotplot.sections.", "knotplot.mounts."))
        for alias in node.names
    }
    for node in ast.walk(tree):
        tested: list[ast.AST] = []
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "isinstance":
            tested = [node.args[1]]
        elif isinstance(node, ast.MatchClass):
            tested = [node.cls]
        for each in tested:
            names = {name.id for name in ast.walk(each) if isinstance(name, ast.Name)}
            yield from names & classes & imported


def test_no_kind_is_named_outside_its_file() -> None:
    found = {
        f"{file}: {name}"
        for file, tree in sources()
        for name in named(tree)
        if name not in OTHER.get(file, ())
    }
    found -= {f"tying/piece.py: {support}" for support in SUPPORTS}
    assert found == set()


def test_no_type_of_a_kind_is_tested_for() -> None:
    found = [(file, name) for file, tree in sources() for name in type_tests(tree)]
    assert found == []


def test_every_exception_is_there() -> None:
    there = {(file, name) for file, tree in sources() for name in named(tree)}
    wanted = {(file, name) for file, names in OTHER.items() for name in names}
    assert wanted - there == set()


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ('if part.kind == "sennits": pass', ["sennits"]),
        ('KINDS = {"hitch_line": 1}', ["hitch_line"]),
        ('def f():\n    "sennits"', []),
        ('if mounting.support == "ring": pass', []),
    ],
)
def test_the_check_can_fail(source: str, found: list[str]) -> None:
    assert list(named(ast.parse(source))) == found


def test_the_check_of_types_can_fail() -> None:
    begin = "from knotplot.sections.sennits import Sennits\n"
    for test in ("isinstance(section, Sennits | str)", "match section:\n  case Sennits(): pass"):
        assert list(type_tests(ast.parse(begin + test))) == ["Sennits"]
    assert list(type_tests(ast.parse("isinstance(step, Sennits)"))) == []
