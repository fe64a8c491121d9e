"""A pattern tied as a trial: with numbers for what is to be found, in a drop of any length."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from knotplot.curves.lower_edge import LowerEdge
from knotplot.errors import Path
from knotplot.mounts.base import Mount
from knotplot.pattern.models import Pattern
from knotplot.sections.base import work_in_turn
from knotplot.tying.gauge import Gauge
from knotplot.tying.heights import Heights
from knotplot.tying.job import Job
from knotplot.tying.piece import Mounting
from knotplot.tying.rack import MOST_TIES, Rack
from knotplot.tying.shape import Shape


class Tied(NamedTuple):
    """A rack with everything tied, how it hangs, and the least room (mm) left above the edge."""

    rack: Rack
    mounting: Mounting
    slack: float

    @property
    def motifs(self) -> int:
        """Return how many motif ties stand in it, so that `fill` takes none away."""
        return sum(
            placement.shape.tie_count
            for row in self.rack.rows
            for placement in row.placements
            if placement.shape.motif
        )


@dataclass(frozen=True, slots=True)
class Trial:
    """A pattern with its measures, ready to be tied as often as a search needs.

    `shapes` keeps those that were made, for every rack it is tied on.
    """

    pattern: Pattern
    gauge: Gauge
    edge: LowerEdge
    heights: Heights
    shapes: dict[Hashable, Shape] = field(default_factory=dict)

    def tie(
        self, numbers: Mapping[Path, float], drop: float | None = None, most: int = MOST_TIES
    ) -> Tied:
        """Tie the whole piece with `numbers` for what is to be found.

        `drop` (mm) is another than the pattern's; `most` ties are tied. Raises `Refusal`.
        """
        edge = self.edge if drop is None else replace(self.edge, drop_mm=drop)
        rack = Rack(
            self.gauge, self.heights, deepest=edge.drop_mm, shapes=self.shapes, most_ties=most
        )
        mounting = self._mount(numbers).hang(rack)
        motifs = self.pattern.all_motifs
        job = Job(rack, 0, self.gauge.strands, (), edge, 0.0, numbers, motifs)
        work_in_turn(self.pattern.sections, job, "sections")
        slack = min(
            edge.y(rack.gauge.x(lane)) - rack.depth_of(strand)
            for lane, strand in enumerate(rack.lanes["body"])
        )
        return Tied(rack, mounting, slack)

    def _mount(self, numbers: Mapping[Path, float]) -> Mount:
        """Return the mount with the number of rows to be tried, if one is."""
        rows = numbers.get(("mount", "rows"))
        mount = self.pattern.mount
        return mount if rows is None else mount.model_copy(update={"rows": int(rows)})
