"""Remake the table of cord use: `python -m knotplot.cord_use.solver [--quick] [NAME ...]`.

Needs the extra `solve`. A name is that of an entry, or of a knot: all its entries, or, where it has
none, the knot from its own form. `--quick` takes a coarse look and writes nothing.
"""

from __future__ import annotations

import sys

from knotplot.cord_use.solver.table import make
from knotplot.errors import Refusal


def tell(line: str) -> None:
    """Print one line at once."""
    sys.stdout.write(line.rstrip() + "\n")
    sys.stdout.flush()


def main(argv: list[str]) -> int:
    """Solve what is asked for; return 1 where it can't be."""
    try:
        make([name for name in argv if name != "--quick"], tell, "--quick" in argv)
    except Refusal as refusal:
        sys.stderr.write(f"{refusal.fault}\n")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
