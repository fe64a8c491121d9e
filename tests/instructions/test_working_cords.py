"""Which cords of a motif's knot work and which are fillers, in words, against the record."""

from __future__ import annotations

import pytest
from motifs.test_adding_ending import band, made

CASES = [
    ("crown_knot", 4, ", all four work"),
    ("josephine_knot", 2, ", both work"),
    ("josephine_knot", 4, ", all four work"),
    ("josephine_knot", 6, ", all six work"),
    ("half_hitch_chain", 2, ", both work"),
    ("switched_square_knot", 4, ": the inner two work, 2 cords are fillers"),
    ("berry_knot", 4, ": the outer two work, 2 cords are fillers"),
    ("square_knot", 3, ": the outer two work, 1 cord is a filler"),
    ("half_knot", 2, ", both work"),
    ("vertical_larks_head", 3, ": the one at the {facing} works, 2 cords are fillers"),
    ("overhand", 3, ", all cords taken as one"),
]


@pytest.mark.parametrize(("kind", "count", "said"), CASES)
@pytest.mark.parametrize("facing", ["left", "right"])
def test_working_cords_are_those_of_the_record(
    kind: str, count: int, said: str, facing: str
) -> None:
    lanes = list(range(1, count + 1))
    turned = "" if kind == "overhand" else f", facing: {facing}"
    steps = f"      - knot: {{kind: {kind}, lanes: {lanes}{turned}}}\n"
    found = made(count, band(steps, count), pitch=20)
    words = " ".join(found.words().split())
    assert f"on places 1–{count}{said.format(facing=facing)}." in words
    (tie,) = found.figures(rows=True)["rows"][-1]["ties"]
    work = [i for i, role in enumerate(tie["roles"]) if role == "working"]
    spelled = {2: "two", 4: "four", 6: "six"}.get(len(work), "")
    if "one" in said:
        expected = work == [0 if facing == "left" else count - 1] or len(work) == count
    else:
        expected = spelled in said or ("both" in said and len(work) == 2)
    assert expected
    assert ("outer" in said) == (work == [0, count - 1] and count > 2)
