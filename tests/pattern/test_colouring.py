"""Which cord has which colour, worked by hand and for any order; what a maker is warned of."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pattern_sample import SMALL, changed
from strategies import pieces

from knotplot.api import build
from knotplot.errors import PatternError
from knotplot.notices import in_file_words
from knotplot.pattern.colouring import colour_notices
from knotplot.pattern.load import loads
from knotplot.pattern.strand_count import strand_count
from knotplot.pattern.working import work
from knotplot.tying.colouring import PLAIN, Run, order_of
from knotplot.tying.piece import Piece

INKS = 'palette: {natural: "#E9E1D3", rust: "#a4502f"}'


def piece(text: str) -> Piece:
    pattern = loads(text)
    return work(pattern, strand_count(pattern).count).piece


def hung(colours: str, count: int = 16) -> str:
    """Return the first letters of the colours of the cords of a small piece, mains first."""
    text = SMALL.replace("count: 16", f"count: {count}")
    return "".join((cord.colour or "-")[0] for cord in piece(f"{text}colours: {colours}\n").cords)


# --- worked by hand --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("colours", "count", "cords"),
    [
        # two strands a cord, so that cords are half of the count
        ("{order: [natural*3, rust]}", 16, "nnnrnnnr"),
        ("{order: [natural*3, rust]}", 20, "nnnrnnnrnn"),
        ("{order: [natural*3, rust], mirror: true}", 16, "nnnrrnnn"),
        ("{order: [natural*3, rust], mirror: true}", 20, "nnnrnnrnnn"),
        ("{order: [a*2, b, c*2], mirror: true}", 20, "aabccccbaa"),
        ("{order: [natural*90]}", 16, "nnnnnnnn"),
        ("{order: [natural, rust*99999]}", 16, "nrrrrrrr"),
        ("{order: [' natural * 2 ', rust]}", 12, "nnrnnr"),
    ],
)
def test_cords_have_their_colours_in_order(colours: str, count: int, cords: str) -> None:
    assert hung(colours, count) == cords


def test_the_middle_cord_of_an_odd_number_is_there_once() -> None:
    mount = changed("kind: larks_head, rod: 12 mm", "kind: open, tail: 9 cm", SMALL)
    text = mount.replace("square_knot_mesh, rows: 4", "hitch_line").replace("count: 16", "count: 7")
    found = piece(f"{text}colours: {{order: [natural*2, rust, sea], mirror: true}}\n").cords
    assert [cord.colour for cord in found] == [
        *("natural", "natural", "rust", "sea", "rust", "natural", "natural"),
        "natural",  # its leader
    ]


WRAPS = """
sections:
  - {kind: hitch_line}
  - kind: columns
    parts:
      - {strands: 8, sections: [{kind: gather, wrap: 2 cm}]}
      - {strands: 8, sections: [{kind: gather, wrap: 2 cm, colour: deep sea}]}
  - {kind: tassel, wrap: 2 cm, colour: natural}
"""


def test_leaders_and_wraps_have_the_first_colour_unless_theirs_is_named() -> None:
    text = SMALL[: SMALL.index("sections:")] + WRAPS
    found = piece(f"{text}colours: {{order: [rust, natural], {INKS}}}\n")
    assert [(cord.id, cord.colour) for cord in found.cords if cord.role != "main"] == [
        ("L1", "rust"), ("W1", "rust"), ("W2", "deep sea"), ("W3", "natural"),
    ]  # fmt: skip
    inks = [found.colours.of_cord(cord) for cord in ("L1", "W1", "W2", "W3", "W4")]
    assert inks == ["#a4502f", "#a4502f", None, "#e9e1d3", None]


def test_a_wrap_may_have_a_colour_where_no_others_have_one() -> None:
    found = piece(SMALL[: SMALL.index("sections:")] + WRAPS)
    assert [cord.colour for cord in found.cords if cord.colour] == ["deep sea", "natural"]
    assert found.colours == PLAIN


def test_both_strands_of_a_folded_cord_and_the_tail_of_a_pocket_are_alike() -> None:
    folded = piece(f"{SMALL}colours: {{order: [natural, rust], {INKS}}}\n").colours
    pair = ["#e9e1d3", "#e9e1d3", "#a4502f", "#a4502f"]
    assert [folded.of_strand(strand) for strand in range(1, 17)] == 4 * pair
    pocket = "kind: rod_pocket, rod: 12 mm, rows: 6, tail: 30 cm"
    text = changed("kind: larks_head, rod: 12 mm", pocket, SMALL)
    text += f"colours: {{order: [natural, rust], {INKS}}}\n"
    inks = piece(text).colours
    assert [inks.of_strand(strand) for strand in range(1, 33)] == 16 * pair[1:3]
    assert inks.of_strand(33) is None


MOTIF = """
motifs:
  more:
    strands: 4
    steps:
      - add: {after: 3, cords: 1}
      - knot: {kind: square_knot, lanes: [1, 2, 3, 4]}
      - both: [add: {after: 1, cords: 1}]
