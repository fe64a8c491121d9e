"""Instructions printed: headings and lines of text, unwrapped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module
from types import ModuleType
from typing import Literal, TypeAlias

from knotplot.errors import Refusal
from knotplot.instructions.mounting import Folds
from knotplot.instructions.records import (
    Check,
    ColourOrder,
    Figure,
    Finishing,
    FoldMark,
    Instruction,
    Note,
    Opening,
    OtherColours,
    RowsAgain,
    RowsAs,
    RowWork,
    Section,
    SectionsAgain,
    TrimLine,
    TrimMark,
)
from knotplot.instructions.rows import Left, instructions
from knotplot.instructions.wording import Wording
from knotplot.tying.piece import Piece

Sort: TypeAlias = Literal["intro", "row", "figure", "step", "do", "hint", "fault", "check", "mark"]
LANGUAGES = ("en",)


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading: its number, its text, and its record."""

    number: int
    text: str
    of: Section | SectionsAgain | Finishing


@dataclass(frozen=True, slots=True)
class Printed:
    """A line, unwrapped: what sort it is, its text, and the rows it tells (numbers, from 1).

    Before its `body` stands its `label` or its `number`, where it has one.
    """

    sort: Sort
    body: str
    rows: tuple[int, ...] = ()
    label: str = ""
    number: str = ""

    @property
    def text(self) -> str:
        """The whole line: its label or number, then its text."""
        if self.number:
            return f"({self.number}) {self.body}"
        return f"{self.label}: {self.body}" if self.label else self.body


Line: TypeAlias = Heading | Printed


def words(
    piece: Piece, left: Left | None = None, language: str = "en", folds: Folds = ()
) -> tuple[Line, ...]:
    """Return the instructions of a piece in words, line by line.

    `left` says how much cord (mm) is left below a row by strand and the row's index; without it
    checks don't tell. `folds` says where cords that aren't folded in the middle are; without it the
    words send the maker to the cut list. Raises `Refusal` for a language there are no words in.
    """
    said = _language(language)
    records = instructions(piece, left, folds)
    return tuple(line for record in records for line in _lines(record, said))


def _language(code: str) -> ModuleType:
    if code not in LANGUAGES:
        known = ", ".join(LANGUAGES)
        raise Refusal("no words in this language", f"use one of {known}", ("language",), code)
    return import_module(f"knotplot.instructions.{code}")


def _lines(record: Instruction, said: ModuleType) -> Iterator[Line]:
    wording: Wording = said.say(record)
    match record:
        case Section() | SectionsAgain() | Finishing():
            yield Heading(record.number, wording.body, record)
        case Figure():
            yield _printed("figure", wording)
            for step in record.steps:
                yield _printed("step", said.say(step))
        case RowWork():
            yield _printed("row", wording, tuple(range(record.first, record.last + 1)))
        case RowsAs():
            yield _printed("row", wording, record.rows)
        case RowsAgain(rows=(first, last)):
            yield _printed("row", wording, tuple(range(first, last + 1)))
        case Opening():
            yield _printed("intro", wording)
        case ColourOrder() | OtherColours() | TrimLine():
            yield _printed("do", wording)
        case Check():
            yield _printed("check", wording)
        case TrimMark() | FoldMark():
            yield _printed("mark", wording)
        case Note():
            sorts: dict[str, Sort] = {"do": "do", "hint": "hint", "fault": "fault"}
            yield _printed(sorts[record.manner], wording)


def _printed(sort: Sort, wording: Wording, rows: tuple[int, ...] = ()) -> Printed:
    return Printed(sort, wording.body, rows, wording.label, wording.number)
