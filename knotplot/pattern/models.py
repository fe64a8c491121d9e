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
from knotplot.pattern.cord_parts import Colours, Cord, Cords
from knotplot.pattern.edge_part import LowerEdge
from knotplot.pattern.parts import (
    MOST_SWATCHES,
    Allowance,
    CordUse,
    Cut,
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
    """The version of this format: the first line of every pattern file. Example: `1`."""
    title: Line = "Untitled"
    """What the piece is called. Example: `Tidewater café curtain`."""
    designer: Line | None = None
    """Who designed it. Example: `A. Knotter`."""
    version: Line | None = None
    """The version of this pattern. Example: `"1.0"`."""
    summary: Text | None = None
    """What it is, in a few sentences, for the cover of the sheet.
    Example: `A short curtain for the lower half of a window.`.
    """
    skill: Line | None = None
    """Whom it suits. Example: `confident beginner`."""
    licence: Line | None = None
    """What others may do with the sheet, and with pieces made from it.
    Example: `You may sell what you make from this sheet.`.
    """
    made_for: Line | None = None
    """The place or person it was made for. Example: `a galley window 92 cm wide`."""
    changes: Text | tuple[Text, ...] | None = None
    """What changed from version to version: a text, or a list of texts.
    Example: `["1.1: a longer fringe"]`.
    """
    language: Line = "en"
    """The language of words and sheets. Example: `en`."""
    units: Units = "cm"
    """What a bare number is in, where a length may be one. Example: `in`."""
    size: Size | None = None
    """The finished piece, as it hangs. Give this or `opening`.
    Example: `{width: 92 cm, drop: 84 cm}`.
    """
    opening: Opening | None = None
    """What the piece covers, in place of `size`; overlap and fullness are added to its width.
    Example: `{width: 80 cm, drop: 60 cm, overlap: 3 cm, fullness: 1.3}`.
    """
    sizes: dict[str, dict[str, Any]] = Field(default_factory=dict, max_length=50)
    """Named sizes: in each what is different from this pattern, sections by their name. Ask for one
    with `--size`.
    Example: `{tall: {size: {drop: 120 cm}, sections: {net: {rows: 12}}}}`.
    """
    cord: Cord | None = None
    """The cord that the piece is made of. Give this or `cords`.
    Example: `{diameter: 4 mm, spool: 100 m, price_per_spool: 18.50 EUR}`.
    """
    cords: Cords | None = None
    """Cords by what they are for, in place of `cord`.
    Example: `{main: {diameter: 4 mm}, wrap: {diameter: 3 mm}}`.
    """
    colours: Colours | None = None
    """The colours of the cords; without it all are alike.
    Example: `{order: [natural*6, rust*2], mirror: true}`.
    """
    swatch: Swatch | None = None
    """A sample that you knotted and measured.
    Example: `{strands: 20, width: 13.1 cm, hung_width: 14 cm, rows: 4, height: 7.2 cm}`.
    """
    swatches: (
        Annotated[
            tuple[Swatch, ...],
            Field(min_length=1, max_length=MOST_SWATCHES),
            at_most(MOST_SWATCHES),
        ]
        | None
    ) = None
    """Several samples, in place of `swatch`, each `of` its own section.
    Example: `[{of: net, strands: 20, width: 13.1 cm}, {of: lace, rows: 2, height: 9 cm}]`.
    """
    strands: Strands = Field(default_factory=Strands)
    """How many strands the piece has: said, or how to round what the swatch gives.
    Example: `{count: 88}`.
    """
    worked: Literal["flat", "round"] = "flat"
    """Whether it is worked flat or in the round. Example: `flat`."""
    mount: AnyMount
    """How the cords are hung. Example: `{kind: larks_head, rod: 20 mm}`."""
    sections: Sections
    """The work, from top to bottom.
    Example: `[{name: net, kind: square_knot_mesh, rows: 6}, {kind: fringe, length: 10 cm}]`.
    """
    lower_edge: LowerEdge = Field(default_factory=LowerEdge)
    """The line that the piece is trimmed along; without it, it is level.
    Example: `{profile: parabola, rise: 9 cm}`.
    """
    motifs: dict[str, Motif] = Field(default_factory=dict)
    """Motifs of your own, by name; those that come with knotplot need not be written.
    Example: `{bar: {strands: 4, steps: [{hitch: {lead: 1, to: 4}}, {hitch: {lead: 4, to: 1}}]}}`.
    """
    cord_use: CordUse = Field(default_factory=dict)
    """What cord a knot takes in your hands, by knot and by the role of a strand, in cord diameters;
    it wins over the numbers that come with knotplot.
    Example: `{square_knot: {working: 12.0, filler: 4.0}}`.
    """
    allowance: Allowance = Field(default_factory=Allowance)
    """How sure you want to be that no cord comes out short. Example: `{confidence: 0.99}`."""
    cut: Cut = Field(default_factory=Cut)
    """How many different lengths the cut list may have, and what they are rounded up to.
    Example: `{groups: 4, step: 5 cm}`.
    """
    support: Support | None = None
    """The rod that the piece hangs on, for its sag and load.
    Example: `{material: pine, diameter: 20 mm, span: 95 cm}`.
    """
    work: Work | None = None
    """What a commission costs, for a quote.
    Example: `{rate: 22 EUR, overhead: 15 %, markup: 30 %, tax: 20 %}`.
    """
    kits: Count = 1
    """How many pieces cord is cut for. Example: `1`."""

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
    def swatches_at(self) -> tuple[tuple[Path, Swatch], ...]:
        """Return the swatches, each with its place in the file."""
        if self.swatch:
            return ((("swatch",), self.swatch),)
        return tuple((("swatches", i), each) for i, each in enumerate(self.swatches or ()))

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
