"""The page on the pattern language, `gallery/format.md`, is what the models say now."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path

import pytest

GALLERY = Path(__file__).resolve().parents[1] / "gallery"
MOST_BYTES = 75_000  # of one picture


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    spec = importlib.util.spec_from_file_location("format_page", GALLERY / "format_page.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return dict(module.format_page())


def test_page_and_pictures_are_those_that_the_examples_give(files: dict[str, bytes]) -> None:
    stale = [name for name, data in files.items() if (GALLERY / name).read_bytes() != data]
    assert stale == [], "make the gallery again: python gallery/make.py"


def test_each_picture_is_small_and_shown_once(files: dict[str, bytes]) -> None:
    page = files["format.md"].decode()
    pictures = {name: data for name, data in files.items() if name.endswith(".svg")}
    assert len(pictures) > 30
    assert sorted(re.findall(r"\]\((format/[^)]+)\)", page)) == sorted(pictures)
    assert max(map(len, pictures.values())) <= MOST_BYTES


def test_every_link_within_the_page_leads_somewhere(files: dict[str, bytes]) -> None:
    page = files["format.md"].decode()
    assert set(re.findall(r"\]\(#([^)]+)\)", page)) == set(re.findall(r'<a id="([^"]+)">', page))
