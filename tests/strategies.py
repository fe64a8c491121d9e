"""Strategies for valid patterns, for every test that wants any pattern at all.

- `documents()` draws a whole pattern as plain dicts and lists, as a file has them: any mount, one
  to four sections of any kind (columns and repeats with others inside), motifs of random steps,
  any lower edge. `strands.count` is given, and the drop is one that the work fits in: ample, or
  so tight that a shaped edge takes motifs (or all but their top) away. Some have a `fill`, some
  cords in colours.
- `text_of(document)` is its YAML; `patterns()` draws it read, `pieces()` tied.
- `motifs()`, `sections(…)`, `mounts()`, `lower_edges()` draw the parts alone, `steps(lanes)` a list
  of steps that suit so many lanes; some of them add strands and end others, some have picots.

Names are "a" to "h" for sections and "motif1" … for motifs. Pieces have at most about 72 strands.
"""

from __future__ import annotations

import json
import math
from typing import Any

import yaml
from hypothesis import strategies as st

from knotplot.errors import Fault, PatternError, Refusal
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import together
from knotplot.pattern.working import work
from knotplot.tying.piece import Piece

MOST_STRANDS = 72
MOST_LANES = 14  # of a motif, with those it adds
PITCH = 8  # mm from strand to strand
AMPLE = 200_000  # mm, a drop in which everything fits

Document = dict[str, Any]
KNOTS = {"square_knot": 2, "half_knot": 2, "overhand": 2}  # and their least strands


# --- motifs ----------------------------------------------------------------------------------


@st.composite
def _plain_step(draw: st.DrawFn, m: int) -> Document:
    kind = draw(st.sampled_from(["hitch", "hitch", "knot", "knot", "cross", "vertical", "gap"]))
    if kind == "gap":
        return {"gap": f"{draw(st.integers(0, 15))} mm"}
    if kind == "cross":
        left = draw(st.integers(1, m - 1))
        pair = draw(st.permutations([left, left + 1]))
        return {"cross": list(pair), **draw(st.sampled_from([{}, {"under": True}]))}
    if kind == "knot":
        return {"knot": draw(_knots(m))}
    start, to = draw(st.lists(st.integers(1, m), min_size=2, max_size=2, unique=True))
    turns = draw(st.sampled_from([{}, {}, {"turns": 1}, {"turns": 3}]))
    if kind == "vertical":
        return {"vertical": {"worker": start, "to": to, **turns}}
    times = draw(st.sampled_from([{}, {}, {"times": 2}, {"times": 3}]))
    angle = draw(st.sampled_from([{}, {}, {"angle": 0}, {"angle": 30}]))
    return {"hitch": {"lead": start, "to": to, **turns, **times, **angle}}


@st.composite
def _knots(draw: st.DrawFn, m: int) -> Document:
    name = draw(st.sampled_from(sorted(KNOTS)))
    count = draw(st.integers(KNOTS[name], m))
    first = draw(st.integers(1, m - count + 1))
    found: Document = {"kind": name, "lanes": list(range(first, first + count))}
    if name != "overhand":
        found |= draw(st.sampled_from([{}, {"facing": "right"}, {"facing": "left"}]))
        if count >= 4:
            found |= draw(st.sampled_from([{}, {"workers": 2}]))
        found |= draw(st.sampled_from([{}, {}, {"picot": "12 mm"}, {"picot": "3 cm"}]))
    return found


def steps(m: int, depth: int = 2) -> st.SearchStrategy[list[Document]]:
    """Draw a few steps on `m` lanes (2 or more), nested so deep at the most."""
    return _counted_steps(m, depth, True).map(lambda found: found[0])


