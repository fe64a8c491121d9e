"""Single sentences, as a maker reads them, and the strand orders they lead to."""

from __future__ import annotations

import json
import re
from typing import Any, get_args

import pytest
from instructions.interpreter import execute
from instructions.test_instruction_words import CAFE, built, printed, recorded

from knotplot.errors import Refusal
from knotplot.instructions import en
from knotplot.instructions.records import Instruction, Note
from knotplot.instructions.rows import instructions
from knotplot.instructions.words import Heading, Printed, words
from knotplot.kinds import kinds
from knotplot.motifs.shipped import shipped_motif, shipped_names
from knotplot.mounts.base import MOUNTS
from knotplot.sections.base import SECTIONS, Section
from knotplot.tape import fold_place
from knotplot.tying.piece import Piece


def piece_of(sections: list[Any], count: int, motifs: Any = None, **more: Any) -> Piece:
    document = {
        "knotplot": 1,
        "size": {"width": f"{count * 8} mm", "drop": "9 m"},
        "cord": {"diameter": "4 mm"},
        "strands": {"count": count},
        "mount": {"kind": "open", "tail": "10 cm"},
        "sections": sections,
        "motifs": motifs or {},
        **more,
    }
    return built(json.dumps(document))


def told(sections: list[Any], count: int, motifs: Any = None, **more: Any) -> list[str]:
    return printed(piece_of(sections, count, motifs, **more))


def slanting(lead: int, to: int, times: int) -> Piece:
    steps = [{"hitch": {"lead": lead, "to": to, "times": times}}]
    motifs = {"bars": {"strands": 4, "steps": steps}}
    return piece_of([{"kind": "motif_band", "motif": "bars", "rows": 1}], 4, motifs)


# Thérèse de Dillmont, Encyclopedia of Needlework (c. 1890), figs 540–543: slanting bars of four
# threads. To the right: thread 1 is the cord, 2, 3, 4 knot over it; then thread 2 is the cord. To
# the left: thread 4, then 3. The orders are deduced from that.
DILLMONT = [
    (1, 4, (2, 3, 4, 1), (3, 4, 1, 2), (1, 2)),
    (4, 1, (4, 1, 2, 3), (3, 4, 1, 2), (4, 3)),
]


@pytest.mark.parametrize(("lead", "to", "once", "twice", "leaders"), DILLMONT)
def test_slanting_bars_of_dillmont(
    lead: int, to: int, once: tuple[int, ...], twice: tuple[int, ...], leaders: tuple[int, ...]
) -> None:
    (row,) = execute(printed(slanting(lead, to, 1)))
    assert row.order_after == once
    (row,) = execute(printed(slanting(lead, to, 2)))
    assert row.order_after == twice
    assert tuple(dict.fromkeys(tie.leader for tie in row.ties)) == leaders


def test_a_bar_says_who_leads_where_and_how_often() -> None:
    assert (
        "(1) The cord in place 1 leads to the right, to place 4: a diagonal row of double half "
        "hitches; the 3 cords it passes are hitched onto it one after another; work this 2 times "
        "in all, each time with the cord that then hangs in place 1."
    ) in printed(slanting(1, 4, 2))


def test_a_mesh_is_told_in_two_rows_and_every_second_one_refers_to_them() -> None:
    lines = told([{"name": "net", "kind": "square_knot_mesh", "rows": 5, "spacing": "1 cm"}], 16)
    at = lines.index("2. Alternating square knots “net”, over all cords 1–16")
    assert lines[at + 1 : at + 6] == [
        "Leave 1 cm (3/8 in) of cord bare between one row and the next.",
        "Row 1: * square knot facing left on the next 4 cords; repeat from * 3 more times.",
        "Row 2: leave 2 cords hanging; * square knot facing left on the next 4 cords; repeat from "
        "* 2 more times; leave 2 cords hanging.",
        "Rows 3, 5: as row 1.",
        "Row 4: as row 2.",
    ]


def test_a_long_list_of_rows_leaves_its_middle_out() -> None:
    lines = told([{"kind": "square_knot_mesh", "rows": 40}], 8)
    assert "Rows 3, 5, 7, … 39: as row 1." in lines


def test_sennits_are_told_in_one_line() -> None:
    lines = told([{"kind": "sennits", "knot": "half_knot", "strands": 4, "count": 17}], 48)
    assert (
        "Rows 1–17, each: * half knot facing left on the next 4 cords; repeat from * 11 more times."
    ) in lines


