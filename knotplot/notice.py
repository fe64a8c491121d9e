"""What a maker should know before cutting: a record for each thing noticed, in no language.

Whoever notices something says what it is, where, and with which values; `notices` has the words.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from knotplot.errors import Path

Value: TypeAlias = "bool | int | float | Fraction | str | tuple[Value, ...] | None"
Severity: TypeAlias = Literal["warning", "doubt", "advice"]


@dataclass(frozen=True, slots=True)
class Notice:
    """One thing noticed: its `key`, the `path` in the pattern it is about, and its `values`.

    Values are raw: lengths in mm, counts, names; a section is its (name, kind). `severity` is what
    a maker does with it. A "warning": the piece comes out otherwise than asked, or doesn't hold,
    so the pattern is changed before anything is cut. A "doubt": a figure of the file is missing,
    isn't used or looks wrong, so it is checked. "advice": the piece comes out as asked, and could
    take less cord or be surer; it may be left.
    """

    key: str
    path: Path
    severity: Severity
    values: Mapping[str, Value]

    @property
    def said(self) -> Hashable:
        """What it says, wherever in the pattern: alike for two notices of the same words."""
        return self.key, tuple(sorted(self.values.items()))
