"""Faults in a maker's words: the whole path, what to write instead, and no library's wording."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pattern_sample import SMALL, WHOLE, changed

from knotplot import Pattern, build
from knotplot.errors import PatternError
from knotplot.examples import example
from knotplot.fields import Spec
from knotplot.mounts.base import MOUNTS
from knotplot.pattern.load import loads, verify
from knotplot.sections.base import SECTIONS


def said(text: str, *sets: str) -> str:
    with pytest.raises(PatternError) as caught:
        loads(text, sets=sets)
    return str(caught.value)


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        ("width: 40, drop", "width: &a 40, drop", "size.width: an anchor"),
        ("width: 40, drop", "width: 40, width: 4, drop", "size.width: the key 'width' again"),
        ("rows: 4", "rows: !!int 4", "sections[0].rows: a tag"),
        ("rows: 4", "rows: *r", "sections[0].rows: an alias"),
        ("rows: 4}", "rows: 4}\nmotifs:\n  a:\n    steps:\n    - x\n    - hitch:\n        to: &b 1",
         "motifs.a.steps[1].hitch.to: an anchor"),
        ("rows: 4}", "rows: 4}\nmotifs: {a: {steps: [x, {cross: [1, &b 2]}]}}",
         "motifs.a.steps[1].cross[1]: an anchor"),
        ("size:", "? {a: &x 1}\n: {b: 2}\nsize:", "pattern:2: an anchor"),
    ],
)  # fmt: skip
def test_a_fault_of_yaml_names_the_whole_path(old: str, new: str, path: str) -> None:
    text = said(changed(old, new, SMALL))
    assert path in text
    assert "?" not in text.replace("did you mean", "").replace("'?", "")


def test_an_unknown_kind_is_quoted_as_written_and_an_alias_has_one_fault() -> None:
    kind = "sections[0].kind: "
    for written in ("1.50", "null", "[a]"):
        quoted = "['a']" if written == "[a]" else written
        text = said(changed("kind: square_knot_mesh", f"kind: {written}", SMALL))
        assert f"{kind}{quoted}: unknown kind; use one of columns, " in text
    text = said(changed("kind: square_knot_mesh", "kind: *net", SMALL))
    assert text == f"pattern:7: {kind}an alias '*net'; write the part out again"


@pytest.mark.parametrize(
    ("old", "new", "remedy"),
    [
        ("{diameter: 4 mm}", "{diameter: 4,5 mm}",
         "cord.diameter: '4,5 mm': a decimal comma; write 'diameter: 4.5 mm', with a point"),
        ("{width: 40, drop: 60}", "{width: 40,5, drop: 60,5}",
         "size.drop: '60,5': a decimal comma; write 'drop: 60.5', with a point"),
        ("{width: 40, drop: 60}", "{width: 40,5 cm, drop: 60,5 cm}", "write 'width: 40.5 cm', w"),
    ],
)  # fmt: skip
def test_a_decimal_comma_in_braces_is_one_fault(old: str, new: str, remedy: str) -> None:
    text = said(changed(old, new, SMALL))
    assert remedy in text
    assert text.count("\n") == new.count(",5") - 1


def test_numbers_as_keys_are_no_decimal_commas() -> None:
    assert loads(SMALL + "x-shelf: {5: 1, 6: 2}\n").width == 400
    text = said(changed("{width: 40, drop: 60}", "{width: 40, 5: 60, drop: 60}", SMALL))
    assert "size.5: unknown key" in text


@pytest.mark.parametrize(
    "name",
    [
        "deep\u00a0sea",
        "\u6df1\u3000\u6d77",
        "\U0001f469\u200d\U0001f680",
        "\u2764\ufe0f",
        "a\u200cb",
    ],
)
def test_a_name_has_any_space_and_joined_emoji(name: str) -> None:
    more = f'colours: {{order: ["{name}*2", rust], palette: {{"{name}": "#102030"}}}}\n'
    more += f'motifs: {{"{name}": {{strands: 4, steps: [{{cross: [1, 2]}}]}}}}\n'
    pattern = loads(changed("name: net", f'name: "{name}"', SMALL) + more)
    assert pattern.colours is not None
    assert list(pattern.colours.palette) == [name]
    assert list(pattern.motifs) == [name]


@pytest.mark.parametrize("name", ["a\\u0007b", "a\\u202eb", "a\\u2028b"])
def test_a_key_that_cant_be_shown_is_refused(name: str) -> None:
    assert "use a plain word as the key" in said(SMALL + f'motifs: {{"{name}": 1}}\n')


BANDS = "rows: 4}\n  - {kind: columns, parts: [{strands: rest, sections: [%s]}]}"


@pytest.mark.parametrize(
    ("section", "place"),
    [
        ("{kind: motif_band, motif: 7, rows: 1}", "motif: '7': no motif is called that"),
        ("{kind: motif_band, motif: 7.50, rows: 1}", "motif: '7.50': no motif is called that"),
        ("{kind: sennits, knot: 7, count: 1}", "knot: '7': no knot is called that"),
    ],
)
def test_an_unquoted_number_is_a_name(section: str, place: str) -> None:
    assert place in said(changed("rows: 4}", BANDS % section, SMALL))
    own = "{strands: 4, steps: [{knot: {kind: square_knot, lanes: [1, 2, 3, 4]}}]}"
    good = SMALL.replace("rows: 4}", BANDS % "{kind: motif_band, motif: 7, rows: 1}")
    assert build(loads(good + f"motifs: {{7: {own}}}\n")).figures()["knots"]["square_knot"] == 18


def test_a_number_names_one_section_only() -> None:
    twice = "rows: 4}\n  - {name: 5, kind: free, length: 2}\n  - {name: 5, kind: free, length: 2}"
    assert "another section has this name" in said(changed("rows: 4}", twice, SMALL))


def test_an_unknown_motif_in_columns_made_in_python_is_a_fault() -> None:
    data = dict(
        loads(changed("rows: 4}", BANDS % "{kind: motif_band, motif: diamond, rows: 1}", SMALL))
    )
    part = {"strands": "rest", "sections": [{"kind": "motif_band", "motif": "x", "rows": 1}]}
    data["sections"] = [{"kind": "columns", "parts": [part]}]
    with pytest.raises(PatternError, match="no motif is called that"):
        verify(Pattern(**data))


@pytest.mark.parametrize("written", ["0x2", "0o2", "+2", "2.0", "2."])
def test_fullness_is_any_number(written: str) -> None:
    opening = f"opening: {{width: 20, drop: 60, fullness: {written}}}"
    assert loads(changed("size: {width: 40, drop: 60}", opening, SMALL)).width == 400


def test_every_key_that_is_needed_has_an_example() -> None:
    def below(model: type[Spec]) -> set[type[Spec]]:
        found = set(model.__subclasses__())
        return found.union(*map(below, found))

    assert list(SECTIONS)
    assert list(MOUNTS)
    needed = {
        (model.__name__, field)
        for model in below(Spec)
        for field, info in model.model_fields.items()
        if info.is_required()
        and not model.__name__.startswith("_")
        and model.__module__ != "knotplot.techniques"  # shipped files, nobody's pattern
    }
    assert len(needed) > 30
    assert not {each for each in needed if example(each[1], each[0]) is None}


@pytest.mark.parametrize(
    ("old", "new", "remedy"),
    [
        ("mount: {kind: larks_head, rod: 12 mm}\n", "",
         "mount: missing; add 'mount: {kind: larks_head, rod: 15 mm}'"),
        ("knotplot: 1\n", "", "knotplot: missing; add 'knotplot: 1'"),
        ("{width: 40, drop: 60}", "30 x 40 cm", "not a mapping; write {width: 30 cm, drop: 40 cm}"),
        ("{width: 40, drop: 60}", "30×40", "not a mapping; write {width: 30, drop: 40}"),
        ("{diameter: 4 mm}", "4 mm", "cord: '4 mm': not a mapping; write {diameter: 4 mm}"),
        ("{name: net, kind: square_knot_mesh, rows: 4}", "net",
         "sections[0]: 'net': not a mapping; write {kind: square_knot_mesh, rows: 6}"),
        ("knotplot: 1\n", "knotplot: 1\nnotes: sew the sides\n",
         "notes: unknown key; leave it out"),
        ("rows: 4}\n", "rows: 4}\nlower_edge: {profile: points, rise: 5, count: 3}\n",
         "points without 'at', but with 'count'; give 'at: [[0, 0], [0.5, 1], [1, 0]]' and leave "
         "'count' out"),
    ],
)  # fmt: skip
def test_a_remedy_shows_what_to_write(old: str, new: str, remedy: str) -> None:
    assert remedy in said(changed(old, new, SMALL))


# What pydantic says of values, and how it names types.
LIBRARY = re.compile(
    r"[Vv]alue error|Input should|[Ff]ield required|[Ee]xtra inputs|pydantic|Assertion|Fraction"
    r"|valid (?:string|integer|number|list|tuple|dict|boolean)|instance of|NoneType|<class"
    r"|the format of patterns"
)
JUNK = st.sampled_from(
    ["null", "true", "0x2", "0o7", "1e3", "-1", ".inf", ".nan", "''", "x", "[]", "{}", "[[1]]",
     "{a: 1}", "[1, 2, 3]", "5", "0", "5.5", "99999999999", "'5,5 mm'", "4 mm", "[null]",
     "{kind: x}", "[{kind: fringe}]", "{kind: 5}"]
)  # fmt: skip
VALUES = [match.span(1) for match in re.finditer(r"(?<=: )([^\s{\[][^,}\]\n]*)", WHOLE)]


@given(st.lists(st.tuples(st.sampled_from(VALUES), JUNK), min_size=1, max_size=3))
@settings(max_examples=120, deadline=None)
def test_no_library_speaks_in_a_fault(changes: list[tuple[tuple[int, int], str]]) -> None:
    text = WHOLE
    for (start, end), junk in sorted(changes, reverse=True):
        text = text[:start] + junk + text[end:]
    told = ""
    try:
        loads(text)
    except PatternError as error:
        told = str(error)
    assert not LIBRARY.search(told), told


def test_a_name_of_two_lines_makes_no_message_of_two() -> None:
    text = changed("name: net", 'name: "a\\nb"', SMALL) + "swatch: {of: nowhere}\n"
    with pytest.raises(PatternError) as caught:
        loads(text)
    assert len(str(caught.value).splitlines()) == len(caught.value.faults)


def test_a_value_left_out_is_a_fault_of_its_key() -> None:
    with pytest.raises(PatternError) as caught:
        loads(changed("rows: 4}", "rows\n  }", SMALL))
    line = next(i for i, text in enumerate(SMALL.splitlines(), start=1) if "rows: 4}" in text)
    assert line in [fault.line for fault in caught.value.faults if fault.path[-1:] == ("rows",)]
