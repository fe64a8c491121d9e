"""Which lines of the package a test runs, found with a trace function; caches are seen through.

A value that is cached by one test and used by another would hide its lines from the second. While
a recorder is on, `functools.cache` and `lru_cache` keep the lines of each value beside it, and
whoever takes the value has run them.
"""

from __future__ import annotations

import functools
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

Lines = dict[CodeType, set[int]]
Trace = Callable[[FrameType, str, Any], Any]


class Recorder:
    """Records the lines that run in some files, while `on`."""

    def __init__(self, root: Path, files: set[str]) -> None:
        self._prefix = f"{root}/"
        self._files = files
        self._size: dict[CodeType, int] = {}  # how many lines a code has, 0 for one not recorded
        self._now: Lines = defaultdict(set)

    @contextmanager
    def on(self) -> Iterator[dict[str, set[int]]]:
        """Record inside this block; what is found stands in the result after it, by file."""
        found: dict[str, set[int]] = {}
        before, self._now = self._now, defaultdict(set)
        sys.settrace(self._call)
        try:
            yield found
        finally:
            sys.settrace(None)
            for code, lines in self._now.items():
                found.setdefault(code.co_filename.removeprefix(self._prefix), set()).update(lines)
            self._now = before

    def _call(self, frame: FrameType, event: str, arg: Any) -> Trace | None:
        code = frame.f_code
        size = self._size.get(code)
        if size is None:
            own = code.co_filename.removeprefix(self._prefix) in self._files
            size = len({line for *_, line in code.co_lines() if line}) if own else 0
            self._size[code] = size
        if not size:
            return None
        seen = self._now[code]
        if len(seen) >= size:
            return None
        seen.add(frame.f_lineno)
        return self._line

    def _line(self, frame: FrameType, event: str, arg: Any) -> Trace:
        if event == "line":
            self._now[frame.f_code].add(frame.f_lineno)
        return self._line

    # --- caches ----------------------------------------------------------------------------------

    def see_through_caches(self) -> None:
        """Let caches that are made from now on keep the lines of their values."""
        real = functools.lru_cache

        def lru_cache(maxsize: Any = 128, typed: bool = False) -> Any:
            if callable(maxsize):
                return self._kept(real(128, typed)(maxsize), maxsize)
            return lambda function: self._kept(real(maxsize, typed)(function), function)

        functools.lru_cache = lru_cache  # type: ignore[assignment]
        functools.cache = lambda function: self._kept(real(None)(function), function)  # type: ignore[assignment]

    def _kept(self, cached: Any, function: Any) -> Any:
        lines: dict[Any, Lines] = {}

        @functools.wraps(function)
        def call(*args: Any, **kwargs: Any) -> Any:
            key = functools._make_key(args, kwargs, False)
            known = lines.get(key)
            if known is None:
                before, self._now = self._now, defaultdict(set)
                try:
                    return cached(*args, **kwargs)
                finally:
                    lines[key] = known = self._now
                    self._now = before
                    self._merge(known)
            self._merge(known)
            return cached(*args, **kwargs)

        call.cache_clear = cached.cache_clear  # type: ignore[attr-defined]
        call.cache_info = cached.cache_info  # type: ignore[attr-defined]
        call.cache_parameters = cached.cache_parameters  # type: ignore[attr-defined]
        return call

    def _merge(self, lines: Lines) -> None:
        for code, seen in lines.items():
            self._now[code] |= seen
