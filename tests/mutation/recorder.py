"""Which lines of the package a test runs, found with a trace function; caches are seen through.

A value that is cached by one test and used by another would hide its lines from the second. While
a recorder is on, `functools.cache` and `lru_cache` keep the lines of each value beside it, and
whoever takes the value has run them.
"""

from __future__ import annotations

import functools
import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

#: Calls of one function in one test that are followed line by line: later ones seldom run lines
#: that none of these did, and following all of them takes hours.
FOLLOWED = 60

Lines = dict[CodeType, set[int]]
Trace = Callable[[FrameType, str, Any], Any]


class Recorder:
    """Records the lines that run in some files, while `on`."""

    def __init__(self, root: Path, files: set[str]) -> None:
        self._prefix = f"{root}/"
        self._files = files
        self._size: dict[CodeType, int] = {}  # how many lines a code has, 0 for one not recorded
        self._now: Lines = defaultdict(set)
        self._calls: Counter[CodeType] = Counter()
        self._merged: set[int] = set()  # lines of cached values that stand in `_now` already

    @contextmanager
    def on(self) -> Iterator[dict[str, set[int]]]:
        """Record inside this block; what is found stands in the result after it, by file."""
        found: dict[str, set[int]] = {}
        before, self._now = self._now, defaultdict(set)
        self._calls.clear()
        self._merged.clear()
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
        self._calls[code] += 1
        if len(seen) >= size or self._calls[code] > FOLLOWED:
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
                merged, self._merged = self._merged, set()
                try:
                    return cached(*args, **kwargs)
                finally:
                    lines[key] = known = self._now
                    self._now, self._merged = before, merged
                    self._merge(known)
            self._merge(known)
            return cached(*args, **kwargs)

        call.cache_clear = cached.cache_clear  # type: ignore[attr-defined]
        call.cache_info = cached.cache_info  # type: ignore[attr-defined]
        call.cache_parameters = cached.cache_parameters  # type: ignore[attr-defined]
        return call

    def _merge(self, lines: Lines) -> None:
        if id(lines) in self._merged:
            return
        self._merged.add(id(lines))
        for code, seen in lines.items():
            self._now[code] |= seen