@st.composite
def _counted_steps(
    draw: st.DrawFn, m: int, depth: int, may_end: bool
) -> tuple[list[Document], int]:
    """Draw steps one after another on the lanes that are then there, and how many these are.

    What is worked more than once may add strands, but ends none: its lanes are there every time.
    """
    found: list[Document] = []
    plain, kinds = ["plain"] * 5, ["repeat", "mirror", "both"] if depth else []
    for _ in range(draw(st.integers(1, 4 if depth > 1 else 2))):
        kind = draw(st.sampled_from([*plain, *kinds, "add", *(["end"] if may_end else [])]))
        if kind == "add" and m <= MOST_LANES - 4:
            cords = draw(st.sampled_from([1, 1, 2]))
            found.append({"add": {"after": draw(st.integers(1, m)), "cords": cords}})
            m += 2 * cords
        elif kind == "end" and m >= 4:
            gone = draw(st.lists(st.integers(1, m), min_size=1, max_size=2, unique=True))
            found.append({"end": {"lanes": gone}})
            m -= len(gone)
        elif kind == "mirror":
            inner, m = draw(_counted_steps(m, depth - 1, may_end))
            found.append({"mirror": inner})
        elif kind in ("repeat", "both"):
            inner, after = draw(_counted_steps(m, depth - 1, False))
            times = 2 if kind == "both" else draw(st.integers(1, 3))
            if m + times * (after - m) > MOST_LANES:
                continue
            m += times * (after - m)
            repeat = {"repeat": {"times": times, "steps": inner}}
            found.append({"both": inner} if kind == "both" else repeat)
        else:
            found.append(draw(_plain_step(m)))
    return found, m


@st.composite
def _recount(draw: st.DrawFn, m: int) -> tuple[list[Document], int]:
    """Draw steps that add strands and perhaps end some, more steps between, and the lanes then."""
    add = {"add": {"after": draw(st.integers(1, m)), "cords": draw(st.sampled_from([1, 1, 2]))}}
    found: list[Document] = [draw(st.sampled_from([add, {"mirror": [add]}]))]
    more, now = draw(_counted_steps(m + 2 * add["add"]["cords"], 0, True))
    found += more
    if now > m and draw(st.booleans()):  # as many as before, so that other rows can follow
        count = now - m
        gone = draw(st.lists(st.integers(1, now), min_size=count, max_size=count, unique=True))
        found.append({"end": {"lanes": gone}})
        now = m
    return found, now


@st.composite
def motifs(draw: st.DrawFn, recount: bool = False) -> Document:
    """Draw a motif of 2 to 9 strands that ties something, perhaps with a `top`.

    With `recount` it surely adds strands, and often ends some.
    """
    m = draw(st.integers(2, 9))
    found, now = draw(_recount(m)) if recount else ([], m)
    found += draw(steps(now, 0 if recount else 2))
    sure = draw(
        st.sampled_from(
            [
                {"hitch": {"lead": 1, "to": m}},
                {"knot": {"kind": "square_knot", "lanes": list(range(1, m + 1))}},
            ]
        )
    )
    motif = _tamed({"strands": m, "steps": [sure, *found]})
    top = draw(st.none() | st.integers(1, len(motif["steps"])))
    return motif | ({} if top is None else {"top": top})


def _tamed(motif: Document) -> Document:
    """Leave out last steps until no runs of the motif would cross (which is refused)."""
    m = motif["strands"]
    band = {"kind": "motif_band", "motif": "motif1", "rows": 3, "offset": "half"}
    if _recounts(motif):
        band["rows"] = 1
    alone = {
        "knotplot": 1,
        "size": {"width": f"{2 * m * PITCH} mm", "drop": f"{AMPLE} mm"},
        "cord": {"diameter": "4 mm"},
        "strands": {"count": 2 * m},
        "mount": {"kind": "open", "tail": "10 cm"},
        "sections": [band],
        "motifs": {"motif1": motif},
    }
    while not _can_be_worked(json.loads(json.dumps(alone))):
        motif["steps"] = motif["steps"][:-1]
    return motif


