"""Every kind of bad input: one clear fault with its line, path, value and remedy, no traceback."""

from __future__ import annotations

import time
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pattern_sample import SMALL, WHOLE, changed

from knotplot.errors import KnotplotError, PatternError
from knotplot.pattern.load import load, loads

# what is written, what is written instead, and what the message must hold
CHANGES = [
    ("width: 92 cm, drop", "width: 1e3, drop", ":5: size.width: 1e3: a number with an exponent"),
    ("width: 92 cm, drop", "width: .inf, drop", ":5: size.width: .inf: not a finite number"),
    ("width: 92 cm, drop", "width: '92,5 cm', drop", "use a decimal point: '92.5 cm'"),
    ("width: 92 cm, drop", "width: -92, drop", ":5: size.width: -92: a negative length"),
    ("width: 92 cm, drop", "width: 0, drop", ":5: size.width: 0: a length of zero"),
    ("width: 92 cm, drop", "width: +92, drop", ":5: size.width: +92: a sign"),
    ("width: 92 cm, drop", "width: 2 furlong, drop", "unknown unit 'furlong'; use mm, cm"),
    ("width: 92 cm, drop", "width: 1.1e9 m, drop", "exponent"),
    ("width: 92 cm, drop", "width: 1001 m, drop", "longer than 1 km"),
    ("width: 92 cm, drop", "width: [1], drop", "not a length"),
    ("width: 92 cm, drop", "widht: 92 cm, drop", "size.widht: unknown key; did you mean 'width'?"),
    ("width: 92 cm, drop", "widht: 92 cm, drop", "size.width: missing; add 'width: 92 cm'"),
    ("diameter: 4 mm", "diameter: 4", "cord.diameter: 4: needs a unit; write '4 mm'"),
    ("spool: 100 m", "spool: 100", "cord.spool: 100: needs a unit; write '100 m'"),
    ("18.50 EUR", "18.50", "like '18.50 EUR'"),
    ("9.6 g/m", "9.6", "needs a unit; write it like '9.6 g/m'"),
    ("tail: 26 cm", "tail: 26", "mount.tail: 26: needs a unit; write '26 mm'"),
    ("rise: 9 cm", "rise: 84 cm", "lower_edge.rise: '84 cm': a rise as tall as the drop"),
    ("rise: 9 cm", "rise: -84 cm", "a rise as tall as the drop"),
    ("rise: 9 cm", "rise: 840", "lower_edge.rise: 840: a rise as tall as the drop"),
    ("profile: parabola, rise: 9", "profile: arc, rise: 47", "more than an arc has"),
    ("profile: parabola", "profile: parabla", "did you mean 'parabola'?"),
    ("profile: parabola", "profile: scallops", "scallops without 'count'; give 'count: 5'"),
    ("profile: parabola", "profile: points", "points without 'at'"),
    ("profile: parabola", "count: 3, profile: parabola", "or use 'profile: scallops'"),
    ("profile: parabola", "profile: points, at: [[0, 0], [0.5, 1]]", "both ends"),
    ("profile: parabola", "profile: points, at: [[0, 0], [1, 0.5]]", "f 0 and f 1"),
    ("profile: parabola", "profile: points, at: [[0, 0], [0, 1], [1, 0]]", "doesn't rise"),
    ("profile: parabola", "profile: points, at: [[0, 0], [1, 2]]", "from 0 to 1"),
    ("cross: [6, 7]", "cross: [6, 8]", "steps[0].cross: [6, 8]: lanes 6 and 8 aren't neighbours"),
    ("cross: [6, 7]", "cross: [6]", "cross[1]: too few"),
    ("cross: [6, 7]", "cross: [6, 7, 8]", "too many"),
    ("cross: [6, 7]", "cross: 6", "cross: 6: not a list"),
    ("cross: [6, 7]", "cross: [0, 1]", "cross[0]: 0: zero; use 1 or more"),
    ("{lead: 6, to: 1}", "{lead: 6, to: 13}", "hitch.to: 13: lane 13 isn't there, of 12"),
    ("{lead: 6, to: 1}", "{lead: 6, to: 6}", "'lead' and 'to' are one lane"),
    ("{lead: 6, to: 1}", "{lead: 6, too: 1}", "hitch.too: unknown key; did you mean 'to'?"),
    ("{lead: 6, to: 1}", "{lead: 6, to: 1, turns: 4}", "turns: 4: too many; use 3 at most"),
    ("{lead: 6, to: 1}", "{lead: 6, to: 1, turns: true}", "turns: true: not a whole number"),
    ("{lead: 6, to: 1}", "5", "steps[1].hitch: 5: not a mapping"),
    ("hitch: {lead: 6, to: 1}", "hich: {lead: 6, to: 1}", "unknown step 'hich'; did you mean 'hit"),
    ("hitch: {lead: 6, to: 1}", "{}", "steps[1]: an empty step"),
    ("hitch: {lead: 6, to: 1}", "[1]", "steps[1]: [1]: not a step"),
    ("hitch: {lead: 6, to: 1}", "{gap: 1, cross: [1, 2]}", "2 steps in one: gap, cross"),
    ("hitch: {lead: 6, to: 1}", "{gap: 1, under: true}", "unknown key 'under' beside 'gap'"),
    ("hitch: {lead: 6, to: 1}", "{cross: [1, 2], undr: true}", "did you mean 'under'?"),
    ("lanes: [4, 5, 6, 7, 8, 9]", "lanes: [4, 6]", "lanes: [4, 6]: lanes not side by side"),
    ("lanes: [4, 5, 6, 7, 8, 9]", "lanes: [4, 4, 5]", "lane 4 twice"),
    ("lanes: [4, 5, 6, 7, 8, 9]", "lanes: [4]", "needs 2 lanes"),
    ("kind: square_knot, lanes", "kind: square_knt, lanes", "did you mean 'square_knot'"),
    ("top: 4", "top: 8", "motifs.leaf.top: 8: 'top' is 8, but there are 7 steps"),
    ("motif: leaf", "motif: leef", "sections[2].motif: 'leef': no motif is called that; did you m"),
    ("knot: half_knot", "knot: half_not", "sections[3].sections[0].knot: 'half_not'"),
    ("knot: half_knot, count: 12", "knot: half_knot", "no count and no length"),
    ("count: 12", "count: 12, length: fill", "both count and length"),
    ("kind: fringe, ", "kind: frnge, ", "sections[5].kind: 'frnge': unknown kind; did you mean"),
    ("kind: fringe, ", "", "sections[5]: 'kind' is missing; add 'kind', one of columns, free"),
    ("kind: rod_pocket, ", "", "mount: 'kind' is missing; add 'kind', one of hitched"),
    ("{kind: rod_pocket, rod: 20 mm, rows: 6, tail: 26 cm}", "yes", "mount: 'yes': not a mapping"),
    ("length: 6}", "length: full}", "or write fill"),
    ("name: lace", "name: net", "sections[2].name: 'net': another section has this name"),
    ("name: side", "name: net", "sections[4].parts[0].sections[0].name: 'net'"),
    ("rows: 6}\n  - {kind: h", "rows: 0}\n  - {kind: h", "rows: 0: zero; use 1 or more, or"),
    ("rows: 6}\n  - {kind: h", "rows: 6.0}\n  - {kind: h", "rows: 6.0: not a whole number; use"),
    ("rows: 6}\n  - {kind: h", "rows: 6.5}\n  - {kind: h", "use a whole number, 6 or 7"),
    ("rows: 6}\n  - {kind: h", "rows: '6'}\n  - {kind: h", "rows: '6': not a whole number"),
    ("rows: 6}\n  - {kind: h", "rows: true}\n  - {kind: h", "rows: true: not a whole number"),
    ("rows: 6}\n  - {kind: h", "rows: 9999999}\n  - {kind: h", "use 2\u202f000\u202f000 at most"),
    ("strands: 8, sections", "strands: 6, sections", "parts[0].strands: 6: its sections can't be"),
    ("strands: 8, sections", "strands: rest, sections", "more than one part takes the rest"),
    ("knotplot: 1", "knotplot: 2", ":1: knotplot: 2: pattern format 2 is newer than this"),
    ("knotplot: 1", "knotplot: one", "write 'knotplot: 1'"),
    ("knotplot: 1\n", "", ":1: knotplot: missing"),
    ("knotplot: 1\ntitle", "title: x\nknotplot: 1\nsummary", ":2: knotplot: 'knotplot' isn't the"),
    ("units: cm", "units: inch", "units: 'inch': unknown word; did you mean 'in'?"),
    ("of: net", "of: nett", "swatches[0].of: 'nett': no section is called that; did you mean"),
    ("confidence: 0.99", "confidence: 1", "use a number above 0, below 1"),
    ("confidence: 0.99", "confidence: .nan", "not a finite number"),
    ("working: 12.0", "workin: 12.0", "did you mean 'working'?"),
    ("working: 12.0", "working: -1", "working: -1: out of range"),
    ("cord_use: {square_knot", "cord_use: {sqare_knot", "did you mean 'square_knot'"),
    ("minutes: 14", "minutes: many", "minutes: 'many': not a number"),
    ("strands: {rounding: nearest}", "strands: {count: 20001}", "20\u202f000 at most"),
    ("size: {width: 92 cm, drop: 84 cm}\n", "", "neither 'size' nor 'opening'; add 'size: {"),
    ("cord: {dia", "cords: {main: {diameter: 1 mm}}\ncord: {dia", "both 'cord' and 'cords'"),
    ("size: {drop: 120 cm}", "size: {drop: -1 cm}", ":8: sizes.tall.size.drop: '-1 cm': a negat"),
    ("{net: {rows: 12}}", "{nett: {rows: 12}}", "sizes.tall.sections.nett: no section has this"),
    ("title: Saltmarsh", 'title: "\\x1b" #', "title: '\\x1b': U+001B in the text"),
    ("title: Saltmarsh", "title: [1] #", "title: [1]: not text"),
    ("version: 1.20", "version: ''", "version: '': empty text"),
    # The text itself
    ("version: 1.20", "version: &v 1.20", ":3: version: an anchor '&v'; leave it out"),
    ("version: 1.20", "version: !!str 1.20", ":3: version: a tag 'tag:yaml.org,2002:str'"),
    ("version: 1.20", "version: *v", ":3: version: an alias '*v'; write the part out again"),
    ("version: 1.20", "title: again", ":3: title: the key 'title' again, first on line 2"),
    ("version: 1.20", "? [a]\n: b", ":3: a key that is no plain word"),
    ("version: 1.20", '"\\x1b": b', "the key '\\x1b'; use a plain word"),
    ("version: 1.20", "---\nknotplot: 1", ":3: a second document; keep one pattern in a file"),
    ("version: 1.20", "version: [1", ":4: not YAML: while parsing a flow sequence from line 3:"),
    ("version: 1.20", "\tversion: 1", "not YAML"),
    ("version: 1.20", "version: " + "[" * 70 + "]" * 70, ":3: nested more than 64 deep"),
    ("version: 1.20", "version: \x07", ":3: a character that is no text, U+0007"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), CHANGES)
