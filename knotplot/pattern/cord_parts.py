"""The cords of a pattern: how thick they are, how made, what they cost, and their colours."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import Field, model_validator

from knotplot.errors import Refusal
from knotplot.fields import (
    Colour,
    Flag,
    Line,
    MassPerLength,
    Price,
    Spec,
    SpoolSize,
    UnitLength,
    Written,
    at_most,
    colour_name,
    wrong,
)
from knotplot.tying.colouring import Run

MOST_RUNS = 1000
_LONGEST_RUN = 200  # characters of a colour and its count


class Cord(Spec):
    """A cord: how thick it is and how it is made; what a spool of it holds and costs.

    Example: `{diameter: 4 mm, construction: braided, spool: 100 m}`.
    """

    diameter: UnitLength
    """How thick it is in a knot: wind it ten times round a pencil, turns touching but not squeezed,
    and take a tenth of their width.
    Example: `4 mm`.
    """
    construction: Literal["twisted", "braided", "single"] = "twisted"
    """How it is made: `twisted` of plies, `braided`, or `single`, one loose strand that combs out.
    Example: `braided`.
    """
    fibre: Line | None = None
    """What it is made of, as sold; its weight is estimated from that, as cotton's where it isn't
    said.
    Example: `cotton`.
    """
    mass_per_length: MassPerLength | None = None
    """What a metre weighs, in grams: weigh 10 m and take a tenth. Without it the weight is
    estimated.
    Example: `9.6 g/m`.
    """
    spool: SpoolSize | None = None
    """What one spool holds, by length or by weight; as many as needed are bought.
    Example: `100 m`, `1 kg`.
    """
    spools: Annotated[tuple[SpoolSize, ...], Field(min_length=1)] | None = None
    """The very spools at hand, in place of `spool`. Example: `[100 m, 37 m]`."""
    price_per_spool: Price | None = None
    """What one spool costs. Example: `18.50 EUR`."""

    @model_validator(mode="after")
    def _one_of_spool_and_spools(self) -> Cord:
        if self.spool is not None and self.spools is not None:
            raise wrong("both spool and spools", "give one of the two")
        return self


class Cords(Spec):
    """Cords by what they are for, in place of `cord`.

    Example: `{main: {diameter: 4 mm}, wrap: {diameter: 3 mm}}`.
    """

    main: Cord
    """The cord that is knotted, and that leaders are cut from. Example: `{diameter: 4 mm}`."""
    wrap: Cord | None = None
    """The cord that gathers and tassels are wrapped with; without it, the main cord.
    Example: `{diameter: 3 mm}`.
    """


def _run(value: object) -> Run:
    text = value if isinstance(value, str) and len(value) <= _LONGEST_RUN else "*"
    colour, star, count = (part.strip(" ") for part in text.partition("*"))
    counted = re.fullmatch("[0-9]{1,5}", count) if star else None
    if not colour or (star and (not counted or not int(count))):
        raise Refusal("not a run of one colour", "write a colour and a count, like 'natural*6'")
    return Run(colour_name(colour), int(count) if star else 1)


def _hex(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"#[0-9a-fA-F]{6}", value):
        raise Refusal("not a colour", 'write six hexadecimal digits in quotes, like "#a4502f"')
    return value.lower()


ColourRun = Annotated[
    Run, Written(_run, str, {"type": "string", "pattern": r"^[^*]+(\* *[0-9]+)?$"}, (Run,))
]
Hex = Annotated[str, Written(_hex, None, {"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"})]


class Colours(Spec):
    """The colours of the main cords, from the left.

    Example: `{order: [natural*6, rust*2], mirror: true}`.
    """

    order: Annotated[
        tuple[ColourRun, ...], Field(min_length=1, max_length=MOST_RUNS), at_most(MOST_RUNS)
    ]
    """The colours of the cords as they are mounted, from the left, again and again; `rust*2` is two
    cords of rust. Both strands of a folded cord have one colour.
    Example: `[natural*6, rust*2]`.
    """
    mirror: Flag = False
    """`true` runs the order up to the middle and back from there. Example: `true`."""
    palette: Annotated[dict[Colour, Hex], Field(max_length=MOST_RUNS), at_most(MOST_RUNS)] = Field(
        default_factory=dict
    )
    """The ink that a colour is drawn in, as six hexadecimal digits in quotes; one that is not given
    is drawn as plain cord.
    Example: `{natural: "#e9e1d3", rust: "#a4502f"}`.
    """
