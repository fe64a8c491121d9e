"""How a knot is tied, stage by stage: plain records, and the sentence each makes in a language.

The records are read off the knot's own curves (`drawing/how_to_steps.py`), so that what is said
is what is drawn. A language is one file here, with a function `sentence(step)`.
"""

from __future__ import annotations

from importlib import import_module
from typing import Literal, NamedTuple, TypeAlias

from knotplot.errors import Refusal
from knotplot.instructions.words import LANGUAGES

#: Where an end is led or pulled, as the maker sees it; "sides": several, each to its own side.
Way: TypeAlias = Literal[
    "left", "right", "up", "down", "up left", "up right", "down left", "down right", "sides"
]
Side: TypeAlias = Literal["left", "right"]
Place: TypeAlias = Literal["outer", "inner"]


class Cords(NamedTuple):
    """Cords of one kind, as they are spoken of together.

    `role` is their role in the knot, or "rod", "bundle" (held together as one), "fold" (that of a
    folded cord), "ends" (of a folded cord) or "self" (those that move). `side` is where working
    cords hang, where both sides have some; `number` how many, 0 for more than are drawn. `place`
    is where of two of one side, where they don't go together; without a side, those of both.
    """

    role: str
    side: Side | None = None
    number: int = 1
    place: Place | None = None


class Pass(NamedTuple):
    """What the moving cord passes next, all of it on one side: over (before it) or under.

    `way` is where it runs there.
    """

    over: bool
    cords: tuple[Cords, ...]
    way: Way = "down"


class Step(NamedTuple):
    """One stage of tying.

    `moves` names the cords in the hand (two kinds where both sides are pulled), `passes` what they
    pass in order, `times` over (a wrap's turns), `through` the number of the pass before which
    they go through a loop, `loop` where a laid loop points, `own` whether a loop of their own is
    made. `again` tells that the step before was the same, `back` that the cords moved before and
    now go back. `first` is the first stage; `tight` draws up what was laid, `done` the last. `tied`
    names knots that are tied before, and how many.
    """

    moves: tuple[Cords, ...]
    passes: tuple[Pass, ...]
    way: Way
    held: tuple[Cords, ...]
    times: int = 1
    through: int | None = None
    loop: Way | None = None
    own: bool = False
    again: bool = False
    back: bool = False
    first: bool = False
    bight: bool = False
    tight: bool = False
    done: bool = False
    tied: tuple[str, int] | None = None


def sentence(step: Step, language: str = "en") -> str:
    """Return what a stage of tying is told in; raise `Refusal` for a language without words."""
    if language not in LANGUAGES:
        known = ", ".join(LANGUAGES)
        raise Refusal("no words in this language", f"use one of {known}", ("language",), language)
    made: str = import_module(f"knotplot.instructions.how_to.{language}").sentence(step)
    return made
