from __future__ import annotations

import re
from fractions import Fraction

import pytest
from pattern_sample import SMALL, WHOLE, changed

from knotplot.errors import PatternError, UsageError
from knotplot.pattern.load import loads


def test_a_named_size_is_laid_over() -> None:
    pattern = loads(WHOLE, size="tall")
    assert (pattern.width, pattern.drop) == (920, 1200)
    assert pattern.sections[0].rows == 12
    assert loads(WHOLE).sections[0].rows == 6


def test_opening_takes_size_away_and_the_other_way_round() -> None:
    wide = loads(WHOLE, size="wide")
    # the contract's formula: (opening.width + 2·overlap)·fullness
    assert wide.width == (1000 + 2 * 40) * Fraction(3, 2)
    assert wide.drop == 840
    assert wide.size is None
    again = loads(WHOLE, size="wide", sets=["size={width: 50, drop: 60}"])
    assert again.opening is None
    assert again.width == 500


def test_size_first_then_sets_in_order() -> None:
    pattern = loads(
        WHOLE,
        size="tall",
        sets=["sections.net.rows=8", "size.width=120 cm", "sections.net.rows=9"],
    )
    assert pattern.sections[0].rows == 9
    assert (pattern.width, pattern.drop) == (1200, 1200)


def test_sections_are_found_by_name_wherever_they_stand() -> None:
    pattern = loads(WHOLE, sets=["sections.braids.count=3", "sections.middle.rows=5"])
    assert pattern.sections[3].sections[0].count == 3
    assert pattern.sections[4].parts[1].sections[0].rows == 5
    assert pattern.sections[4].parts[0].sections[0].rows == 2


def test_null_takes_a_key_or_a_section_away() -> None:
    pattern = loads(WHOLE, sets=["lower_edge=null", "sections.lace=null", "version="])
    assert pattern.lower_edge.straight
    assert [section.label for section in pattern.sections][2] == "repeat"
    assert pattern.version is None
    changed_kind = loads(WHOLE, sets=["sections.braids={count: null, length: 4}"])
    assert changed_kind.sections[3].sections[0].length == 40


def test_lists_are_replaced_mappings_merge() -> None:
    pattern = loads(
        WHOLE,
        sets=[
            "motifs.leaf={strands: 4, steps: [{cross: [2, 3]}], top: null}",
            "cord.diameter=5 mm",
        ],
    )
    assert len(pattern.motifs["leaf"].steps) == 1
    assert pattern.cord.diameter == 5
    assert pattern.cord.fibre == "cotton"


def test_items_by_index_and_rivals() -> None:
    pattern = loads(WHOLE, sets=["swatches[0].strands=24", "sections[0].rows=7"])
    assert pattern.swatches[0].strands == 24
    assert pattern.swatches[0].minutes == 14
    assert pattern.sections[0].rows == 7
    one = loads(WHOLE, sets=["swatch={strands: 8, width: 6}"])
    assert one.swatches is None
    both = loads(WHOLE, sets=["cords.main.diameter=3 mm"])
    assert both.cord is None
    assert both.cord_types["main"].diameter == 3


