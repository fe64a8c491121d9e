"""The reference of the pattern language: every kind is in it, with an example that can be made."""

from __future__ import annotations

import re

import pytest
import yaml

from knotplot import build
from knotplot.curves.edge_profiles import PROFILES
from knotplot.errors import Refusal
from knotplot.motifs.motif import Motif
from knotplot.motifs.step import STEPS
from knotplot.mounts.base import MOUNTS
from knotplot.pattern.explain import explained
from knotplot.pattern.models import Pattern
from knotplot.pattern.reference import Entry, Reference
from knotplot.pattern.schema_words import block, takes
from knotplot.pattern.specimens import Specimen, specimen
from knotplot.sections.base import SECTIONS

REFERENCE = Reference()
KINDS = [entry for entry in REFERENCE.values() if entry.sort != "key"]
MOST_LINES = 6


def shown(entry: Entry) -> Specimen:
    found = specimen(entry)
    assert found is not None
    return found


def ids(entry: Entry) -> str:
    return f"{entry.sort} {entry.name}"


def test_every_kind_there_is_has_an_entry() -> None:
    for sort, known in (
        ("mount", MOUNTS), ("section", SECTIONS), ("step", STEPS), ("profile", PROFILES),
    ):  # fmt: skip
        assert {entry.name for entry in KINDS if entry.sort == sort} == set(known)
    keys = [entry.name for entry in REFERENCE.of("key")]
    assert keys == list(Pattern.model_fields)


@pytest.mark.parametrize("entry", KINDS, ids=ids)
def test_its_example_is_short_and_can_be_made(entry: Entry) -> None:
    found = shown(entry)
    assert 2 <= len(found.lines) <= MOST_LINES
    assert max(map(len, found.lines)) < 92
    assert entry.name in " ".join(found.lines)
    made = build(found.pattern)
    assert made.draw("cord").svg().startswith("<svg ")
    assert entry.text


@pytest.mark.parametrize("entry", KINDS, ids=ids)
def test_the_lines_are_those_of_the_pattern(entry: Entry) -> None:
    found = shown(entry)
    written = yaml.safe_load("\n".join(found.lines))
    if entry.sort == "step":
        assert Motif.model_validate(written) == found.pattern.motifs["mine"]
        return
    frame = found.pattern.model_dump(mode="json", exclude_defaults=True)
    kinds = {"mount": found.pattern.mount.model_dump(mode="json")}
    assert Pattern.model_validate(frame | kinds | written) == found.pattern


@pytest.mark.parametrize("entry", KINDS, ids=ids)
def test_what_an_example_shows_is_tied_or_trimmed(entry: Entry) -> None:
    """A picture of a bare rod shows nothing."""
    piece = build(shown(entry).pattern).layout.piece
    if entry.sort == "profile":
        heights = {round(piece.edge.y(x)) for x in range(0, 240, 10)}
        assert (len(heights) > 3) == (entry.name != "straight")
    else:
        assert any(piece.parts[row.section].name != "mount" for row in piece.rows)


# --- one entry -----------------------------------------------------------------------------------


def test_without_a_name_all_are_listed() -> None:
    told = explained()
    names = set(re.findall(r"[\w.]+", told))
    assert {entry.name for entry in REFERENCE.values()} <= names


@pytest.mark.parametrize("name", sorted({entry.name for entry in REFERENCE.values()}))
def test_every_name_is_explained(name: str) -> None:
    told = explained(name)
    for entry in REFERENCE.find(name):
        for paragraph in entry.text.split("\n\n"):
            assert paragraph in " ".join(told.split())
        for key in entry.keys:
            assert f"\n  {key.name}\n" in told
    assert max(map(len, told.splitlines())) < 100


@pytest.mark.parametrize(
    ("path", "parts"),
    [
        ("cord.diameter", ["Takes a length with its unit", "Needed.", "diameter: 4 mm"]),
        ("square_knot_mesh.spacing", ["Unless said: 0 mm.", "spacing: 6 mm"]),
        ("hitch_line.overhang", ["Unless said: 50 mm."]),
        ("mount.tail", ["hitched.tail (key)", "rod_pocket.tail (key)", "open.tail (key)"]),
        ("sections.columns.parts.strands", ["Takes a whole number from 1 up or rest."]),
        ("motifs.steps.hitch", ["hitch (a step)", "An example:", "- hitch: {lead: 1, to: 4}"]),
        ("cords.main.spool", ["or a mass in g or kg"]),
        ("lower_edge.profile", ["Takes arc, catenary, parabola, points, scallops, straight"]),
        ("repeat", ["repeat (a section)", "repeat (a step)"]),
        ("mount", ["Its kinds: hitched, larks_head"]),
        ("gap", ["- gap: 15 mm"]),
    ],
)
def test_what_is_told(path: str, parts: list[str]) -> None:
    told = " ".join(explained(path).split())
    for part in parts:
        assert part in told


@pytest.mark.parametrize(
    ("name", "problem", "remedy"),
    [
        ("fring", "nothing is called that", "did you mean 'fringe' or 'ring'?"),
        ("cord.diamter", "cord has no key of that name", "did you mean 'diameter'?"),
        ("title.length", "title has no key of that name", "explain title alone"),
        ("cord..spool", "cord has no key of that name", "use one of diameter"),
        ("", "nothing is called that", "use one of knotplot"),
    ],
)
def test_an_unknown_name_is_refused_with_the_nearest(name: str, problem: str, remedy: str) -> None:
    with pytest.raises(Refusal, match=re.escape(problem)) as caught:
        explained(name)
    assert remedy in caught.value.fault.remedy


def test_the_command_prints_an_entry_and_refuses_an_unknown_name(run) -> None:
    code, out, err = run("explain", "cord.spool")
    assert (code, err) == (0, [])
    assert out.startswith("cord.spool (key)\n")
    assert run("explain")[1].startswith("Keys of a pattern file\n")
    code, out, err = run("explain", "fring")
    assert (code, out) == (2, "")
    assert err == ["knotplot: 'fring': nothing is called that; did you mean 'fringe' or 'ring'?"]


# --- words and lines -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("schema", "words"),
    [
        ({"type": "integer", "minimum": 1, "maximum": 3}, "a whole number from 1 to 3"),
        ({"type": "integer", "minimum": 1, "maximum": 20_000}, "a whole number from 1 up"),
        ({"type": "boolean"}, "`true` or `false`"),
        ({"enum": ["a", "b", "c"]}, "`a`, `b` or `c`"),
        ({"anyOf": [{"type": "string"}, {"type": "number"}, {"type": "null"}]}, "text"),
        ({"anyOf": [{"$ref": "#/$defs/Cord"}, {"type": "null"}]}, "keys of its own"),
    ],
)
def test_a_schema_in_words(schema: dict[str, object], words: str) -> None:
    assert takes(schema) == words


def test_lines_of_a_long_value_are_the_value() -> None:
    value = {"kind": "columns", "parts": [{"strands": 4, "sections": [{"kind": "free"}]}] * 3}
    lines = block(value, width=40)
    assert max(map(len, lines)) <= 45
    assert yaml.safe_load("\n".join(lines)) == value
