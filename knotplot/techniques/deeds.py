"""What is done in a piece, one deed after another: ties, crosses, and strands that end.

Each deed has its strands by number, where it stands, and the runs by which they come to it, all in
mm of the piece; so a piece can be drawn, and told, as far as it is worked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from knotplot.geometry.inner import InnerRun, inner_runs
from knotplot.geometry.runs import shown
from knotplot.knots import knot
from knotplot.tying.piece import Piece, Placement
from knotplot.tying.ports import Port
from knotplot.tying.shape import ShapeTie, passed, tie_ends


@dataclass(frozen=True, slots=True)
class Deed:
    """One tie (or cross) with its middle at (x, y), or strands that end (`tie` is None).

    `strands` run left to right as they hang before it; `leader` is the strand or separate cord
    that leads, None where nothing does. `runs` are the curves by which strands come to it,
    `leave` where they then leave it. `bar` tells hitches of one row from others. `order` lists the
    strands that hang side by side afterwards.
    """

    tie: ShapeTie | None
    strands: tuple[int, ...]
    leader: int | str | None
    x: float
    y: float
    runs: tuple[tuple[int, tuple[float, ...]], ...]
    leave: tuple[tuple[int, Port], ...]
    bar: tuple[int, int | None]
    order: tuple[int, ...]

    @property
    def carried(self) -> bool:
        """Tell whether it loops a new cord onto a strand."""
        return self.tie is not None and self.tie.carried is not None

    @property
    def vertical(self) -> bool:
        """Tell whether it is a vertical hitch, whose knotting strand goes on sideways."""
        return self.tie is not None and self.tie.knot.startswith("vertical_")

    @property
    def hitch(self) -> bool:
        """Tell whether one strand is hitched onto another, or onto a separate leader."""
        return self.tie is not None and self.leader is not None and not self.carried


def deeds(piece: Piece) -> tuple[Deed, ...]:
    """Return all that is done in a piece below its mounting, in the order worked."""
    return tuple(_Following(piece).all())


class _Following:
    """Strands followed from deed to deed: where each last left, and the order they hang in."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self.last: dict[int, Port] = {
            strand: port for strand, port in enumerate(piece.mounting.starts) if port is not None
        }
        self.order = list(range(1, piece.gauge.strands + 1))

    def all(self) -> Iterator[Deed]:
        for number, row in enumerate(self.piece.rows):
            if row.section:
                for placement in row.placements:
                    yield from self._placed(number, placement, row.pitch(self.piece.gauge))

    def _placed(self, row: int, placement: Placement, pitch: float) -> Iterator[Deed]:
        """Yield the deeds of one placed shape."""
        shape, left, top = placement.shape, placement.lane * pitch, placement.y
        inner = iter(inner_runs(shape, self.piece.gauge.diameter))
        seen: set[int] = set()
        changes = list(shape.changes)
        for number, tie in passed(shape.ties):
            while changes and changes[0].at <= number:
                yield from self._ended(placement, changes.pop(0).hanging, row)
            runs = tuple(self._runs(placement, tie, inner, seen, (left, top)))
            leave = tuple(
                (placement.strands[who], port.moved(left, top)) for who, _, port in tie_ends(tie)
            )
            self.last |= dict(leave)
            self._reorder(placement, tie)
            leader = None if tie.leader is None else (
                placement.cord if tie.leader < 0 else placement.strands[tie.leader]
            )  # fmt: skip
            yield Deed(
                tie, tuple(placement.strands[who] for who in tie.who), leader, left + tie.x,
                top + tie.y, runs, leave, (row, tie.step), tuple(self.order),
            )  # fmt: skip
        for change in changes:
            yield from self._ended(placement, change.hanging, row)

    def _runs(
        self, placement: Placement, tie: ShapeTie, inner: Iterator[InnerRun], seen: set[int],
        at: tuple[float, float],
    ) -> Iterator[tuple[int, tuple[float, ...]]]:  # fmt: skip
        """Yield the runs into a tie: those within its shape, and those from above it."""
        for who, enter, _ in tie_ends(tie):
            strand = placement.strands[who]
            if who in seen:
                yield strand, tuple(v + at[i % 2] for i, v in enumerate(next(inner).curve))
            elif strand in self.last:
                above = self.last[strand]
                yield strand, shown(above, enter.moved(*at), self.piece.gauge.diameter)
            seen.add(who)

    def _reorder(self, placement: Placement, tie: ShapeTie) -> None:
        """Let strands change places as the knot says; new ones hang beside the one they are on."""
        strands = [placement.strands[who] for who in tie.who]
        if tie.carried is not None and tie.leader is not None:
            at = self.order.index(placement.strands[tie.leader])
            at += 1 if tie.turn > 0 else 0  # of several, the uppermost goes furthest aside
            self.order[at:at] = strands
            return
        places = [self.order.index(strand) for strand in strands]
        for place, who in zip(sorted(places), knot(tie.knot).order(tie.manner), strict=True):
            self.order[place] = strands[who]

    def _ended(self, placement: Placement, hanging: Sequence[int], row: int) -> Iterator[Deed]:
        """Yield the deed of strands that are no longer among those that hang, if there are some."""
        left = {placement.strands[who] for who in hanging}
        mine = [strand for strand in self.order if strand in placement.strands]
        gone = tuple(strand for strand in mine if strand not in left)
        if gone:
            self.order = [strand for strand in self.order if strand not in gone]
            yield Deed(None, gone, None, 0.0, 0.0, (), (), (row, None), tuple(self.order))
