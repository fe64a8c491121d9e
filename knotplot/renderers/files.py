"""Writing files whole or not at all: one, or several that belong together."""

from __future__ import annotations

import contextlib
import os
import stat
from collections.abc import Callable, Mapping
from itertools import count
from pathlib import Path

from knotplot.errors import OutputError

_attempts = count()


def write_whole(path: str | os.PathLike[str], data: bytes) -> None:
    """Write `data` to `path`, so that at every moment the old file or the whole new one is there.

    The bytes go to a hidden file in the same folder, which then takes the name in one step. A
    link in that place is replaced, never followed. Raises OutputError, with the place, what is
    wrong and what would do, and then leaves the folder as it was.
    """
    place = Path(path)
    try:
        _refuse_special(place)
        part = _hidden(place)
        try:
            _write_new(part, data)
            part.replace(place)
        except BaseException:
            with contextlib.suppress(OSError):
                part.unlink()
            raise
    except (OSError, ValueError) as fault:
        raise OutputError(f"{_shown(place)}: {_why(fault)}; {_remedy(fault)}") from fault


def write_folder(folder: str | os.PathLike[str], files: Mapping[str, bytes]) -> list[Path]:
    """Write files by name into `folder`, which is made if it isn't there; return their paths.

    All of them or none: where one can't be written, those before it are as they were, and no
    folder is left that wasn't there. Raises OutputError as `write_whole` does.
    """
    home = place = Path(folder)
    undo: list[Callable[[], object]] = []
    kept: list[Path] = []
    parts: list[tuple[Path, Path]] = []
    try:
        for place in _missing(home):
            place.mkdir()
            undo.append(place.rmdir)
        for name, data in files.items():
            place = home / name
            _refuse_special(place)
            part = _hidden(place)
            undo.append(part.unlink)
            _write_new(part, data)
            parts.append((part, place))
        for part, place in parts:
            undo.append(_put_back(place, kept))
            part.replace(place)
    except BaseException as fault:
        for step in reversed(undo):
            with contextlib.suppress(OSError):
                step()
        _drop(kept)
        if isinstance(fault, OSError | ValueError):
            raise OutputError(f"{_shown(place)}: {_why(fault)}; {_remedy(fault)}") from fault
        raise
    _drop(kept)
    return [place for _, place in parts]


def _missing(home: Path) -> list[Path]:
    """Return the folders to make for `home`, the outermost first; refuse a file in its place."""
    if home.exists() and not home.is_dir():
        raise ValueError("it is a file, not a folder")
    missing = []
    while not home.exists() and home != home.parent:
        missing.append(home)
        home = home.parent
    return missing[::-1]


def _put_back(place: Path, kept: list[Path]) -> Callable[[], object]:
    """Return what puts `place` back as it is now; a file there is kept under a second name."""
    if not os.path.lexists(place):
        return place.unlink
    old = _hidden(place)
    try:
        os.link(place, old, follow_symlinks=False)
    except OSError:  # no second names on this disk
        place.replace(old)
    kept.append(old)
    return lambda: old.replace(place)


def _drop(files: list[Path]) -> None:
    for file in files:
        with contextlib.suppress(OSError):
            file.unlink()


def _hidden(place: Path) -> Path:
    return place.with_name(f".{os.getpid()}-{next(_attempts)}.part")


def _refuse_special(place: Path) -> None:
    """Let only a file, a link or nothing be replaced: no folder, device or pipe."""
    try:
        mode = place.lstat().st_mode
    except FileNotFoundError:
        return
    if stat.S_ISDIR(mode):
        raise IsADirectoryError
    if not (stat.S_ISREG(mode) or stat.S_ISLNK(mode)):
        raise ValueError("it is a device or a pipe, not a file")


def _write_new(part: Path, data: bytes) -> None:
    """Write to a file that must not be there yet, with the permissions of any new file."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    with open(os.open(part, flags, 0o666), "wb") as file:  # noqa: PTH123 - a descriptor, no path
        file.write(data)


def _why(fault: OSError | ValueError) -> str:
    match fault:
        case IsADirectoryError():
            return "a folder stands there"
        case FileNotFoundError():
            return "its folder does not exist"
        case NotADirectoryError():
            return "what should be its folder is a file"
        case PermissionError():
            return "it may not be written"
        case OSError():
            return (fault.strerror or "it can't be written").lower()
        case _:
            return str(fault)


def _remedy(fault: OSError | ValueError) -> str:
    match fault:
        case IsADirectoryError():
            return "give the name of a file"
        case FileNotFoundError() | NotADirectoryError():
            return "make the folder first, or name another"
        case PermissionError():
            return "name a place you may write to"
        case _:
            return "name another place"


def _shown(place: Path) -> str:
    return "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in str(place))
