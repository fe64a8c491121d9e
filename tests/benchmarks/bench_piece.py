"""Time a pattern's way to its layout with all lengths, from a thousand ties to a million.

    python tests/benchmarks/bench_piece.py [most-ties]

Half the ties are a mesh of square knots, half diamonds of hitches. The floor is what writing the
same piece's chart takes with f-strings (`bench_chart.floor`), in the same run. CPU time, best of
several, each in a fresh process, the sizes by turns, so that a slow minute of the machine meets
all of them; peak memory beyond that of the smallest piece. Exits 1 where the time a tie, its growth
or the memory a tie is over its budget. Growth is the slope of log time over log ties, by least
squares, from ten thousand ties on: what a pattern costs once is most of the time below.
"""

from __future__ import annotations

import argparse
import math
import resource
import subprocess
import sys
import time
from pathlib import Path
from statistics import linear_regression
from typing import Any

from bench_chart import best, floor

ROOT = Path(__file__).resolve().parents[2]
SIZES = (1_000, 10_000, 100_000, 1_000_000)  # ties
ROUNDS = 2
SMALL, MORE = 10_000, 2  # up to SMALL ties, so many further runs in a round
FLOOR_AT = (10_000, 100_000)
RATIO, EXPONENT, BYTES = 4.0, 1.05, 1_500.0

PATTERN = """
knotplot: 1
size: {{width: {width} mm, drop: {drop} mm}}
cord: {{diameter: 4 mm, mass_per_length: 9.6 g/m}}
strands: {{count: {strands}}}
mount: {{kind: open, tail: 10 cm}}
sections:
  - {{kind: square_knot_mesh, rows: {mesh}}}
  - {{kind: motif_band, motif: diamond, rows: {lace}, offset: half}}
  - {{kind: fringe, length: 10 cm}}
"""


def pattern(ties: int) -> str:
    """Return a pattern of about so many ties: 8·n strands, n/2 motifs of 14 ties a lace row."""
    columns = max(2, round(math.sqrt(ties / 20)))
    lace = max(1, round(ties / 2 / (14 * columns)))
    mesh = max(1, round(ties / 2 / (2 * columns)))
    strands = 8 * columns
    drop = 18 * mesh + 75 * lace + 500
    return PATTERN.format(width=7 * strands, drop=drop, strands=strands, mesh=mesh, lace=lace)


def lay_out(text: str) -> Any:
    """Take a pattern to its layout and the lengths of all its cords."""
    from knotplot.materials.allowance import SHARED_ERROR_TABLE
    from knotplot.materials.bill import laid
    from knotplot.materials.lengths import Terms, cord_lengths
    from knotplot.pattern.load import loads
    from knotplot.pattern.strand_count import strand_count
    from knotplot.pattern.working import work

    read = loads(text)
    layout = laid(read, work(read, strand_count(read).count).piece)
    cut = read.cut
    terms = Terms(SHARED_ERROR_TABLE, read.allowance.confidence, None, cut.step)
    cord_lengths(layout, terms)
    return layout


def measure(what: str, ties: int) -> None:
    """Print the ties, the CPU seconds and the peak memory in bytes; in a process of its own."""
    lay_out(pattern(100))  # what a process loads once
    if what == "floor":
        from knotplot.drawing.chart import chart

        layout = lay_out(pattern(ties))
        seconds = best(floor(chart(layout)))
    else:
        start = time.process_time()
        layout = lay_out(pattern(ties))
        seconds = time.process_time() - start
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
    print(layout.piece.tie_count, seconds, peak)


def run(what: str, ties: int) -> tuple[float, float, float]:
    command = [sys.executable, __file__, "--measure", what, str(ties)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    count, seconds, peak = map(float, done.stdout.split())
    return count, seconds, peak


def fastest(sizes: list[int]) -> dict[int, tuple[float, float, float]]:
    """Return each size's ties, CPU seconds and peak memory, of its fastest run."""
    runs: dict[int, list[tuple[float, float, float]]] = {ties: [] for ties in sizes}
    for _ in range(ROUNDS):
        for ties in sizes:
            times = 1 + (MORE if ties <= SMALL else 0)
            runs[ties] += [run("layout", ties) for _ in range(times)]
    return {ties: min(each, key=lambda made: made[1]) for ties, each in runs.items()}


def growth(points: list[tuple[float, float]]) -> float:
    """Return the exponent of time over ties: the slope through their logarithms.

    >>> round(growth([(10, 3), (100, 30), (1000, 300)]), 9)
    1.0
    """
    ties, seconds = zip(*points, strict=True)
    return linear_regression([*map(math.log, ties)], [*map(math.log, seconds)]).slope


def main() -> int:
    parser = argparse.ArgumentParser(description="Time pattern to layout with lengths.")
    parser.add_argument("most", nargs="?", type=int, default=1_000_000)
    parser.add_argument("--measure", nargs=2, metavar=("WHAT", "TIES"))
    asked = parser.parse_args()
    if asked.measure:
        measure(asked.measure[0], int(asked.measure[1]))
        return 0
    made = fastest([ties for ties in SIZES if ties <= asked.most])
    over = False
    print("ties     CPU s    us/tie  ratio  budget")
    for ties, (count, seconds, _) in made.items():
        line = f"{count:<8.0f} {seconds:<8.3f} {seconds / count * 1e6:<7.2f}"
        if ties in FLOOR_AT:
            of, plain, _ = run("floor", ties)
            ratio = (seconds / count) / (plain / of)
            over |= ratio > RATIO
            line += f" {ratio:<6.2f} {RATIO}"
        print(line)
    large = [(count, seconds) for ties, (count, seconds, _) in made.items() if ties >= SMALL]
    if len(large) > 1:
        exponent = growth(large)
        first, *_, last = made.values()
        each = (last[2] - first[2]) / (last[0] - first[0])
        print(f"growth exponent {exponent:.3f} (budget {EXPONENT})")
        print(f"memory {each:.0f} bytes a tie (budget {BYTES:.0f})")
        over |= exponent > EXPONENT or each > BYTES
    return 1 if over else 0


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    sys.exit(main())
