"""Warnings on the sheet name nothing by the file's words; what `check` says keeps them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import pytest
from sheet_sample import PLAIN

from knotplot.api import build
from knotplot.drawing.shapes import Group, Item, Text
from knotplot.mounts.base import MOUNTS
from knotplot.pattern.load import loads
from knotplot.sections.base import SECTIONS
from knotplot.sheet.en.file_words import KINDS
from knotplot.sheet.words import sheet_words

# A word in quotes as a key, a word with a low line, a path, a list's index.
FILE_WORD = re.compile(r"'[a-z_]+(?:: \w+)?'|\w_\w|[a-z]\.[a-z]|\[\d|\blanes?\b")

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
    warnings = made.layout.piece.warnings
    assert any(checked in warning for warning in warnings)
    pages = [" ".join(words(page.items)) for page in made.sheet().sheet.pages]
    page = next(page for page in pages if "Know before you cut" in page)
    assert printed in page
    say = sheet_words("en")
    assert not [
        found for warning in warnings for found in FILE_WORD.findall(say.in_trade_words(warning))
    ]


def test_two_lengths_are_advised_in_trade_words() -> None:
    told = "but all are cut alike: with 'groups: 2' under 'cut', 220 cm and 90 cm, 3 m less"
    assert sheet_words("en").in_trade_words(told) == (
        "but all are cut alike: in two lengths, 220 cm and 90 cm, 3 m less"
    )


@pytest.mark.parametrize(
    ("told", "printed"),
    [
        (
            "it may flare; use 'count: 12' under 'strands', 'diameter: 2.5 mm' under 'cord' or "
            "'width: 30 cm' under 'size'",
            "it may flare; use 12 strands, cord of 2.5 mm or a width of 30 cm",
        ),
        (
            "use 'width: 5 5/8 in' under 'opening' or 'diameter: 3 mm' under 'cords.main', or more",
            "use a width of 5 5/8 in or cord of 3 mm, or more",
        ),
        ("use 'tail: 6.3 cm' under 'mount' and 'length: 6.3 cm' for the last fringe",
         "use 6.3 cm for both"),
        ("use 'tail: 6.3 cm' under 'mount'", "use 6.3 cm for both"),
        ("like ears; tie a plain knot before it: '- knot: {kind: half_knot, lanes: [3, 4, 5, 6]}'",
         "like ears; tie a plain knot on the same cords before it"),
    ],
)  # fmt: skip
def test_what_to_write_in_the_file_is_what_to_do_on_paper(told: str, printed: str) -> None:
    assert sheet_words("en").in_trade_words(told) == printed


def test_every_kind_whose_name_no_maker_says_has_words() -> None:
    kinds = {kind for kind in (*SECTIONS, *MOUNTS) if "_" in kind}
    assert set(KINDS) == kinds
    say = sheet_words("en")
    for kind in kinds:
        assert say.in_trade_words(f"the swatch of {kind}: x") == f"the swatch of {KINDS[kind]}: x"


def test_a_makers_own_names_are_left_alone() -> None:
    for text in ("“rod” and “gap”: they may flare", "net: row 2 fits nowhere", "it's 'mine'"):
        assert sheet_words("en").in_trade_words(text) == text
