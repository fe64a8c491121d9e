"""What instructions are made of: plain frozen records, in no language.

Lengths are in mm (a float is always a length); counts, places and row numbers are ints, from 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from knotplot.curves.lower_edge import What

# --- what is done in a row, from left to right ------------------------------------------------


@dataclass(frozen=True, slots=True)
class Leave:
    """Let the next `cords` cords hang."""

    cords: int


@dataclass(frozen=True, slots=True)
class Bare:
    """Leave `length` mm of bare cord above what follows."""

    length: float


@dataclass(frozen=True, slots=True)
class Knot:
    """Tie a knot on the next `cords` cords; `facing` is None where it has none."""

    name: str
    cords: int
    facing: str | None
    workers: int


@dataclass(frozen=True, slots=True)
class FigureName:
    """A motif or a part of it: places `first` to `last` of its `of` places.

    `top` is the last step where only the first ones are worked, else None.
    """

    motif: str
    first: int
    last: int
    of: int
    top: int | None = None

    @property
    def cords(self) -> int:
        """Return on how many cords it is worked."""
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class Motif:
    """Work a motif, or a part of one, on the next cords; `after` of them hang below it."""

    figure: FigureName
    after: int


@dataclass(frozen=True, slots=True)
class Join:
    """Join the next `cords` tails over as many cords; the outer two tails work."""

    name: str
    cords: int
    facing: str | None


@dataclass(frozen=True, slots=True)
class Hang:
    """Hang the next cord on the support by a knot; `cords` cords then hang from it."""

    name: str
    cords: int


@dataclass(frozen=True, slots=True)
class HitchLine:
    """Hitch each of the next `cords` cords onto a separate `leader`, from left to right."""

    name: str
    cords: int
    leader: str
    layer: str


@dataclass(frozen=True, slots=True)
class Wrap:
    """Bind the next `cords` cords with a wrapping `cord`, `height` mm high."""

    name: str
    cords: int
    cord: str
    height: float


@dataclass(frozen=True, slots=True)
class Starred:
    """Do `actions`, `times` times in all."""

    actions: tuple[Action, ...]
    times: int


Action: TypeAlias = Leave | Bare | Knot | Motif | Join | Hang | HitchLine | Wrap | Starred

# --- the steps of a motif, in places of the motif ----------------------------------------------


@dataclass(frozen=True, slots=True)
class Cross:
    """Lay the cord in place `over` across the one in place `under`, its neighbour."""

    over: int
    under: int


@dataclass(frozen=True, slots=True)
class Bar:
    """A row of hitches on the cord that leads from one place to another, worked `times` times.

    `angle` is its fall below the horizontal in degrees, where the maker asked for one.
    """

    name: str
    start: int
    to: int
    times: int = 1
    angle: float | None = None

    @property
    def hitches(self) -> int:
        """Return how many cords are hitched on, once."""
        return abs(self.to - self.start)


@dataclass(frozen=True, slots=True)
class Upright:
    """Vertical hitches: the working cord goes from one place to another over those between."""

    name: str
    start: int
    to: int


@dataclass(frozen=True, slots=True)
class PlacesKnot:
    """A knot on the cords in places `first` to `last`; `picot` mm stand out at each side."""

    name: str
    first: int
    last: int
    facing: str | None
    workers: int
    picot: float = 0.0


@dataclass(frozen=True, slots=True)
class AddCords:
    """Loop `cords` new folded cords by a knot onto the cord in a place.

    Their ends hang to the right of it, or `left`; places are counted with them at once.
    """

    name: str
    place: int
    cords: int
    left: bool

    @property
    def places(self) -> tuple[int, int]:
        """Return the first and the last place of their ends."""
        first = self.place if self.left else self.place + 1
        return first, first + 2 * self.cords - 1


@dataclass(frozen=True, slots=True)
class EndCords:
    """End the cords in `places`, with `length` mm left; places are counted without them at once."""

    places: tuple[int, ...]
    length: float


@dataclass(frozen=True, slots=True)
class Step:
    """One step with its number in the motif."""

    number: int
    what: Cross | Bar | Upright | PlacesKnot | AddCords | EndCords | Bare


@dataclass(frozen=True, slots=True)
class StepsAgain:
    """Steps `like` (first, last) again, `times` more times, as steps `first` to `last`."""

    first: int
    last: int
    like: tuple[int, int]
    times: int


# --- instructions ------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Opening:
    """How the piece begins: cords cut, cords that hang, what they hang on, how they are folded."""

    mount: str
    cut: int
    cords: int
    fold: str = "middle"


@dataclass(frozen=True, slots=True)
class ColourOrder:
    """In which colours the `cut` cords are hung from the left: `unit` so many `times`, then `rest`.

    Runs are (count, colour). With `mirror` that is up to the middle, from where they come back in
    reverse. `folded` tells that each gives two hanging cords.
    """

    cut: int
    unit: tuple[tuple[int, str], ...]
    times: int
    rest: tuple[tuple[int, str], ...]
    mirror: bool
    folded: bool


@dataclass(frozen=True, slots=True)
class OtherColours:
    """The colours of the cords that aren't hung: each with the ids of its cords."""

    cords: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A section begins: `name` is None where the maker gave none; over cords `first` to `last`.

    `layer` is "body" or "tails"; `whole` tells that these are all cords of the piece. The
    mounting has kind "mount" and its own kind as `name`.
    """

    number: int
    name: str | None
    kind: str
    layer: str
    first: int
    last: int
    whole: bool


@dataclass(frozen=True, slots=True)
class Figure:
    """How a motif, or a part of one, is worked."""

    name: FigureName
    steps: tuple[Step | StepsAgain, ...]


@dataclass(frozen=True, slots=True)
class RowWork:
    """Rows `first` to `last`, each worked so, within the section's cords."""

    first: int
    last: int
    actions: tuple[Action, ...]