def test_a_fault_is_said_with_place_and_remedy(old: str, new: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(changed(old, new), origin="f.yaml")
    text = str(caught.value)
    assert said in text
    for fault in caught.value.faults:
        assert fault.origin == "f.yaml"
        assert fault.line is not None
        assert fault.problem
        assert fault.remedy
        assert len(str(fault)) < 400
        assert "\n" not in str(fault)


def test_the_sample_itself_is_good() -> None:
    assert loads(WHOLE).title == "Saltmarsh café curtain"
    assert loads(SMALL).title == "Untitled"


def test_all_faults_come_together_in_the_order_of_lines() -> None:
    text = WHOLE
    for old, new in [
        ("width: 92 cm, drop", "width: -1, drop"),
        ("diameter: 4 mm", "diameter: 4"),
        ("name: lace", "name: net"),
        ("motif: leaf", "motif: leef"),
        ("knot: half_knot", "knot: hafl_knot"),
        ("lead: 6, to: 1", "lead: 60, to: 1"),
        ("version: 1.20", "version: &a 1"),
    ]:
        text = changed(old, new, text)
    with pytest.raises(PatternError) as caught:
        loads(text)
    assert len(caught.value.faults) == 7
    lines = [fault.line for fault in caught.value.faults]
    assert lines == sorted(lines)


def test_two_fills_and_what_stands_below_a_tassel() -> None:
    two = changed("rows: 4}", "rows: fill}\n  - {kind: free, length: fill}", SMALL)
    with pytest.raises(PatternError, match=r"sections\[1\].length: 'fill': a second 'fill'"):
        loads(two)
    below = "rows: 4}\n  - {kind: tassel, wrap: 2}\n  - {kind: free, length: 3}"
    with pytest.raises(PatternError, match=r"sections\[2\]: 'free': below a tassel; only a fringe"):
        loads(changed("rows: 4}", below, SMALL))
    inside = (
        "rows: 4}\n  - {kind: repeat, times: 2, sections: [{kind: tassel, wrap: 2}]}"
        "\n  - {kind: fringe, length: 3}"
    )
    with pytest.raises(PatternError, match="a tassel that is repeated"):
        loads(changed("rows: 4}", inside, SMALL))
    good = "rows: 4}\n  - {kind: tassel, wrap: 2}\n  - {kind: fringe, length: 3}"
    assert len(loads(changed("rows: 4}", good, SMALL)).sections) == 3


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "an empty file; begin it with 'knotplot: 1'"),
        (b"# nothing but words\n", "an empty file"),
        (b"- 1\n", "not a pattern"),
        (b"just words", "not a pattern"),
        (b"knotplot: 1\ntitle: caf\xe9\n", ":2: not UTF-8; it looks like Windows-1252 or Latin-1"),
        ("knotplot: 1".encode("utf-16"), ":1: not UTF-8; it looks like UTF-16"),
        ("knotplot: 1\n".encode("utf-16-le"), "it looks like UTF-16"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "a binary file, not text"),
        (bytes(range(128, 256)) + bytes(range(32)), "binary"),
        (b"knotplot: 1\n#" + b"x" * 9_000_000, "larger than 8 MB"),
    ],
)
def test_a_file_that_is_no_text(tmp_path: Path, data: bytes, said: str) -> None:
    file = tmp_path / "bad.yaml"
    file.write_bytes(data)
    with pytest.raises(PatternError) as caught:
        load(file)
    assert said in str(caught.value)
    assert str(file) in str(caught.value)


