"""Interrupts: a command ends at once, but never while files take their names."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

#: What asks a process to end: Ctrl-C last, since its usual handler raises an error.
_ASKS = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP", "SIGINT") if hasattr(signal, name)]
_SHELL = 128  # a shell shows the end by signal n as exit code 128 + n


@contextmanager
def held_back() -> Iterator[None]:
    """Let interrupts wait inside this block, and take effect as they would after it.

    Only the main thread can do so; in another one nothing happens here. What a program ignores it
    goes on ignoring.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    came: list[int] = []
    before = {number: signal.getsignal(number) for number in _ASKS}
    held = [number for number in _ASKS if before[number] not in (None, signal.SIG_IGN)]
    try:
        for number in held:
            signal.signal(number, lambda which, _: came.append(which))
        yield
    finally:
        for number in held:
            signal.signal(number, before[number])
        for number in dict.fromkeys(came):
            signal.raise_signal(number)


def end_at_once() -> None:
    """Let an interrupt end this process at once, without a word, at whatever it is.

    Nothing needs to be put in order first, since files are written with interrupts held back.
    """
    for number in _ASKS:
        if signal.getsignal(number) != signal.SIG_IGN:
            signal.signal(number, _end)


def _end(number: int, _: FrameType | None) -> None:
    """End by the signal itself, so that a shell's loop over several commands ends too."""
    signal.signal(number, signal.SIG_DFL)
    signal.raise_signal(number)
    os._exit(_SHELL + number)  # the first process of a container, which no signal ends by itself