"""


def test_an_added_cord_has_the_colour_of_the_strand_it_hangs_on() -> None:
    text = changed("name: net, kind: square_knot_mesh, rows: 4", "kind: motif_band, motif: more, "
                   "rows: 1", SMALL).replace("count: 16", "count: 4") + MOTIF  # fmt: skip
    found = piece(f"{text}colours: {{order: [natural, rust], {INKS}}}\n")
    # M1 natural (strands 1, 2), M2 rust (3, 4); M3 is looped onto strand 3, M4 onto strand 1 and M5
    # onto the strand in the last lane, 4
    assert [(cord.id, cord.colour) for cord in found.cords] == [
        ("M1", "natural"), ("M2", "rust"), ("M3", "rust"), ("M4", "natural"), ("M5", "rust"),
    ]  # fmt: skip
    assert [found.colours.of_strand(strand) for strand in (5, 6, 7, 8, 9, 10)] == [
        "#a4502f", "#a4502f", "#e9e1d3", "#e9e1d3", "#a4502f", "#a4502f",
    ]  # fmt: skip


def test_without_colours_there_are_none() -> None:
    found = piece(SMALL)
    assert {cord.colour for cord in found.cords} == {None}
    assert found.colours is PLAIN
    assert (found.colours.of_strand(1), found.colours.of_cord("M1")) == (None, None)
    assert not found.colours.inked


def test_a_colour_without_an_ink_is_drawn_as_usual_cord() -> None:
    found = piece(f"{SMALL}colours: {{order: [natural]}}\n")
    assert found.colours.of_cord("M1") is None
    assert not found.colours.inked


# --- any order -------------------------------------------------------------------------------

runs = st.lists(
    st.builds(Run, st.sampled_from("abc"), st.integers(1, 9)), min_size=1, max_size=5
).map(tuple)


@given(runs, st.integers(0, 60))
def test_an_order_is_repeated_from_the_left(unit: tuple[Run, ...], cords: int) -> None:
    once = "".join(run.colour * run.count for run in unit)
    assert "".join(order_of(unit, False, cords)) == (once * 60)[:cords]


@given(runs, st.integers(0, 60))
def test_a_mirrored_order_is_a_palindrome(unit: tuple[Run, ...], cords: int) -> None:
    found, plain = order_of(unit, True, cords), order_of(unit, False, cords)
    assert found == found[::-1]
    assert len(found) == cords
    half = (cords + 1) // 2
    assert found[:half] == plain[:half]


@given(pieces())
def test_every_cord_has_one_colour_and_its_strands_have_its_ink(piece: Piece) -> None:
    found = piece.colours
    if not found.unit:
        assert {cord.colour for cord in piece.cords if cord.role == "main"} == {None}
        return
    for cord in piece.cords:
        ink = found.palette.get(cord.colour or "")
        assert cord.colour is not None
        assert {found.of_cord(cord.id), *map(found.of_strand, cord.strands)} == {ink}
    mains = [cord.colour for cord in piece.cords if cord.role == "main" and not cord.added]
    assert mains == order_of(found.unit, found.mirror, len(mains))
    assert pickle.loads(pickle.dumps(found)) == found


# --- warnings --------------------------------------------------------------------------------


def warned(text: str) -> list[str]:
    pattern = loads(text)
    return list(in_file_words(colour_notices(pattern, strand_count(pattern).count)))


@pytest.mark.parametrize(
    ("order", "count", "told"),
    [
        # counts are multiples of 4 (the net's), two strands a cord
        ("[natural*3, rust]", 16, None),
        ("[natural*3, rust]", 20, "on 10 cords: the last of them break off at the right after 2; "
         "16 strands (8 cords) or 24 strands (12 cords) would come out whole"),
        ("[natural*6, rust*2]", 12, "break off at the right after 6; 16 strands (8 cords) would"),
        ("[natural*2, rust]", 16, "12 strands (6 cords) or 24 strands (12 cords) would come out"),
        ("[natural*99999]", 16, "no count that the parts can be worked on comes out whole; change"),
        # up to the middle: 4 of 8 cords
        ("[natural*3, rust], mirror: true", 16, None),
        ("[natural, rust], mirror: true", 20, "on 5 from a side to the middle: the last of them "
         "break off in the middle after 1; 16 strands (8 cords) or 24 strands (12 cords) would"),
    ],
)  # fmt: skip
def test_a_broken_order_is_warned_of_with_the_nearest_whole_counts(
    order: str, count: int, told: str | None
) -> None:
    text = SMALL.replace("count: 16", f"count: {count}")
    found = warned(f"{text}colours: {{order: {order}}}\n")
    assert len(found) == (told is not None)
    assert all(told is not None and told in line for line in found)


def test_whole_counts_are_those_that_the_parts_can_be_worked_on() -> None:
    # cords of one strand; the net asks for multiples of 4, the order for multiples of 6
    text = changed("kind: larks_head, rod: 12 mm", "kind: open, tail: 9 cm", SMALL)
    (found,) = warned(f"{text}colours: {{order: [natural*4, rust*2]}}\n")
    assert "12 strands or 24 strands would come out whole" in found


@given(runs, st.booleans(), st.integers(1, 30))
def test_the_counts_of_a_warning_aren_t_warned_of(
    unit: tuple[Run, ...], mirror: bool, fours: int
) -> None:
    order = ", ".join(map(str, unit))
    colours = f"colours: {{order: [{order}], mirror: {str(mirror).lower()}}}\n"

    def told(count: int) -> list[str]:
        return warned(SMALL.replace("count: 16", f"count: {count}") + colours)

    for warning in told(4 * fours):
        remedy = warning.rpartition("; ")[2]
        counts = [int(part.split()[0]) for part in remedy.split(" or ")]
        assert counts
        assert all(told(count) == [] for count in counts)


def test_an_ink_that_no_cord_has_is_warned_of_with_the_colour_meant() -> None:
    palette = 'palette: {rust: "#a4502f", rusty: "#a4502f", deep sea: "#123456"}'
    text = SMALL[: SMALL.index("sections:")] + WRAPS
    assert warned(f"{text}colours: {{order: [rust], {palette}}}\n") == [
        "colours: rusty is in the palette, but no cord has it; did you mean 'rust'?"
    ]


def test_the_warning_is_among_those_of_the_piece() -> None:
    made = build(loads(f"{SMALL}colours: {{order: [natural*3]}}\n"))
    assert any(line.startswith("colours: ") for line in made.figures()["warnings"])


# --- bad input -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("colours", "said"),
    [
        ("{order: []}", ":8: colours.order: []: empty; put at least one in it"),
        ("{order: natural}", "colours.order: 'natural': not a list"),
        ("{order: [natural*0]}", "colours.order[0]: 'natural*0': not a run of one colour; write a"),
        ("{order: [natural*-1]}", "not a run of one colour"),
        ("{order: [natural*100000]}", "not a run of one colour"),
        ("{order: ['*6']}", "not a run of one colour"),
        ("{order: ['  ']}", "not a run of one colour"),
        ("{order: [3]}", "colours.order[0]: 3: not a run of one colour"),
        ('{order: ["a\\nb"]}', "more than one line in the text"),
        ('{order: ["a\\u0007"]}', "U+0007 in the text"),
        ("{order: [" + 61 * "a" + "]}", "too long; use 60 characters at most"),
        ("{order: [" + ", ".join(1001 * ["a"]) + "]}", "too many"),
        ("{order: [a], palette: {a: red}}", "colours.palette.a: 'red': not a colour; write six"),
        ("{order: [a], palette: {a: '#12345'}}", "not a colour"),
        ("{order: [a], palette: {'a*2': '#123456'}}", "a colour with a star in its name"),
        ("{order: [a], mirror: yes}", "colours.mirror: 'yes': neither true nor false"),
        ("{palette: {}}", "colours.order: missing; add 'order: [natural*6, rust*2]'"),
        ("{order: [a], pallete: {}}", "did you mean 'palette'?"),
    ],
)
def test_bad_colours_are_told_with_their_place(colours: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(f"{SMALL}colours: {colours}\n")
    assert said in str(caught.value)
    assert len(caught.value.faults) == 1


def test_a_bad_colour_of_a_wrap_is_told() -> None:
    text = SMALL + "  - {kind: tassel, wrap: 2 cm, colour: 'a*2'}\n"
    with pytest.raises(PatternError, match=r"sections\[1\]\.colour: 'a\*2': a colour with a star"):
        loads(text)
