"""How each knot is tied: what the sentences say is what the curves of the pictures do."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import combinations, groupby

import numpy as np
import pytest

from knotplot.curves.space import SpaceCurve, sample
from knotplot.drawing.how_to import extent, frames
from knotplot.drawing.how_to_steps import Scene, scenes, shown
from knotplot.drawing.shapes import Fill
from knotplot.drawing.weave import crossings
from knotplot.instructions.how_to import sentence
from knotplot.knots import catalogue, knot
from knotplot.knots.base import Form, Manner

SLANT = math.sqrt(0.5)


def manners(name: str) -> list[Manner]:
    """Return manners in which a knot is tied, some of each kind it allows."""
    kind = knot(name)
    if name.endswith("half_hitch"):
        made = [Manner(2, leader=lead) for lead in (0, 1)] + [Manner(1, leader=-1)]
        if not name.startswith("vertical_"):
            made += [Manner(2, leader=lead, cos=SLANT, sin=SLANT) for lead in (0, 1)]
            made.append(Manner(1, leader=-1, rod=5.0))
        return made
    counts = (kind.least,) if kind.most == kind.least else (kind.least, 4, 7, 12)
    if kind.most == 6:
        counts = (*counts, 6)
    return [
        Manner(count, facing, workers, reach=2.5)
        for count in counts
        for facing in (("left", "right") if kind.faces else (None,))
        for workers in ((1, 2) if kind.faces else (1,))
        if kind.fault(count, workers) is None
    ]


CASES = [
    (name, manner, left) for name in catalogue() for manner in manners(name) for left in (0, 1)
]
NAMES = {
    "filler": "filler", "leader": "leader", "knotting": "knotting", "rod": "rod",
    "bundle": "bundle", "wrap": "wrapping",
}  # fmt: skip


# --- what the sentence says ------------------------------------------------------------------


def said(text: str) -> list[tuple[bool, set[str]]]:
    """Read what is passed, in order, and whether over (True) or under, from a sentence."""
    text = re.sub(r"^Tie [^.]*\. ", "", text)  # knots tied first have pictures of their own
    text = re.sub(r": (that makes|the ends now).*", "", text).replace("themselves", "itself")
    text = re.sub(r" (in front|behind)(?=( and|\.|$))", "", text)  # a turn's two sides
    found = re.split(r"\b(over|under|in front of|behind)\b", text)
    passed: list[tuple[bool, set[str]]] = []
    for word, rest in zip(found[1::2], found[2::2], strict=True):
        rest = re.sub(r"both (outer|inner) ones", r"\1 left one, \1 right one", rest)
        things = set(re.findall(
            r"((?:outer |inner )?(?:left one|right one)|filler|leader|knotting|rod|bundle|"
            r"\bits?\b|itself|ends)", rest
        ))  # fmt: skip
        if "it" in things and passed:
            things = (things - {"it"}) | passed[-1][1]
        over = word in ("over", "in front of")
        passed.append((over, things - {"it", "its"}))
    return passed


def merged(passed: list[tuple[bool, set[str]]]) -> list[tuple[bool, set[str]]]:
    """Return passes with those on one side in a row as one."""
    return [
        (over, set().union(*(things for _, things in group)))
        for over, group in groupby(passed, key=lambda each: each[0])
    ]


# --- what the curves do ----------------------------------------------------------------------


def crossed(one: SpaceCurve, other: SpaceCurve, same: bool) -> list[tuple[float, float, bool]]:
    """Return where two curves cross as seen from the front, and whether `one` lies over."""
    steps = 24
    a, b = np.array(sample(one, steps)), np.array(sample(other, steps))
    p, way = a[:-1, None, :], np.diff(a, axis=0)[:, None, :]  # chords of one, a row each
    r, theirs = b[None, :-1, :], np.diff(b, axis=0)[None, :, :]  # of the other, a column each
    turn = way[..., 0] * theirs[..., 1] - way[..., 1] * theirs[..., 0]
    x, y = r[..., 0] - p[..., 0], r[..., 1] - p[..., 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        t = (x * theirs[..., 1] - y * theirs[..., 0]) / turn
        u = (x * way[..., 1] - y * way[..., 0]) / turn
        over = p[..., 2] + t * way[..., 2] > r[..., 2] + u * theirs[..., 2]
        on = (t >= -1e-9) & (t <= 1.0 + 1e-9) & (u >= -1e-9) & (u <= 1.0 + 1e-9)
    on &= np.abs(turn) >= 1e-12
    if same:
        apart = np.abs(np.arange(len(a) - 1)[:, None] - np.arange(len(b) - 1)[None, :])
        on &= apart >= steps // 2
    found = [
        ((i + float(t[i, k])) / steps, (k + float(u[i, k])) / steps, bool(over[i, k]))
        for i, k in np.argwhere(on).tolist()
    ]
    once: list[tuple[float, float, bool]] = []
    for at in found:  # a crossing at a joint of two chords is met from both
        if not any(math.dist(at[:2], other[:2]) < 1e-6 for other in once):
            once.append(at)
    return once


def done(scene: Scene, mover: int, movers: tuple[int, ...]) -> list[tuple[bool, set[str]]]:
    """Return what the new part of a moving cord passes in order, found from the curves."""
    cord = scene.strands[mover]
    assert cord.new is not None
    working = [s.curve[0][0] for s in scene.strands if s.role == "working"]
    middle = (min(working) + max(working)) / 2.0 if working else 0.0
    if len(working) > 2 and movers == (mover,):  # each cord by itself: its place is told too
        apart, middle = True, sum(sorted(working)[1:3]) / 2.0
    else:
        apart = False
    events: list[tuple[float, bool, str]] = []
    for j, other in enumerate(scene.strands):
        if j in movers and j != mover:
            continue
        for mine, theirs, over in crossed(cord.curve, other.curve, j == mover):
            if mine < cord.new[0] or (j == mover and theirs > mine):
                continue
            if j == mover:
                name = "ends" if scene.step.bight else "itself"
            elif other.role == "working":
                x = other.curve[0][0]
                left = (x < middle) != scene.step.back
                name = "left one" if left else "right one"
                if apart and working.count(x) == 1:
                    mine_too = [at for at in working if (at < middle) == (x < middle)]
                    outer = x == (min(mine_too) if x < middle else max(mine_too))
                    name = f"{'outer' if outer else 'inner'} {name}"
            else:
                name = NAMES[other.role]
            events.append((mine, over, name))
    if scene.rod is not None:
        wide = 60.0
        axis: SpaceCurve = (
            tuple(v for x in (-wide, -20.0, 20.0, wide) for v in (x, scene.rod, 0.0)),
        )
        events += [
            (mine, over, "rod")
            for mine, _, over in crossed(cord.curve, axis, False)
            if mine >= cord.new[0]
        ]
    return merged([(over, {name}) for _, over, name in sorted(events)])


@pytest.mark.parametrize(("name", "manner", "left"), CASES)
def test_what_is_said_is_what_the_curves_do(name: str, manner: Manner, left: int) -> None:
    drawn = shown(name, manner)
    stages = knot(name).stages(drawn)
    for stage, scene in zip(stages, scenes(name, manner, bool(left)), strict=True):
        told = sentence(scene.step)
        if stage.tight:
            assert scene.step.passes == ()
            continue
        for mover in stage.moves:
            found = done(scene, mover, stage.moves)
            assert found, told
            if scene.step.times > 1:
                assert found == said(told) * scene.step.times
            else:
                assert found == said(told), told


@pytest.mark.parametrize(("name", "manner", "left"), CASES)
def test_every_filler_is_passed_that_is_said_to_be(name: str, manner: Manner, left: int) -> None:
    """Whoever passes the fillers passes all of them, on the side that is said."""
    drawn = shown(name, manner)
    for stage, scene in zip(
        knot(name).stages(drawn), scenes(name, manner, bool(left)), strict=True
    ):
        fillers = [j for j, s in enumerate(scene.strands) if s.role in ("filler", "bundle")]
        for cords in (cords for each in scene.step.passes for cords in each.cords):
            if cords.role not in ("filler", "bundle") or scene.step.loop or stage.tight:
                continue
            met = {
                c.under if c.over == stage.moves[0] else c.over
                for c in crossings([s.curve for s in scene.strands])
                if stage.moves[0] in (c.over, c.under)
            }
            if cords.side is not None:  # of those that hang outside, one a side
                at = {j: scene.strands[j].curve[0][0] for j in fillers}
                fillers = [(min if cords.side == "left" else max)(at, key=at.__getitem__)]
            assert set(fillers) <= met


@pytest.mark.parametrize(("name", "manner", "left"), CASES)
def test_a_free_end_crosses_nothing(name: str, manner: Manner, left: int) -> None:
    for scene in scenes(name, manner, bool(left)):
        if scene.step.bight:
            continue
        curves = [strand.curve for strand in scene.strands]
        for c in crossings(curves):
            for strand, at in ((c.over, c.over_at), (c.under, c.under_at)):
                if scene.strands[strand].new and scene.strands[strand].role != "leader":
                    assert at < len(curves[strand]) - 0.9


@pytest.mark.parametrize(("name", "manner", "left"), CASES)
def test_three_to_six_frames_the_last_one_tight(name: str, manner: Manner, left: int) -> None:
    made = frames(name, manner, bool(left))
    assert 3 <= len(made) <= 6
    steps = [scene.step for scene in scenes(name, manner, bool(left))]
    assert [step.done for step in steps] == [False] * (len(steps) - 1) + [True]
    assert steps[-1].tight
    for frame in made:
        heads = [
            item for item in frame.items if isinstance(item, Fill) and item.style.width == 0.12
        ]
        assert heads, "an arrow for the motion"
        assert frame.text[0].isupper()
        assert frame.text.endswith(".")
        assert len(frame.text) < 160
    x0, y0, x1, y1 = extent(made)
    assert max(x1 - x0, y1 - y0) < 42.0


@pytest.mark.parametrize("name", catalogue())
def test_the_left_hand_ties_the_mirror_image_in_mirrored_words(name: str) -> None:
    swap = {"left": "right", "right": "left"}
    for manner in manners(name):
        right, left = scenes(name, manner), scenes(name, manner, True)
        for one, other in zip(right, left, strict=True):
            turned = re.sub(r"\b(left|right)\b", lambda m: swap[m[0]], sentence(one.step))
            assert sentence(other.step) == turned
            for a, b in zip(one.strands, other.strands, strict=True):
                for p, q in zip(sample(a.curve, 3), sample(b.curve, 3), strict=True):
                    assert q == pytest.approx((-p[0], p[1], p[2]))


ONE_EACH_SIDE = [(n, m) for n, m, left in CASES if not left and m.workers == 1]
PAIRS = [(n, m) for n, m, left in CASES if not left and m.workers == 2]


@pytest.mark.parametrize(("name", "manner"), ONE_EACH_SIDE)
def test_loose_or_tight_it_is_the_same_knot(name: str, manner: Manner) -> None:
    """What is tied loosely twists as the knot does: signs of crossings add up to the same."""
    drawn, kind = shown(name, manner), knot(name)
    tight = twists(kind.tied(drawn))
    for i in range(len(kind.stages(drawn))):
        assert twists(kind.shape(drawn, i)) == tight


@pytest.mark.parametrize(("name", "manner"), PAIRS)
def test_each_of_a_pair_clasps_each_of_the_other(name: str, manner: Manner) -> None:
    """In the half that is half open, pairs twist as single working cords do: 3 crossings of one
    sign (a trefoil's, CHECK_VALUES 3), and pass every filler twice, there or back."""
    drawn, kind = shown(name, manner), knot(name)
    made = kind.shape(drawn, 1)
    count, first = drawn.strands, (6 if name == "half_knot" else 5)
    half = tuple(path[:first] for path in made.paths)
    found = twists(replace(made, paths=half))
    for one in (0, 1):
        for other in (count - 2, count - 1):
            assert abs(found[one, other]) == 3
    assert found[0, 1] == found[count - 2, count - 1] == 0


def twists(form: Form) -> dict[tuple[int, int], int]:
    extra = [curve for curve in (form.leader, form.rod) if curve is not None]
    paths = [*form.paths, *extra]
    found = dict.fromkeys(combinations(range(len(paths)), 2), 0)
    for one, other in found:
        for mine, theirs, over in crossed(paths[one], paths[other], False):
            if mine < 1e-6 and theirs < 1e-6:  # the middle of a fold, where its halves begin
                continue
            (ax, ay), (bx, by) = way(paths[one], mine), way(paths[other], theirs)
            sign = 1 if ax * by - ay * bx > 0 else -1
            found[one, other] += sign if over else -sign
    return found


def way(curve: SpaceCurve, where: float) -> tuple[float, float]:
    points = sample(curve, 24)
    i = min(int(where * 24), len(points) - 2)
    return points[i + 1][0] - points[i][0], points[i + 1][1] - points[i][1]


def test_the_square_knot_is_told_as_the_trade_does() -> None:
    """McGaw 1909 (CHECK_VALUES 1): end 1 over 2, then the same end over again: a square knot.
    Dillmont 516: the outer threads pass over and under the two in the middle."""
    told = [frame.text for frame in frames("square_knot", Manner(4, "left"))]
    assert told[0].startswith(
        "Lay the left working cord over both filler cords and under the right"
    )
    assert told[1].startswith(
        "Take the right working cord under the left one and both filler cords"
    )
    assert "up through the loop" in told[1]
    assert told[3].startswith(
        "Now lay the right working cord back over both filler cords and under"
    )


def test_many_fillers_are_told_and_not_all_drawn() -> None:
    assert "over all 4 filler cords" in frames("square_knot", Manner(6, "left"))[0].text
    assert "over all the filler cords" in frames("square_knot", Manner(30, "left"))[0].text
    assert len(scenes("square_knot", Manner(30, "left"))[0].strands) == 8
    assert "all 30 cords together as one" in frames("overhand", Manner(30))[0].text
