"""What a fault must be: a place, what is wrong and what to do, in the maker's words."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence

import yaml

from knotplot.errors import Fault

Finds = Iterator[tuple[str, str]]

# Words of Python and of the libraries, which say nothing to a maker.
_LIBRARY = re.compile(
    r"Traceback|please report|pydantic|[Vv]alidation error|Value error|Input should|Literal|"
    r"see the format of patterns|\bNoneType\b|<class|object at 0x|Fraction\(|Decimal\(|"
    r"\b[A-Z][a-z]+Error\b|WrittenFloat|ScalarNode|knotplot\.[a-z]+\.|could not convert"
)
_BREAKING = ("Cc", "Cs", "Zl", "Zp")  # categories of what ends a line, or is no text
_TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"  # turn text round
LONGEST = 1_000  # characters of one message


def fault_finds(faults: Iterable[Fault], data: bytes, file: str) -> Finds:
    """Yield what is wrong with the faults of a file that holds those bytes."""
    lines = re.split(r"\r\n|[\r\n\x85\u2028\u2029]", data.decode("utf-8", "replace"))
    given = data.decode("utf-8", "replace")
    none = True
    for fault in faults:
        none = False
        told = str(fault)
        yield from line_finds(told, given)
        if not fault.problem.strip() or not fault.remedy.strip():
            yield "a fault without problem or remedy", told
        if any(part == "?" for part in fault.path) and "?" not in given:
            yield "? in a path", told
        if fault.origin == file:
            if fault.line is not None and not 1 <= fault.line <= len(lines):
                yield "a line that isn't in the file", told
            yield from _misplaced(fault, lines, told)
        elif not (fault.origin or "").startswith("--"):
            yield "a fault of no file", told
    if none:
        yield "refused without a fault", ""


def _unwritten(path: Sequence[str | int], text: str) -> bool:
    """Tell whether the key a path ends with is left out of the mapping that should have it."""
    try:
        node = yaml.safe_load(text)
        for part in path[:-1]:
            node = node[part]
    except (yaml.YAMLError, LookupError, TypeError, ValueError):
        return False
    return isinstance(node, dict) and path[-1] not in node


def _misplaced(fault: Fault, lines: list[str], told: str) -> Finds:
    """Yield a fault of a key's plain value that points at a line without that key."""
    key = fault.path[-1] if fault.path else None
    if fault.line is None or fault.value is None or not isinstance(key, str):
        return
    if not re.fullmatch(r"[a-z_]+", key) or not 1 <= fault.line <= len(lines):
        return
    line = lines[fault.line - 1]
    if key in line or fault.value.strip("'\"")[:20] in line:
        return
    if not any(key in each for each in lines):
        return
    if not _unwritten(fault.path, "\n".join(lines)):  # else it stands at what should have the key
        yield "a line without the key it is about", f"{told}\n  line: {line}"


def line_finds(line: str, given: str = "") -> Finds:
    """Yield what is wrong with one message."""
    library = _LIBRARY.search(line)
    if library and library[0] not in given:
        yield f"words of a library: {library[0]}", line
    if any(unicodedata.category(c) in _BREAKING or c in _TURNING for c in line):
        yield "a message of more than one line of plain text", repr(line)
    if len(line) > LONGEST:
        yield "a message too long to read", line[:200]
