"""Techniques: ways of working that are no single knots, each taught on a tiny piece of its own.

One file a technique, `NAME.yaml`, found and listed nowhere: its words, its difficulty (1 to 3), a
pattern on a few strands, and its frames. All else is derived: the pattern is tied on the rack, a
frame is drawn as far as it is worked (`deeds.py`), and its sentence is made from the same record.

`frames` says, frame by frame, how many deeds come next: ties as they are worked, and strands that
end. In between may stand looks that work nothing: `lay` shows the next leader laid across before
anything is hitched on it, `low` the next tie before it is pushed up (a picot's), `back`, as the
last, the back of the work where ended strands are worked in. `feature` is what a piece has that
uses the technique (`found.py`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Annotated, Any, Literal

from pydantic import Field, field_validator

from knotplot.discovery import read_shipped, shipped
from knotplot.fields import Line, Spec, Text
from knotplot.pattern.load import verify
from knotplot.pattern.models import VERSION, Pattern
from knotplot.pattern.strand_count import strand_count
from knotplot.pattern.working import work
from knotplot.tying.piece import Piece


class TechniqueWords(Spec):
    """What a technique is called in one language, when it is used, and what goes wrong with it.

    `fault` is the common fault and how to see it.
    """

    one: Line
    when: Text
    fault: Text


class Technique(Spec):
    """A way of working, as its file tells it."""

    words: dict[str, TechniqueWords]
    difficulty: Annotated[int, Field(ge=1, le=3)]
    feature: Line
    frames: Annotated[
        tuple[Annotated[int, Field(ge=1)] | Literal["lay", "low", "back"], ...],
        Field(min_length=3, max_length=6),
    ]
    pattern: Pattern

    @field_validator("pattern", mode="before")
    @classmethod
    def _of_this_format(cls, data: Any) -> Any:
        return {"knotplot": VERSION, **data} if isinstance(data, Mapping) else data


class _Techniques(Mapping[str, Technique]):
    """All techniques by name, sorted; each file is read when it is first asked for."""

    def __getitem__(self, name: str) -> Technique:
        if name not in _names():
            raise KeyError(name)
        return _read(name)

    def __iter__(self) -> Iterator[str]:
        return iter(_names())

    def __len__(self) -> int:
        return len(_names())


def techniques() -> Mapping[str, Technique]:
    """Return every technique by name, sorted."""
    return _Techniques()


@lru_cache(maxsize=64)
def worked(name: str) -> Piece:
    """Return the tiny piece on which a technique is taught."""
    pattern = verify(techniques()[name].pattern)
    return work(pattern, strand_count(pattern).count).piece


@lru_cache(maxsize=1)
def _names() -> tuple[str, ...]:
    return shipped("knotplot.techniques")


@lru_cache(maxsize=64)
def _read(name: str) -> Technique:
    return Technique.model_validate(read_shipped("knotplot.techniques", name))
