"""One case: a pattern's bytes with what is laid over it, run within limits, and its verdict."""

from __future__ import annotations

import contextlib
import io
import re
import resource
import signal
import tempfile
import time
import traceback
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType

from fuzz.faults import fault_finds, line_finds
from fuzz.sense import drawn_finds, sense_finds
from knotplot import build, load
from knotplot.api import WorkedPiece
from knotplot.cli import main
from knotplot.errors import PatternError, UsageError


def _slowness() -> float:
    """Return how many times as long this machine takes as a usual one of 2023, at least 1."""
    began = time.process_time()
    sum(i * i for i in range(400_000))
    return max(1.0, (time.process_time() - began) / 0.025)


#: Of CPU a case: 10 on a usual machine, twice that where a shared one slows down meanwhile.
SECONDS = 20.0 * _slowness()
MEMORY = 3 << 30  # bytes of address space
GOOD, REFUSED, USAGE = "good", "refused", "wrong usage"


@dataclass(frozen=True, slots=True)
class Case:
    """What is given: bytes of a file, a named size, overrides; a command, where it goes by one.

    `drawn` has it drawn and printed besides.
    """

    data: bytes
    size: str | None = None
    sets: tuple[str, ...] = ()
    command: tuple[str, ...] = ()
    drawn: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a case: a verdict, and what ought not to be, each as (what, details)."""

    verdict: str
    finds: tuple[tuple[str, str], ...] = field(default=())


class Late(BaseException):
    """A case that took too long; no `Exception`, so that nothing on the way catches it."""


@contextlib.contextmanager
def limits() -> Iterator[None]:
    """Stop what runs inside after `SECONDS` of CPU, and let it have `MEMORY`."""

    def late(_: int, frame: FrameType | None) -> None:
        raise Late(_here(traceback.extract_stack(frame)))

    before = resource.getrlimit(resource.RLIMIT_AS)
    old = signal.signal(signal.SIGPROF, late)
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, before[1]))
    signal.setitimer(signal.ITIMER_PROF, SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        resource.setrlimit(resource.RLIMIT_AS, before)
        signal.signal(signal.SIGPROF, old)


def examine(case: Case) -> Outcome:
    """Run a case and say what came of it."""
    try:
        with limits(), tempfile.TemporaryDirectory() as folder:
            file = Path(folder) / "case.yaml"
            file.write_bytes(case.data)
            return _by_command(case, file) if case.command else _by_library(case, file)
    except Late as late:
        return Outcome("late", ((f"over {SECONDS:g} s in {late}", ""),))
    except MemoryError as error:
        return Outcome("memory", ((f"out of memory in {_where(error)}", ""),))
    except Exception as error:
        told = "".join(traceback.format_exception(error)[-6:])
        return Outcome("crash", ((f"{type(error).__name__} in {_where(error)}", told),))


def _by_library(case: Case, file: Path) -> Outcome:
    try:
        pattern = load(file, case.size, case.sets)
        made = build(pattern)
    except PatternError as error:
        return Outcome(REFUSED, tuple(fault_finds(error.faults, case.data, str(file))))
    except UsageError as error:
        if not case.sets and case.size is None:
            raise
        return Outcome(USAGE, tuple(line_finds(str(error))))
    return Outcome(GOOD, tuple(_finds(made, case)))


def _finds(made: WorkedPiece, case: Case) -> Iterator[tuple[str, str]]:
    given = case.data.decode("utf-8", "replace") + " ".join(case.sets)
    yield from sense_finds(made, given)
    if case.drawn:
        yield from drawn_finds(made, given)


def _by_command(case: Case, file: Path) -> Outcome:
    """Run a command as from a shell; `OUT` in it stands for a place to write to."""
    more = [word.replace("OUT", str(file.with_name("out"))) for word in case.command[1:]]
    more += [word for assignment in case.sets for word in ("--set", assignment)]
    more += ["--size", case.size] if case.size is not None else []
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main([case.command[0], str(file), *more])
    said = err.getvalue()
    finds = [find for line in said.splitlines() for find in line_finds(line)]
    if code not in (0, 1, 2):
        finds.append((f"exit code {code}", said))
    if code and not said.strip():
        finds.append((f"exit code {code} without a word", ""))
    if code and out.getvalue():
        finds.append((f"exit code {code} after output", out.getvalue()[:200]))
    return Outcome({0: GOOD, 1: REFUSED}.get(code, USAGE), tuple(finds))


def _where(error: BaseException) -> str:
    return _here(traceback.extract_tb(error.__traceback__))


def _here(frames: list[traceback.FrameSummary]) -> str:
    """Return the innermost place in the package, without its line: that moves as code does."""
    own = [frame for frame in frames if re.search(r"/knotplot/", frame.filename)]
    if not own:
        return "no file of knotplot"
    return f"{own[-1].filename.rpartition('/knotplot/')[2]} {own[-1].name}"
