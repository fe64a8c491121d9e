"""Strategies for sections of every kind, columns and repeats with others inside."""

from __future__ import annotations

from hypothesis import strategies as st
from motif_strategies import KNOTS
from workable import Document

_FACING = st.sampled_from([{}, {}, {"facing": "right"}, {"facing": "alternate"}])


@st.composite
def _mesh(draw: st.DrawFn) -> Document:
    found: Document = {"kind": "square_knot_mesh", **draw(_FACING)}
    found |= draw(st.sampled_from([{}, {}, {"start": "offset"}]))
    found |= draw(st.sampled_from([{}, {"spacing": "8 mm"}]))
    shape = draw(st.sampled_from(["straight", "straight", "decrease", "increase"]))
    # A shaped mesh comes to a point after a quarter of its strands; `trim_shaped` sees to that.
    return found | {"rows": draw(st.integers(1, 9)), "shape": shape}


@st.composite
def band(draw: st.DrawFn, names: list[str]) -> Document:
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
        plain += [band(names), band(names)]
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