def test_columns_are_told_once_and_again_further_right() -> None:
    part = {"strands": 4, "repeat": 3, "sections": [
        {"kind": "sennits", "knot": "square_knot", "count": 5}, {"kind": "free", "length": "4 cm"},
    ]}  # fmt: skip
    lines = told([{"kind": "columns", "parts": [part]}, {"kind": "hitch_line"}], 12)
    at = lines.index(
        "4. Work sections 2–3 again, 2 more times, each time 4 cords further to the right"
    )
    assert lines[at + 1 : at + 3] == [
        "Rows 6–10: as rows 1–5, over cords 5–8.",
        "Rows 11–15: as rows 1–5, over cords 9–12.",
    ]
    assert "Row 16: double half hitch each of the next 12 cords onto leader L1." in lines


def test_a_repeat_is_told_once_and_again_on_the_same_cords() -> None:
    inner = [{"kind": "hitch_line"}, {"kind": "square_knot_mesh", "rows": 2}]
    lines = told([{"kind": "repeat", "times": 3, "sections": inner}], 8)
    at = lines.index("4. Work sections 2–3 again, 2 more times, on the same cords")
    assert lines[at + 1 : at + 3] == ["Rows 4–6: as rows 1–3.", "Rows 7–9: as rows 1–3."]


def test_hitch_lines_of_other_overhang_are_not_the_same_again() -> None:
    lines = told([{"kind": "hitch_line"}, {"kind": "hitch_line", "overhang": "15 cm"}], 8)
    assert not any("again" in line for line in lines)


def test_the_rod_pocket_is_told_in_order() -> None:
    lines = printed(built(CAFE))
    starts = [
        "Tie a temporary line level",
        "Row 1: ",
        "The first 4 rows of the band make the back",
        "Fold the band over the rod",
        "Row 9: * square knot facing left with the next 4 tails over the next 4 cords: the outer "
        "two tails work, all others are fillers; repeat from * 17 more times.",
        "Draw the temporary line out",
    ]
    found = [next(i for i, line in enumerate(lines) if line.startswith(s)) for s in starts]
    assert found == sorted(found)
    assert "Row 17: double half hitch each of the next 72 tails onto leader L1." in lines


def test_edge_parts_are_named_and_come_with_their_hint() -> None:
    lines = printed(built(CAFE))
    assert "The right half of motif “leaf” (places 7–12), worked on 6 cords:" in lines
    assert any("Work it after its neighbour: its line is then easier to find." in x for x in lines)
    row = next(line for line in lines if line.startswith("Row 19: "))
    assert row == (
        "Row 19: the right half of motif “leaf” (places 7–12) on the next 6 cords; * motif “leaf” "
        "on the next 12 cords; repeat from * 4 more times; the left half of motif “leaf” (places "
        "1–6) on the next 6 cords."
    )


def test_steps_that_come_again_are_told_once() -> None:
    steps = [{"repeat": {"times": 5, "steps": [
        {"hitch": {"lead": 1, "to": 4}}, {"vertical": {"worker": 1, "to": 3, "turns": 1}},
    ]}}]  # fmt: skip
    lines = told(
        [{"kind": "motif_band", "motif": "z", "rows": 1}], 4, {"z": {"strands": 4, "steps": steps}}
    )
    assert "(3–10) Work steps 1–2 again, 4 more times, and count on." in lines
    assert (
        "(2) The cord in place 1 works to the right, to place 3: vertical half hitches, one on "
        "each of the 2 cords it passes."
    ) in lines


def test_a_check_tells_depth_free_cords_and_cord_left() -> None:
    piece = piece_of([{"kind": "square_knot_mesh", "rows": 2}], 8)
    asked: list[tuple[int, int]] = []

    def left(strand: int, row: int) -> float:
        asked.append((strand, row))
        return 254.0

    (check,) = [line.text for line in words(piece, left) if getattr(line, "sort", "") == "check"]
    assert check.startswith("Check: the last row ends ")
    assert check.endswith(
        " below the top ends of the cords; 2 cords hang free at each side; about 25.4 cm (10 in) "
        "of cord 1 is left below it."
    )
    assert asked == [(1, 1)]
    assert f"{piece.parts[1].bottom / 10:.1f} cm" in check


FRINGE = [{"kind": "fringe", "length": "10 cm", "finish": "combed"}]


