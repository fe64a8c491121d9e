"""Time what a maker waits for: `import knotplot`, and `make` of a 200-strand curtain, from cold.

    python tests/benchmarks/bench_start.py [--profile]

CPU time (user and system) of whole fresh processes, best of several, and of `import` without the
interpreter's own start, over a floor in the same run: the import of the libraries that `make` is
built on (0.15 s on the machine the budgets were set on). Exits 1 where one is over its budget.
`--profile` prints where `make` spends its time.
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
RUNS = 7
BUDGETS = {"import": 1.0, "make": 10.0}  # of the floor: 150 ms and 1.5 s where that is 0.15 s
FLOOR = "import lxml.etree, pydantic, reportlab.pdfgen.canvas, svgwrite, yaml"

CURTAIN = """\
knotplot: 1
title: A curtain of two hundred strands
size: {width: 140 cm, drop: 90 cm}
cord: {diameter: 3 mm, mass_per_length: 5.4 g/m, spool: 200 m, price_per_spool: 19 EUR}
strands: {count: 200}
mount: {kind: rod_pocket, rod: 20 mm, rows: 10, tail: 30 cm}
sections:
  - {kind: hitch_line, layer: tails, overhang: 12 cm}
  - {kind: square_knot_mesh, rows: 12}
  - {kind: motif_band, motif: diamond, rows: 5, offset: half, gap: 12 mm}
  - {kind: fringe, length: 10 cm}
lower_edge: {profile: parabola, rise: 12 cm}
"""


def cpu_seconds(compiled: str, *argv: str) -> float:
    """Return the CPU time of `python` with those arguments; compiled modules go to a folder."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": compiled}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed package is compiled
    subprocess.run([sys.executable, *argv], check=True, capture_output=True, env=environment)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def main() -> int:
    parser = argparse.ArgumentParser(description="Time import and make from a cold start.")
    parser.add_argument("--profile", action="store_true")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        pattern = Path(folder) / "curtain.yaml"
        pattern.write_text(CURTAIN, "utf-8")
        make = ["-m", "knotplot", "make", str(pattern), "-o", str(Path(folder) / "out")]
        if asked.profile:
            return subprocess.call([sys.executable, "-m", "cProfile", "-s", "tottime", *make])
        compiled, found = str(Path(folder) / "compiled"), dict[str, float]()
        for _ in range(RUNS):  # interleaved, so that a slow minute hits all alike
            start = cpu_seconds(compiled, "-c", "pass")
            times = {
                "floor": cpu_seconds(compiled, "-c", FLOOR),
                "import": cpu_seconds(compiled, "-c", "import knotplot") - start,
                "make": cpu_seconds(compiled, *make),
            }
            for what, seconds in times.items():
                found[what] = min(found.get(what, seconds), seconds)
    floor = found.pop("floor")
    print(f"{'floor':<8} {floor:6.3f} s of CPU")
    for what, seconds in found.items():
        ratio, budget = seconds / floor, BUDGETS[what]
        print(f"{what:<8} {seconds:6.3f} s of CPU, {ratio:.2f} of the floor, budget {budget:g}")
    return 1 if any(seconds > BUDGETS[what] * floor for what, seconds in found.items()) else 0


if __name__ == "__main__":
    sys.exit(main())
