"""The inks a drawing may name, in a light and a dark scheme.

Light is for paper and day, dark for screens at night. Meaning is told in the colours of Okabe and
Ito (jfly.uni-koeln.de/color, 2002), of which the dark scheme takes lighter ones or lightens
them; nothing may be told by colour alone. A colour of the maker's own is written `#rrggbb` in
place of an ink's name and is the same in both schemes.
"""

from __future__ import annotations

import re
from typing import NamedTuple


class Ink(NamedTuple):
    """One ink as `#rrggbb` in the light and in the dark scheme."""

    light: str
    dark: str


INKS: dict[str, Ink] = {
    "ink": Ink("#231d18", "#f0e9df"),  # text and what matters
    "quiet": Ink("#635a50", "#b9afa2"),  # secondary text
    "line": Ink("#8a7f72", "#958a7c"),  # thin structure: 3:1 or more, so that it can be seen
    "faint": Ink("#dbd3c8", "#48413a"),  # grids and rules that may recede
    "tint": Ink("#f6f2ea", "#2b2723"),  # panels under text
    "paper": Ink("#ffffff", "#1d1a17"),
    "cord": Ink("#e9dfcd", "#d8ccb6"),  # unbleached cotton
    "cord-shade": Ink("#c7b699", "#ab9a7d"),  # its turned-away side
    "cord-glint": Ink("#f6f0e4", "#e8dfce"),  # where the light meets it
    "cord-groove": Ink("#a5906c", "#84745a"),  # between its plies
    "cord-edge": Ink("#5c4a35", "#30261a"),  # the outline that parts cord from cord
    "ground": Ink("#ede5d6", "#46392b"),  # under a knot's lines in a chart: they stand out on it
    "wood": Ink("#b98d5b", "#8a6740"),  # rods and branches
    "wood-light": Ink("#c89f6d", "#9b774d"),
    "wood-glint": Ink("#d9b98d", "#b08f64"),
    "wood-shade": Ink("#a37a4c", "#735434"),
    "wood-dark": Ink("#8a6540", "#5f452b"),
    # The cord in the hand, in Okabe and Ito's two blues, and the arrow it moves by.
    "hand": Ink("#6fbdec", "#5fb0e2"),
    "hand-shade": Ink("#3b96cc", "#2f83b5"),
    "hand-glint": Ink("#a9daf6", "#9bd2f2"),
    "hand-groove": Ink("#1f6a99", "#17567d"),
    "hand-edge": Ink("#00304d", "#082a3f"),
    "arrow": Ink("#00304d", "#bfe3fa"),
    "accent": Ink("#0072b2", "#56b4e9"),  # blue, sky blue
    "accent2": Ink("#d55e00", "#f0883a"),  # vermilion
    "accent3": Ink("#009e73", "#35c79b"),  # bluish green
}


class CordInks(NamedTuple):
    """The inks one cord is painted in: outline, turned-away side, lit side, glint, grooves."""

    edge: str
    shade: str
    body: str
    glint: str
    groove: str


DARK = "#1c130a"  # what the shade of dyed cord is mixed with
LEAST = 1.8  # contrast of a cord with its outline

#: Cord of no named colour.
CORD = CordInks("cord-edge", "cord-shade", "cord", "cord-glint", "cord-groove")

#: The cord in the hand where a knot is taught.
HAND = CordInks("hand-edge", "hand-shade", "hand", "hand-glint", "hand-groove")

#: Inks that text may have: at least 4.5:1 on `paper`, `tint` and `faint` in both schemes.
TEXT_INKS: tuple[str, ...] = ("ink", "quiet")

_HEX = re.compile(r"#[0-9a-f]{6}")


def ink(name: str) -> Ink:
    """Return the ink called `name`, or the colour `#rrggbb` as an ink.

    Raises ValueError for any other name.

    >>> ink("paper").light, ink("#A4502F").dark
    ('#ffffff', '#a4502f')
    """
    known = INKS.get(name)
    if known is not None:
        return known
    colour = name.lower()
    if not _HEX.fullmatch(colour):
        raise ValueError(f"no ink is called {name!r}: use one of {', '.join(INKS)} or #rrggbb")
    return Ink(colour, colour)


def cord_inks(colour: str) -> CordInks:
    """Return the inks of a cord dyed `#rrggbb`: darker on its turned-away side, lighter in light.

    >>> cord_inks("#a4502f").body
    '#a4502f'
    """
    body = ink(colour).light
    edge = mixed(body, DARK, 0.62)
    deep = contrast(edge, body) < LEAST  # so dark that only light tells its edges
    return CordInks(
        edge=mixed(body, "#ffffff", 0.4) if deep else edge,
        shade=mixed(body, DARK, 0.24),
        body=body,
        glint=mixed(body, "#ffffff", 0.3),
        groove=mixed(body, "#ffffff", 0.22) if deep else mixed(body, DARK, 0.42),
    )


def mixed(one: str, other: str, share: float) -> str:
    """Return the colour a `share` of the way from one `#rrggbb` to another.

    >>> mixed("#000000", "#ffffff", 0.5)
    '#808080'
    """
    pairs = ((int(one[i : i + 2], 16), int(other[i : i + 2], 16)) for i in (1, 3, 5))
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


def luminance(colour: str) -> float:
    """Return the relative luminance of `#rrggbb`, 0 to 1, as WCAG 2.2 defines it."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours `#rrggbb`, 1 to 21 (WCAG 2.2).

    >>> round(contrast("#000000", "#ffffff"), 3)
    21.0
    """
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)