def trimming(**edge: object) -> list[str]:
    """Return what is told of 20 strands, 16 cm wide, from the marks of the trim line on."""
    lines = told(FRINGE, 20, lower_edge=edge)
    first = next(i for i, line in enumerate(lines) if line.startswith("Mark the trim line"))
    assert "Comb the fringe out from the ends upwards, then trim it once more." in lines[first:]
    return lines[first:]


def test_a_vee_is_trimmed_straight_between_three_marks() -> None:
    lines = trimming(profile="vee", rise="8 cm")
    assert lines[:5] == [
        "Mark the trim line, measured from the left edge and up from the string:",
        "Left edge: level with the string.",
        "Notch, 8 cm (3 1/8 in) from the left edge: 8 cm (3 1/8 in) above the string.",
        "Right edge, 16 cm (6 1/4 in) from the left one: level with the string.",
        "Draw the line straight from mark to mark; its sides meet in a sharp notch.",
    ]
    assert "smooth" not in " ".join(lines)


def test_an_arch_is_marked_at_its_crown_first_and_joined_in_one_line() -> None:
    lines = trimming(profile="parabola", rise="8 cm")
    assert lines[:10] == [
        "Mark the trim line, measured from the left edge and up from the string. Begin with the "
        "sides and every place where it turns:",
        "Left edge: level with the string.",
        "Crown, 8 cm (3 1/8 in) from the left edge: 8 cm (3 1/8 in) above the string.",
        "Right edge, 16 cm (6 1/4 in) from the left one: level with the string.",
        "Then mark these places between them:",
        # 1 − (2·5/16 − 1)² = 0.859375 of 8 cm; at 10 cm 0.9375.
        "At 5 cm (2 in) from the left edge: 6.9 cm (2 3/4 in) above the string.",
        "At 10 cm (3 7/8 in) from the left edge: 7.5 cm (3 in) above the string.",
        "Join the marks in one smooth line.",
        "Trim every cord along the line.",
        "Comb the fringe out from the ends upwards, then trim it once more.",
    ]


@pytest.mark.parametrize(
    ("rise", "first", "joined"),
    [
        (
            "4 cm",
            "Tip, 5.3 cm (2 1/8 in) from the left edge: level with the string.",
            "The line is 3 arches meeting in sharp tips at 5.3 cm (2 1/8 in) and 10.7 cm "
            "(4 1/4 in). Join the marks of each arch in a smooth line, and keep every tip sharp.",
        ),
        (
            "-4 cm",
            "Notch, 5.3 cm (2 1/8 in) from the left edge: 4 cm (1 5/8 in) above the string.",
            "The line is 3 scallops meeting in sharp notches at 5.3 cm (2 1/8 in) and 10.7 cm "
            "(4 1/4 in). Join the marks of each scallop in a smooth line, and keep every notch "
            "sharp.",
        ),
    ],
)
def test_scallops_keep_their_corners(rise: str, first: str, joined: str) -> None:
    lines = trimming(profile="scallops", count=3, rise=rise)
    between = lines.index("Then mark these places between them:")
    assert between == 8  # after two sides, three middles and two corners
    assert lines.index(first) == 3
    assert joined in lines[between:]
    assert "one smooth line" not in " ".join(lines)


def test_quotes_and_markup_in_a_name_are_text() -> None:
    name = "a “b”; <c>; d, over cords 1–2"
    piece = piece_of([{"name": name, "kind": "square_knot_mesh", "rows": 1}], 8)
    heading = next(line for line in words(piece) if isinstance(line, Heading) and line.number == 2)
    assert heading.text == (
        "2. Alternating square knots “a ‘b’; <c>; d, over cords 1–2”, over all cords 1–8"
    )
    (row,) = execute(printed(piece))
    assert row.section == "a ‘b’; <c>; d, over cords 1–2"


@pytest.mark.parametrize("name", shipped_names())
def test_every_shipped_motif_can_be_worked_from_its_words(name: str) -> None:
    strands = shipped_motif(name).strands
    band = {"kind": "motif_band", "motif": name, "rows": 3, "offset": "half"}
    piece = piece_of([band], 3 * strands)
    assert execute(printed(piece)) == recorded(piece)


