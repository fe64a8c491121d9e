"""The shipped patterns against the gallery, as tests that mutants are held against.

`python gallery/make.py --check` compares more; the checks of the repository run that.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from knotplot import build, load
from knotplot.output import json_text

ROOT = Path(__file__).resolve().parents[2]
PATTERNS = sorted((ROOT / "patterns").glob("*.yaml"))


def kept(pattern: Path, name: str) -> str:
    return (ROOT / "gallery" / pattern.stem / name).read_text("utf-8")


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda at: at.stem)
def test_figures(pattern: Path) -> None:
    assert json_text(build(load(pattern)).figures()) == kept(pattern, "figures.json")


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda at: at.stem)
def test_words(pattern: Path) -> None:
    assert build(load(pattern)).words() == kept(pattern, "words.txt")


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda at: at.stem)
@pytest.mark.parametrize("view", ["chart", "cord"])
def test_drawing(pattern: Path, view: str) -> None:
    assert build(load(pattern)).draw(view).svg() == kept(pattern, f"{view}.svg")


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda at: at.stem)
def test_sizes(pattern: Path) -> None:
    for size in load(pattern).sizes:
        figures = build(load(pattern, size=size)).figures()
        assert json_text(figures) == kept(pattern, f"figures-{size}.json")
