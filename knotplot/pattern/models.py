"""The pattern: everything a maker writes, as one frozen model, in YAML or in Python alike."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import Field, PrivateAttr, ValidatorFunctionWrapHandler, model_validator

from knotplot.errors import Fault, Path, PatternError, Refusal, shown
from knotplot.fields import Count, Line, Spec, Text, Written, at_most, in_units, wrong
from knotplot.motifs.motif import Motif
from knotplot.motifs.shipped import Motifs, find_motif
from knotplot.mounts.base import AnyMount
from knotplot.pattern.parts import (
    MOST_SWATCHES,
    Allowance,
    Colours,
    Cord,
    Cords,
    CordUse,
    Cut,
    LowerEdge,
    Opening,
    Size,
    Strands,
    Support,
    Swatch,
    Work,
)
from knotplot.pattern.tree import Source
from knotplot.sections.base import Sections, walk
from knotplot.units import MM, extent_text

VERSION = 1
Units = Literal["mm", "cm", "m", "in", "ft", "yd"]


def _version(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or value < 1:
        raise Refusal("not a version of the pattern format", f"write 'knotplot: {VERSION}'")
    if value > VERSION:
        raise Refusal(
            f"pattern format {value} is newer than this knotplot, which reads format {VERSION}",
            "use a newer knotplot",
        )
    return int(value)


class Pattern(Spec):
    """A pattern with all its measures; bare numbers are in its `units`.

    Made in Python from the keys of a file as keywords, with dicts or models. Raises `PatternError`
    with every fault, as `knotplot.load` does.
    """

    knotplot: Annotated[int, Written(_version, None, {"const": VERSION})]
    title: Line = "Untitled"
    designer: Line | None = None
    version: Line | None = None
    summary: Text | None = None
    skill: Line | None = None
    licence: Line | None = None
    made_for: Line | None = None
    changes: Text | tuple[Text, ...] | None = None
    language: Line = "en"
    units: Units = "cm"
    size: Size | None = None
    opening: Opening | None = None
    sizes: dict[str, dict[str, Any]] = Field(default_factory=dict, max_length=50)
    cord: Cord | None = None
    cords: Cords | None = None
    colours: Colours | None = None
    swatch: Swatch | None = None
    swatches: (
        Annotated[
            tuple[Swatch, ...],
            Field(min_length=1, max_length=MOST_SWATCHES),
            at_most(MOST_SWATCHES),
        ]
        | None
    ) = None
    strands: Strands = Field(default_factory=Strands)
    worked: Literal["flat", "round"] = "flat"
    mount: AnyMount
    sections: Sections
    lower_edge: LowerEdge = Field(default_factory=LowerEdge)
    motifs: dict[str, Motif] = Field(default_factory=dict)
    cord_use: CordUse = Field(default_factory=dict)
    allowance: Allowance = Field(default_factory=Allowance)
    cut: Cut = Field(default_factory=Cut)
    support: Support | None = None
    work: Work | None = None
    kits: Count = 1

    _source: Source = PrivateAttr(default_factory=Source)

    if not TYPE_CHECKING:

        def __init__(self, /, **given: Any) -> None:
            from knotplot.pattern.load import verify

            super().__init__(**given)
            try:
                verify(self)
            except PatternError:  # said again, with the values as they were given
                raise type(self)._keyword_faults(given) from None

        __init__.__pydantic_base_init__ = True

    @classmethod
    def _keyword_faults(cls, given: Mapping[str, Any]) -> PatternError:
        from knotplot.pattern.load import keyword_faults

        return keyword_faults(given)

    @model_validator(mode="wrap")
    @classmethod
    def _in_its_units(cls, data: Any, handler: ValidatorFunctionWrapHandler) -> Any:
        units = data.get("units", "cm") if isinstance(data, Mapping) else "cm"
        with in_units(units if isinstance(units, str) and units in MM else "cm"):
            return handler(data)

    @model_validator(mode="after")
    def _one_of_each(self) -> Pattern:
        for one, other, need in (
            ("size", "opening", True),
            ("cord", "cords", True),
            ("swatch", "swatches", False),
        ):
            given = [key for key in (one, other) if getattr(self, key) is not None]
            if len(given) == 2:
                raise wrong(f"both {one} and {other}", "give one of the two")
            if need and not given:
                raise wrong(f"neither {one} nor {other}", f"give '{one}'")
        return self

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Pattern) and dict(self) == dict(other)

    __hash__ = None  # type: ignore[assignment]  # it holds mappings

    @property
    def width(self) -> Fraction:
        """Return the finished, hanging width in mm."""
        if self.size is not None:
            return self.size.width
        assert self.opening is not None
        return (self.opening.width + 2 * self.opening.overlap) * self.opening.fullness

    @property
    def drop(self) -> Fraction:
        """Return the finished drop in mm, from the top of the support to the lowest point."""
        size = self.size or self.opening
        assert size is not None
        return size.drop

    @property
    def cord_types(self) -> Mapping[str, Cord]:
        """Return the cords by kind, those that are given: `main`, and perhaps `wrap`."""
        if self.cord is not None:
            return {"main": self.cord}
        assert self.cords is not None
        wrap = self.cords.wrap
        return {"main": self.cords.main} | ({"wrap": wrap} if wrap else {})

    @property
    def all_swatches(self) -> tuple[Swatch, ...]:
        """Return the swatches, one or several or none."""
        return (self.swatch,) if self.swatch else self.swatches or ()

    @property
    def all_motifs(self) -> Motifs:
        """Return the motifs by name, the pattern's own over the shipped."""
        return Motifs(self.motifs)

    def motif(self, name: str) -> Motif:
        """Return a motif by name, its own before the shipped; raise `Refusal` for an unknown."""
        return find_motif(name, self.motifs)

    def __repr__(self) -> str:
        return f"Pattern({shown(self.title, 40)}, {extent_text(self.width, self.drop)})"

    @property
    def source(self) -> Source:
        """Return where the pattern was read from, to find the line of a path."""
        return self._source

    def fault(self, refusal: Refusal) -> PatternError:
        """Return a refusal as the fault of this pattern's file, with its line."""
        return PatternError((self.located(self._source.as_written(refusal.fault)),))

    def located(self, fault: Fault) -> Fault:
        """Return a fault with its file and line."""
        return self._source.located(fault)

    def path_of(self, section: str) -> Path:
        """Return the path of the section of that name or, where none is so named, kind."""
        found = {here.label: path for path, here in reversed(tuple(walk(self.sections)))}
        return found.get(section, ("sections",))