def test_every_kind_of_section_and_mount_has_words() -> None:
    told = {name: kind.words["en"] for name, kind in kinds().items() if not kind.holds}
    for words_ in told.values():
        given = (words_.heading, words_.one, words_.many, words_.caption, words_.fault)
        assert all(text.strip() == text != "" for text in given)
    # Headings are read back as kinds.
    for registry in (SECTIONS, MOUNTS):
        headings = [told[name].heading for name in registry if name in told]
        assert len(set(headings)) == len(headings)
    for mount in MOUNTS.values():
        own = mount.words["en"]
        assert own.support
        assert own.hang.endswith(".")
        assert bool(own.hang_uneven) == ("fold" in mount.model_fields)


def test_a_kind_without_words_is_refused_as_it_is_defined() -> None:
    with pytest.raises(TypeError, match="Bare has no English words"):

        class Bare(Section):
            kind: str = "bare_kind"

            def work(self, job: Any) -> None: ...


def test_a_text_that_is_missing_is_an_error() -> None:
    with pytest.raises(KeyError):
        en.say(Note("no such text"))
    with pytest.raises(Refusal, match="no words in this language"):
        words(built(CAFE), language="xx")


def test_every_record_has_words() -> None:
    """A record without words would reach `assert_never`; here all kinds are met."""
    inner = [
        {"kind": "gather", "wrap": "3 cm"},
        {"kind": "sennits", "knot": "overhand", "count": 2},
    ]
    repeated = piece_of([{"kind": "repeat", "times": 2, "sections": inner}], 8)
    mount = {"kind": "ring", "diameter": "25 cm", "fold": "uneven"}
    folded = instructions(piece_of(inner, 8, mount=mount), None, [(300.0, ("M1", "M2"))])
    coloured = piece_of(inner, 8, colours={"order": ["rust*2"]})
    found = [*instructions(repeated), *instructions(built(CAFE)), *folded]
    found += instructions(coloured)
    assert {type(record) for record in found} == set(get_args(Instruction))
    assert all(en.say(record).body for record in found)


@pytest.mark.parametrize(
    ("mount", "hung"),
    [
        ({"kind": "larks_head", "rod": "2 cm"}, "Loop them over the rod"),
        ({"kind": "reverse_larks_head", "rod": "2 cm"}, "over the rod from behind"),
        ({"kind": "picot", "rod": "2 cm", "loop": "6 cm"}, "Hitch both ends of each onto"),
        ({"kind": "ring", "diameter": "25 cm"}, "Thread them through the ring"),
    ],
)
def test_where_to_fold_is_said_before_the_cords_are_hung(mount: Any, hung: str) -> None:
    piece = piece_of([{"kind": "free", "length": "5 cm"}], 8, mount={**mount, "fold": "uneven"})
    folds = [(620.0, ("M1", "M2", "M3")), (480.0, ("M4",))]
    text = "\n".join(line.text for line in words(piece, folds=folds))
    assert "4 cords folded hang as 8 cords side by side" in text
    first, second, last = (
        text.index(said)
        for said in (
            f"Cords M1–M3: fold {fold_place(620)} from the left end.",
            f"Cord M4: fold {fold_place(480)} from the left end.",
            hung,
        )
    )
    assert first < second < last
    assert "in half" not in text
    assert "which the cut list gives" in "\n".join(line.text for line in words(piece))


def test_the_glossary_is_in_order_and_explains_each_term_once() -> None:
    terms = [term.term for term in en.GLOSSARY]
    assert terms == sorted(set(terms))
    assert next(t.also for t in en.GLOSSARY if t.term == "square knot").startswith("flat knot")


def test_lines_carry_their_labels_and_numbers_apart_from_their_text() -> None:
    lines = [line for line in words(built(CAFE)) if isinstance(line, Printed)]
    labels = {sort: {line.label for line in lines if line.sort == sort}
              for sort in ("check", "hint", "fault", "do", "step")}  # fmt: skip
    assert labels["check"] == {"Check"}
    assert labels["hint"] <= {"Hint"}
    assert labels["fault"] == {"Common faults"}
    assert labels["do"] == labels["step"] == {""}
    for line in lines:
        if line.sort == "row":
            assert line.label.startswith("Row")
            assert line.text == f"{line.label}: {line.body}"
        elif line.sort == "step":
            assert line.text == f"({line.number}) {line.body}"
    steps = [line.number for line in lines if line.sort == "step"]
    assert steps[0] == "1"
    assert all(re.fullmatch(r"\d+(–\d+)?", number) for number in steps)
