"""Time the renderers against plain f-strings that write the very same elements.

    python tests/benchmarks/bench_render.py [most-ties]

A scene of n ties: one use of a symbol and two cubics a tie, a text on every fifth. The floor
writes the same SVG elements with f-strings and one join, from the same numbers. CPU time, best of
five, each in a fresh process, all in one run. Exits 1 where a ratio is over its budget.
"""

from __future__ import annotations

import argparse
import random
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
RUNS = 5
BUDGETS = {"svg": 1.25, "pdf": 2.0}
EDGE = 900.0


def numbers(ties: int) -> tuple[list[Any], list[Any], list[Any]]:
    """Return places, curves and labels (x, y, text) of a scene, the same on every run."""
    chance = random.Random(7)
    places = [(chance.uniform(0, EDGE), chance.uniform(0, EDGE)) for _ in range(ties)]
    curves = [
        tuple(c + chance.uniform(-6, 6) for _ in range(4) for c in place)
        for place in places
        for _ in range(2)
    ]
    labels = [(x, y, f"row {i}") for i, (x, y) in enumerate(places) if i % 5 == 0]
    return places, curves, labels


def scene(ties: int) -> Any:
    from knotplot.drawing.shapes import Drawing, Fill, Mark, Stroke, Style, Symbol, Text

    places, curves, labels = numbers(ties)
    outline = (-2.0, 0.0, -2.0, -1.5, 2.0, -1.5, 2.0, 0.0, 2.0, 1.5, -2.0, 1.5, -2.0, 0.0)
    knot = Symbol("knot", (Fill(Style("cord-edge", 0.2, "cord"), outlines=[outline]),))
    items = [
        Stroke(Style("cord-edge", 0.6), curves=curves),
        Mark(knot, places),
        *(Text(x, y, text, 3.0, "middle", ink="quiet") for x, y, text in labels),
    ]
    return Drawing(EDGE, EDGE, items, "Bench", "A scene for timing")


def floor(ties: int) -> Callable[[], int]:
    """Write the elements that the SVG renderer writes, with f-strings and one join."""
    places, curves, labels = numbers(ties)

    def write() -> int:
        out = []
        for first in range(0, len(curves), 500):
            data = [
                f"M{a:.2f} {b:.2f}c{c - a:.2f} {d - b:.2f} {e - a:.2f} {f - b:.2f} "
                f"{g - a:.2f} {h - b:.2f}"
                for a, b, c, d, e, f, g, h in curves[first : first + 500]
            ]
            paint = 'class="k0123456789-s-cord-edge" fill="none" stroke="#5c4a35"'
            line = 'stroke-width="0.60" stroke-linejoin="round"'
            out.append(f'<path {paint} {line} d="{"".join(data)}"/>\n')
        for x, y in places:
            out.append(f'<use xlink:href="#k0123456789-knot" x="{x:.2f}" y="{y:.2f}"/>\n')
        look = 'class="k0123456789-f-quiet" fill="#635a50" font-size="3.00" text-anchor="middle"'
        for x, y, text in labels:
            out.append(f'<text x="{x:.2f}" y="{y:.2f}" {look}>{text}</text>\n')
        return len("".join(out))

    return write


def task(what: str, ties: int) -> Callable[[], int]:
    """Return the thing to time, with everything loaded that a process loads once."""
    if what == "floor":
        return floor(ties)
    from knotplot.renderers import pdf, svg

    if what == "svg":
        svg.render(scene(5))
        drawing = scene(ties)
        return lambda: len(svg.render(drawing))
    pdf.render([scene(5)], "Warm")
    drawing = scene(ties)
    return lambda: len(pdf.render([drawing], "Bench"))


def measure(what: str, ties: int) -> None:
    """Print the CPU seconds and the length of the result; runs in a process of its own."""
    run = task(what, ties)
    start = time.process_time()
    length = run()
    print(time.process_time() - start, length)


def best(what: str, ties: int) -> tuple[float, int]:
    """Return the least CPU time of several fresh processes, and the length of the result."""
    command = [sys.executable, __file__, "--measure", what, str(ties)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    seconds, length = done.stdout.split()
    return float(seconds), int(length)


def main() -> int:
    parser = argparse.ArgumentParser(description="Time the renderers against f-strings.")
    parser.add_argument("most", nargs="?", type=int, default=100_000)
    parser.add_argument("--measure", nargs=2, metavar=("WHAT", "TIES"))
    asked = parser.parse_args()
    if asked.measure:
        measure(asked.measure[0], int(asked.measure[1]))
        return 0
    over = 0
    print("ties     what    CPU s    ratio  budget  MB")
    for ties in (n for n in (1_000, 10_000, 100_000) if n <= asked.most):
        times: dict[str, tuple[float, int]] = {}
        for _ in range(RUNS):  # interleaved, so that a slow minute hits all alike
            for what in ("floor", *BUDGETS):
                times[what] = min(times.get(what, (float("inf"), 0)), best(what, ties))
        for what, (seconds, length) in times.items():
            ratio, budget = seconds / times["floor"][0], BUDGETS.get(what)
            counts = budget is not None and ties >= 10_000  # a thousand ties are over in no time
            over += counts and ratio > budget
            print(
                f"{ties:<8} {what:<6} {seconds:7.4f} {ratio:7.2f} "
                f"{budget if counts else '-':>7}  {length / 1e6:.2f}"
            )
    return 1 if over else 0


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    sys.exit(main())
