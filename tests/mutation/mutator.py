"""One small change in the source of a module: where one can be made, and the changed source.

A mutant is a wrong program that the tests should notice. Its number counts the places of its file
in the order of the source, so that it is the same on every run and machine.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

_COMPARE = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_ARITHMETIC = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Add, ast.Pow: ast.Mult,
}  # fmt: skip
_CALLED = {
    "min": "max", "max": "min", "sum": "max", "any": "all", "all": "any",
    "ceil": "floor", "floor": "ceil",
}  # fmt: skip

Change = Callable[[], None]


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change: file (from the root), number in it, line, what is changed, and that line's text.

    `last` is the last line of what is changed, which may run over several.
    """

    file: str
    number: int
    line: int
    last: int
    change: str
    text: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line} {self.change}"


@dataclass(frozen=True, slots=True)
class _Place:
    line: int
    last: int
    change: str
    make: Change


def mutants(root: Path, file: str) -> list[Mutant]:
    """Return every mutant of a file, in the order of its source."""
    source = (root / file).read_text("utf-8")
    lines = source.splitlines()
    return [
        Mutant(file, number, place.line, place.last, place.change, lines[place.line - 1].strip())
        for number, place in enumerate(_places(ast.parse(source)))
    ]


def mutated(root: Path, mutant: Mutant) -> ast.Module:
    """Return the syntax tree of the mutant's file with its change made."""
    tree = ast.parse((root / mutant.file).read_text("utf-8"))
    _places(tree)[mutant.number].make()
    return ast.fix_missing_locations(tree)


def _places(tree: ast.Module) -> list[_Place]:
    finder = _Finder()
    finder.visit(tree)
    return sorted(finder.found, key=lambda place: place.line)


def _named(old: object, new: object) -> str:
    return f"{getattr(old, '__name__', old)}->{getattr(new, '__name__', new)}"