def _recounts(motif: Document) -> bool:
    """Tell whether a motif adds strands or ends some."""
    text = json.dumps(motif)
    return '"add"' in text or '"end"' in text


# --- sections --------------------------------------------------------------------------------

_FACING = st.sampled_from([{}, {}, {"facing": "right"}, {"facing": "alternate"}])


@st.composite
def _mesh(draw: st.DrawFn) -> Document:
    found: Document = {"kind": "square_knot_mesh", **draw(_FACING)}
    found |= draw(st.sampled_from([{}, {}, {"start": "offset"}]))
    found |= draw(st.sampled_from([{}, {"spacing": "8 mm"}]))
    shape = draw(st.sampled_from(["straight", "straight", "decrease", "increase"]))
    # A shaped mesh comes to a point after a quarter of its strands; `_trim_shaped` sees to that.
    return found | {"rows": draw(st.integers(1, 9)), "shape": shape}


@st.composite
def _band(draw: st.DrawFn, names: list[str]) -> Document:
    found: Document = {"kind": "motif_band", "motif": draw(st.sampled_from(names))}
    found |= {"rows": draw(st.integers(1, 5))}
    found |= draw(st.sampled_from([{}, {"offset": "half"}, {"offset": "half", "edges": "free"}]))
    return found | draw(st.sampled_from([{}, {"gap": "12 mm"}]))


@st.composite
def _sennits(draw: st.DrawFn) -> Document:
    knot = draw(st.sampled_from(sorted(KNOTS)))
    found: Document = {"kind": "sennits", "knot": knot, **draw(_FACING)}
    found |= {"strands": draw(st.sampled_from([2, 3, 4, 4, 6]))}
    size = [{"count": draw(st.integers(1, 12))}, {"length": "12 cm"}]
    return found | draw(st.sampled_from(size))


def sections(
    names: list[str], depth: int = 2, ends: bool = True
) -> st.SearchStrategy[list[Document]]:
    """Draw one to four sections using those motifs, with columns and repeats nested so deep."""
    plain = [
        _mesh(),
        _sennits(),
        st.just({"kind": "hitch_line"}),
        st.just({"kind": "gather", "wrap": "25 mm"}),
        st.builds(lambda n: {"kind": "free", "length": f"{n} mm"}, st.integers(5, 90)),
    ]
    if names:
        plain += [_band(names), _band(names)]
    kinds = list(plain)
    if depth:
        inner = sections(names, depth - 1, ends=False)
        again = st.builds(
            lambda n, s: {"kind": "repeat", "times": n, "sections": s}, st.integers(1, 4), inner
        )
        kinds += [again, _columns(names, depth, ends)]
    found = st.lists(st.one_of(kinds), min_size=1, max_size=4 if ends else 2)
    return st.builds(lambda a, b: a + b, found, _ends()) if ends else found


def _ends() -> st.SearchStrategy[list[Document]]:
    fringe = st.builds(
        lambda f: {"kind": "fringe", "length": "6 cm", "finish": f},
        st.sampled_from(["combed", "cut", "knotted"]),
    )
    tassel = st.sampled_from([{}, {"colour": "rust"}]).map(
        lambda colour: {"kind": "tassel", "wrap": "30 mm", **colour}
    )
    return st.one_of(
        st.just([]), fringe.map(lambda f: [f]), st.builds(lambda t, f: [t, f], tassel, fringe)
    )


@st.composite
def _columns(draw: st.DrawFn, names: list[str], depth: int, outermost: bool) -> Document:
    parts = []
    for _ in range(draw(st.integers(1, 3))):
        inner = draw(sections(names, depth - 1, ends=False))
        parts.append({"strands": 0, "repeat": draw(st.integers(1, 3)), "sections": inner})
    if outermost and draw(st.booleans()):
        draw(st.sampled_from(parts))["strands"] = "rest"
    return {"kind": "columns", "parts": parts}


# --- the rest --------------------------------------------------------------------------------


