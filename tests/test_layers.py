"""The house: who may import whom. Imports are parsed, the lazy ones within functions too."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import knotplot

HOME = Path(knotplot.__file__).parent

# From the ground up: a part may import what stands before its line, and itself. Parts on one line
# stand side by side and import nothing from each other.
LAYERS = """
    errors notebook
    notice brief
    interrupts
    units
    tape
    quantities
    discovery examples
    descriptions
    wording
    stock
    fields
    curves
    knots
    cord_use
    tying
    geometry
    motifs
    kind
    sections
    mounts
    kinds
    pattern
    models
    techniques
    materials instructions
    notices
    drawing
    figure_types
    figures
    sheet
    views
    renderers
    output
    api
    console arguments
    cli
    __main__
"""
LEVEL = {
    part: level for level, line in enumerate(LAYERS.split("\n")) for part in line.split() if part
}

# Heavy libraries, and the only files that may load them.
HEAVY = {
    "svgwrite": ["renderers/svg.py"],
    "lxml": ["renderers/svg.py"],
    "reportlab": ["renderers/pdf.py", "renderers/pdf_content.py"],
    "resvg_py": ["renderers/png.py"],
}


def files() -> list[Path]:
    return sorted(HOME.rglob("*.py"))


def imports(source: str) -> Iterator[str]:
    """Yield the full name of every module that a source imports, and of what it takes from it."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "relative imports hide where a part stands"
            yield from (f"{node.module}.{name.name}" for name in node.names)


def part_of(file: Path) -> str:
    """Return the part of the house a file belongs to."""
    return file.relative_to(HOME).parts[0].removesuffix(".py")


def fault(part: str, module: str) -> str | None:
    """Say what is wrong with a part's import of a module, None if nothing is."""
    names = module.split(".")
    if names[0] != "knotplot" or len(names) == 1 or names[1] in (part, "__version__"):
        return None
    other = names[1]
    if other not in LEVEL:
        return f"{part} imports {module}, which has no place in LAYERS"
    return None if LEVEL[other] < LEVEL[part] else f"{part} may not import {module}"


@pytest.mark.parametrize("file", files(), ids=lambda file: str(file.relative_to(HOME)))
def test_no_part_imports_what_stands_above_or_beside_it(file: Path) -> None:
    part = part_of(file)
    if part == "__init__":
        return  # the front door: it names what is found within, and loads it when asked
    assert part in LEVEL
    found = (fault(part, module) for module in imports(file.read_text("utf-8")))
    assert [text for text in found if text] == []


def test_the_check_can_fail() -> None:
    source = "def late():\n    from knotplot.renderers import svg\nimport knotplot.sheet.document\n"
    found = [fault("drawing", module) for module in imports(source)]
    assert sorted(filter(None, found)) == [
        "drawing may not import knotplot.renderers.svg",
        "drawing may not import knotplot.sheet.document",
    ]
    assert fault("sections", "knotplot.mounts.base") is not None
    assert fault("mounts", "knotplot.sections.base") is None
    assert fault("pattern", "knotplot.somewhere") is not None
    assert fault("pattern", "knotplot.pattern.tree") is None


@pytest.mark.parametrize("library", HEAVY)
def test_a_heavy_library_stands_in_its_renderer_only(library: str) -> None:
    users = [
        str(file.relative_to(HOME))
        for file in files()
        if any(module.split(".")[0] == library for module in imports(file.read_text("utf-8")))
    ]
    assert set(users) <= set(HEAVY[library])


@pytest.mark.parametrize(
    ("module", "unloaded"),
    [
        ("knotplot", {"pydantic", "yaml", *HEAVY}),
        ("knotplot.cli", {"pydantic", "yaml", *HEAVY}),
        ("knotplot.api", set(HEAVY)),
    ],
)
def test_libraries_are_loaded_when_used(module: str, unloaded: set[str]) -> None:
    code = f"import sys, {module}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert unloaded & set(done.stdout.split()) == set()