@dataclass(frozen=True, slots=True)
class RowsAs:
    """Rows (every second one) that are worked as row `like`."""

    rows: tuple[int, ...]
    like: int


@dataclass(frozen=True, slots=True)
class SectionsAgain:
    """Sections `first` to `last` again, `times` more times, each `shift` cords further right."""

    number: int
    first: int
    last: int
    times: int
    shift: int


@dataclass(frozen=True, slots=True)
class RowsAgain:
    """Rows (first, last) that are worked as rows `like`, over other `cords` where not None."""

    rows: tuple[int, int]
    like: tuple[int, int]
    cords: tuple[int, int] | None


@dataclass(frozen=True, slots=True)
class Check:
    """What to measure after a section: how far down it ends, cords free at its sides.

    `cord` is the leftmost cord and `left` what is left of it below, where that is known.
    """

    support: str
    depth: float
    free_left: int
    free_right: int
    layer: str = "body"
    cord: int = 1
    left: float | None = None


@dataclass(frozen=True, slots=True)
class Note:
    """A text by its key, with values: floats are lengths in mm, ints counts.

    `manner` is "do", "hint" or "fault" (a common fault). Where `kind` names a mount or a section,
    the text is one of its own words, and `key` says which.
    """

    key: str
    manner: str = "do"
    values: tuple[tuple[str, float | int | str], ...] = ()
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Finishing:
    """The finishing begins."""

    number: int


@dataclass(frozen=True, slots=True)
class TrimMark:
    """A place to trim: `offset` mm above the string, `x` mm from the left edge; what it is."""

    x: float
    offset: float
    what: What


@dataclass(frozen=True, slots=True)
class TrimLine:
    """How the marks are joined: straight or in a curve, and its corners (mm from the left edge).

    `corner` says what these are, None where there are none.
    """

    straight: bool
    corner: What | None
    corners: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class FoldMark:
    """Where to fold some cords (ids): `length` mm from the end that hangs on the left."""

    length: float
    cords: tuple[str, ...]


Instruction: TypeAlias = (
    Opening
    | ColourOrder
    | OtherColours
    | Section
    | Figure
    | RowWork
    | RowsAs
    | SectionsAgain
    | RowsAgain
    | Check
    | Note
    | Finishing
    | TrimMark
    | TrimLine
    | FoldMark
)
