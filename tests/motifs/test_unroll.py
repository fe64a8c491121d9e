from __future__ import annotations

import time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.errors import PatternError
from knotplot.fields import in_units
from knotplot.motifs.motif import Motif, UnrolledStep, count_steps, steps_within, unroll
from knotplot.motifs.shipped import shipped_motif, shipped_names
from knotplot.motifs.steps import AddStep, CrossStep, HitchStep, KnotStep


def motif(*steps: Any, strands: int = 12, top: int | None = None) -> Motif:
    with in_units("cm"):
        return Motif(strands=strands, steps=steps, top=top)


def worked(*steps: Any, strands: int = 12) -> list[Any]:
    return [step.step for step in unroll(motif(*steps, strands=strands))]


def hitch(lead: int, to: int, **more: Any) -> dict[str, Any]:
    return {"hitch": {"lead": lead, "to": to, **more}}


def test_steps_are_counted_as_worked() -> None:
    found = unroll(
        motif(
            {"cross": [6, 7]},
            {"repeat": {"times": 2, "steps": [{"gap": 1}, hitch(1, 3, times=5)]}},
            {"both": [hitch(1, 6)]},
        )
    )
    assert [step.number for step in found] == [1, 2, 3, 4, 5, 6, 7]
    assert [step.step.key for step in found] == [
        "cross", "gap", "hitch", "gap", "hitch", "hitch", "hitch",
    ]  # fmt: skip
    assert found[6].path == ("steps", 2, "both", 0, "hitch")
    assert found[3].path == ("steps", 1, "repeat", "steps", 0, "gap")
    assert [step.mirrored for step in found] == [False] * 6 + [True]


# Contract 2: lane l read as m + 1 − l of the m lanes, facing and `under` the other way.
def test_a_mirror_reads_lanes_facing_and_under_the_other_way() -> None:
    found = worked(
        {
            "mirror": [
                hitch(1, 6, turns=3, angle=30),
                {"cross": [2, 3]},
                {"cross": [2, 3], "under": True},
                {"knot": {"kind": "square_knot", "lanes": [1, 2, 3], "facing": "right"}},
                {"vertical": {"worker": 4, "to": 9}},
                {"end": {"lanes": [1, 3]}},
            ]
        }
    )
    assert found[0] == HitchStep(lead=12, to=7, turns=3, angle=30)
    assert found[1] == CrossStep(lanes=(10, 11), under=True)
    assert found[2] == CrossStep(lanes=(10, 11), under=False)
    assert found[3] == KnotStep(kind="square_knot", lanes=(10, 11, 12), facing="left")
    assert (found[4].worker, found[4].to) == (9, 4)
    assert found[5].lanes == (10, 12)


def test_a_mirror_in_a_mirror_is_as_written() -> None:
    assert worked({"mirror": [{"mirror": [hitch(1, 6)]}]}) == worked(hitch(1, 6))
    assert worked({"mirror": [{"both": [hitch(1, 6)]}]}) == worked(hitch(12, 7), hitch(1, 6))
    assert worked({"both": [{"repeat": {"times": 2, "steps": [hitch(1, 2)]}}]}) == worked(
        hitch(1, 2), hitch(1, 2), hitch(12, 11), hitch(12, 11)
    )


def test_lanes_renumber_at_once_after_add_and_end() -> None:
    found = unroll(
        motif(
            {"add": {"after": 2, "cords": 2}},
            {"mirror": [hitch(1, 2)]},
            {"end": {"lanes": [1, 2, 3]}},
            hitch(5, 1),
            {"mirror": [{"add": {"after": 1}}]},
            strands=4,
        )
    )
    assert [step.lanes for step in found] == [4, 8, 8, 5, 5]
    assert found[1].step == HitchStep(lead=8, to=7)
    assert found[4].step == AddStep(after=5, cords=1)
    assert found[4].mirrored
    with pytest.raises(PatternError, match="lane 6 isn't there, of 5"):
        motif({"end": {"lanes": [1]}}, hitch(6, 1), strands=6)


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        ([{"mirror": [hitch(13, 1)]}], "lane 13 isn't there, of 12"),
        ([{"repeat": {"times": 0, "steps": [hitch(1, 2)]}}], "use 1 or more"),
        ([{"repeat": {"times": 2, "steps": []}}], "empty; put at least one in it"),
        ([{"both": 3}], "not a list; write a list"),
        ([{"repeat": {"times": 100_001, "steps": [hitch(1, 2)]}}], "more than 100 000 steps"),
        ([{"end": {"lanes": list(range(1, 13))}}], "no lane is left"),
        ([{"add": {"after": 1, "cords": 9_999}}], "more than 20 000 strands"),
        ([{"knot": {"kind": "square_knot", "lanes": [1, 3]}}], "not side by side"),
        ([{"knot": {"kind": "square_knot", "lanes": [1, 1]}}], "lane 1 twice"),
        ([{"hitch": {"lead": 1, "to": 2, "angle": -1}}], "not an angle"),
    ],
)
def test_faults_of_steps(steps: list[Any], said: str) -> None:
    with pytest.raises(PatternError, match=said):
        motif(*steps)


