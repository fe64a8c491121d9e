"""An example for each entry of the reference: a few lines, and the whole pattern they stand in.

The lines show one thing in the plainest surroundings. The pattern is a small piece that can be
made, so that every example has a picture and is tried.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from knotplot.errors import PatternError, Refusal
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.pattern.reference import Entry
from knotplot.pattern.schema_words import WIDTH, block, flat, items
from knotplot.pattern.strand_count import together
from knotplot.pattern.working import work
from knotplot.tying.piece import Piece

FEWEST = 4  # strands of a piece that shows something: two of what it asks for, or this
EDGED = 24  # of one that shows a profile of its edge
PITCH = 10  # mm from strand to strand, so that hitches have room side by side
AMPLE = 1000.0  # mm, a drop in which every example fits
LEFT = 20.0  # mm that hangs below the last knot, where nothing says how much
STEEP = 140.0  # mm, the drop of a piece that shows a profile
MOTIF = "mine"

Keys = dict[str, Any]
_NET: Keys = {"kind": "square_knot_mesh", "rows": 2}
_ROD: Keys = {"kind": "larks_head", "rod": "12 mm"}
_LANES = (4, 6, 8, 10, 12, 2)  # of a motif that shows a step: the first that suits


class Specimen(NamedTuple):
    """An example: the lines to print of it, and the whole pattern that they stand in."""

    lines: tuple[str, ...]
    pattern: Pattern


def specimen(entry: Entry) -> Specimen | None:
    """Return the example of a mount, section, step or profile; None for one that has none."""
    for keys, shown in _tried(entry):
        pattern = _made(keys)
        if pattern is not None:
            return Specimen(tuple(_lines(shown)), pattern)
    return None


def _tried(entry: Entry) -> Iterator[tuple[Keys, Keys]]:
    """Yield what may show an entry, the plainest first: all keys, and those to print."""
    for example in entry.schema.get("examples", ())[:1]:
        if entry.sort == "mount":
            keys: Keys = {"mount": example, "sections": [_NET]}
            yield keys, keys
        elif entry.sort == "section":
            yield from _sections(example)
        elif entry.sort == "step":
            yield from _steps(example)
        elif entry.sort == "profile":
            keys = {"lower_edge": example, "sections": [{"kind": "fringe", "length": "4 cm"}]}
            yield {"mount": _ROD, **keys}, keys


def _sections(example: Keys) -> Iterator[tuple[Keys, Keys]]:
    """Yield a section alone and, for one that ties nothing, with a net about it."""
    for sections in ([example], [_NET, example, _NET], [_NET, example]):
        keys = {"mount": _ROD, "sections": sections}
        yield keys, keys if len(sections) == 1 else {"sections": sections}


def _steps(example: Keys) -> Iterator[tuple[Keys, Keys]]:
    """Yield a step alone and, for one that ties nothing, between two knots."""
    for strands in _LANES:
        yield _band(strands, [example])
    for strands in _LANES:
        above = _knot(strands)
        for below in (strands, strands - 2, strands + 2):
            yield _band(strands, [above, example, _knot(below)])


def _knot(strands: int) -> Keys:
    return {"knot": {"kind": "square_knot", "lanes": list(range(1, strands + 1))}}


def _band(strands: int, steps: list[Keys]) -> tuple[Keys, Keys]:
    motif = {"strands": strands, "steps": steps}
    band = {"kind": "motif_band", "motif": MOTIF, "rows": 1}
    keys = {"mount": _ROD, "sections": [band], "motifs": {MOTIF: motif}}
    return keys, motif


def _made(keys: Keys) -> Pattern | None:
    """Return the pattern of some keys in a piece of its size; None where it ties nothing."""
    try:
        if "lower_edge" in keys:
            return _pattern(keys, EDGED, STEEP)
        asked = together(_pattern(keys, FEWEST, AMPLE))
        pairs = 1 if "motifs" in keys else 2
        wanted = max(FEWEST, asked.least, pairs * asked.repeat)
        count = asked.plus + -(-(wanted - asked.plus) // asked.repeat) * asked.repeat
        piece = work(_pattern(keys, count, AMPLE), count).piece
    except (PatternError, Refusal):
        return None
    return _fitting(keys, count, piece) if _shows(piece) else None


def _fitting(keys: Keys, count: int, piece: Piece) -> Pattern | None:
    """Return the pattern in the least drop, in steps, that has a little left below the last knot.

    `piece` is the same in an ample drop.
    """
    hanging = [part.top for part in piece.parts if part.bottom >= AMPLE]
    least = max(hanging or [part.bottom for part in piece.parts])
    for drop in range(int(least + LEFT), int(AMPLE), int(LEFT)):
        pattern = _pattern(keys, count, drop)
        try:
            work(pattern, count)
        except Refusal:
            continue
        return pattern
    return None


def _shows(piece: Piece) -> bool:
    """Tell whether a section ties something, and nothing hangs below what finishes the ends."""
    tied = any(piece.parts[row.section].name != "mount" for row in piece.rows)
    return tied and all(part.finish is None for part in piece.parts[:-1])


def _pattern(keys: Keys, count: int, drop: float) -> Pattern:
    frame = {
        "knotplot": 1,
        "size": {"width": f"{count * PITCH} mm", "drop": f"{drop:.0f} mm"},
        "cord": {"diameter": "4 mm"},
        "strands": {"count": count},
    }
    return loads("\n".join(_lines({**frame, **keys})))


def _lines(keys: Keys) -> Iterator[str]:
    """Yield keys with their values as a maker writes them: lists below their key."""
    for key, value in keys.items():
        if isinstance(value, list):
            yield from (f"{key}:", *items(value, "  "))
        elif len(f"{key}: {flat(value)}") <= WIDTH:
            yield f"{key}: {flat(value)}"
        else:
            yield from (f"{key}:", *block(value, "  "))
