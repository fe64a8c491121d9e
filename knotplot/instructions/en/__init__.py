"""English: every word of the printed instructions, put together from records; a file a part.

Another language is one more package like this one, with the same public names. A record or a key
without words here is an error, never silence. Terms are those of the United States; the glossary
has others.
"""

from __future__ import annotations

from typing import assert_never

from knotplot.instructions.en.finishing import trim_line, trim_mark
from knotplot.instructions.en.glossary import GLOSSARY
from knotplot.instructions.en.mounting import colour_order, fold_mark, opening, other_colours
from knotplot.instructions.en.notes import note
from knotplot.instructions.en.rows import row_line
from knotplot.instructions.en.sections import again_heading, check, section_heading
from knotplot.instructions.en.steps import figure_line, step_line
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
    Step,
    StepsAgain,
    TrimLine,
    TrimMark,
)
from knotplot.instructions.wording import Wording

__all__ = ["GLOSSARY", "say"]


def say(record: Instruction | Step | StepsAgain) -> Wording:
    """Return the sentence (or heading) for one record, with its label or number."""
    match record:
        case Opening():
            return Wording(opening(record))
        case ColourOrder():
            return Wording(colour_order(record))
        case OtherColours():
            return Wording(other_colours(record))
        case FoldMark():
            return Wording(fold_mark(record))
        case Section():
            return Wording(section_heading(record))
        case SectionsAgain():
            return Wording(again_heading(record))
        case RowWork() | RowsAs() | RowsAgain():
            return row_line(record)
        case Figure():
            return Wording(figure_line(record))
        case Step() | StepsAgain():
            return step_line(record)
        case Check():
            return check(record)
        case Note():
            return note(record)
        case TrimMark():
            return Wording(trim_mark(record))
        case TrimLine():
            return Wording(trim_line(record))
        case Finishing():
            return Wording(f"{record.number}. Finishing")
    assert_never(record)
