"""Warnings on the sheet name nothing by the file's words; what `check` says keeps them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

import pytest
from notices.trade import FILE_WORD
from sheet_sample import PLAIN

from knotplot.api import build
from knotplot.drawing.shapes import Group, Item, Text
from knotplot.kinds import kind_words
from knotplot.mounts.base import MOUNTS
from knotplot.notice import Notice, Value
from knotplot.notices import in_file_words, in_trade_words
from knotplot.pattern.load import loads
from knotplot.sections.base import SECTIONS

SENNITS = """
knotplot: 1
title: Braids
size: {width: 30 cm, drop: 150 cm}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {kind: sennits, knot: square_knot, strands: 4, count: 60}
"""
TWICE_LED = """
  - {kind: motif_band, motif: bars, rows: 1}
motifs:
  bars: {strands: 8, steps: [hitch: {lead: 1, to: 8}, hitch: {lead: 2, to: 8}]}
"""

# A piece, a file's word in what `check` says of it, and how the sheet says that.
WARNED = [
    (PLAIN + "swatch: {cord_used: 41 cm}\n", "cord_used can't be used without its rows; add 'rows'",
     "The swatch: the cord your swatch took can't be used without its rows; add the number"),
    (PLAIN + "swatch: {cord_used: 9 m, rows: 4}\n", "check that 'cord_used' is",
     "check that the cord your swatch took is what one strand took in"),
    (PLAIN + "swatch: {of: square_knot_mesh, rows: 4, height: 90 cm}\n", "section's 'spacing'",
     "check its rows and height, the bare cord between rows, and the cord's diameter"),
    (PLAIN + "swatches: [{minutes: 4}]\n", "swatches[0]: its minutes",
     "One of the swatches: its minutes don't say"),
    (PLAIN + "cord_use: {square_knot: {working: 40}}\n", "cord_use: square knot, working 40",
     "Your own figures for cord: square knot, working 40"),
    (SENNITS.replace("rod: 20 mm", "rod: 20 mm, fold: middle"),
     "'fold: uneven' under 'mount'", "folded unevenly, each at its own place, "),
    (PLAIN + "cut: {groups: 1}\nsupport: {material: pine, diameter: 12 mm, span: 35 cm}\n",
     "give mount.rod and support.diameter alike", "take one thickness for both"),
    (PLAIN + TWICE_LED, "leads lane 2 straight after", "leads the cord in place 2 straight after"),
    (PLAIN.replace("cord: {diameter: 4 mm}", "cords: {main: {diameter: 4 mm, spools: [90 m]}}")
     + "colours: {order: [a, b]}\n", "cords.main: its spools don't say",
     "Main cord: its spools don't say of which colour they are"),
    (PLAIN.replace("larks_head, rod: 20 mm", "rod_pocket, rod: 20 mm, rows: 10, tail: 14 cm"),
     "mount: the tails' knots take", "Mounting: the tails' knots take"),
]  # fmt: skip


def words(found: Sequence[Item]) -> Iterator[str]:
    for item in found:
        if isinstance(item, Group):
            yield from words(item.items)
        elif isinstance(item, Text):
            yield item.text


@pytest.mark.parametrize(("text", "checked", "printed"), WARNED)
def test_a_warning_is_said_in_trade_words_on_the_sheet(
    text: str, checked: str, printed: str
) -> None:
    made = build(loads(text))
    warnings = made.warnings
    assert any(checked in warning for warning in warnings)
    pages = [" ".join(words(page.items)) for page in made.sheet().sheet.pages]
    page = next(page for page in pages if "Know before you cut" in page)
    assert printed in page
    told = in_trade_words(made.notices)
    assert not [found for sentence in told for found in FILE_WORD.findall(sentence)]


def in_both(key: str, **values: Value) -> tuple[str, str]:
    """Return what a notice of that key says in the file's terms, and in the trade's."""
    notice = Notice(key, (), "warning", values)
    return in_file_words([notice])[0], in_trade_words([notice])[0]


def test_two_lengths_are_advised_in_trade_words() -> None:
    cords = {"longer": ("M1",), "most": 2000.0, "least": 800.0}
    told = in_both("lengths_uneven", **cords, long=2200, short=900, saved=3000)
    assert "but all are cut alike: with 'groups: 2' under 'cut', 220 cm" in told[0]
    assert "but all are cut alike: in two lengths, 220 cm" in told[1]


@pytest.mark.parametrize(
    ("cord", "told", "printed"),
    [
        (
            ("cord",),
            "it may flare; use 'count: 12' under 'strands', 'diameter: 2.5 mm' under 'cord' or "
            "'width: 30 cm' under 'size'",
            "it may flare; use 12 strands, cord of 2.5 mm or a width of 30 cm",
        ),
        (
            ("cords", "main"),
            "use 'count: 12' under 'strands', 'diameter: 2.5 mm' under 'cords.main' or 'width: ",
            "use 12 strands, cord of 2.5 mm or a width of 30 cm",
        ),
    ],
)
def test_what_to_write_in_the_file_is_what_to_do_on_paper(
    cord: tuple[str, ...], told: str, printed: str
) -> None:
    file, trade = in_both(
        "sections_crowded", sections=(("top", "hitch_line"),), widest=("top", "hitch_line"),
        wide=(400.0,), takes=400.0, has=300.0, skips_cords=False, tightens=False, strands=12,
        cord=cord, thick=2.5, of="size", width=Fraction(300), inches=False,
    )  # fmt: skip
    assert told in file
    assert trade.endswith(printed)


def test_a_width_and_a_thickness_are_asked_for_in_inches_too() -> None:
    file, trade = in_both(
        "work_narrow", takes=120.0, has=200.0, cord=("cords", "main"), thick=3.0, of="opening",
        width=Fraction(1143, 8), inches=True,
    )  # fmt: skip
    assert file.endswith(
        "use 'width: 5 5/8 in' under 'opening' or 'diameter: 3 mm' under 'cords.main', or more "
        "strands"
    )
    assert trade.endswith("use a width of 5 5/8 in or cord of 3 mm, or more strands")


@pytest.mark.parametrize("filled", [True, False])
def test_two_fringes_are_asked_to_be_alike(filled: bool) -> None:
    lengths = {"top": 150.0, "bottom": 100.0, "alike": Fraction(63)}
    file, trade = in_both("fringes_unlike", **lengths, inches=False, filled=filled)
    last = "" if filled else " and 'length: 6.3 cm' for the last fringe"
    assert file.endswith(f"use 'tail: 6.3 cm' under 'mount'{last}")
    assert trade.endswith("use 6.3 cm for both")


def test_a_plain_knot_is_asked_for_on_the_same_cords() -> None:
    file, trade = in_both(
        "picots_unheld", section=("band", "motif_band"), motif="eared", step=1, knot="half_knot",
        lanes=(3, 4, 5, 6), rows=(2,),
    )  # fmt: skip
    assert file.endswith("knot before it: '- knot: {kind: half_knot, lanes: [3, 4, 5, 6]}'")
    assert trade.endswith("like ears; tie a plain knot on the same cords before it")


def test_every_kind_whose_name_no_maker_says_has_words() -> None:
    kinds = {kind for kind in (*SECTIONS, *MOUNTS) if "_" in kind}
    assert kinds
    for kind in kinds:
        file, trade = in_both("swatch_of_nothing", of=kind, given=("height",))
        assert file.startswith(f"the swatch of {kind}: height")
        assert trade.startswith(f"the swatch of {kind_words(kind).one}: height")


def test_a_makers_own_names_are_left_alone() -> None:
    file, trade = in_both(
        "rows_fit_nowhere", section=("my_hitch_line", "motif_band"), rows=(2,), until=0, more=0
    )
    assert file == trade
    assert file.startswith("my_hitch_line: row 2 fits nowhere")
    file, trade = in_both("leader_overlong", section=("rod", "hitch_line"), over=3000)
    assert file == trade
    assert file.startswith("“rod”: its leader")
