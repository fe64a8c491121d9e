"""Techniques used: ways of working that are no single knots, each on a few cords, in frames."""

from __future__ import annotations

from collections.abc import Sequence

from knotplot.drawing.shapes import Anchor, Item
from knotplot.drawing.technique_frames import technique_frames
from knotplot.sheet.flow import Strip, led, tied
from knotplot.sheet.frame_rows import anchor_of, fault_strips, frame_row
from knotplot.sheet.paper import BODY, CELL, LABEL, NOTE, SECTION
from knotplot.sheet.setting import beside, heading, line, lines_of, paragraph
from knotplot.sheet.subject import Subject, Told
from knotplot.sheet.words import Words
from knotplot.techniques import techniques
from knotplot.techniques.found import used_techniques
from knotplot.tying.names import capital

PICTURED = 4  # techniques of a piece, the hardest, that its sheet shows; others are told in words


def its_techniques(subject: Subject) -> list[Strip]:
    """Return the techniques of a piece, below the heading they share; nothing where it has none."""
    names = used_techniques(subject.piece)
    strips = techniques_heading(subject) if names else []
    for number, name in enumerate(names):
        space = 7.0 if number else 2.0
        pictured = number >= len(names) - PICTURED
        strips += technique_strips(subject, name, space, pictured=pictured)
    return strips


def techniques_heading(told: Told) -> list[Strip]:
    """Return what stands above all techniques: what they are, and whose numbers they name."""
    say, measure = told.say, told.paper.measure
    strips = heading(say("techniques"), measure, SECTION, 11.0)
    return [*strips, *led(paragraph(say("techniques lead"), measure, NOTE))]


def technique_strips(
    told: Told, name: str, space: float, left_handed: bool = False, pictured: bool = True,
    facts: Sequence[Strip] = (),
) -> list[Strip]:  # fmt: skip
    """Return one technique: its name, when it is used, its frames in rows, and its fault.

    Where it isn't `pictured` its frames are told in words alone. It may be parted between two rows
    of frames, nowhere else.
    """
    say, measure = told.say, told.paper.measure
    words = techniques()[name].words[say.language]
    made = technique_frames(name, left_handed, say.language)
    across = 4 if len(made) == 4 else 3
    rows = (
        [frame_row(made, first, across, measure) for first in range(0, len(made), across)]
        if pictured
        else paragraph(" ".join(frame.text for frame in made), measure, CELL, 0.0, 1.0)
    )
    above = [
        _head(told, name, words.one, space),
        *led([*paragraph(words.when, measure, NOTE), *facts]),
        *rows[:-1],
    ]
    below = [*rows[-1:], *fault_strips(told, words.fault)]
    return [*(led(above) if len(rows) == 1 else tied(above)), *tied(below)]


def technique_facts(told: Told, name: str) -> list[Strip]:
    """Return how hard a technique is, beside its label."""
    hard = told.say(f"difficulty {techniques()[name].difficulty}")
    body = paragraph(hard, told.paper.main, BODY, told.paper.measure - told.paper.main)
    return beside(told.say("difficulty"), body, 2.0, LABEL)


def technique_name(name: str, say: Words) -> str:
    """Return what a technique is called."""
    return techniques()[name].words[say.language].one


def technique_in_one_line(name: str, say: Words) -> str:
    """Return what a technique is called, when it is used and how hard it is, as in a list."""
    mine = techniques()[name]
    words = mine.words[say.language]
    return f"{words.one}: {say(f'difficulty {mine.difficulty}')}; {words.when}"


def _head(told: Told, name: str, one: str, space: float) -> Strip:
    """Return a technique's name, with its anchor."""
    title = capital(one)
    lines = lines_of(title, told.paper.measure, SECTION)
    set_lines = [line(text, SECTION, 0.0, i * SECTION.lead) for i, text in enumerate(lines)]
    items: tuple[Item, ...] = (Anchor(anchor_of(name), -2.0, title, 1), *set_lines)
    return Strip(len(lines) * SECTION.lead, items, space)
