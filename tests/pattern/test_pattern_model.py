from __future__ import annotations

import json
import time
from fractions import Fraction

import pytest
from pattern_sample import SMALL, WHOLE, changed
from pydantic import ValidationError

from knotplot.errors import PatternError, Refusal
from knotplot.mounts.larks_head import LarksHead
from knotplot.pattern.load import loads, verify
from knotplot.pattern.models import Pattern
from knotplot.pattern.parts import Size
from knotplot.sections.square_knot_mesh import SquareKnotMesh


@pytest.mark.parametrize("text", [WHOLE, SMALL])
def test_a_dump_reads_back_to_an_equal_pattern(text: str) -> None:
    pattern = loads(text)
    assert loads(json.dumps(pattern.model_dump(mode="json"))) == pattern
    assert Pattern(**pattern.model_dump()) == pattern
    assert loads(WHOLE, sets=["units=in"]) != loads(WHOLE)


def test_bare_numbers_are_in_the_patterns_units() -> None:
    pattern = loads(changed("units: cm", "units: in").replace("drop: 84 cm", "drop: 84"))
    assert pattern.drop == 84 * Fraction(254, 10)
    assert pattern.width == 920


def test_what_is_not_said_is_as_the_contract_says() -> None:
    pattern = loads(SMALL)
    assert (pattern.units, pattern.worked, pattern.kits) == ("cm", "flat", 1)
    assert pattern.strands.rounding == "nearest"
    assert pattern.allowance.confidence == 0.99
    assert (pattern.cut.groups, pattern.cut.step) == ("auto", 50)
    assert pattern.mount.fold == "auto"
    net = pattern.sections[0]
    assert (net.start, net.shape, net.facing, net.spacing) == ("edge", "straight", "left", 0)
    band = loads(WHOLE).sections[2]
    assert (band.edges, band.offset) == ("half", "half")
    assert loads(WHOLE).sections[3].sections[0].strands == 4
    inches = loads(SMALL.replace("knotplot: 1", "knotplot: 1\nunits: ft"))
    assert inches.cut.step == 2 * Fraction(254, 10)


def test_python_and_yaml_build_the_same() -> None:
    made = Pattern(
        knotplot=1,
        size={"width": 40, "drop": "60 cm"},
        cord={"diameter": "4 mm"},
        strands={"count": 16},
        mount=LarksHead(rod="12 mm"),
        sections=[SquareKnotMesh(name="net", rows=4)],
    )
    assert made == loads(SMALL)
    assert verify(made) is made


def test_python_meets_the_same_checks() -> None:
    pattern = loads(SMALL)
    with pytest.raises(PatternError, match="needs a unit; write '92 cm'"):
        Size(width=92, drop="84 cm")
    with pytest.raises(PatternError, match="neither 'size' nor 'opening'; add 'size: "):
        Pattern(**pattern.model_dump(exclude={"size"}))
    with pytest.raises(ValidationError, match="frozen"):
        pattern.title = "Other"
    net = pattern.sections[0]
    twice = pattern.model_copy(update={"sections": (net, net)})
    with pytest.raises(PatternError, match="another section has this name"):
        verify(twice)


def test_a_refusal_gets_its_line() -> None:
    pattern = loads(SMALL, origin="f.yaml")
    error = pattern.fault(Refusal("it can't", "do less", ("sections", 0, "rows"), 4))
    assert str(error) == "f.yaml:7: sections[0].rows: 4: it can't; do less"
    assert pattern.path_of("net") == ("sections", 0)
    assert loads(WHOLE).path_of("side") == ("sections", 4, "parts", 0, "sections", 0)


def test_own_motifs_win_over_the_shipped() -> None:
    pattern = loads(SMALL + "motifs: {diamond: {strands: 6, steps: [{cross: [1, 2]}]}}\n")
    assert pattern.motif("diamond").strands == 6
    assert loads(SMALL).motif("diamond").strands == 8
    with pytest.raises(Refusal, match="no motif is called that; did you mean 'diamond'"):
        pattern.motif("dimond")


def test_private_keys_are_dropped_everywhere() -> None:
    text = changed("  - cross: [6, 7]", "  - {cross: [6, 7], x-note: on}")
    text = text.replace("{kind: rod_pocket,", "{kind: rod_pocket, x-y: {a: 1},")
    assert loads(text) == loads(WHOLE)


def test_markup_in_a_title_is_text() -> None:
    title = "<b>&amp; ‘x’</b>"
    assert loads(f'{SMALL}title: "{title}"\n').title == title


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "worked: round",
            ":8: worked: 'round': not built yet: working in the round; use 'worked: f",
        ),
        ("kits: 2", "not built yet: kits"),
        ("language: de", "not built yet: another language"),
    ],
)
def test_what_is_not_built_yet_is_read_and_refused(text: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(SMALL + text + "\n")
    assert said in str(caught.value)
    assert len(caught.value.faults) == 1


def test_a_fold_is_in_the_middle_or_uneven() -> None:
    assert loads(changed("rod: 12 mm", "rod: 12 mm, fold: uneven", SMALL)).mount.fold == "uneven"
    with pytest.raises(PatternError, match=r"mount\.fold: 'thirds'"):
        loads(changed("rod: 12 mm", "rod: 12 mm, fold: thirds", SMALL))


@pytest.mark.parametrize("text", ["kits: 0", "work: {rate: 22}"])
def test_what_is_not_built_yet_is_checked_all_the_same(text: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(SMALL + text + "\n")
    assert "not built" not in str(caught.value)


def test_five_thousand_rows_are_read_well_under_a_second() -> None:
    rows = "".join(f"  - {{kind: square_knot_mesh, rows: {i % 9 + 1}}}\n" for i in range(5000))
    loads(SMALL)  # the models are built when first used
    begin = time.process_time()
    assert len(loads(SMALL + rows).sections) == 5001
    assert time.process_time() - begin < 1.0
