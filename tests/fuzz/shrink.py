"""Making a find small: lines and overrides are left out as long as the find stays."""

from __future__ import annotations

import time
from dataclasses import replace

from fuzz.case import Case, examine

SECONDS = 20.0  # for one find


def shrunk(case: Case, what: str) -> Case:
    """Return the smallest case found that still shows `what`."""
    until = time.process_time() + SECONDS

    def shows(tried: Case) -> bool:
        return time.process_time() < until and any(f == what for f, _ in examine(tried).finds)

    for i in reversed(range(len(case.sets))):
        tried = replace(case, sets=case.sets[:i] + case.sets[i + 1 :])
        case = tried if shows(tried) else case
    for other in (replace(case, size=None), replace(case, command=()), replace(case, drawn=False)):
        case = other if other != case and shows(other) else case
    lines = case.data.splitlines(keepends=True)
    step = max(1, len(lines) // 2)
    while step:
        at = 0
        while at < len(lines):
            tried = replace(case, data=b"".join([*lines[:at], *lines[at + step :]]))
            if shows(tried):
                case, lines = tried, [*lines[:at], *lines[at + step :]]
            else:
                at += step
        step //= 2
    return case