def mounts() -> st.SearchStrategy[Document]:
    """Draw any way of mounting."""
    return st.sampled_from(
        [
            {"kind": "rod_pocket", "rod": "20 mm", "rows": 8, "tail": "40 cm"},
            {"kind": "rod_pocket", "rod": "12 mm", "rows": 7, "tail": "40 cm"},
            {"kind": "larks_head", "rod": "20 mm"},
            {"kind": "larks_head", "rod": "20 mm", "fold": "uneven"},
            {"kind": "reverse_larks_head", "rod": "2 cm"},
            {"kind": "hitched", "rod": "3 cm", "tail": "10 cm"},
            {"kind": "picot", "rod": "16 mm", "loop": "6 cm"},
            {"kind": "picot", "rod": "16 mm", "loop": "6 cm", "fold": "uneven"},
            {"kind": "ring", "diameter": "25 cm"},
            {"kind": "open", "tail": "12 cm"},
        ]
    )


def lower_edges() -> st.SearchStrategy[Document]:
    """Draw any lower edge; its rise is 12 cm at the most."""
    shapes: list[Document] = [{"profile": name} for name in ("arc", "parabola", "catenary", "vee")]
    shapes += [
        {"profile": "scallops", "count": 3},
        {"profile": "points", "at": [[0, 0], [0.3, 1], [0.7, 0.2], [1, 0]]},
    ]
    rise = st.sampled_from([-120, -40, 40, 120])
    shaped = st.builds(lambda s, r: {**s, "rise": f"{r} mm"}, st.sampled_from(shapes), rise)
    return st.one_of(st.just({}), shaped)


def colours() -> st.SearchStrategy[Document]:
    """Draw an order of colours, mirrored or not, some of them with inks."""
    run = st.builds(
        lambda colour, count: colour if count == 1 else f"{colour}*{count}",
        st.sampled_from(["natural", "rust", "deep sea"]), st.integers(1, 7),
    )  # fmt: skip
    inks = st.sampled_from([{}, {"rust": "#a4502f"}, {"natural": "#e9e1d3", "rust": "#a4502f"}])
    return st.builds(
        lambda order, mirror, palette: {"order": order, "mirror": mirror, "palette": palette},
        st.lists(run, min_size=1, max_size=4), st.booleans(), inks,
    )  # fmt: skip


@st.composite
def documents(draw: st.DrawFn) -> Document:
    """Draw a whole pattern that can be worked, as plain data."""
    recount = draw(st.sampled_from([False, False, False, True]))
    own = {f"motif{i + 1}": draw(motifs(recount)) for i in range(draw(st.integers(0, 2)))}
    names = [*own, *draw(st.sampled_from([[], ["diamond"]]))]
    document: Document = {
        "knotplot": 1,
        "title": "Any pattern",
        "size": {"width": "60 cm", "drop": f"{AMPLE} mm"},
        "cord": {"diameter": "4 mm"},
        "strands": {"count": 1},
        "mount": draw(mounts()),
        "sections": draw(sections(names)),
        "lower_edge": draw(lower_edges()),
        "motifs": own,
    }
    if recount and own:  # first, so that others follow on the lanes it leaves
        document["sections"].insert(0, draw(_band(["motif1"])))
    document = json.loads(json.dumps(document))  # drawn parts are shared; these are changed below
    _tail_line(draw, document)
    _name(draw, document["sections"])
    _complete(document["sections"], own)
    document["strands"]["count"] = count = _count(draw, document)
    document["size"]["width"] = f"{count * PITCH} mm"
    if document["lower_edge"].get("profile") == "arc" and count < 30:
        document["lower_edge"]["rise"] = f"{count * 2} mm"
    _trim_shaped(document["sections"], count)
    if any(map(_recounts, own.values())):
        _few_rows(document["sections"], own)
        _suit(document)
    share = draw(st.sampled_from([0.0, 0.1, 0.5, 1.0]))
    document["size"]["drop"] = f"{_drop(document, share)} mm"
    _fill(draw, document)
    if draw(st.booleans()):
        document["colours"] = draw(colours())
    return document


