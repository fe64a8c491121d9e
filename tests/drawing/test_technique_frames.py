"""How techniques are taught: what sentences say is what the record ties and the pictures show."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from drawing.test_how_to import crossed

from knotplot.drawing.how_to import MOVING, extent
from knotplot.drawing.shapes import Fill, Item, Stroke, Text
from knotplot.drawing.technique_frames import technique_frames
from knotplot.drawing.technique_scene import lowest, scene
from knotplot.drawing.technique_steps import Shown, shown_frames
from knotplot.drawing.theme import CORD
from knotplot.errors import Refusal
from knotplot.geometry.layout import ENDED
from knotplot.instructions.techniques import sentence
from knotplot.knots import form
from knotplot.techniques import techniques, worked
from knotplot.techniques.deeds import Deed, deeds
from knotplot.units import both

NAMES = list(techniques())
FRAMES = [(n, i) for n in NAMES for i in range(len(shown_frames(n)))]
LIST = re.compile(r"\bcords? (\d+(?:(?:, | and | to )\d+)*)")


# --- what a sentence says ------------------------------------------------------------------------


def numbers(text: str) -> list[int]:
    """Read cords as they are named: "1 to 4", "6 to 2", "1, 3 and 4"."""
    found: list[int] = []
    for part in re.split(r", | and ", text):
        ends = list(map(int, part.split(" to ")))
        low, high = ends[0], ends[-1]
        found += range(low, high + 1) if high >= low else range(low, high - 1, -1)
    return found


def cords(text: str) -> list[list[int]]:
    """Read every group of cords that a text names."""
    return [numbers(found) for found in LIST.findall(text)]


def frame_of(name: str, i: int) -> tuple[Shown, str, tuple[Deed, ...], tuple[Deed, ...]]:
    """Return a frame, its sentence, all deeds of its technique and those of the frame."""
    shown, done = shown_frames(name)[i], deeds(worked(name))
    return shown, technique_frames(name)[i].text, done, done[shown.since : shown.upto]


def role(deed: Deed, *roles: str) -> list[int]:
    assert deed.tie is not None
    return [s for s, each in zip(deed.strands, deed.tie.roles, strict=True) if each in roles]


# --- the record ------------------------------------------------------------------------------


def expected(name: str, i: int) -> set[int]:
    """Return the cords a frame's sentence must name, from the record alone."""
    shown, _, done, mine = frame_of(name, i)
    if shown.look == "lay":
        row = [d for d in done[shown.upto :] if d.bar == done[shown.upto].bar]
        return {s for d in row for s in d.strands}
    if shown.look == "low":
        return set(done[shown.upto].strands)
    if shown.look == "back":
        return {s for d in done if d.tie is None for s in d.strands}
    there: set[int] = set()
    for d in mine:
        there |= {*d.strands, *({d.leader} if isinstance(d.leader, int) else ())}
    return there


def repeats(name: str, i: int) -> bool:
    """Tell whether a frame only goes on with the knot of the frame before, on the same cords."""
    shown, _, done, mine = frame_of(name, i)
    if not shown.since or not mine or len(mine) == 1:
        return False
    before = done[shown.since - 1]
    return all(d.tie and not d.hitch and set(d.strands) == set(before.strands) for d in mine)


@pytest.mark.parametrize(("name", "i"), FRAMES)
def test_the_cords_that_are_named_are_those_of_the_record(name: str, i: int) -> None:
    text = frame_of(name, i)[1]
    named = {number for group in cords(text) for number in group}
    beside = re.findall(r"(cords? [\d, and]+) hangs? free", text)
    named -= {number for group in beside for number in cords(group)[0]}
    if repeats(name, i):
        assert not named
    elif "another" in text:  # on the cords of the one above: told by those that it begins with
        assert named
        assert named <= expected(name, i)
    else:
        assert named == expected(name, i)


@pytest.mark.parametrize(("name", "i"), FRAMES)
def test_a_flat_knot_passes_what_is_said(name: str, i: int) -> None:
    """Contract, 4: facing left, the left working strand goes over the fillers, under the right."""
    _, text, _, mine = frame_of(name, i)
    told = re.findall(r"cord (\d+) first, over (cords? [\d, toand]+?) and under (cord \d+)", text)
    said = [(int(a), cords(b)[0], cords(c)[0]) for a, b, c in told]
    flat = [d for d in mine if d.tie and d.tie.facing == "left" and role(d, "filler")]
    assert all(each in [(d.strands[0], role(d, "filler"), [d.strands[-1]]) for d in flat]
               for each in said)  # fmt: skip
    if len(flat) == 1 and flat == list(mine) and not frame_of(name, i)[0].pushed:
        assert len(said) == (0 if flat[0].tie and flat[0].tie.picot else 1)
    if "first each time" in text or "first in each" in text:
        assert "the cord at the left first" in text
        assert len(mine) > 1
        assert all(d.tie and d.tie.facing == "left" for d in mine)
    if "in turn" in text and "first, then" in text:
        assert [d.tie and d.tie.facing for d in mine[:2]] == ["left", "right"]


