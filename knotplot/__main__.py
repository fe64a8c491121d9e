"""Run the commands: `python -m knotplot`."""

from __future__ import annotations

import sys

from knotplot.cli import main

if __name__ == "__main__":
    sys.exit(main())
