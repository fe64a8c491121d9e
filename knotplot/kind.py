"""What every kind of part brings along: its traits, and its words in each language.

A mount or a section is one class in one file. What other rooms need to know of it stands there
too, so that none of them names a kind.
"""

from __future__ import annotations

from abc import ABC
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

from knotplot.fields import Kinded
from knotplot.tying.piece import Row


@dataclass(frozen=True, slots=True)
class KindWords:
    """What a kind is called in one language.

    `heading` stands above its instructions, `one` and `many` in a sentence, with their article:
    alike for a thing of many parts, as “the motifs”. `caption` stands beside it in a drawing.
    `fault` says what goes wrong, and how it is seen; {knot} in it stands for the usual fault of the
    knot that it is made of. `hint` says how it is worked best, or nothing.
    """

    heading: str
    one: str
    many: str
    caption: str
    fault: str
    hint: str = ""


class Kind(Kinded, ABC):
    """A mount or a section: what all of one kind have in common.

    Raises `TypeError` where a kind is defined without its English words.
    """

    kind: str
    words: ClassVar[Mapping[str, KindWords]] = {}

    #: It only holds other sections, and is never called by a name itself.
    holds: ClassVar[bool] = False
    #: What a swatch that names no section is taken for: the kind of the lowest rank in the piece.
    #: None for a kind that isn't knotted in rows, of which no swatch can be.
    swatch_rank: ClassVar[int | None] = None
    #: Rows of square knots on four strands, as close below each other as the maker pushes them.
    net: ClassVar[bool] = False
    #: Hitches side by side, which can be pulled together.
    hitched: ClassVar[bool] = False
    #: Nothing holds it wider than its cords lie side by side.
    own_width: ClassVar[bool] = False
    #: Its cords are drawn together on purpose.
    bundled: ClassVar[bool] = False
    #: All its ties are of one knot, whose usual fault is its own too.
    one_knot: ClassVar[bool] = False

    @classmethod
    def __pydantic_init_subclass__(cls, **_: Any) -> None:
        named = isinstance(cls.model_fields["kind"].default, str)
        if named and not cls.holds and "en" not in cls.words:
            raise TypeError(f"{cls.__name__} has no English words; give it words = {{'en': …}}")

    @classmethod
    def hints(cls, side_by_side: bool) -> bool:
        """Tell whether its hint is printed, where several shapes may stand `side_by_side`."""
        return any(words.hint for words in cls.words.values())

    @classmethod
    def features(cls, rows: Sequence[Row], adds: bool) -> Iterator[str]:
        """Yield what ways of working its rows show; `adds` tells of a piece with added cords."""
        yield from ()
