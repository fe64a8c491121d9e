"""Remake the table of cord use: `python -m knotplot.cord_use.solver [NAME ...]`.

Needs the extra `solve`. With names, only those entries are solved anew.
"""

from __future__ import annotations

import sys

from knotplot.cord_use.solver.table import make


def tell(line: str) -> None:
    """Print one line at once."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    make(sys.argv[1:], tell)
