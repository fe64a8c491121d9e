"""Instructions as plain text, wrapped."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from knotplot.instructions.mounting import Folds
from knotplot.instructions.rows import Left
from knotplot.instructions.words import Heading, Line, words
from knotplot.tying.piece import Piece

WIDTH = 76


def plain_text(
    piece: Piece,
    title: str,
    left: Left | None = None,
    language: str = "en",
    width: int = WIDTH,
    folds: Folds = (),
) -> str:
    """Return a title and the instructions of a piece as text, wrapped at `width` columns."""
    lines = words(piece, left, language, folds)
    return "\n".join([title, "=" * min(len(title), width), *_wrapped(lines, width)]) + "\n"


def _wrapped(lines: tuple[Line, ...], width: int) -> Iterator[str]:
    """Yield lines of text: a blank line before a heading, later lines of a paragraph indented."""
    for line in lines:
        if isinstance(line, Heading):
            yield ""
        yield from textwrap.wrap(
            line.text, width, subsequent_indent="    ", break_long_words=False,
            break_on_hyphens=False,
        )  # fmt: skip
