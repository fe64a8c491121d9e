"""Rod pocket: a band of square knots folded over the rod and joined to its own tails."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar, Literal

from knotplot.curves.teardrop import Teardrop, least_half, teardrop
from knotplot.errors import Refusal
from knotplot.fields import Count, UnitLength
from knotplot.knots.base import Manner
from knotplot.mounts.base import Mount, MountWords
from knotplot.sections.base import Section
from knotplot.sections.square_knot_mesh import SquareKnotMesh
from knotplot.tying.assembling import shape_tie
from knotplot.tying.moves import Move
from knotplot.tying.names import counted
from knotplot.tying.piece import Mounting, Pocket, Row
from knotplot.tying.placing import Place
from knotplot.tying.ports import Port
from knotplot.tying.rack import Ask, Rack
from knotplot.tying.shape import Shape, Tied, make_shape


class RodPocket(Mount):
    """A band of square knots, folded over the rod and joined to its own short ends.

    The pocket slides onto the rod when all is done. One strand a cord; it needs a multiple of 4.

    Example: `{kind: rod_pocket, rod: 16 mm, rows: 6, tail: 20 cm}`.
    """

    kind: Literal["rod_pocket"] = "rod_pocket"
    rod: UnitLength
    """How thick the rod is, its diameter; the pocket must pass it with a tenth to spare.
    Example: `20 mm`.
    """
    rows: Count
    """How many rows of square knots the band has; half of them come to lie at the back.
    Example: `6`.
    """
    tail: UnitLength
    """How long the short ends hang that are joined to the band behind it. Example: `26 cm`."""
    strands_per_cord: ClassVar[int] = 1
    swatch_rank: ClassVar[int | None] = 1
    net: ClassVar[bool] = True
    own_width: ClassVar[bool] = False
    encloses_rod: ClassVar[bool] = True
    words: ClassVar[Mapping[str, MountWords]] = {
        "en": MountWords(
            heading="rod pocket",
            one="the rod pocket",
            many="the rod pockets",
            caption="rod pocket",
            fault=(
                "The band narrows as you work: measure its width every few rows, and hold "
                "the rod against it before you fold."
            ),
            support="the top of the rod",
            hang=(
                "Tie a temporary line level across the board. Hang the {cut} side by side "
                "over it, each with a short end of {tail} behind and its long end in front. "
                "Work this band with the long ends."
            ),
        )
    }

    def ask(self) -> tuple[int, int]:
        """Ask for a multiple of 4: a join is one knot for every four lanes."""
        return (0, 4)

    def sample(self) -> Section:
        """Return a plain net: the rows of its band stand as those of a mesh."""
        return SquareKnotMesh(rows=1)

    def hang(self, rack: Rack) -> Mounting:
        """Work the band, fold it over the rod, and join it to the tails, four lanes a knot."""
        gauge = rack.gauge
        body = range(1, gauge.strands + 1)
        tails = range(gauge.strands + 1, 2 * gauge.strands + 1)
        for strand in body:
            rack.cut("main", strands=(strand, gauge.strands + strand))
        level = [Port(gauge.x(lane), 0.0, 0.0, 1.0, "knot") for lane in range(gauge.strands)]
        rack.hang("body", body, (None, *level, *(None for _ in tails)))
        rack.expect(self.rows * (gauge.strands // 4) // 2)
        rack.begin("mount", self.kind, 0, gauge.strands)
        drop, rack.deepest = rack.deepest, 2.0 * rack.deepest + 4.0 * float(self.rod)
        self._band(rack)
        rack.deepest = drop  # of the folded band only half hangs down at the front
        band = rack.depth(0, gauge.strands)
        pocket = self._teardrop(band, gauge.diameter)
        rack.lift(band - pocket.join, body)
        back = len(rack.rows) // 2  # of the rows tied: on four strands every second one is none
        rack.rows = [self._folded(row, pocket, i < back) for i, row in enumerate(rack.rows)]
        hem = [port.moved(0.0, pocket.join) for port in level]
        starts = (None, *(port.moved(0.0, pocket.join - band) for port in level), *hem)
        rack.hang("tails", tails, (*(None for _ in range(gauge.strands + 1)), *hem))
        rack.join(join_shape(rack), range(0, gauge.strands, 4), ("tails", "body"))
        rack.end()
        folded = Pocket(band, pocket.radius, pocket.join, back)
        return Mounting(self.kind, float(self.rod), 1, float(self.tail), starts, folded)

    def _band(self, rack: Rack) -> None:
        shape = rack.knot("square_knot", 4, "left")
        for row in range(self.rows):
            inset = 2 * (row % 2)
            lanes = range(inset, rack.gauge.strands - inset - 3, 4)
            rack.tie([Ask(shape, lane) for lane in lanes])

    def _teardrop(self, band: float, diameter: float) -> Teardrop:
        rod = float(self.rod)
        least = 1.1 * least_half((rod + diameter) / 2.0)
        if band / 2.0 < least:
            need = math.ceil(self.rows * 2.0 * least / band)
            raise Refusal(
                f"a band of {counted(self.rows, 'row')} is {band / 10.0:.1f} cm long; folded, it "
                f"can't pass a rod {rod:g} mm thick",
                f"use {counted(need, 'row')} or more, or a thinner rod",
                ("mount", "rows"),
                self.rows,
            )
        return teardrop(rod, diameter, band / 2.0)

    def _folded(self, row: Row, drop: Teardrop, back: bool) -> Row:
        """Return a row of the band with where it hangs: down the back, or down the front."""
        top = row.placements[0].y
        from_fold = top + drop.half - drop.join  # worked y counted from the fold
        if back:
            bottom = from_fold + row.placements[0].shape.bottom
            hung = drop.y(bottom)
            return replace(row, layer="back", layers=("back",), shift=hung - top)
        return replace(row, shift=drop.y(from_fold) - top)


def join_shape(rack: Rack) -> Shape:
    """Return the join of four tails over four body strands: one square knot.

    The first and fourth tail work; the fillers lie in the order of their lanes, a tail's beside
    the body strand it came from.
    """
    diameter = rack.gauge.diameter
    move = Move("square_knot", (0, 1, 2, 3, 0, 1, 2, 3), "left")
    place = Place(2.0 * rack.gauge.pitch, 0.0, Manner(8, "left", tall=rack.tall))
    flat = shape_tie(move, place, tuple(range(8)), diameter, 4)
    at = (0, 2, 5, 7, 1, 3, 4, 6)  # where each strand, tails then body, lies in the knot
    roles = ("working", "filler", "filler", "working", *("filler",) * 4)
    tie = flat._replace(
        roles=roles,
        enter=tuple(flat.enter[i] for i in at),
        leave=tuple(flat.leave[i] for i in at),
    )
    return make_shape(Tied((move,), (tie,), tuple(range(8))), 4, diameter)