def test_a_mark_at_the_start_of_the_file_is_no_fault(tmp_path: Path) -> None:
    file = tmp_path / "mark.yaml"
    file.write_bytes(b"\xef\xbb\xbf" + SMALL.encode())
    assert load(file).width == 400


@pytest.mark.parametrize("name", ["missing.yaml", ".", "a\0b"])
def test_a_file_that_cant_be_read(tmp_path: Path, name: str) -> None:
    with pytest.raises(PatternError, match=r"can't be read|no path"):
        load(tmp_path / name)


BOMB = "a: &a [x, x]\n" + "".join(
    f"{chr(98 + i)}: &{chr(98 + i)} [*{chr(97 + i)}, *{chr(97 + i)}]\n" for i in range(20)
)
REPEATS = "{repeat: {times: 99999, steps: [" * 10 + "{gap: 1}" + "]}}" * 10
HOSTILE = {
    "aliases": BOMB,
    "brackets": "[" * 100_000,
    "braces": "{a: " * 100_000,
    "dashes": "- " * 100_000,
    "spaces": " " * 8_000_000,
    "digits": "knotplot: " + "9" * 1_000_000,
    "keys": "".join(f"k{i}: 1\n" for i in range(50_000)),
    "same key": "k: 1\n" * 50_000,
    "names": SMALL + "  - {name: net, kind: square_knot_mesh, rows: 1}\n" * 3_000,
    "motifs": SMALL
    + "".join(f"  - {{kind: motif_band, motif: a{i}, rows: 1}}\n" for i in range(2_000))
    + "motifs: {"
    + "".join(f"b{i}: {{strands: 4, steps: [gap: 1]}}, " for i in range(2_000))
    + "}\n",
    "steps": SMALL + f"motifs: {{a: {{strands: 4, steps: [{REPEATS}]}}}}\n",
    "sizes": SMALL + "sizes:\n" + "".join(f"  s{i}: {{}}\n" for i in range(20_000)),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_text_is_refused_within_seconds(name: str) -> None:
    begin = time.process_time()
    with pytest.raises(PatternError):
        loads(HOSTILE[name])
    assert time.process_time() - begin < 5


@given(st.text(max_size=60))
@settings(max_examples=150)
def test_any_text_is_read_or_refused(text: str) -> None:
    with pytest.raises(KnotplotError):
        loads(text)


@given(st.data())
@settings(max_examples=150, deadline=None)
def test_a_damaged_pattern_is_read_or_refused(data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(WHOLE) - 1))
    piece = data.draw(st.text(alphabet="{}[]:,-&*!'\"\n 0.ax", max_size=3))
    until = data.draw(st.integers(at, min(len(WHOLE), at + 4)))
    with suppress(PatternError):  # anything else that it raises fails
        assert loads(WHOLE[:at] + piece + WHOLE[until:]).sections
