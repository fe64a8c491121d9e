"""Every kind of bad input through the commands: exit 1, one clear line a fault, nothing written.

The issue's list: empty, binary, wrong encoding, deep nesting, alias bombs, tags, repeated and
unknown keys, unknown units, not-finite, negative, zero, gigantic; lanes that aren't there;
sections that don't fit; a rise taller than the drop; an unwritable place.
"""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from cli_sample import GOOD, changed
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from knotplot.cli import main

SECONDS = 5.0
BOMB = b"a: &a [x, x]\n" + b"".join(b"b%d: [*a, *a]\n" % i for i in range(2_000))

# What the file holds, and what the line about it must say.
FILES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "an empty file; begin it with 'knotplot: 1'"),
    "blank": (b"\n\n  \n", "an empty file"),
    "a word": (b"hello", "not a pattern; begin it with 'knotplot: 1'"),
    "a list": (b"- 1\n- 2\n", "not a pattern"),
    "binary": (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "a binary file, not text"),
    "UTF-16": (GOOD.encode("utf-16"), "not UTF-8; it looks like UTF-16; save it as UTF-8"),
    "Latin-1": (b"knotplot: 1\ntitle: caf\xe9\n", ":2: not UTF-8; it looks like Windows-1252"),
    "nested": (GOOD.encode() + b"x-deep: " + b"[" * 5_000, "nested more than 64 deep"),
    "broken": (b"knotplot: 1\nsize: {width: 1\n", "not YAML: "),
    "tabs": (b"knotplot: 1\n\tsize: 3\n", ":2: not YAML: "),
    "too large": (b"#" + b"x" * 9_000_000, "larger than 8 MB"),
}

# A piece of the good pattern, what stands there instead, and what the line must say.
CHANGES = [
    ("title: Harbour", "title: !!python/name:os.system Harbour", ":2: title: a tag "),
    ("title: Harbour", "title: &a Harbour", ":2: title: an anchor '&a'; leave it out"),
    ("units: cm", "units: cm\nunits: cm", ":4: units: the key 'units' again, first on line 3"),
    ("units: cm", "unit: cm", ":3: unit: unknown key; did you mean 'units'?"),
    ("rows: 4}", "rowes: 4, rows: 4}", "sections[0].rowes: unknown key; did you mean 'rows'?"),
    ("width: 19.2 cm", "width: 19.2 ells", "size.width: '19.2 ells': unknown unit 'ells'; use mm"),
    ("width: 19.2 cm", "width: .inf", "size.width: .inf: not a finite number"),
    ("width: 19.2 cm", "width: .nan", "size.width: .nan: not a finite number"),
    ("width: 19.2 cm", "width: -19.2 cm", "size.width: '-19.2 cm': a negative length"),
    ("width: 19.2 cm", "width: 0 cm", "size.width: '0 cm': a length of zero"),
    ("width: 19.2 cm", "width: 1000.5 m", "size.width: '1000.5 m': longer than 1 km"),
    ("width: 19.2 cm", "width: 1e3", "size.width: 1e3: a number with an exponent"),
    ("width: 19.2 cm", f"width: {'9' * 400} cm", "size.width: "),
    ("count: 24", "count: -24", "strands.count: -24: "),
    ("count: 24", "count: 0", "strands.count: 0: zero"),
    ("count: 24", "count: 24.5", "strands.count: 24.5: not a whole number"),
    ("count: 24", "count: 40000", "strands.count: 40000: "),
    ("count: 24", "count: 22", "strands.count: 22: the parts need a multiple of 8 strands"),
    ("diameter: 4 mm", "diameter: 0 mm", "cord.diameter: '0 mm': a length of zero"),
    ("rows: 4}", "rows: 99999999}", "sections[0].rows: 99999999: "),
    ("rows: 4}", "rows: 99}", ":12: sections[0].rows: 99: the work is 130 cm too long"),
    ("rows: 4}", "rows: 4, shape: decrease}\n  - {kind: fill}", "kind: 'fill': unknown kind"),
    ("rows: 4}", "rows: 9, shape: increase}", "rows: 9: an increase on 24 strands has no more"),
    ("cross: [4, 5]", "cross: [8, 9]", "steps[0].cross[1]: 9: lane 9 isn't there, of 8"),
    ("lead: 8, to: 5", "lead: 80, to: 5", "steps[5].hitch.lead: 80: lane 80 isn't there, of 8"),
    ("lanes: [3, 4, 5, 6]", "lanes: [3, 5]", "lanes: [3, 5]: lanes not side by side"),
    ("rise: 3 cm", "rise: 41 cm", ":15: lower_edge.rise: '41 cm': a rise as tall as the drop"),
    ("length: 5 cm", "length: 50 cm", "doesn't fit above the lower edge; use a drop of"),
    ("motif: leaf", "motif: laef", "sections[1].motif: 'laef': no motif is called that; did you"),
    ("kind: larks_head", "kind: nail", "mount.kind: 'nail': unknown kind"),
    ("knotplot: 1", "knotplot: 2", ":1: knotplot: 2: pattern format 2 is newer than this"),
    ("count: 24}", "count: 24}\nkits: 2", ":9: kits: 2: not built yet: "),
    ("count: 24}", "count: 24}\nworked: round", ":9: worked: 'round': not built yet: "),
]  # fmt: skip