class _Finder(ast.NodeVisitor):
    """Collects the places. What only types read, and messages of `assert`, are passed over."""

    def __init__(self) -> None:
        self.found: list[_Place] = []

    def _add(self, node: ast.AST, change: str, make: Change) -> None:
        line = getattr(node, "lineno", 1)
        self.found.append(_Place(line, getattr(node, "end_lineno", None) or line, change, make))

    def _set(self, node: ast.AST, field: str, value: object, change: str) -> None:
        self._add(node, change, lambda: setattr(node, field, value))

    # --- what is passed over ---------------------------------------------------------------------

    def visit_Assert(self, node: ast.Assert) -> None:
        """An `assert` is a check itself."""

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value is not None:
            self.visit(node.value)

    def visit_arg(self, node: ast.arg) -> None:
        """Its annotation is for types alone."""

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        self.visit(node.args)
        self._body(node.body)

    def visit_ClassDef(self, node: ast.ClassDef) -> None:
        self._body(node.body)

    def visit_Subscript(self, node: ast.Subscript) -> None:
        name = node.value
        if isinstance(name, ast.Name) and name.id in ("Literal", "Annotated", "ClassVar", "tuple"):
            return
        self.generic_visit(node)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        for part in node.values:
            if isinstance(part, ast.FormattedValue):
                self.visit(part.value)

    # --- expressions -----------------------------------------------------------------------------

    def visit_Compare(self, node: ast.Compare) -> None:
        for i, op in enumerate(node.ops):
            new = _COMPARE[type(op)]
            self._add(node, _named(type(op), new), lambda i=i, new=new: _put(node.ops, i, new()))
        self.generic_visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        new = _ARITHMETIC.get(type(node.op))
        if new is not None and not (_is_text(node.left) or _is_text(node.right)):
            self._set(node, "op", new(), _named(type(node.op), new))
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        new = ast.Or if isinstance(node.op, ast.And) else ast.And
        self._set(node, "op", new(), "and->or" if new is ast.Or else "or->and")
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        if isinstance(node.op, ast.Not):
            # `not not x`: what was inside, as a truth
            again = ast.UnaryOp(ast.Not(), node.operand)
            self._set(node, "operand", again, "not x->x")
        elif isinstance(node.op, ast.USub):
            self._set(node, "op", ast.UAdd(), "-x->x")
        self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        value = node.value
        if isinstance(value, bool):
            new: object = not value
        elif isinstance(value, int):
            new = value + 1
        elif isinstance(value, float):
            new = value * 1.25 if value else 0.5
        else:
            return
        self._set(node, "value", new, f"{value!r}->{new!r}")

    def visit_IfExp(self, node: ast.IfExp) -> None:
        def swap() -> None:
            node.body, node.orelse = node.orelse, node.body

        self._add(node, "swap branches", swap)
        self.generic_visit(node)

    def visit_Call(self, node: ast.Call) -> None:
        called = node.func
        if isinstance(called, ast.Name) and called.id in _CALLED:
            self._set(called, "id", _CALLED[called.id], _named(called.id, _CALLED[called.id]))
        elif isinstance(called, ast.Attribute) and called.attr in ("ceil", "floor"):
            new = _CALLED[called.attr]
            self._set(called, "attr", new, _named(called.attr, new))
        self.generic_visit(node)

    # --- statements ------------------------------------------------------------------------------

    def visit_If(self, node: ast.If) -> None:
        if isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            return
        if not _turned(node.test):
            negated = ast.copy_location(ast.UnaryOp(ast.Not(), node.test), node.test)
            self._add(node.test, "if c->if not c", lambda: setattr(node, "test", negated))
        self.visit(node.test)
        self._body(node.body)
        self._body(node.orelse)

    def generic_visit(self, node: ast.AST) -> None:
        """Visit the parts; statements in lists may be left out besides."""
        for _, value in ast.iter_fields(node):
            if isinstance(value, ast.AST):
                self.visit(value)
            elif isinstance(value, list):
                if value and isinstance(value[0], ast.stmt):
                    self._body(value)
                else:
                    for part in value:
                        if isinstance(part, ast.AST):
                            self.visit(part)

    def _body(self, body: list[ast.stmt]) -> None:
        for i, statement in enumerate(body):
            new = _instead(statement)
            if new is not None:
                change, other = new
                self._add(
                    statement, change, lambda i=i, s=statement, o=other: _put(body, i, _at(o, s))
                )
            self.visit(statement)


def _turned(test: ast.expr) -> bool:
    """Tell whether another change turns this condition round already."""
    if isinstance(test, ast.Compare) and len(test.ops) == 1:
        return not isinstance(test.ops[0], ast.Lt | ast.LtE | ast.Gt | ast.GtE)
    return isinstance(test, ast.UnaryOp) and isinstance(test.op, ast.Not)


def _instead(statement: ast.stmt) -> tuple[str, ast.stmt] | None:
    """Return what may stand instead of a statement, and what to call the change."""
    match statement:
        case ast.Expr(value=ast.Call()):
            return "call removed", ast.Pass()
        case ast.AugAssign():
            return "statement removed", ast.Pass()
        case ast.Assign(targets=[ast.Attribute() | ast.Subscript()]):
            return "statement removed", ast.Pass()
        case ast.Raise(exc=exc) if exc is not None:
            return "raise removed", ast.Pass()
        case ast.Break():
            return "break->continue", ast.Continue()
        case ast.Continue():
            return "continue->break", ast.Break()
    return None


def _at(new: ast.stmt, old: ast.stmt) -> ast.stmt:
    return ast.copy_location(new, old)


def _put(items: list, index: int, value: ast.AST) -> None:
    items[index] = value


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


def sites(root: Path, modules: list[str]) -> Iterator[Mutant]:
    """Yield the mutants of all files under those paths (from the root), file by file."""
    for module in modules:
        place = root / module
        files = [place] if place.is_file() else sorted(place.rglob("*.py"))
        for file in files:
            yield from mutants(root, file.relative_to(root).as_posix())