def test_each_place_is_said_once_however_often_it_is_repeated() -> None:
    with pytest.raises(PatternError) as caught:
        motif({"repeat": {"times": 900, "steps": [hitch(1, 40), hitch(50, 2)]}}, top=5_000)
    assert [fault.path for fault in caught.value.faults] == [
        ("steps", 0, "repeat", "steps", 0, "hitch", "to"),
        ("steps", 0, "repeat", "steps", 1, "hitch", "lead"),
        ("top",),
    ]


def test_nested_repeats_cost_nothing_until_they_are_worked() -> None:
    begin = time.process_time()
    steps: Any = hitch(1, 2)
    for _ in range(9):
        steps = {"repeat": {"times": 100, "steps": [steps]}}
    with pytest.raises(PatternError, match="more than 100 000"):
        motif(steps)
    assert time.process_time() - begin < 1


@pytest.mark.parametrize("name", shipped_names())
def test_shipped_motifs_read_and_dump(name: str) -> None:
    shipped = shipped_motif(name)
    assert Motif.model_validate(shipped.model_dump(mode="json")) == shipped
    assert shipped.title
    assert count_steps(shipped.steps) == len(unroll(shipped))


def order_after(steps: tuple[UnrolledStep, ...], strands: int) -> list[int]:
    """Follow strands through crosses and hitches: the leader moves past each it is hitched by."""
    order = list(range(1, strands + 1))
    for _, step, *_ in steps:
        if isinstance(step, CrossStep):
            left = min(step.lanes) - 1
            order[left], order[left + 1] = order[left + 1], order[left]
        elif isinstance(step, HitchStep):
            for _ in range(step.times):
                order.insert(step.to - 1, order.pop(step.lead - 1))
    return order


# Contract 4: strands 1-2-3-4 with lead 1 to 4 become 2-3-4-1; issue: a closed diamond gives every
# strand back its lane.
def test_the_diamond_gives_every_strand_back_its_lane() -> None:
    assert order_after(unroll(motif(hitch(1, 4), strands=4)), 4) == [2, 3, 4, 1]
    assert order_after(unroll(shipped_motif("diamond")), 8) == [1, 2, 3, 4, 5, 6, 7, 8]


lanes = st.integers(1, 6)
leaves = st.one_of(
    st.tuples(lanes, lanes).filter(lambda ab: ab[0] != ab[1]).map(lambda ab: hitch(*ab)),
    st.tuples(st.integers(1, 5), st.booleans()).map(
        lambda at: {"cross": [at[0], at[0] + 1], "under": at[1]}
    ),
    st.tuples(st.integers(1, 3), st.sampled_from(["left", "right"])).map(
        lambda at: {"knot": {"kind": "square_knot", "lanes": [at[0], at[0] + 1], "facing": at[1]}}
    ),
)
nested = st.recursive(
    leaves,
    lambda inner: st.lists(inner, min_size=1, max_size=3).flatmap(
        lambda steps: st.sampled_from(
            [{"mirror": steps}, {"both": steps}, {"repeat": {"times": 2, "steps": steps}}]
        )
    ),
    max_leaves=6,
)


@given(st.lists(nested, min_size=1, max_size=4))
def test_unrolling_a_mirror_is_mirroring_what_is_unrolled(steps: list[Any]) -> None:
    plain = worked(*steps, strands=6)
    assert worked({"mirror": steps}, strands=6) == [step.mirrored(6) for step in plain]
    assert worked({"both": steps}, strands=6) == plain + [step.mirrored(6) for step in plain]
    assert [step.mirrored(6).mirrored(6) for step in plain] == plain
    whole = motif(*steps, strands=6)
    assert count_steps(whole.steps) == len(plain)
    assert Motif.model_validate(whole.model_dump(mode="json")) == whole
    assert len(list(steps_within(whole.steps))) <= len(plain)