@pytest.fixture
def refuse(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """Return a function that has a file refused by `make`, and gives the lines of stderr."""

    def refuse(data: bytes, *more: str) -> list[str]:
        file = tmp_path / "bad.yaml"
        file.write_bytes(data)
        begin = time.process_time()
        code = main(["make", str(file), "-o", str(tmp_path / "out"), *more])
        assert time.process_time() - begin < SECONDS
        said = capsys.readouterr()
        assert (code, said.out) == (1, "")
        assert sorted(place.name for place in tmp_path.iterdir()) == ["bad.yaml"]
        lines = said.err.splitlines()
        for line in lines:
            assert line.startswith((str(file), "--"))
            assert "; " in line  # what is wrong; what would do
            assert len(line) < 600
            assert "please report it" not in line
        return lines

    return refuse


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_is_no_pattern(refuse, name):
    data, said = FILES[name]
    lines = refuse(data)
    assert len(lines) == 1
    assert said in lines[0]


@pytest.mark.parametrize(("old", "new", "said"), CHANGES)
def test_one_fault_is_one_line_with_place_value_and_remedy(refuse, old, new, said):
    lines = refuse(changed(old, new).encode())
    assert len(lines) == 1
    assert said in lines[0]


def test_an_alias_bomb_is_told_line_by_line_and_never_built(refuse):
    lines = refuse(BOMB)
    assert ":1: a: an anchor '&a'; leave it out" in lines[0]
    assert lines[1].endswith(": an alias '*a'; write the part out again")
    assert len(lines) <= 502


def test_all_faults_of_a_file_are_told_at_once_in_the_order_of_lines(refuse):
    text = GOOD
    for old, new in [
        ("units: cm", "unit: cm"),
        ("width: 19.2 cm", "width: -1"),
        ("diameter: 4 mm", "diameter: 4"),
        ("count: 24", "count: many"),
        ("motif: leaf", "motif: laef"),
        ("cross: [4, 5]", "cross: [4, 6]"),
    ]:
        assert text.count(old) == 1
        text = text.replace(old, new)
    numbers = [int(line.split(":")[1]) for line in refuse(text.encode())]
    assert numbers == sorted(numbers)
    assert {3, 4, 7, 8} <= set(numbers)


@pytest.mark.parametrize(
    ("assignment", "said"),
    [
        ("size.width=-3 cm", "--set size.width=-3 cm: size.width: '-3 cm': a negative length"),
        ("size.width=.inf", "size.width: .inf: not a finite number"),
        ("sections.net.rows=0", "sections[0].rows: 0: zero"),
        ("sections.nett.rows=2", "no section has this name; did you mean 'net'?"),
        ("sections[9].rows=2", "no item 9 there"),
        ("title=[1", "not YAML"),
        ("title=a: b", "put text with ': ' or '- ' in quotes"),
        ("title=*x", "an alias '*x'"),
        ("mount={kind: nail}", "unknown kind"),
        ("x=1", "unknown key"),
    ],
)
def test_a_bad_override_is_told_by_its_own_words(refuse, assignment, said):
    lines = refuse(GOOD.encode(), "--set", assignment)
    assert len(lines) == 1
    assert said in lines[0]
    assert lines[0].startswith(f"--set {assignment}: ")


@pytest.mark.parametrize("place", ["none.yaml", "none/none.yaml", ".", "\udcff.yaml"])
def test_a_file_that_isnt_there_or_is_none(tmp_path, capsys, place):
    assert main(["check", str(tmp_path / place)]) == 1
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 1
    assert lines[0].endswith("; give a pattern's file")


def test_a_name_with_line_ends_and_controls_stays_on_one_line(tmp_path, capsys):
    file = tmp_path / "a\nb\x1b[31m.yaml"
    file.write_text("knotplot: 2\n")
    assert main(["check", str(file)]) == 1
    said = capsys.readouterr().err
    assert said.count("\n") == len(said.splitlines())
    assert "\x1b" not in said
    assert "a\\x0ab\\x1b[31m.yaml:1: " in said


# --- generated damage ----------------------------------------------------------------------------

quick = settings(
    deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def answered(capsys: pytest.CaptureFixture[str], file: Path) -> None:
    """Check a file: whatever it holds, the answer is good or one line a fault."""
    code = main(["check", str(file)])
    said = capsys.readouterr()
    assert code in (0, 1)
    assert "please report it" not in said.err
    assert bool(said.err) == (code == 1)
    assert all(line.startswith(str(file)) for line in said.err.splitlines())


@quick
@given(at=st.integers(0, len(GOOD) - 1), take=st.integers(0, 9), put=st.binary(max_size=4))
def test_damaged_bytes_are_answered(tmp_path, capsys, at, take, put):
    data = GOOD.encode()
    file = tmp_path / "damaged.yaml"
    file.write_bytes(data[:at] + put + data[at + take :])
    answered(capsys, file)


# Words of the trade and numbers at their limits, put where others stood.
PARTS = ["0", "-1", "1", "3", "17", "0.5 mm", "3 cm", "900 m", "fill", "half", "null", "[]", "{}"]
PARTS += ["[1, 2]", "true", "decrease", "offset", "tails", "rest", "rod_pocket", "hitched", "open"]
PARTS += ["{count: 8}", "square_knot", "sennits", "columns", "tassel", "free", "arc", "vee"]
WORDS = sorted({word.strip("{}[],:") for word in GOOD.split() if word.strip("{}[],:-")})


@quick
@given(old=st.sampled_from(WORDS), new=st.sampled_from(PARTS), which=st.integers(0, 5))
def test_a_word_put_for_another_is_answered(tmp_path, capsys, old, new, which):
    parts = GOOD.split(old)
    at = 1 + which % (len(parts) - 1)
    file = tmp_path / "changed.yaml"
    file.write_text(old.join(parts[:at]) + new + old.join(parts[at:]))
    answered(capsys, file)