@pytest.mark.parametrize(
    ("sets", "said"),
    [
        ("size.width=1e3", "--set size.width=1e3: size.width: 1e3: a number with an exponent"),
        ("sections.nett.rows=2", "sections.nett: no section has this name; did you mean 'net'?"),
        ("sections[9].rows=2", "sections: no item 9 there; there are 6"),
        ("sections[0].rows=0", "--set sections[0].rows=0: sections[0].rows: 0: zero"),
        ("sections.net.rows=0", "--set sections.net.rows=0: sections[0].rows: 0: zero"),
        ("swatches.strands=2", "a list can't be merged with keys"),
        ("title=a: b", "more than one value"),
        ("title=[1", "not YAML"),
        ("kist=1", "kist: unknown key; did you mean 'kits'?"),
        ("motifs.leaf.strands=8", "lane 12 isn't there, of 8"),
        ("sections.net=5", "not keys of a section"),
    ],
)
def test_faults_of_overrides_name_them(sets: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(WHOLE, sets=[sets])
    assert said in str(caught.value)


def test_an_override_of_an_item_that_is_no_mapping_is_named() -> None:
    with pytest.raises(PatternError) as caught:
        loads(WHOLE, sets=["sections=[[0, 0]]", "sections[0].shape=3"])
    assert str(caught.value) == (
        "--set sections[0].shape=3: sections[0]: a list can't be merged with keys; give a whole "
        "list"
    )


@pytest.mark.parametrize("sets", ["x", "=3", ".a=3", "a.=3", "[0]=3", "a..b=1", "a[x]=1", ""])
def test_what_is_no_override_is_a_fault_of_use(sets: str) -> None:
    with pytest.raises(UsageError, match="--set"):
        loads(WHOLE, sets=[sets])


def test_an_unknown_size_is_a_fault_of_use() -> None:
    with pytest.raises(UsageError, match="no size 'tal'; did you mean 'tall'"):
        loads(WHOLE, size="tal")
    with pytest.raises(UsageError, match="no size 'tall'; there is none"):
        loads(SMALL, size="tall")


def test_a_size_that_isnt_asked_for_is_checked_too() -> None:
    text = changed("rows: 12", "rows: -1")
    with pytest.raises(PatternError, match=r":9: sizes.tall.sections.net.rows: -1: negative"):
        loads(text)
    inside = changed("size: {drop: 120 cm}", "sizes: {x: {}}")
    with pytest.raises(PatternError, match="sizes within a size"):
        loads(inside)


def test_a_pattern_may_get_its_size_only_from_a_named_one() -> None:
    text = SMALL.replace("size: {width: 40, drop: 60}", "sizes: {a: {size: {width: 4, drop: 6}}}")
    assert loads(text, size="a").width == 40
    with pytest.raises(PatternError, match="neither 'size' nor 'opening'"):
        loads(text)


def test_later_refusals_find_their_line() -> None:
    pattern = loads(WHOLE, size="tall", sets=["mount.rows=8"], origin="f.yaml")
    assert pattern.source.locate(("sections", 2, "rows")) == ("f.yaml", 21)
    assert pattern.source.locate(("sections", 0, "rows")) == ("f.yaml", 9)
    assert pattern.source.locate(("mount", "rows")) == ("--set mount.rows=8", None)


@pytest.mark.parametrize("path", ["a." * 600 + "a", "sections[0]" + ".a" * 600, "x-a" + ".a" * 80])
def test_a_path_of_endless_parts_is_a_fault(path: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(WHOLE, sets=[f"{path}=1"])
    said = str(caught.value)
    assert said.endswith("…: a path of more than 64 parts; name a key of a pattern")
    assert len(said) < 200


@pytest.mark.parametrize("path", ["a" * 20_000, "size.a\u200bb\u202ec", "a\nb"])
def test_a_key_that_no_file_can_have_is_a_fault_of_use(path: str) -> None:
    with pytest.raises(UsageError, match="use a plain word as the key") as caught:
        loads(WHOLE, sets=[f"{path}=1"])
    assert len(str(caught.value).splitlines()) == 1
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize(
    "assignment",
    [
        "size.width=" + "9" * 20_000,
        "size.width='" + "\n" * 20_000 + "'",
        "title=[" + "x, " * 9_000 + "]",
        "x" * 20_000,
        "sections[" + "9" * 20_000 + "].rows=1",
        "sections[999999999].rows=1",
    ],
)
def test_a_message_tells_how_an_override_begins_on_one_line(assignment: str) -> None:
    with pytest.raises((PatternError, UsageError)) as caught:
        loads(WHOLE, sets=[assignment])
    said = str(caught.value)
    assert said.startswith(f"--set {assignment[:20]}".splitlines()[0])
    assert len(said.splitlines()) == 1
    assert len(said) < 300


@pytest.mark.parametrize("written", ["5", "+5", "1e3", "0x10"])
def test_a_section_whose_name_is_a_number_is_found(written: str) -> None:
    text = re.sub(r"\bnet\b", written, WHOLE)
    pattern = loads(text, sets=[f"sections.{written}.rows=8"])
    assert pattern.sections[0].name == written
    assert pattern.sections[0].rows == 8
    with pytest.raises(PatternError, match=re.escape(f"did you mean '{written}'?")):
        loads(text, sets=[f"sections.{written}{written}.rows=8"])
