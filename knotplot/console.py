"""Words to the terminal: stdout for what was asked, stderr for messages, one line each."""

from __future__ import annotations

import contextlib
import os
import sys
from pathlib import Path
from typing import TextIO

from knotplot.errors import OutputError, shown

_SPACES = "\u00a0\u2009\u202f"  # not "printable" to Python, but no harm in a message


def set_streams() -> None:
    """Write UTF-8 with the same line ends everywhere, and never fail on a character."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            encoding = None if stream.isatty() else "utf-8"
            stream.reconfigure(encoding=encoding, errors="backslashreplace", newline="\n")


def say(text: str) -> None:
    """Print on stdout; a reader that has seen enough and went away is no fault."""
    if sys.stdout is None:
        return
    try:
        sys.stdout.write(text if text.endswith("\n") else text + "\n")
        sys.stdout.flush()
    except BrokenPipeError:
        _shut(sys.stdout)
        raise SystemExit(0) from None
    except (OSError, ValueError) as fault:
        why = fault.strerror if isinstance(fault, OSError) and fault.strerror else str(fault)
        _shut(sys.stdout)
        raise OutputError(f"standard output: {why.lower()}; send it elsewhere") from None


def tell(message: str) -> None:
    """Print one line on stderr."""
    with contextlib.suppress(OSError, ValueError, AttributeError):  # there may be nobody to tell
        sys.stderr.write(one_line(message) + "\n")
        sys.stderr.flush()


def one_line(text: str) -> str:
    """Return text with what can't be printed written out."""
    return "".join(c if c.isprintable() or c in _SPACES else f"\\x{ord(c):02x}" for c in text)


def _shut(stream: TextIO) -> None:
    """Let what is still buffered go nowhere, so that the interpreter says nothing at its end."""
    with contextlib.suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


def internal(error: Exception) -> str:
    """Say what went wrong within knotplot, and where, on one line."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = ""
    if trace is not None:
        code = trace.tb_frame.f_code
        where = f" in {Path(code.co_filename).name}, line {trace.tb_lineno}"
    said = f"{type(error).__name__}: {shown(error, 200)}"
    return f"knotplot: an error of its own{where}: {said}; please report it, with the pattern"
