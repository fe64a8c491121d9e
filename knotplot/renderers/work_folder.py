"""Hidden folders in which new files are made: each of one run alone, gone when the run is."""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterator
from pathlib import Path

try:
    import fcntl
except ImportError:  # pragma: no cover - no locks there, so nothing of other runs is removed
    fcntl = None  # type: ignore[assignment]

_NAME = re.compile(r"\.knotplot-[0-9a-f]{16}")
_HELD = re.compile(r"[0-9]+\.(new|old)")  # what a run makes there; all else is somebody's
_TRIES = 100


@contextlib.contextmanager
def work_folder(home: Path) -> Iterator[Path]:
    """Make a folder in `home` that no other run has, and remove it with its files at the end.

    A run holds a lock on its folder as long as it lives. What a killed run left behind has none,
    and is removed here first. Machines that share a disk, but not its locks, should not write to
    one folder at the same time. Raises OSError where no folder can be made.
    """
    _clear(home)
    folder, lock = _own(home)
    try:
        yield folder
    finally:
        _remove(folder)
        if lock is not None:
            os.close(lock)


def _own(home: Path) -> tuple[Path, int | None]:
    """Make a folder with a random name and lock it; return it and its lock, if there are locks."""
    for _ in range(_TRIES):
        folder = home / f".knotplot-{os.urandom(8).hex()}"
        try:
            folder.mkdir(0o700)
        except FileExistsError:
            continue
        try:
            lock = _lock(folder)
        except BlockingIOError:  # another run took it for litter, between these two lines
            continue
        except OSError:  # a disk without locks
            lock = None
        if folder.exists():
            return folder, lock
        if lock is not None:
            os.close(lock)
    raise FileExistsError(17, "no free name for a folder")


def _lock(folder: Path) -> int | None:
    """Lock a folder and return the lock; raise BlockingIOError where another run holds it."""
    if fcntl is None:  # pragma: no cover
        return None
    opened = os.open(folder, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW)
    try:
        fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(opened)
        raise
    return opened


def _clear(home: Path) -> None:
    """Remove the folders of runs that were killed; what can't be removed stays."""
    try:
        with os.scandir(home) as entries:
            found = [Path(entry.path) for entry in entries if _NAME.fullmatch(entry.name)]
    except OSError:
        return
    for folder in found:
        with contextlib.suppress(OSError):
            lock = _lock(folder)
            if lock is not None:
                _remove(folder)
                os.close(lock)


def _remove(folder: Path) -> None:
    with contextlib.suppress(OSError):
        for file in list(folder.iterdir()):
            if _HELD.fullmatch(file.name):
                file.unlink()
        folder.rmdir()