def text_of(document: Document) -> str:
    """Return a pattern's YAML."""
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
    return str(yaml.dump(document, Dumper=dumper, sort_keys=False, allow_unicode=True))


def patterns() -> st.SearchStrategy[Pattern]:
    """Draw a pattern, read."""
    return documents().map(lambda document: loads(text_of(document)))


def tied(pattern: Pattern) -> Piece:
    """Return the piece of a pattern whose count of strands is given."""
    assert pattern.strands.count is not None
    return work(pattern, pattern.strands.count)


def pieces() -> st.SearchStrategy[Piece]:
    """Draw a piece, tied."""
    return patterns().map(tied)


# --- making it workable ------------------------------------------------------------------------


def _tail_line(draw: st.DrawFn, document: Document) -> None:
    """Put a hitch line on the tails of a rod pocket, now and then."""
    if document["mount"]["kind"] == "rod_pocket" and draw(st.booleans()):
        line = {"kind": "hitch_line", "layer": "tails", "overhang": "15 cm"}
        document["sections"].insert(0, line)


def _name(draw: st.DrawFn, found: list[Document]) -> None:
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


def _complete(found: list[Document], own: Document) -> None:
    """Give each part of columns, innermost first, the strands its sections ask for."""
    for section in found:
        _complete(section.get("sections", []), own)
        for part in section.get("parts", []):
            _complete(part["sections"], own)
            if part["strands"] != "rest":
                part["strands"] = math.lcm(*(_unit(s, own) for s in part["sections"]))


def _count(draw: st.DrawFn, document: Document) -> int:
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


def _trim_shaped(found: list[Document], count: int) -> None:
    """Work shaped meshes on no more rows than come to a point on their `count` strands."""
    for section in found:
        if section.get("shape", "straight") != "straight":
            if count < 8:
                section.pop("start", None)
            most = count // 4 - (section.get("start") == "offset")
            section["rows"] = min(section["rows"], most)
        _trim_shaped(section.get("sections", []), count)
        parts = section.get("parts", [])
        fixed = sum(p["strands"] * p["repeat"] for p in parts if p["strands"] != "rest")
        for part in parts:
            rest = part["strands"] == "rest"
            share = (count - fixed) // part["repeat"] if rest else part["strands"]
            _trim_shaped(part["sections"], share)


def _few_rows(found: list[Document], own: Document) -> None:
    """Work two rows at most of motifs that add or end strands: each may have several times more."""
    for section in found:
        if _recounts(own.get(section.get("motif"), {})):
            section["rows"] = min(2, section["rows"])
        _few_rows(section.get("sections", []), own)
        for part in section.get("parts", []):
            _few_rows(part["sections"], own)


def _suit(document: Document) -> None:
    """Let what follows suit the lanes that motifs leave: fewer rows of them, or fewer sections."""
    while (fault := _refused(document)) is not None:
        found, path = document["sections"], fault.path
        index = int(path[1]) if path[:1] == ("sections",) and len(path) > 1 else len(found) - 1
        section = found[index]
        if _recounts(document["motifs"].get(section.get("motif"), {})) and section["rows"] > 1:
            section["rows"] = min(2, section["rows"] - 1)
        else:
            del found[index]
        document["sections"] = found or [{"kind": "hitch_line"}]


def _drop(document: Document, share: float) -> int:
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
        if _can_be_worked({**document, "size": {**document["size"], "drop": f"{drop} mm"}}):
            return drop
    return AMPLE


def _fill(draw: st.DrawFn, document: Document) -> None:
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
        if draw(st.booleans()) and _can_be_worked({**document, "sections": found}):
            document["sections"] = found
        return


def _can_be_worked(document: Document) -> bool:
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
