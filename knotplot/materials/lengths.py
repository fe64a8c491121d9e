"""What every cord of a piece uses, and how long it is cut."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from knotplot.cord_use import SOURCE
from knotplot.geometry.layout import Layout
from knotplot.materials.allowance import Margin, cut_length_mm, margin
from knotplot.materials.cutting import group_lengths
from knotplot.tying.piece import Cord

__all__ = ["SOURCE", "CordLength", "Cutting", "cord_lengths", "cutting_list"]


@dataclass(frozen=True, slots=True)
class CordLength:
    """One cord: what it uses (mm), what it needs to be cut at the least, and is cut.

    `knotted` is its length in knots; `fold` how far from an end it is folded, None where it isn't.
    """

    cord: Cord
    used: float
    knotted: float
    need: float
    cut: Fraction
    fold: float | None


@dataclass(frozen=True, slots=True)
class Cutting:
    """One line of the cut list: so many cords of one length (mm), by label, role and kind."""

    label: str
    role: str
    kind: str
    length: Fraction
    cords: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Need:
    """What a cord uses, has in knots and needs, before it is grouped."""

    used: float
    knotted: float
    need: float


def cord_lengths(
    layout: Layout, shared_error: float, confidence: float, groups: int, step: Fraction
) -> tuple[CordLength, ...]:
    """Return what every cord uses and is cut, in the order of the cords.

    `shared_error` is what all knots share; each role and kind is cut in at most `groups` lengths of
    whole `step`s (mm).
    """
    cords = layout.piece.cords
    m = margin(confidence, len(cords))
    needs = [_need(layout, cord, shared_error, m) for cord in cords]
    cut: dict[str, Fraction] = {}
    for role, kind in dict.fromkeys((cord.role, cord.kind) for cord in cords):
        alike = [i for i, cord in enumerate(cords) if (cord.role, cord.kind) == (role, kind)]
        lengths = group_lengths([needs[i].need for i in alike], step, groups)
        cut |= {cords[i].id: length for i, length in zip(alike, lengths, strict=True)}
    folded = layout.piece.mounting.strands_per_cord == 2
    return tuple(
        CordLength(
            cord, need.used, need.knotted, need.need, cut[cord.id],
            float(cut[cord.id]) / 2.0 if folded and cord.role == "main" else None,
        )
        for cord, need in zip(cords, needs, strict=True)
    )  # fmt: skip


def _need(layout: Layout, cord: Cord, shared: float, m: Margin) -> _Need:
    if cord.role != "main":
        use = layout.leaders[cord.id]
        used = use.knots if cord.role == "wrap" else cord.length + sum(cord.ends)
        need = cut_length_mm(used, use.knots, shared, use.errors, cord.ends, m)
        return _Need(used, use.knots, need)
    mounting = layout.piece.mounting
    uses = [layout.uses[strand] for strand in cord.strands]
    lengths = [
        use.knots + use.runs + layout.hanging[strand]
        for use, strand in zip(uses, cord.strands, strict=True)
    ]
    hanging = [layout.hanging[strand] for strand in cord.strands]
    knotted, errors = sum(use.knots for use in uses), sum(use.errors for use in uses)
    if mounting.pocket is not None:
        tail = uses[1].knots + uses[1].runs
        lengths[1], hanging[1] = mounting.tail, max(0.0, mounting.tail - tail)
    elif mounting.strands_per_cord == 1:
        lengths.append(mounting.tail)
        hanging.append(mounting.tail)
    used = sum(lengths)
    if mounting.strands_per_cord == 2:
        # Folded in the middle, each half is as long as the longer one.
        longer = max(lengths)
        knots = 2.0 * max(use.knots for use in uses)
        need = cut_length_mm(2.0 * longer, knots, shared, errors, hanging, m)
        return _Need(used, knotted, need)
    return _Need(used, knotted, cut_length_mm(used, knotted, shared, errors, hanging, m))


def cutting_list(lengths: tuple[CordLength, ...]) -> tuple[Cutting, ...]:
    """Return the cut list: mains, leaders, wraps, each from long to short, labelled from A."""
    order = {"main": 0, "leader": 1, "wrap": 2}
    lines: dict[tuple[int, str, str, Fraction], list[str]] = {}
    for each in lengths:
        cord = each.cord
        lines.setdefault((order[cord.role], cord.role, cord.kind, each.cut), []).append(cord.id)
    ranked = sorted(lines, key=lambda line: (line[0], line[2], -line[3]))
    return tuple(
        Cutting(_label(i), role, kind, length, tuple(lines[key]))
        for i, key in enumerate(ranked)
        for _, role, kind, length in [key]
    )


def _label(i: int) -> str:
    """Return the label of a number: letters, as columns are named.

    >>> _label(0), _label(27)
    ('A', 'AB')
    """
    return (_label(i // 26 - 1) if i >= 26 else "") + chr(ord("A") + i % 26)