@pytest.mark.parametrize(("name", "i"), FRAMES)
def test_hitches_are_told_in_the_order_worked(name: str, i: int) -> None:
    shown, text, done, mine = frame_of(name, i)
    if shown.look == "lay":
        first = done[shown.upto]
        row = [role(d, "knotting")[0] for d in done[shown.upto :] if d.bar == first.bar]
        assert cords(re.split(r" over ", text)[1])[0] == row
        leads = [first.leader] if isinstance(first.leader, int) else []
        assert cords(text.split(" over ")[0]) == ([leads] if leads else [])
        if leads:
            assert isinstance(first.leader, int)
            ports = [dict(d.leave)[first.leader] for d in done[shown.upto :] if d.bar == first.bar]
            assert ("to the right" in text) == (ports[-1].x > ports[0].x)
            assert ("down" in text) == (ports[-1].y > ports[0].y + 1.0)
    elif mine and mine[0].hitch and mine[0].vertical:
        worker = role(mine[0], "knotting")[0]
        assert cords(text)[0] == [worker]
        passed = [role(d, "leader")[0] for d in mine]
        told = [n for group in cords(text)[1:] for n in group]
        assert list(dict.fromkeys(told)) == passed
        assert ("to the right" in text) == (mine[0].strands[0] == worker)
        tie = mine[0].tie
        assert tie is not None
        paths = form(tie.knot, tie.manner).paths
        (k,), (lead,) = ([n for n, r in enumerate(tie.roles) if r == want]
                         for want in ("knotting", "leader"))  # fmt: skip
        over = min(crossed(paths[k], paths[lead], False))[2]
        assert ("over" in text, "under" in text) == (over, not over)
    elif mine and mine[0].hitch:
        knotters = [role(d, "knotting")[0] for d in mine]
        assert cords(re.split(r"with (?:each of )?", text)[1])[0] == knotters
        leader = mine[0].leader
        onto = f"cord {leader}" if isinstance(leader, int) else "the leader"
        assert onto in text


@pytest.mark.parametrize(("name", "i"), FRAMES)
def test_added_and_ended_cords_are_told(name: str, i: int) -> None:
    _, text, _, mine = frame_of(name, i)
    for d in mine:
        if d.carried:
            on, ends = cords(text)[:2]
            assert (on, ends) == ([d.leader], list(d.strands))
            place = d.order.index
            right = place(d.strands[0]) > place(on[0])
            assert text.endswith("hang to the right." if right else "hang to the left.")
            assert d.tie is not None
            made = form(d.tie.knot, d.tie.manner)
            assert ("its bar in front" in text) == (made.paths[0][0][2] > 0.0)
        if d.tie is None:
            assert both(ENDED) in text
            assert set(d.strands).isdisjoint(d.order)


# what of a cord is painted along its middle: its outline and its turned-away side
UNLIT = {ink for inks in (CORD, MOVING.inks) for ink in (inks.edge, inks.shade)}


# --- the pictures ----------------------------------------------------------------------------


def pictured(name: str, i: int, left: bool = False) -> tuple[Item, ...]:
    return technique_frames(name, left)[i].items


@pytest.mark.parametrize("name", NAMES)
def test_three_to_six_frames_with_numbers_and_arrows(name: str) -> None:
    made = technique_frames(name)
    assert 3 <= len(made) <= 6
    piece = worked(name)
    for i, frame in enumerate(made):
        there = [item for item in frame.items if isinstance(item, Text)]
        shown = {int(item.text) for item in there}
        named = {n for group in cords(frame.text) for n in group}
        assert named <= shown
        assert set(range(1, piece.gauge.strands + 1)) <= shown
        for one, other in pairwise(sorted((item.y, item.x) for item in there)):
            assert one[0] != other[0] or other[1] - one[1] > 0.95
        assert any(isinstance(item, Fill) for item in frame.items) or "wound" in frame.text, i
        assert frame.text[0].isupper()
        assert frame.text.endswith(".")
        assert len(frame.text) < 190


