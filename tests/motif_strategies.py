"""Strategies for motifs: random steps that suit their lanes, some of which add or end strands."""

from __future__ import annotations

import json

from hypothesis import strategies as st
from workable import AMPLE, PITCH, Document, can_be_worked, recounts

MOST_LANES = 14  # of a motif, with those it adds
KNOTS = {"square_knot": 2, "half_knot": 2, "overhand": 2}  # and their least strands


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
    if recounts(motif):
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
    while not can_be_worked(json.loads(json.dumps(alone))):
        motif["steps"] = motif["steps"][:-1]
    return motif
