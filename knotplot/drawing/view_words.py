"""The words on the views, by language: what stands beside lines, brackets and dimensions."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from knotplot.errors import UsageError
from knotplot.kinds import kind_words
from knotplot.tying.piece import Part

_ENGLISH = {
    "of piece": "{piece} – {view}",
    # the chart
    "row": "row {}",
    "rows": "rows {}–{}",
    "repeat": "repeat {} cords",
    "rest": "{}: see the whole chart",
    "left edge": "left edge",
    "right edge": "right edge",
    "temporary line": "temporary line",
    "fold": "fold",
    "join": "join: short ends with cords",
    "tails": "on the short ends only",
    "edge": "lower edge",
    "chart": "Knotting chart",
    "chart desc": "{} cords across, {} rows, {} knots, drawn as worked, from top to bottom.",
    "part desc": "Cords {}, rows {} to {}, drawn as worked.",
    # the key
    "key": "Key to the chart",
    "key desc": "The marks of the chart: {}.",
    "cross": "two cords crossed",
    "cord": "cord",
    "tail": "short end of a cord",
    "ended": "cord that ends in the work",
    # the outline
    "outline": "Outline with dimensions",
    "outline desc": "The finished piece, {} wide, with a drop of {}, and its {} sections.",
    "loops": "loops above",
    "drop": "drop",
    "rise": "rise",
    "support": "top of the support",
    # the trim line
    "trim": "Trim line",
    "trim desc": "How far above a string line stretched level at the drop to trim, at {} places.",
    "string": "string line, level at the drop",
    "from left": "from the left edge, cm",
    "up cm": "up from the string, cm",
    "up in": "up from the string, in",
    "trim curved": "Trim with the piece hanging, never lying flat: cut along the curve.",
    "trim corners": "Trim with the piece hanging, never lying flat: cut along each curve, and keep "
    "the corners between them sharp.",
    "trim straight": "Trim with the piece hanging, never lying flat: cut straight from mark to "
    "mark.",
    "trim level": "Trim with the piece hanging, never lying flat: cut along the string.",
    "trim knotted": "Work with the piece hanging, never lying flat: tie the knot in each end with "
    "its lower edge at the line. Cut only then, below the knots.",
    "trim some knotted": "Where ends are knotted, tie each knot with its lower edge at the line, "
    "and cut below it.",
}

_WORDS: Mapping[str, Mapping[str, str]] = {"en": MappingProxyType(_ENGLISH)}


def view_words(language: str) -> Mapping[str, str]:
    """Return the words of the views; raises UsageError for a language there are none in."""
    try:
        return _WORDS[language]
    except KeyError:
        known = ", ".join(_WORDS)
        raise UsageError(f"there are no words in {language!r}: use one of {known}") from None


def part_name(part: Part, language: str) -> str:
    """Return what a section is called: the maker's name for it, else the trade's."""
    named = part.name not in (part.kind, "mount")
    return part.name if named else kind_words(part.kind, language).caption
