"""Run the commands: `python -m knotplot`, or `knotplot`."""

from __future__ import annotations

import sys
from typing import NoReturn

from knotplot.interrupts import end_at_once


def start() -> NoReturn:
    """Run the command of this process, and end the process with its exit code."""
    end_at_once()  # before anything else is loaded: Ctrl-C gives no traceback then either
    from knotplot.cli import main

    sys.exit(main())


if __name__ == "__main__":
    start()
