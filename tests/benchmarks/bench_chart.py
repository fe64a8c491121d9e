"""Time a chart's way to SVG against plain f-strings that write the very same elements.

    python tests/benchmarks/bench_chart.py [most-ties]

The piece is a mesh of square knots. The floor writes the elements of the very same drawing (paths,
uses, texts) with f-strings and one join, from the same numbers; a check holds the two equal in
their counts. CPU time, best of five in one process a size. Exits 1 where the ratio at 10,000 ties
or more is over its budget, or where making the chart grows faster than the piece.
"""

from __future__ import annotations

import argparse
import gc
import math
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
RUNS = 5
BUDGET = 1.25
EXPONENT = 1.15  # growth of the time to make a chart: 1, and what ten times the memory costs

PATTERN = """
knotplot: 1
title: Bench
size: {{width: {width} mm, drop: {drop} mm}}
cord:
  {{diameter: 4 mm, construction: twisted, fibre: cotton, mass_per_length: 9.6 g/m, spool: 100 m}}
strands: {{count: {strands}}}
mount: {{kind: open, tail: 10 cm}}
sections:
  - {{kind: square_knot_mesh, rows: {rows}}}
  - {{kind: fringe, length: 10 cm, finish: cut}}
"""


def layout(ties: int) -> Any:
    """Return a mesh of about so many square knots, laid out."""
    from knotplot.geometry.layout import lay
    from knotplot.knots import knot
    from knotplot.pattern.load import loads
    from knotplot.pattern.working import work

    columns = round(math.sqrt(ties))
    strands, rows = 4 * columns, round(ties / columns)
    text = PATTERN.format(width=7 * strands, drop=20 * rows + 400, strands=strands, rows=rows)
    piece = work(loads(text), strands).piece
    return lay(piece, lambda name, manner, _: knot(name).cord(manner))


def flat(items: Any) -> Iterator[Any]:
    """Yield the items of a drawing, those of groups where they stand."""
    from knotplot.drawing.shapes import Group

    for item in items:
        if isinstance(item, Group):
            yield from flat(item.items)
        else:
            yield item


def floor(drawing: Any) -> Callable[[], str]:
    """Return what writes the drawing's elements with f-strings and one join."""
    from knotplot.drawing.shapes import Mark, Stroke, Text

    items = list(flat(drawing.items))
    strokes = [(s.curves, s.lines) for s in items if isinstance(s, Stroke)]
    marks = [(m.symbol.name, m.at) for m in items if isinstance(m, Mark)]
    texts = [(t.x, t.y, t.text) for t in items if isinstance(t, Text)]
    look = 'class="k0123456789-s-line" fill="none" stroke="#8a7f72" stroke-width="0.52"'

    def write() -> str:
        out = []
        for curves, lines in strokes:
            for first in range(0, len(curves), 500):
                data = [
                    f"M{a:.2f} {b:.2f}c{c - a:.2f} {d - b:.2f} {e - a:.2f} {f - b:.2f} "
                    f"{g - a:.2f} {h - b:.2f}"
                    for a, b, c, d, e, f, g, h in curves[first : first + 500]
                ]
                out.append(f'<path {look} d="{"".join(data)}"/>\n')
            for first in range(0, len(lines), 500):
                data = [
                    f"M{line[0]:.2f} {line[1]:.2f}"
                    + "".join(
                        f"L{x:.2f} {y:.2f}" for x, y in zip(line[2::2], line[3::2], strict=True)
                    )
                    for line in lines[first : first + 500]
                ]
                out.append(f'<path {look} d="{"".join(data)}"/>\n')
        for name, places in marks:
            for x, y in places:
                out.append(f'<use xlink:href="#k0123456789-{name}" x="{x:.2f}" y="{y:.2f}"/>\n')
        for x, y, text in texts:
            out.append(f'<text x="{x:.2f}" y="{y:.2f}" fill="#635a50">{text}</text>\n')
        return "".join(out)

    return write


def best(run: Callable[[], object]) -> float:
    """Return the least CPU time of several runs."""
    least = math.inf
    for _ in range(RUNS):
        gc.collect()
        start = time.process_time()
        run()
        least = min(least, time.process_time() - start)
    return least


def measure(ties: int) -> None:
    """Print ties, CPU seconds of making the chart, of SVG and of the floor, and the SVG's size."""
    from knotplot.drawing.chart import chart
    from knotplot.renderers import svg

    svg.render(chart(layout(16)))  # what a process loads once
    laid = layout(ties)
    made = best(lambda: chart(laid))
    drawing = chart(laid)
    write = floor(drawing)
    written, plain = svg.render(drawing), write()
    for mark in ("<use ", "<text "):
        if written.count(mark) != plain.count(mark):
            raise AssertionError(f"the floor has not the same {mark}")
    if written.count("c") < plain.count("c"):
        raise AssertionError("the floor writes more curves")
    print(
        laid.piece.tie_count, made, best(lambda: svg.render(drawing)), best(write), len(written)
    )  # fmt: skip


def main() -> int:
    parser = argparse.ArgumentParser(description="Time a chart's SVG against f-strings.")
    parser.add_argument("most", nargs="?", type=int, default=100_000)
    parser.add_argument("--measure", type=int, metavar="TIES")
    asked = parser.parse_args()
    if asked.measure:
        measure(asked.measure)
        return 0
    over = False
    made: list[tuple[float, float]] = []
    print("ties     chart s  svg s    floor s  ratio  budget  MB")
    for ties in (n for n in (1_000, 10_000, 100_000) if n <= asked.most):
        command = [sys.executable, __file__, "--measure", str(ties)]
        done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
        count, chart, svg, plain, size = map(float, done.stdout.split())
        made.append((count, chart))
        counts = ties >= 10_000  # a thousand ties are over in no time
        over |= counts and svg / plain > BUDGET
        print(
            f"{count:<8.0f} {chart:<8.4f} {svg:<8.4f} {plain:<8.4f} {svg / plain:<6.2f} "
            f"{BUDGET if counts else '-':<7} {size / 1e6:.2f}"
        )
    if len(made) > 1:
        (n0, t0), (n1, t1) = made[-2:]
        exponent = math.log(t1 / t0) / math.log(n1 / n0)
        print(f"growth exponent of making the chart: {exponent:.3f}")
        over |= exponent > EXPONENT
    return 1 if over else 0


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    sys.exit(main())
