"""Work wider or narrower than its piece: said with the width it has, and cured by what is told."""

from __future__ import annotations

import re

import pytest

from knotplot.api import WorkedPiece, build
from knotplot.materials.widths import SOLD
from knotplot.pattern.load import loads

NET = "{kind: square_knot_mesh, rows: 6}"
LINE = "{kind: hitch_line, overhang: 3 cm}"
BRAID = "{kind: sennits, knot: square_knot, strands: 8, count: 12}"
CHEVRON = "{kind: motif_band, motif: v, rows: 6}"
FRINGE = "{kind: fringe, length: 4 cm}"


def made(sections: str, count: int, size: str, more: str = "", cord: str = "2 mm") -> WorkedPiece:
    return build(
        loads(
            f"""
knotplot: 1
{size}
cord: {{diameter: {cord}}}
strands: {{count: {count}}}
mount: {{kind: open, tail: 4 cm}}
sections: [{sections}, {FRINGE}]
motifs:
  v: {{strands: 8, steps: [{{cross: [4, 5]}}, {{hitch: {{lead: 4, to: 1}}}},
                           {{hitch: {{lead: 5, to: 8}}}}]}}
{more}
"""
        )
    )


HUNG = """
knotplot: 1
size: {{width: {width}, drop: 40 cm}}
cord: {{diameter: 2 mm}}
strands: {{count: 8}}
mount: {{kind: larks_head, rod: 12 mm}}
sections: [{{kind: sennits, knot: square_knot, strands: 8, count: 12}}]
"""


def sized(width: str) -> str:
    return f"size: {{width: {width}, drop: 40 cm}}"


def told(piece: WorkedPiece, word: str) -> list[str]:
    return [text for text in piece.warnings if word in text]


# --- narrower ------------------------------------------------------------------------------------


def test_one_sennit_in_a_wider_piece_is_told_with_its_width() -> None:
    # A square knot on 8 cords of 2 mm is 1.4 cm wide.
    (text,) = told(made(BRAID, 8, sized("2 cm")), "the work comes out")
    assert text == (
        "the work comes out 1.4 cm (1/2 in) wide, and the piece is to be 2 cm (3/4 in): nothing "
        "in it is wider; use 'width: 1.4 cm' under 'size' or 'diameter: 3 mm' under 'cord', "
        "or more strands"
    )


@pytest.mark.parametrize(
    ("sections", "count", "width"),
    [(BRAID, 8, "2 cm"), (BRAID, 8, "3.1 cm"), (CHEVRON, 8, "9 cm"), (LINE, 20, "11.4 cm")],
)
def test_what_the_warning_says_cures_it(sections: str, count: int, width: str) -> None:
    (text,) = told(made(sections, count, sized(width)), "the work comes out")
    found = re.search(r"'width: ([^']+)' under 'size'", text)
    assert found
    narrower = made(sections, count, sized(found[1]))
    assert told(narrower, "the work comes out") == told(narrower, "may flare") == []
    thicker = re.search(r"'diameter: ([^']+)' under 'cord'", text)
    if thicker:
        assert told(made(sections, count, sized(width), cord=thicker[1]), "the work comes") == []


def test_an_opening_is_told_as_what_is_written_for_it() -> None:
    size = "opening: {width: 2 cm, drop: 40 cm, overlap: 5 mm, fullness: 2}"
    (text,) = told(made(BRAID, 8, size, cord="4 mm"), "the work comes out")
    width = re.search(r"'width: ([^']+)' under 'opening'", text)
    assert width
    cured = made(BRAID, 8, size.replace("width: 2 cm", f"width: {width[1]}"), cord="4 mm")
    assert told(cured, "the work comes out") == []


@pytest.mark.parametrize(
    ("sections", "count"),
    [(NET, 16), (BRAID, 16), (f"{NET}, {LINE}", 16), (CHEVRON, 16), (f"{BRAID}, {NET}", 8)],
)
def test_what_can_be_spread_is_as_wide_as_is_chosen(sections: str, count: int) -> None:
    """Knots side by side hang as far apart as the maker hangs them; a net opens."""
    assert told(made(sections, count, sized("16 cm")), "the work comes out") == []


def test_a_little_narrower_is_nothing_to_speak_of() -> None:
    assert told(made(BRAID, 8, sized("1.5 cm")), "the work comes out") == []


def test_a_narrow_piece_of_lines_gets_one_warning_not_two() -> None:
    piece = made(LINE, 20, sized("30 cm"))
    assert len(told(piece, "the leader shows between them")) == 1
    assert told(piece, "the work comes out") == []


def test_a_piece_is_as_wide_as_what_it_hangs_by() -> None:
    """Lark's heads of cords that one braid draws together: the piece is no narrower than they."""
    text = HUNG.format(width="5 cm")
    (said,) = told(build(loads(text)), "the work comes out")
    width = re.search(r"'width: ([^']+)' under 'size'", said)
    assert width
    cured = build(loads(HUNG.format(width=width[1])))
    assert told(cured, "the work comes out") == told(cured, "may flare") == []


# --- wider ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("cord", ["2 mm", "3 mm", "5 mm", "7 mm"])
def test_what_the_flare_warning_says_cures_it_and_cord_is_sold(cord: str) -> None:
    thick = float(cord.removesuffix(" mm"))
    width = f"{20 * 2.5 * thick / 1.3 / 10:.1f} cm"
    (text,) = told(made(LINE, 20, sized(width), cord=cord), "may flare")
    fewer = re.search(r"'count: (\d+)' under 'strands'", text)
    thinner = re.search(r"'diameter: ([^']+)' under 'cord'", text)
    wider = re.search(r"'width: ([^']+)' under 'size'", text)
    assert fewer
    assert wider
    assert told(made(LINE, int(fewer[1]), sized(width), cord=cord), "flare") == []
    assert told(made(LINE, 20, sized(wider[1]), cord=cord), "flare") == []
    if thinner:
        assert float(thinner[1].removesuffix(" mm")) in SOLD
        piece = made(LINE, 20, sized(width), cord=thinner[1])
        assert told(piece, "the work comes out") == told(piece, "flare") == []


def test_inches_are_written_where_the_file_has_them() -> None:
    (text,) = told(made(LINE, 20, sized("3 in"), "units: in"), "may flare")
    assert "'width: 4 in' under 'size'" in text


def test_only_a_line_is_told_to_be_left_out() -> None:
    (text,) = told(made(BRAID, 16, sized("2 cm"), cord="3 mm"), "may flare")
    assert "leave" not in text
    assert "hitch" not in text
