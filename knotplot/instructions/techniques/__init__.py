"""How a technique is worked, frame by frame: plain records, and the sentence each makes.

The records are read off the deeds of a piece (`drawing/technique_steps.py`), so that what is said
is what is tied and drawn. Cords have the numbers that stand above them in the picture. A language
is one file here, with a function `sentence(steps)`.
"""

from __future__ import annotations

from importlib import import_module
from typing import NamedTuple, TypeAlias

from knotplot.errors import Refusal
from knotplot.instructions.how_to import Side, Way
from knotplot.instructions.words import LANGUAGES


class Lay(NamedTuple):
    """A leader (None: a separate one) is laid straight over cords, in the order it meets them."""

    leader: int | None
    over: tuple[int, ...]
    way: Way


class Hitch(NamedTuple):
    """Cords are hitched onto a leader in turn; `again`: as others were on it just before."""

    name: str
    cords: tuple[int, ...]
    leader: int | None
    again: bool


class Upright(NamedTuple):
    """A working cord is hitched round others in turn; it first passes `over` or under them.

    `again`: as round others in the same direction just before; `back`: in the other one.
    """

    name: str
    worker: int
    leaders: tuple[int, ...]
    over: bool
    way: Way
    again: bool
    back: bool


class Passing(NamedTuple):
    """Cords that the first one passes next, all `over` or under them."""

    over: bool
    cords: tuple[int, ...]


class Tie(NamedTuple):
    """A knot on cords, left to right as they hang; `first` begins it and passes others so.

    `first` is None where all are tied as one. `side` is where the first hangs, `pulled` which are
    pulled at the end, `wrapped` tells that a cord of its own is wound round them. `above` is how
    many cords it takes of each knot above where they come from several, and `idle` which hang on
    beside it then. `below` tells that the very cords were tied just before, `bare` how much cord
    (mm) is left bare above it.
    """

    name: str
    cords: tuple[int, ...]
    first: int | None = None
    passes: tuple[Passing, ...] = ()
    side: Side | None = None
    pulled: tuple[int, ...] = ()
    wrapped: bool = False
    above: int | None = None
    idle: tuple[int, ...] = ()
    below: bool = False
    bare: float = 0.0


class More(NamedTuple):
    """`times` more of a knot on the cords just tied, each begun with the cord at that side.

    `turns`: the next with the cord at the other side, and so on in turn.
    """

    name: str
    times: int
    side: Side | None
    turns: bool = False


class Push(NamedTuple):
    """The knot that was tied low is pushed up: the bare cord of its outer cords makes loops.

    `again`: as the one above it was.
    """

    name: str
    cords: tuple[int, ...]
    held: tuple[int, ...]
    again: bool = False


class Add(NamedTuple):
    """A folded cord is looped onto a cord by a knot; its `ends` hang at one side.

    `front` tells that the bar of its loop lies in front.
    """

    name: str
    on: int
    ends: tuple[int, ...]
    side: Side
    front: bool


class Cross(NamedTuple):
    """One cord is laid over its neighbour, and they change places."""

    over: int
    under: int


class End(NamedTuple):
    """Cords end; `length` mm of each are left at the back."""

    cords: tuple[int, ...]
    length: float


class WorkIn(NamedTuple):
    """The work is turned over, and the ends of cords are drawn up under the back of a knot."""

    cords: tuple[int, ...]
    name: str


Step: TypeAlias = Lay | Hitch | Upright | Tie | More | Push | Add | Cross | End | WorkIn


def sentence(steps: tuple[Step, ...], language: str = "en") -> str:
    """Return what a frame is told in; raise `Refusal` for a language without words."""
    if language not in LANGUAGES:
        known = ", ".join(LANGUAGES)
        raise Refusal("no words in this language", f"use one of {known}", ("language",), language)
    made: str = import_module(f"knotplot.instructions.techniques.{language}").sentence(steps)
    return made
