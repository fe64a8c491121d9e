"""Colours of cord on the sheet: what they are called, and a disc in each beside its name."""

from __future__ import annotations

from typing import NamedTuple

from knotplot.drawing.shapes import Disc, Style
from knotplot.drawing.theme import contrast, ink
from knotplot.sheet.paper import Face
from knotplot.sheet.subject import Subject

RADIUS = 1.45  # mm
DISC = 2.0 * RADIUS + 1.3  # mm that a disc takes before the words beside it
_LEAST = 3.0  # contrast on paper, below which a disc has an outline


def disc(colour: str, x: float, y: float, face: Face) -> Disc:
    """Return a disc of `#rrggbb` at the left of a line of text that begins at (x, y).

    It has an outline where it would hardly be seen on paper.
    """
    pale = contrast(ink(colour).light, ink("paper").light) < _LEAST
    style = Style("quiet" if pale else None, 0.2, fill=colour)
    return Disc(style, ((x + RADIUS, y + face.lead / 2.0),), RADIUS)


class Dyed(NamedTuple):
    """A colour's name, and its ink (`#rrggbb`) for the disc before it, if it has one."""

    text: str
    ink: str | None


def dyed(subject: Subject, colour: str | None) -> Dyed:
    """Return a colour of the piece as it is told, a dash for none."""
    if colour is None:
        return Dyed(subject.say("none"), None)
    return Dyed(colour, subject.piece.colours.palette.get(colour))


def coloured(subject: Subject) -> bool:
    """Tell whether any cord of the piece has a colour."""
    return any(cord.colour is not None for cord in subject.piece.cords)


def with_colour(subject: Subject, what: str, colour: str | None) -> str:
    """Return what cords are, with their colour where they have one."""
    return what if colour is None else subject.say("of colour", what=what, colour=colour)
