"""Patterns written in Python: the classes are there, and the faults are those of a file."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

import knotplot
from knotplot import models
from knotplot.fields import Spec
from knotplot.motifs.step import STEPS
from knotplot.mounts.base import MOUNTS
from knotplot.pattern import parts
from knotplot.sections.base import SECTIONS

GOOD: dict[str, Any] = {
    "knotplot": 1,
    "title": "Pond mat",
    "size": {"width": "30 cm", "drop": "60 cm"},
    "cord": {"diameter": "4 mm"},
    "strands": {"count": 24},
    "mount": {"kind": "larks_head", "rod": "12 mm"},
    "sections": [
        {"name": "net", "kind": "square_knot_mesh", "rows": 4},
        {"kind": "motif_band", "motif": "leaf", "rows": 1},
        {"kind": "fringe", "length": "8 cm"},
    ],
    "lower_edge": {"profile": "parabola", "rise": "3 cm"},
    "motifs": {"leaf": {"strands": 8, "steps": [{"hitch": {"lead": 4, "to": 1}}]}},
}

# Where, and what is put there; None takes the key away.
WRONG: list[tuple[tuple[str | int, ...], Any]] = [
    (("size", "width"), 0),
    (("size", "width"), "30 km"),
    (("size",), "30 x 40"),
    (("size",), None),
    (("opening",), {"width": "1 m", "drop": "1 m"}),
    (("cord", "diameter"), 4),
    (("cord", "diametre"), "4 mm"),
    (("cord",), None),
    (("strands", "count"), 2.5),
    (("mount", "kind"), "larkshead"),
    (("mount", "kind"), None),
    (("mount", "rod"), None),
    (("mount",), "larks_head"),
    (("mount",), None),
    (("knotplot",), 99),
    (("knotplot",), None),
    (("sections",), []),
    (("sections", 0, "rows"), -4),
    (("sections", 0, "start"), "middle"),
    (("sections", 1, "motif"), "laef"),
    (("sections", 1, "name"), "net"),
    (("sections", 0, "kind"), None),
    (("sections", 2, "finish"), True),
    (("lower_edge", "rise"), "2 m"),
    (("lower_edge", "profile"), "parabla"),
    (("motifs", "leaf", "steps", 0, "hitch", "to"), 9),
    (("motifs", "leaf", "steps", 0), {"hich": {}}),
    (("title",), "a\nb"),
    (("kits",), 3),
    (("colour",), "red"),
]


def with_fault(path: tuple[str | int, ...], value: object) -> dict[str, Any]:
    found = copy.deepcopy(GOOD)
    here: Any = found
    for part in path[:-1]:
        here = here[part]
    if value is None:
        del here[path[-1]]
    else:
        here[path[-1]] = value
    return found


def told(error: knotplot.PatternError) -> set[str]:
    """Return what an error says, without the line that only a file has."""
    return {str(fault).partition(": ")[2] for fault in error.faults}


@pytest.mark.parametrize(("path", "value"), WRONG, ids=lambda each: str(each)[:40])
def test_python_gives_the_faults_of_a_file(path: tuple[str | int, ...], value: object) -> None:
    wrong = with_fault(path, value)
    with pytest.raises(knotplot.PatternError) as in_file:
        knotplot.loads(json.dumps(wrong))
    with pytest.raises(knotplot.PatternError) as in_python:
        knotplot.Pattern(**wrong)
    assert told(in_python.value) == told(in_file.value)
    assert all(fault.line is None for fault in in_python.value.faults)
    assert "pydantic" not in str(in_python.value)


def test_the_order_of_keywords_does_not_count() -> None:
    assert knotplot.Pattern(**dict(reversed(GOOD.items()))) == knotplot.Pattern(**GOOD)


def test_a_part_that_is_wrong_says_so_where_it_is_made() -> None:
    with pytest.raises(knotplot.PatternError, match=r"^pattern: rod: missing; add 'rod: 15 mm'$"):
        models.LarksHead()
    with pytest.raises(knotplot.PatternError, match="rows: 0: zero; use 1 or more, or write fill"):
        models.SquareKnotMesh(rows=0)
    with pytest.raises(knotplot.PatternError, match="both spool and spools; give one of the two"):
        models.Cord(diameter="4 mm", spool="100 m", spools=["50 m"])


def test_a_pattern_of_models_is_the_one_of_mappings() -> None:
    made = knotplot.Pattern(
        knotplot=1,
        title="Pond mat",
        size=models.Size(width="30 cm", drop="60 cm"),
        cord=models.Cord(diameter="4 mm"),
        strands=models.Strands(count=24),
        mount=models.LarksHead(rod="12 mm"),
        sections=[
            models.SquareKnotMesh(name="net", rows=4),
            models.MotifBand(motif="leaf", rows=1),
            models.Fringe(length="8 cm"),
        ],
        lower_edge=models.LowerEdge(profile="parabola", rise="3 cm"),
        motifs={"leaf": models.Motif(strands=8, steps=[models.HitchStep(lead=4, to=1)])},
    )
    assert made == knotplot.Pattern(**GOOD)
    assert knotplot.build(made).figures() == knotplot.build(knotplot.Pattern(**GOOD)).figures()


def test_a_model_in_a_wrong_place_is_a_fault() -> None:
    with pytest.raises(knotplot.PatternError, match=r"mount: .*'kind' is missing; add 'kind'"):
        knotplot.Pattern(**{**GOOD, "mount": models.Cord(diameter="4 mm")})


def test_every_class_of_a_pattern_is_in_models() -> None:
    public = {thing for thing in vars(models).values() if isinstance(thing, type)}
    assert {*MOUNTS.values(), *SECTIONS.values(), *STEPS.values()} <= public

    of_parts = {
        thing
        for thing in vars(parts).values()
        if isinstance(thing, type) and thing.__module__ == parts.__name__
    }
    assert {each for each in of_parts if issubclass(each, Spec)} <= public
