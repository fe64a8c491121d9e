"""Making a drawn pattern workable: counts that suit, rows that fit, a drop that is long enough."""

from __future__ import annotations

import json
import math
from typing import Any

import yaml
from hypothesis import strategies as st

from knotplot.errors import Fault, PatternError, Refusal
from knotplot.notices import in_file_words
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import together
from knotplot.pattern.working import work
from knotplot.tying.piece import Piece

MOST_STRANDS = 72
PITCH = 8  # mm from strand to strand
AMPLE = 200_000  # mm, a drop in which everything fits

Document = dict[str, Any]


def text_of(document: Document) -> str:
    """Return a pattern's YAML."""
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
    return str(yaml.dump(document, Dumper=dumper, sort_keys=False, allow_unicode=True))


def tied(pattern: Pattern) -> Piece:
    """Return the piece of a pattern whose count of strands is given."""
    assert pattern.strands.count is not None
    return work(pattern, pattern.strands.count).piece


def warnings(pattern: Pattern) -> tuple[str, ...]:
    """Return what is noticed while a pattern is tied whose count of strands is given."""
    assert pattern.strands.count is not None
    return in_file_words(work(pattern, pattern.strands.count).notices)


def recounts(motif: Document) -> bool:
    """Tell whether a motif adds strands or ends some."""
    text = json.dumps(motif)
    return '"add"' in text or '"end"' in text


def tail_line(draw: st.DrawFn, document: Document) -> None:
    """Put a hitch line on the tails of a rod pocket, now and then."""
    if document["mount"]["kind"] == "rod_pocket" and draw(st.booleans()):
        line = {"kind": "hitch_line", "layer": "tails", "overhang": "15 cm"}
        document["sections"].insert(0, line)


def name_some(draw: st.DrawFn, found: list[Document]) -> None:
    for section, name in zip(found, "abcdefgh", strict=False):
        if draw(st.booleans()):
            section.update({"name": f"the {name} part"} | section)


def _unit(section: Document, own: Document) -> int:
    """Return the multiple of strands that a section asks for (its parts' numbers filled in)."""
    kind = section["kind"]
    if kind == "square_knot_mesh":
        return 4
    if kind == "motif_band":
        return int(own.get(section["motif"], {"strands": 8})["strands"])
    if kind == "sennits":
        return int(section["strands"])
    if kind == "repeat":
        return math.lcm(*(_unit(s, own) for s in section["sections"]))
    if kind == "columns":
        return sum(p["strands"] * p["repeat"] for p in section["parts"] if p["strands"] != "rest")
    return 1


def complete(found: list[Document], own: Document) -> None:
    """Give each part of columns, innermost first, the strands its sections ask for."""
    for section in found:
        complete(section.get("sections", []), own)
        for part in section.get("parts", []):
            complete(part["sections"], own)
            if part["strands"] != "rest":
                part["strands"] = math.lcm(*(_unit(s, own) for s in part["sections"]))


def count_of(draw: st.DrawFn, document: Document) -> int:
    """Return a count of strands the pattern asks for; sections that ask too much are dropped."""
    while True:
        try:
            ask = together(loads(text_of(document)))
        except Refusal:
            ask = None
        if ask is not None:
            # A pocket of one knot a row has half its rows: too short to fold.
            floor = max(ask.least, 8 if document["mount"]["kind"] == "rod_pocket" else 1)
            least = floor + (ask.plus - floor) % ask.repeat
            if least <= MOST_STRANDS:
                more = draw(st.integers(0, (MOST_STRANDS - least) // ask.repeat))
                return least + ask.repeat * min(more, 6)
        # Two sections that disagree, or many strands: go on with fewer sections.
        document["sections"] = document["sections"][:-1] or [{"kind": "hitch_line"}]


def trim_shaped(found: list[Document], count: int) -> None:
    """Work shaped meshes on no more rows than come to a point on their `count` strands."""
    for section in found:
        if section.get("shape", "straight") != "straight":
            if count < 8:
                section.pop("start", None)
            most = count // 4 - (section.get("start") == "offset")
            section["rows"] = min(section["rows"], most)
        trim_shaped(section.get("sections", []), count)
        parts = section.get("parts", [])
        fixed = sum(p["strands"] * p["repeat"] for p in parts if p["strands"] != "rest")
        for part in parts:
            rest = part["strands"] == "rest"
            share = (count - fixed) // part["repeat"] if rest else part["strands"]
            trim_shaped(part["sections"], share)


def few_rows(found: list[Document], own: Document) -> None:
    """Work two rows at most of motifs that add or end strands: each may have several times more."""
    for section in found:
        if recounts(own.get(section.get("motif"), {})):
            section["rows"] = min(2, section["rows"])
        few_rows(section.get("sections", []), own)
        for part in section.get("parts", []):
            few_rows(part["sections"], own)


def suit(document: Document) -> None:
    """Let what follows suit the lanes that motifs leave: fewer rows of them, or fewer sections."""
    while (fault := _refused(document)) is not None:
        found, path = document["sections"], fault.path
        index = int(path[1]) if path[:1] == ("sections",) and len(path) > 1 else len(found) - 1
        section = found[index]
        if recounts(document["motifs"].get(section.get("motif"), {})) and section["rows"] > 1:
            section["rows"] = min(2, section["rows"] - 1)
        else:
            del found[index]
        document["sections"] = found or [{"kind": "hitch_line"}]


def drop_of(document: Document, share: float) -> int:
    """Return a drop (mm) with that share of what an ample one leaves over, or the least above it.

    A tight drop under a shaped edge takes motifs away; where it would take more, it is loosened.
    """
    depth = max(
        (
            placement.y + row.shift + placement.shape.bottom
            for row in tied(loads(text_of(document))).rows
            for placement in row.placements
        ),
        default=0.0,
    )
    for ease in (share, 1.0, 2.0, 6.0):
        drop = int(depth + 30.0 + 260.0 * ease)
        if can_be_worked({**document, "size": {**document["size"], "drop": f"{drop} mm"}}):
            return drop
    return AMPLE


def fill_some(draw: st.DrawFn, document: Document) -> None:
    """Let one section of a piece that isn't long take what the drop leaves, now and then."""
    if document["size"]["drop"] == f"{AMPLE} mm":
        return  # it would be filled with thousands of rows
    for index, section in enumerate(document["sections"]):
        if section["kind"] == "free":
            changed = {**section, "length": "fill"}
        elif section.get("shape") == "straight":
            changed = {**section, "rows": "fill"}
        else:
            continue
        found = list(document["sections"])
        found[index] = changed
        if draw(st.booleans()) and can_be_worked({**document, "sections": found}):
            document["sections"] = found
        return


def can_be_worked(document: Document) -> bool:
    return _refused(document) is None


def _refused(document: Document) -> Fault | None:
    """Return why a pattern can't be worked: it doesn't fit, or a rise is taller than the drop."""
    try:
        tied(loads(text_of(document)))
    except Refusal as refusal:
        return refusal.fault
    except PatternError as error:
        return error.faults[0]
    return None
