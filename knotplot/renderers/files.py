"""Writing files whole or not at all: one, or several that belong together.

New files are made in a hidden folder beside their places and put on the disk; then they take their
names, one right after another, while interrupts wait. So, of the files that are written together:

- each is the old one or the new one, whole, at every moment: also where the process is killed or
  the power fails;
- all are the old ones or all the new ones after a failure, Ctrl-C (SIGINT), SIGTERM or SIGHUP;
- some are old and some new only where SIGKILL or a power failure comes while the names change,
  which takes about a millisecond.

A killed run leaves its hidden folder behind; the next one that writes there removes it.
"""

from __future__ import annotations

import contextlib
import os
import stat
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack
from pathlib import Path

from knotplot.errors import OutputError
from knotplot.interrupts import held_back
from knotplot.renderers.work_folder import work_folder

_TAKEN = "there is a file already, and it stays as it is"


def write_whole(path: str | os.PathLike[str], data: bytes) -> None:
    """Write `data` to `path`, so that at every moment the old file or the whole new one is there.

    A link in that place is replaced, never followed; a file that is replaced leaves its
    permissions to the new one. Raises OutputError, with the place, what is wrong and what to do,
    and then leaves the folder as it was.
    """
    write_together({Path(path): data})


def write_first(path: str | os.PathLike[str], data: bytes) -> None:
    """Write `data` to `path` where nothing stands yet, whole or not at all.

    Raises OutputError as `write_whole` does, and where there is something, which stays as it is.
    """
    place = Path(path)
    with held_back():
        try:
            if place.is_dir():
                raise IsADirectoryError
            if os.path.lexists(place):
                raise ValueError(_TAKEN)
            with work_folder(place.parent) as room:
                made = room / "0.new"
                _write_new(made, data, None)
                try:
                    os.link(made, place)  # unlike a new name, it never takes the place of a file
                except FileExistsError as fault:
                    raise ValueError(_TAKEN) from fault
                except OSError:  # no second names on this disk
                    made.rename(place)
                _on_disk(place.parent)
        except (OSError, ValueError) as fault:
            raise _refused(place, fault) from fault


def write_together(files: Mapping[str, bytes] | Mapping[Path, bytes]) -> None:
    """Write files by path, in whatever folders: all of them or none, each as `write_whole` does."""
    _write((), {Path(path): data for path, data in files.items()})


def write_folder(folder: str | os.PathLike[str], files: Mapping[str, bytes]) -> list[Path]:
    """Write files by name into `folder`, which is made if it isn't there; return their paths.

    All of them or none: where one can't be written, those before it are as they were, and no
    folder is left that wasn't there. Raises OutputError as `write_whole` does.
    """
    home = Path(folder)
    try:
        missing = _missing(home)
    except (OSError, ValueError) as fault:
        raise _refused(home, fault) from fault
    placed = {home / name: data for name, data in files.items()}
    _write(missing, placed)
    return list(placed)


def _write(folders: Sequence[Path], files: Mapping[Path, bytes]) -> None:
    """Make folders and write files, all or nothing."""
    place = Path()  # the one in hand, for the message
    with held_back(), ExitStack() as undo:
        try:
            for place in folders:
                place.mkdir()
                undo.callback(_quietly, place.rmdir)
            with ExitStack() as work:
                rooms: dict[Path, Path] = {}
                new: dict[Path, Path] = {}
                for place, data in files.items():
                    _refuse_special(place)
                    if place.parent not in rooms:
                        rooms[place.parent] = work.enter_context(work_folder(place.parent))
                    new[place] = rooms[place.parent] / f"{len(new)}.new"
                    _write_new(new[place], data, _mode(place))
                back = {}
                for place in [*new][:-1]:  # after the last one nothing is left to fail
                    back[place] = _way_back(place, new[place].with_suffix(".old"))
                with ExitStack() as exchange:
                    for place, made in new.items():
                        made.replace(place)
                        if place in back:
                            exchange.callback(_quietly, back[place])
                    exchange.pop_all()
                for home in rooms:
                    _on_disk(home)
            undo.pop_all()
        except (OSError, ValueError) as fault:
            raise _refused(place, fault) from fault


def _quietly(step: Callable[[], object]) -> None:
    """Take a step back as far as it goes."""
    with contextlib.suppress(OSError):
        step()


def _missing(home: Path) -> list[Path]:
    """Return the folders to make for `home`, the outermost first; refuse a file in its place."""
    if home.exists() and not home.is_dir():
        raise ValueError("it is a file, not a folder")
    missing = []
    while not home.exists() and home != home.parent:
        missing.append(home)
        home = home.parent
    return missing[::-1]


def _way_back(place: Path, old: Path) -> Callable[[], object]:
    """Return what puts `place` back as it is now; a file there gets `old` as a second name."""
    if not os.path.lexists(place):
        return place.unlink
    try:
        os.link(place, old, follow_symlinks=False)
    except OSError:  # no second names on this disk, or not for this file: a copy does it too
        if place.is_symlink():
            old.symlink_to(place.readlink())
        else:
            _write_new(old, place.read_bytes(), _mode(place))
    return lambda: old.replace(place)


def _mode(place: Path) -> int | None:
    """Return the permissions of the file at `place`, None for a link or where there is no file."""
    try:
        mode = place.lstat().st_mode
    except FileNotFoundError:
        return None
    return mode & 0o777 if stat.S_ISREG(mode) else None


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


def _write_new(file: Path, data: bytes, mode: int | None) -> None:
    """Write to a file that must not be there yet, and wait until the disk has it.

    It gets the permissions `mode`, from its first byte on, or those of any new file.
    """
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    first = 0o666 if mode is None else mode & 0o600
    with open(os.open(file, flags, first), "wb") as made:  # noqa: PTH123 - a descriptor, no path
        if mode is not None:
            file.chmod(mode)
        made.write(data)
        made.flush()
        os.fsync(made.fileno())


def _on_disk(folder: Path) -> None:
    """Wait until the disk has the names in a folder, where the system can do so."""
    with contextlib.suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def _refused(place: Path, fault: OSError | ValueError) -> OutputError:
    return OutputError(f"{_shown(place)}: {_why(fault)}; {_remedy(fault)}")


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
