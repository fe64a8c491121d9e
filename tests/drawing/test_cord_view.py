"""The piece drawn as cord: colours of strands, finished ends, and runs alike drawn once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import pytest
from views_sample import CURTAIN, HANGING, POINT, lay_out

from knotplot.api import build
from knotplot.drawing.cord_view import cord_view
from knotplot.drawing.ends import ends
from knotplot.drawing.shapes import Fill, Group, Item, Mark, Stroke
from knotplot.pattern.load import loads


def painted(items: Iterable[Item]) -> Iterator[Stroke | Fill]:
    """Yield every stroke and fill, those of symbols once."""
    seen: set[str] = set()
    for item in items:
        if isinstance(item, Group):
            yield from painted(item.items)
        elif isinstance(item, Mark):
            if item.symbol.name not in seen:
                seen.add(item.symbol.name)
                yield from painted(item.symbol.items)
        elif isinstance(item, (Stroke, Fill)):
            yield item


def inks(items: Iterable[Item]) -> set[str | None]:
    return {item.style.stroke for item in painted(items)}


COLOURED = """
knotplot: 1
title: Two colours
size: {{width: 20 cm, drop: 40 cm}}
cord: {{diameter: 4 mm, construction: {construction}}}
colours: {{order: [plain, rust], palette: {{rust: "#a4502f"}}}}
strands: {{count: 16}}
mount: {{kind: larks_head, rod: 20 mm}}
sections:
  - {{kind: square_knot_mesh, rows: 4}}
  - {{kind: fringe, length: 10 cm}}
"""


def test_every_strand_is_drawn_in_its_own_colour() -> None:
    layout = build(loads(COLOURED.format(construction="twisted"))).layout
    items = cord_view(layout).items
    assert {"#a4502f", "cord"} <= inks(items)
    # The last runs: cords 2, 4, 6 and 8 are rust, both strands of each.
    hung = [item for item in items[0].items if isinstance(item, Mark)]  # type: ignore[union-attr]
    places = {
        ink: sum(len(mark.at) for mark in hung if mark.symbol.name.startswith("tr")
                 and ink in inks(mark.symbol.items))
        for ink in ("#a4502f", "cord")
    }  # fmt: skip
    assert places["#a4502f"] == places["cord"] > 0


@pytest.mark.parametrize("construction", ["twisted", "braided", "single"])
def test_construction_tells_and_small_scale_leaves_it_out(construction: str) -> None:
    layout = build(loads(COLOURED.format(construction=construction))).layout
    near, far = cord_view(layout), cord_view(layout, 0.1)
    assert "cord-groove" in inks(near.items)
    assert "cord-groove" not in inks(far.items)
    assert (near.width, near.height) == (far.width, far.height)


def test_runs_alike_are_one_symbol() -> None:
    layout = lay_out(CURTAIN.replace("rows: 3}", "rows: 40}"), 1400, 3000, 204)
    items = cord_view(layout).items[0].items  # type: ignore[union-attr]
    runs = [item for item in items if isinstance(item, Mark) and "r" in item.symbol.name]
    placed = sum(len(mark.at) for mark in runs)
    assert placed > 5_000
    assert len(runs) < placed / 4


@pytest.mark.parametrize(("sample", "finish"), [(POINT, "combed"), (HANGING, "cut")])
def test_ends_are_finished_as_the_fringe_is(sample: str, finish: str) -> None:
    layout = lay_out(sample, 600, 900, 40)
    found = ends(layout)
    assert {end.finish for end in found.values()} == {finish}
    assert set(layout.piece.lanes) <= set(found)
    if finish == "combed":
        deep = {end.deep for end in found.values()}
        assert len(deep) == 1
        assert deep.pop() < min(layout.hanging[strand] for strand in layout.piece.lanes)
