"""Cords in several colours: cut, bought, weighed and quoted colour by colour."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from strategies import patterns

from knotplot.api import WorkedPiece, build
from knotplot.errors import PatternError
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern

NET = """
knotplot: 1
title: Two colours
size: {width: 30 cm, drop: 40 cm}
cord: {diameter: 4 mm, spool: 6 m, price_per_spool: 2.50 EUR}
strands: {count: 16}
mount: {kind: larks_head, rod: 20 mm}
sections:
  - {kind: square_knot_mesh, rows: 5}
  - {kind: hitch_line, overhang: 10 cm}
cut: {groups: 1}
work: {rate: 20 EUR}
"""
TWO = 'colours: {order: [natural*3, rust], palette: {natural: "#e9e1d3", rust: "#a4502f"}}\n'


def made(text: str) -> WorkedPiece:
    return build(loads(text))


def test_a_cut_list_in_two_colours_worked_by_hand() -> None:
    # 8 cords, NNNR NNNR, and a leader of the first colour; one length for each role and colour
    cutting = made(NET + TWO).figures()["cutting"]
    told = [(x["label"], x["role"], x["colour"], x["count"], x["cords"]) for x in cutting]
    assert told == [
        ("A", "main", "natural", 6, ["M1", "M2", "M3", "M5", "M6", "M7"]),
        ("B", "main", "rust", 2, ["M4", "M8"]),
        ("C", "leader", "natural", 1, ["L1"]),
    ]


def test_a_colour_is_cut_in_lengths_of_its_own() -> None:
    plain, two = made(NET).bill, made(NET + TWO).bill
    needs = {each.cord.id: each.need for each in plain.lengths}
    assert needs == {each.cord.id: each.need for each in two.lengths}  # colours change no need
    lengths = {line.label: line.length for line in two.cutting}
    # whole steps of 5 cm over the longest of each colour
    for label, cords in (("A", ("M1", "M2", "M3", "M5", "M6", "M7")), ("B", ("M4", "M8"))):
        assert lengths[label] == 50 * -(-max(needs[cord] for cord in cords) // 50)
    assert sum(each.cut for each in two.lengths) <= sum(each.cut for each in plain.lengths)


def test_groups_are_counted_for_each_colour() -> None:
    text = NET.replace("groups: 1", "groups: 2, step: 1 mm") + TWO
    lines = [line for line in made(text).bill.cutting if line.role == "main"]
    assert [line.colour for line in lines] == ["natural", "natural", "rust", "rust"]
    assert len(lines[0].cords) + len(lines[1].cords) == 6


def test_spools_are_bought_colour_by_colour() -> None:
    found = made(NET + TWO)
    length = {line.label: float(line.length) for line in found.bill.cutting}
    natural, rust = found.figures()["shopping"]
    assert (natural["colour"], rust["colour"]) == ("natural", "rust")
    assert natural["total_m"] == pytest.approx((6 * length["A"] + length["C"]) / 1000)
    assert rust["total_m"] == pytest.approx(2 * length["B"] / 1000)
    # spools of 6 m hold three natural cords of A, so two do; the leader comes off a third or a rest
    assert (rust["spools"], rust["lower_bound"]) == (1, 1)
    assert natural["spools"] >= natural["lower_bound"] == -(-natural["total_m"] // 6)
    for line in (natural, rust):
        assert line["cost"] == 2.5 * line["spools"]
        assert (line["cord_type"], line["currency"]) == ("main", "EUR")


def test_a_quote_has_a_line_for_each_colour() -> None:
    found = made(NET + TWO)
    lines = [x for x in found.figures()["quote"]["lines"] if x["what"] == "cord"]
    assert [(x["cord_type"], x["colour"], x["amount"]) for x in lines] == [
        ("main", buy["colour"], buy["cost"]) for buy in found.figures()["shopping"]
    ]
    text = found.quote_text()
    assert "Cord, natural: 4 mm, twisted" in text
    assert "Cord, rust: 4 mm, twisted" in text
    unpriced = made(NET.replace(", price_per_spool: 2.50 EUR", "") + TWO)
    assert unpriced.quote().left_out == ("main",)
    told = [line for line in unpriced.warnings if line.startswith("quote: ")]
    assert len(told) == 1


def test_a_wrap_of_another_kind_and_colour_is_bought_by_itself() -> None:
    text = NET.replace(
        "cord: {", "cords: {wrap: {diameter: 3 mm, spool: 20 m}, main: {"
    ).replace("2.50 EUR}", "2.50 EUR}}")  # fmt: skip
    text = text.replace("cut:", "  - {kind: gather, wrap: 2 cm, colour: gold}\ncut:") + TWO
    shopping = made(text).figures()["shopping"]
    assert [(x["cord_type"], x["colour"]) for x in shopping] == [
        ("main", "natural"), ("main", "rust"), ("wrap", "gold"),
    ]  # fmt: skip


def test_spools_at_hand_don_t_say_their_colours() -> None:
    text = NET.replace("spool: 6 m, price_per_spool: 2.50 EUR", "spools: [30 m, 6 m]")
    told = [line for line in made(text + TWO).warnings if "its spools" in line]
    assert told == [
        "cord: its spools don't say of which colour they are, so each of the 2 colours is counted "
        "as having them all; see that they suffice, or give 'spool', what one holds"
    ]
    assert not [line for line in made(text).warnings if "its spools" in line]
    with pytest.raises(PatternError, match=r"cord\.spools"):
        made(text.replace("[30 m, 6 m]", "[2 m]") + TWO)


@settings(max_examples=25)
@given(patterns())
def test_sums_by_colour_are_those_of_all_cords(pattern: Pattern) -> None:
    found = build(pattern)
    bill, cords = found.bill, found.layout.piece.cords
    colours = dict.fromkeys((cord.kind, cord.colour) for cord in cords)
    bought = [(buy.kind, buy.colour) for buy in bill.shopping]
    assert sorted(bought, key=str) == sorted(colours, key=str)
    cut = {each.cord.id: each.cut for each in bill.lengths}
    for buy in bill.shopping:
        mine = [c.id for c in cords if (c.kind, c.colour) == (buy.kind, buy.colour)]
        assert buy.total == sum(cut[cord] for cord in mine)
    assert sum(buy.total for buy in bill.shopping) == sum(cut.values(), Fraction(0))
    by_id = {cord.id: cord for cord in cords}
    assert sorted(cord for line in bill.cutting for cord in line.cords) == sorted(by_id)
    sorts = [(line.role, line.kind, line.colour) for line in bill.cutting]
    assert all(
        sorts.count(sort) <= (8 if (most := pattern.cut.groups) == "auto" else most)
        for sort in sorts
    )
    for line in bill.cutting:
        assert {(c.role, c.kind, c.colour) for c in map(by_id.__getitem__, line.cords)} == {
            (line.role, line.kind, line.colour)
        }
        assert {cut[cord] for cord in line.cords} == {line.length}
