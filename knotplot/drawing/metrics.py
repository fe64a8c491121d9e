"""How wide text is in the shipped fonts (Source Sans 3), without opening a font.

The advance widths lie in `advances.json`, taken from the fonts in `renderers/fonts`; a test holds
the two equal, and `python tests/drawing/test_drawing_metrics.py` writes the file anew. Kerning is
left out, as the PDF leaves it out.
"""

from __future__ import annotations

import json
import re
import unicodedata
from functools import lru_cache
from itertools import compress

from knotplot.discovery import read_data
from knotplot.drawing.shapes import Weight

#: Font sizes above and below the baseline that hold every letter and accent of the fonts' Latin.
ASCENT = 0.9
DESCENT = 0.25
#: Height of a capital letter in font sizes (OS/2 sCapHeight of the regular weight).
CAP_HEIGHT = 0.66

#: What stands in print for a character the fonts have not.
SUBSTITUTE = "?"

_UNSEEN = {"Cc", "Cf", "Cs"}
_SPACES = re.compile(r"[ \t\r\n\f\v\x85\u2028\u2029]+")
_BIND = re.compile(r"(?<=\d) (?=(?:\d+/\d+|cm|mm|in|m|yd|g|kg|%|×)(?!\w))|(?<=[×÷=]) (?=\d)")
_BOUND = "\u00a0"


class _Widths(dict[str, int]):
    """Advances by character; one that is not there is as wide as its substitute, or unseen."""

    def __missing__(self, character: str) -> int:
        if unicodedata.category(character) in _UNSEEN:
            return 0
        return self[SUBSTITUTE]


@lru_cache(maxsize=1)
def _advances() -> tuple[int, dict[Weight, _Widths]]:
    """Return the units of an em and the advances in them, by weight."""
    data = json.loads(read_data("knotplot.drawing", "advances.json"))
    weights: tuple[Weight, ...] = ("regular", "bold", "italic")
    seen = [unicodedata.category(c) not in _UNSEEN for c in data["characters"]]
    letters = list(compress(data["characters"], seen))
    tables = {w: _Widths(zip(letters, compress(data[w], seen), strict=True)) for w in weights}
    return data["units"], tables


def covers(text: str) -> bool:
    """Say whether the shipped fonts have every character of `text`.

    >>> covers("café ½ × → “☐”"), covers("結び")
    (True, False)
    """
    table = _advances()[1]["regular"]
    return all(map(table.__contains__, text))


def cleaned(text: str) -> str:
    """Return `text` on one line: breaks and tabs as spaces, what no XML may hold left out."""
    if text.isprintable():
        return text
    spaced = _SPACES.sub(" ", text)
    return "".join(c for c in spaced if unicodedata.category(c) not in ("Cc", "Cs") and not _odd(c))


def _odd(character: str) -> bool:
    return ord(character) & 0xFFFE == 0xFFFE  # U+FFFE, U+FFFF and their like are no characters


def printable(text: str) -> str:
    r"""Return `text` as the shipped fonts print it: composed, a `?` for what they have not.

    Characters without a look of their own (joiners, direction marks, soft hyphens) go.

    >>> printable("e\u0301 \u202e結")
    'é ?'
    """
    table = _advances()[1]["regular"]
    if text.isascii() and text.isprintable():
        return text
    seen = cleaned(unicodedata.normalize("NFC", text))
    return "".join(
        c if c in table else SUBSTITUTE for c in seen if unicodedata.category(c) not in _UNSEEN
    )


def width(text: str, size: float, weight: Weight = "regular") -> float:
    """Return the width of `text` in mm, set at the font size `size` in mm.

    >>> round(width("knot", 10.0), 2)
    19.22
    """
    units, tables = _advances()
    if not text.isascii():
        text = unicodedata.normalize("NFC", text)
    return sum(map(tables[weight].__getitem__, text)) * size / units


def bound(text: str) -> str:
    """Return text in which no number is parted from its fraction or unit at the end of a line.

    >>> bound("13 1/2 in wide").count(" ")
    1
    """
    return _BIND.sub(_BOUND, text)


def wrap(text: str, width_mm: float, size: float, weight: Weight = "regular") -> list[str]:
    """Break `text` into lines no wider than `width_mm`, set at `size` mm.

    Breaks at spaces that part no number from its fraction or unit, and nowhere else, save that a
    word wider than a line is broken between letters; a single letter stands even where it is too
    wide. Text without words gives no lines.

    >>> wrap("alternating square knots", 22.0, 4.0)
    ['alternating', 'square knots']
    """
    lines: list[str] = []
    line, used = "", 0.0
    width_mm += 1e-9  # a line measured as a whole and one summed by words differ in the last bit
    space = width(" ", size, weight)
    for word in filter(None, _SPACES.split(bound(text))):
        wide = width(word, size, weight)
        if line and used + space + wide <= width_mm:
            line, used = f"{line} {word}", used + space + wide
            continue
        if line:
            lines.append(line)
        *full, line = _broken(word, width_mm, size, weight) if wide > width_mm else [word]
        lines.extend(full)
        used = width(line, size, weight)
    found = [*lines, line] if line else lines
    return [each.replace(_BOUND, " ") for each in found]


def _broken(word: str, width_mm: float, size: float, weight: Weight) -> list[str]:
    """Cut a word wider than a line into parts that fit, at least a letter each."""
    parts = [""]
    for letter in word:
        if parts[-1] and width(parts[-1] + letter, size, weight) > width_mm:
            parts.append("")
        parts[-1] += letter
    return parts
