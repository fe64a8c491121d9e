"""From the record of a piece to its instructions, as plain records, told as a maker says them.

Equal actions of a row are starred, rows that repeat (each, or every second one) are told once,
and sections that are worked again, further right or further down, refer to the first time.
Nothing is lost: the ties of every row follow from the records alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from knotplot.instructions.colours import colour_order, other_colours
from knotplot.instructions.finishing import finishing
from knotplot.instructions.folding import Fold, folds
from knotplot.instructions.motif_steps import figure_names, steps_of
from knotplot.instructions.mounting import Folds, mounting
from knotplot.instructions.records import (
    Action,
    Bare,
    Check,
    Figure,
    FigureName,
    Instruction,
    Note,
    Opening,
    RowsAgain,
    RowWork,
    Section,
    SectionsAgain,
)
from knotplot.instructions.row_actions import free, gaps, joins, nameless, row_actions, told_rows
from knotplot.kinds import kind_of, section_kind
from knotplot.tying.names import ranges
from knotplot.tying.piece import Cord, Part, Piece, Row
from knotplot.tying.shape import Shape, ShapeTie

#: Cord (mm) left below a row on a strand: by strand id and the row's index, None if not known.
Left: TypeAlias = Callable[[int, int], float | None]

LONGEST_GROUP = 48  # sections that are worked again together


@dataclass(frozen=True, slots=True)
class _Block:
    """A section with its rows, as actions within its own cords.

    `bare` is the cord (mm) that a free section or a fringe leaves, None where it hangs down to the
    lower edge; 0 for all others. `after` is how many cords hang below it.
    """

    part: Part
    layer: str
    first_row: int
    rows: tuple[tuple[Action, ...], ...]
    gap: float
    overhang: tuple[float, ...]
    bare: float | None
    after: int
    last: Row | None

    @property
    def key(self) -> tuple[object, ...]:
        """Return what two blocks share that are worked alike: all but where and on which cords."""
        part = self.part
        rows = tuple(tuple(map(nameless, row)) for row in self.rows)
        own = (part.name, part.kind, part.strands, part.finish, self.bare, self.layer)
        return (own, self.gap, self.overhang, rows)


def instructions(
    piece: Piece, left: Left | None = None, folds: Folds = ()
) -> tuple[Instruction, ...]:
    """Return the instructions of a piece, from mounting to finishing.

    `left` says how much cord is left below a row; checks then tell it. `folds` says where cords
    that aren't folded in the middle are.
    """
    return tuple(_Telling(piece, left, folds).all())


class _Telling:
    """One telling of a piece: which motifs and kinds of section were told already."""

    def __init__(self, piece: Piece, left: Left | None, folds: Folds) -> None:
        self.piece = piece
        self.left = left
        self.folds = folds
        self.names = figure_names(piece.rows)
        self.figures: dict[FigureName, int] = {}
        self.kinds: set[str] = set()
        self.faults: set[tuple[str, tuple[tuple[str, str], ...]]] = set()
        self.cords = {cord.id: cord for cord in piece.cords if cord.role != "main"}
        self.number = 0

    def all(self) -> Iterator[Instruction]:
        """Yield every instruction in order."""
        piece = self.piece
        mains = sum(cord.role == "main" and not cord.added for cord in piece.cords)
        yield Opening(piece.mounting.kind, mains, piece.gauge.strands, piece.mounting.fold)
        added = [cord.id for cord in piece.cords if cord.added]
        if added:
            yield Note("set_aside", "do", (("added", ranges(added)),))
        if any(_flat(tie) for row in piece.rows for tie in _first_ties(row)):
            yield Note("facing", "hint")
        mount, *blocks = self._blocks()
        keys = {id(block): block.key for block in blocks}

        def alike(a: _Block, b: _Block, base: _Block, first: _Block) -> bool:
            moved = b.part.lane - a.part.lane == first.part.lane - base.part.lane
            return moved and keys[id(a)] == keys[id(b)]

        yield from self._mount(mount)
        yield from self._sections(blocks, alike)
        yield from finishing(piece, self._next())

    def _next(self) -> int:
        self.number += 1
        return self.number

    def _blocks(self) -> list[_Block]:
        """Return every part with its rows; the first is the mounting."""
        rows: dict[int, list[Row]] = {}
        for row in self.piece.rows:
            rows.setdefault(row.section, []).append(row)
        blocks, number = [], 1
        for index, part in enumerate(self.piece.parts):
            mine = rows.get(index, [])
            gap, above = gaps(mine)
            actions, count = [], part.strands
            for row in mine:
                done = row_actions(row, part.lane, count, self.names, self.piece.gauge.diameter)
                actions.append((*above(row), *done))
                count += row.more
            layer = mine[0].layer if mine else "body"
            last = mine[-1] if mine else None
            cord = self._cord(last)
            ends = cord.ends if cord else ()
            bare = None if part.hangs else _bare(part)
            told = tuple(actions)
            blocks.append(_Block(part, layer, number, told, gap, ends, bare, count, last))
            number += len(mine)
        return blocks

    # --- sections ----------------------------------------------------------------------------

    def _mount(self, block: _Block) -> Iterator[Instruction]:
        count, kind = block.part.strands, self.piece.mounting.kind
        yield Section(self._next(), kind, "mount", "body", 1, count, True)
        before, between, after = mounting(self.piece, self.folds)
        yield from colour_order(self.piece)
        yield from other_colours(self.piece)
        yield from before
        for row in told_rows(block.rows, block.first_row):
            if isinstance(row, RowWork) and joins(row.actions[0]):
                yield from between
            yield row
        yield from after
        yield from self._check(block)

    def _sections(
        self,
        blocks: Sequence[_Block],
        alike: Callable[[_Block, _Block, _Block, _Block], bool],
        longest: int = LONGEST_GROUP,
    ) -> Iterator[Instruction]:
        for fold in folds(blocks, longest, alike):
            base = blocks[fold.start : fold.start + fold.period]
            first = self.number + 1
            if fold.times > 1 and fold.period > 1:
                yield from self._sections(base, alike, fold.period - 1)
            else:
                for block in base:
                    yield from self._section(block)
            if fold.times > 1:
                yield from self._again(blocks, fold, first)

    def _again(self, blocks: Sequence[_Block], fold: Fold, first: int) -> Iterator[Instruction]:
        """Tell that sections are worked again, and which rows that makes each time."""
        last, period = self.number, fold.period
        shift = blocks[fold.start + period].part.lane - blocks[fold.start].part.lane
        yield SectionsAgain(self._next(), first, last, fold.times - 1, shift)
        like = _copy(blocks[fold.start : fold.start + period])
        for at in range(fold.start + period, fold.end, period):
            copy = _copy(blocks[at : at + period])
            if copy.rows:
                yield RowsAgain(copy.rows, like.rows or copy.rows, copy.cords if shift else None)
        for block in [each for each in blocks[at : fold.end] if each.last][-1:]:
            yield from self._check(block)

    def _section(self, block: _Block) -> Iterator[Instruction]:
        part = block.part
        name = None if part.name == part.kind else part.name
        first, last = part.lane + 1, part.lane + part.strands
        number = self._next()
        yield Section(number, name, part.kind, block.layer, first, last, part.whole)
        yield from self._notes(block)
        yield from self._figures(block, number)
        yield from told_rows(block.rows, block.first_row)
        if block.after != part.strands:
            yield Note("recounted", "do", (("cords", part.strands), ("after", block.after)))
        yield from self._check(block)
        self.kinds.add(part.kind)
        of = _knots_of(block)
        if (part.kind, of) not in self.faults:
            self.faults.add((part.kind, of))
            yield Note("fault", "fault", of, part.kind)

    def _notes(self, block: _Block) -> Iterator[Note]:
        part = block.part
        if block.bare:
            yield Note("bare", "do", (("length", block.bare),))
        elif block.bare is None:
            yield Note("hang_down")
            if part.finish:
                yield Note(f"fringe_{part.finish}")
        elif not block.rows:
            yield Note("no_rows")
        if block.gap:
            yield Note("gap_between_rows", "do", (("length", block.gap),))
        cord = self._cord(block.last)
        if cord is not None and cord.role == "leader":
            values = (("leader", cord.id), ("length", cord.length), ("overhang", cord.ends[0]))
            yield Note("leader", "do", values)
        several = block.last is not None and len(block.last.placements) > 1
        if kind_of(part).hints(several) and part.kind not in self.kinds:
            yield Note("hint", "hint", (), part.kind)

    def _cord(self, row: Row | None) -> Cord | None:
        """Return the separate cord a row is tied with, if any."""
        return self.cords.get(row.placements[0].cord or "") if row else None

    def _figures(self, block: _Block, number: int) -> Iterator[Instruction]:
        """Yield how each motif of a section is worked that was not told before."""
        shapes: dict[FigureName, Shape] = {}
        for row in self.piece.rows[block.first_row - 1 : block.first_row - 1 + len(block.rows)]:
            for placement in row.placements:
                if id(placement.shape) in self.names:
                    shapes.setdefault(self.names[id(placement.shape)], placement.shape)
        fresh = [name for name in shapes if name not in self.figures]
        if fresh and not self.figures:
            yield Note("places", "hint")
        for told in sorted({self.figures[name] for name in shapes if name in self.figures}):
            yield Note("motif_as_before", "do", (("section", told),))
        for name in sorted(fresh, key=_wholes_first):
            self.figures[name] = number
            yield Figure(name, steps_of(shapes[name]))
        if any(name.cords < name.of for name in shapes):
            yield Note("edge_parts", "hint")

    def _check(self, block: _Block) -> Iterator[Check]:
        row = block.last
        if row is None:
            return
        bottom = max(p.y + row.shift + p.shape.bottom for p in row.placements)
        last = block.rows[-1]
        strand = row.order_after[block.part.lane] if block.after else None
        left = self.left(strand, row.number - 1) if self.left and strand else None
        if left is not None and left <= 0.0:  # a tail that is too short, which is warned of
            left = None
        yield Check(
            self.piece.mounting.kind,
            bottom,
            free(last[0] if not isinstance(last[0], Bare) else last[1]),
            free(last[-1]),
            row.layer,
            block.part.lane + 1,
            left,
        )


class _Copy(NamedTuple):
    """Sections worked once: their first and last row, None where they have none, and cord."""

    rows: tuple[int, int] | None
    cords: tuple[int, int]


def _copy(blocks: Sequence[_Block]) -> _Copy:
    count = sum(len(block.rows) for block in blocks)
    first = blocks[0].first_row
    low = min(block.part.lane for block in blocks) + 1
    high = max(block.part.lane + block.part.strands for block in blocks)
    return _Copy((first, first + count - 1) if count else None, (low, high))


def _bare(part: Part) -> float:
    kind = section_kind(part)
    return round(part.bottom - part.top, 6) if kind is not None and kind.bare_cords else 0.0


def _wholes_first(name: FigureName) -> tuple[str, bool, int, int]:
    """Return a key that puts whole motifs before parts, and all steps before the first ones."""
    return (name.motif, name.cords < name.of, name.first, -(name.top or 10**9))


def _first_ties(row: Row) -> Iterator[ShapeTie]:
    """Yield the ties of each shape of a row once."""
    for shape in {id(p.shape): p.shape for p in row.placements}.values():
        yield from shape.ties


def _flat(tie: ShapeTie) -> bool:
    """Tell whether outer strands work about fillers, the first of them as the tie faces."""
    roles = tie.roles
    return tie.facing is not None and roles[0] == roles[-1] == "working" and "filler" in roles


def _knots_of(block: _Block) -> tuple[tuple[str, str], ...]:
    """Return the one knot that a part is made of, whose fault is its own; nothing for others."""
    if block.last is None or not kind_of(block.part).one_knot:
        return ()
    return (("knot", block.last.placements[0].shape.ties[0].knot),)