@pytest.mark.parametrize("name", NAMES)
def test_a_cord_is_thick_enough_at_20_mm(name: str) -> None:
    """A frame 20 mm high or wide has cords of 0.65 mm at the least: two printed lines apart."""
    x0, y0, x1, y1 = extent(technique_frames(name))
    assert 20.0 / max(x1 - x0, y1 - y0) > 0.65


@pytest.mark.parametrize(("name", "i"), FRAMES)
def test_cords_in_the_hand_are_picked_out(name: str, i: int) -> None:
    shown, _, _, mine = frame_of(name, i)
    piece, done = worked(name), deeds(worked(name))
    seen = scene(piece, done, shown, lowest(piece, done, shown_frames(name)))
    blue = [
        item
        for item in pictured(name, i)
        if isinstance(item, Stroke) and item.style.stroke == MOVING.inks.body
    ]
    assert blue
    count = sum(d.tie is not None for d in mine) + (shown.look == "low")
    new = seen.knots[len(seen.knots) - count :]
    for d, movers in new:
        held = set(role(d, "filler", "leader"))
        assert movers
        assert not movers & held
    assert all(not movers for _, movers in seen.knots[: len(seen.knots) - len(new)])
    # what comes later isn't there: no knot more than was tied
    assert len(seen.knots) == sum(d.tie is not None for d in done[: shown.upto]) + (
        shown.look == "low"
    )


@pytest.mark.parametrize("name", [n for n in NAMES if "lay" in techniques()[n].frames])
def test_a_leader_that_is_laid_lies_over_the_others(name: str) -> None:
    for i, shown in enumerate(shown_frames(name)):
        if shown.look == "lay":
            strokes = [item for item in pictured(name, i) if isinstance(item, Stroke)]
            first = next(
                k for k, item in enumerate(strokes) if item.style.stroke == MOVING.inks.edge
            )
            hanging = [k for k, item in enumerate(strokes) if item.style.stroke == "cord-edge"]
            done = deeds(worked(name))
            below = worked(name).gauge.strands - len(done[shown.upto].strands) + 1
            assert sum(k < first for k in hanging) >= below


def mirrored(item: Item) -> Item:
    """Return a stroke or text with left and right changed over."""
    if isinstance(item, Stroke):
        curves = [tuple(v if k % 2 else -v for k, v in enumerate(curve)) for curve in item.curves]
        return Stroke(item.style, curves)
    assert isinstance(item, Text)
    return Text(-item.x, item.y, item.text, item.size, item.anchor, item.weight)


@pytest.mark.parametrize(("name", "i"), FRAMES)
def test_the_left_hand_works_the_mirror_image_in_mirrored_words(name: str, i: int) -> None:
    swap = {"left": "right", "right": "left"}
    right, left = technique_frames(name)[i], technique_frames(name, True)[i]
    assert left.text == re.sub(r"\b(left|right)\b", lambda m: swap[m[0]], right.text)
    for one, other in zip(right.items, left.items, strict=True):
        if isinstance(one, Text):
            assert isinstance(other, Text)
            turned = mirrored(one)
            assert isinstance(turned, Text)
            assert (other.x, other.y) == pytest.approx((turned.x, turned.y))
            assert other.text == one.text
        elif isinstance(one, Stroke):
            assert isinstance(other, Stroke)
            turned = mirrored(one)
            assert isinstance(turned, Stroke)
            if one.style.stroke not in UNLIT or one.style.opacity < 1.0:
                continue  # the light comes from one side for either hand
            for a, b in zip(turned.curves, other.curves, strict=True):
                assert a == pytest.approx(b, abs=1e-9)


def test_a_worked_in_end_lies_under_what_crosses_at_the_back() -> None:
    """Of what is painted, the end comes before a cord of the knot that crosses it."""
    *_, back = technique_frames("ending_a_cord")
    strokes = [item for item in back.items if isinstance(item, Stroke)]
    blue = [k for k, item in enumerate(strokes) if item.style.stroke == MOVING.inks.body]
    plain = [k for k, item in enumerate(strokes) if item.style.stroke == "cord"]
    assert any(k > blue[0] for k in plain)


def test_there_are_no_words_in_other_languages() -> None:
    with pytest.raises(Refusal, match="no words in this language"):
        sentence(shown_frames("picots")[0].steps, "xx")
