"""Interrupts: held back while files are written, and else the end at once, without a word."""

from __future__ import annotations

import signal
import subprocess
import sys
import threading

import pytest

from knotplot.interrupts import held_back


@pytest.fixture
def heard():
    """Hear SIGTERM and SIGINT as a program of its own would; return what was heard."""
    came: list[int] = []
    before = {number: signal.getsignal(number) for number in (signal.SIGTERM, signal.SIGINT)}
    for number in before:
        signal.signal(number, lambda which, _: came.append(which))
    yield came
    for number, handler in before.items():
        signal.signal(number, handler)


def test_interrupts_wait_for_the_end_and_come_once(heard):
    with held_back():
        for number in (signal.SIGINT, signal.SIGTERM, signal.SIGINT):
            signal.raise_signal(number)
        assert heard == []
    assert sorted(heard) == sorted([signal.SIGINT, signal.SIGTERM])
    signal.raise_signal(signal.SIGINT)
    assert len(heard) == 3


def test_they_come_after_an_error_too(heard):
    def fails() -> None:
        signal.raise_signal(signal.SIGTERM)
        raise ValueError("mine")

    with pytest.raises(ValueError, match="mine"), held_back():
        fails()
    assert heard == [signal.SIGTERM]


def test_what_is_ignored_stays_ignored(heard):
    signal.signal(signal.SIGTERM, signal.SIG_IGN)
    with held_back():
        signal.raise_signal(signal.SIGTERM)
    assert signal.getsignal(signal.SIGTERM) == signal.SIG_IGN
    assert heard == []


def test_another_thread_writes_without_holding_anything(heard):
    done: list[bool] = []

    def work() -> None:
        with held_back():
            done.append(True)

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert (done, heard) == ([True], [])


# Each line raises an interrupt in one place of a command's life.
LATE = [
    "import knotplot.console; knotplot.console.set_streams = stop",  # at its start
    "import knotplot.console; knotplot.console.say = stop",  # while it works
    "import gc; gc.enable = stop",  # after it
    "import atexit; atexit.register(stop)",  # while the interpreter ends
    "import sys; sys.exit = stop",
    "import weakref\nclass A: pass\na = A(); r = weakref.ref(a, stop); del a",  # errors vanish here
]


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
@pytest.mark.parametrize("place", LATE)
def test_a_command_ends_by_the_interrupt_and_without_a_word(number, place):
    code = (
        "import signal, sys\n"
        f"def stop(*_, **__): signal.raise_signal({int(number)})\n"
        "from knotplot.interrupts import end_at_once\n"
        f"end_at_once()\n{place}\n"
        "sys.argv = ['knotplot', 'schema']\n"
        "from knotplot.__main__ import start\n"
        "start()\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (-number, b"")


def test_the_commands_are_started_so():
    code = (
        "import sys, signal\n"
        "import knotplot.cli\n"
        "knotplot.cli.main = lambda: signal.raise_signal(signal.SIGINT)\n"
        "import runpy; runpy.run_module('knotplot', run_name='__main__')\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (-signal.SIGINT, b"")


def test_the_first_process_of_a_container_ends_too():
    code = (
        "import signal\n"
        "from knotplot.interrupts import end_at_once\n"
        "end_at_once()\n"
        "ask, signal.signal = signal.raise_signal, lambda *_: None\n"
        "signal.raise_signal = lambda _: None\n"  # as if the system let nothing end it
        "ask(signal.SIGTERM)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (143, b"")
