"""Facts the sheet prints: free strands, openings, sizes by name; and its words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from sheet_sample import PATTERNS, made
from strategies import patterns

from knotplot.api import build
from knotplot.curves.bezier import length
from knotplot.errors import Refusal
from knotplot.geometry.layout import Layout
from knotplot.instructions.words import LANGUAGES
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.sheet.facts import largest_opening, longest_free_strand, named_sizes
from knotplot.sheet.measures import (
    left_over,
    mass,
    metres,
    plain,
    spool_length,
    spool_mass,
    time,
    total,
)
from knotplot.sheet.words import MissingTextError, sheet_words
from knotplot.tying.names import ranges

SAY = sheet_words("en")


def bare(layout: Layout) -> list[float]:
    """Return every stretch of a strand that no knot holds (mm); the knot in an end holds it."""
    last = len(layout.piece.rows)
    open_runs = (
        each for each in layout.free_runs if each.below < last or each.strand not in layout.tied_off
    )
    below = [layout.bare_below(strand) for strand in layout.tied_off]
    return [length(each.curve) for each in open_runs] + below


@pytest.mark.parametrize("name", PATTERNS)
def test_the_longest_free_strand_is_the_longest_of_all_runs(name):
    layout = made(name).layout
    assert longest_free_strand(layout) == pytest.approx(max(bare(layout)), abs=0.01)


@settings(max_examples=30)
@given(patterns())
def test_the_longest_free_strand_of_any_piece(pattern):
    layout = build(pattern).layout
    assert longest_free_strand(layout) == pytest.approx(max(bare(layout)), abs=0.01)


def mesh(spacing: str, rows: int = 6) -> Pattern:
    return loads(
        f"""
knotplot: 1
size: {{width: 20 cm, drop: 100 cm}}
cord: {{diameter: 4 mm}}
strands: {{count: 24}}
mount: {{kind: larks_head, rod: 20 mm}}
sections: [{{kind: square_knot_mesh, rows: {rows}, spacing: {spacing}}}]
"""
    )


def test_the_largest_opening_of_a_mesh_is_found_by_walking_every_pair_of_lanes():
    piece = build(mesh("15 mm")).layout.piece
    lanes: dict[int, list[tuple[float, float]]] = {}
    for tie in piece.ties():
        if len(tie.lanes) > 1 and tie.knot == "square_knot":
            for lane in range(min(tie.lanes), max(tie.lanes)):
                lanes.setdefault(lane, []).append((tie.y, tie.x))
    tops = {lane: sorted(y for y, _ in found) for lane, found in lanes.items()}
    # All knots are equally high: openings are gaps between tops, less a knot's height.
    height = piece.rows[1].placements[0].shape.bottom
    widest = max(b - a - height for found in tops.values() for a, b in pairwise(found))
    above = max(found[0] - piece.mounting.rod for found in tops.values())
    assert largest_opening(piece) == pytest.approx(max(widest, above), abs=1e-6)


def test_a_more_open_mesh_has_the_larger_opening():
    assert largest_opening(build(mesh("5 mm")).layout.piece) < largest_opening(
        build(mesh("40 mm")).layout.piece
    )


def test_a_fringe_alone_is_no_opening():
    piece = build(loads(PATTERNS["runner"])).layout.piece
    assert 0.0 < largest_opening(piece) < 100.0 < longest_free_strand(made("runner").layout)


def test_named_sizes_of_a_pattern_that_is_none_of_them():
    pattern = loads(
        """
knotplot: 1
size: {width: 50 cm, drop: 40 cm}
sizes: {wide: {size: {width: 80 cm}}, deep: {size: {drop: 24 in}}}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: {kind: larks_head, rod: 20 mm}
sections: [{kind: square_knot_mesh, rows: 2}]
"""
    )
    assert [tuple(size) for size in named_sizes(pattern)] == [
        ("wide", Fraction(800), Fraction(400), False),
        ("deep", Fraction(500), Fraction(3048, 5), False),
    ]


def test_named_sizes_leave_out_what_a_chosen_size_hides():
    text = """
knotplot: 1
size: {width: 50 cm, drop: 40 cm}
sizes: {wide: {size: {width: 80 cm}}, deep: {size: {drop: 60 cm}}}
cord: {diameter: 4 mm}
strands: {count: 16}
mount: {kind: larks_head, rod: 20 mm}
sections: [{kind: square_knot_mesh, rows: 2}]
"""
    found = named_sizes(loads(text, size="deep"))
    assert [tuple(size) for size in found] == [
        ("wide", Fraction(800), None, False),
        ("deep", Fraction(500), Fraction(600), True),
    ]


def test_ranges_name_every_cord_once():
    assert ranges([]) == ""
    assert ranges(["M1", "M2"]) == "M1, M2"
    assert ranges(["M1", "M2", "M3", "M10", "M11", "M12", "W1"]) == "M1–M3, M10–M12, W1"


def test_measures_are_written_as_a_maker_reads_them():
    # 1 yd = 914.4 mm exactly; what is bought is rounded up.
    assert metres(1000, SAY) == "1 m\n2 yd"
    assert metres(1001, SAY) == "2 m\n2 yd"
    assert total(20_000, SAY) == "20.0 m (21.9 yd)"
    # 1 ft = 304.8 mm exactly; what is left over is rounded down.
    assert left_over(1999, SAY) == "1.9 m (6 ft)"
    # 1 lb = 453.59237 g exactly.
    assert mass(999.6, SAY) == "1.0 kg (2.2 lb)"
    assert mass(412.3, SAY) == "412 g (0.9 lb)"
    assert spool_mass(5000, SAY) == "5 kg (11 lb)"
    assert spool_mass(250, SAY) == "250 g (0.6 lb)"
    assert spool_length(45_720, SAY) == "45.7 m (50 yd)"
    assert spool_length(45_720, SAY, "in") == "50 yd"
    assert spool_length(100_000, SAY, "cm") == "100 m"
    assert time(0.2, SAY) == "about 10 minutes"
    assert time(1.1, SAY) == "about 1 hour"
    assert time(3.3, SAY) == "about 3.5 hours"
    assert time(37.4, SAY) == "about 37 hours"
    assert plain(Fraction(3)) == "3"


def test_a_missing_text_is_an_error():
    with pytest.raises(MissingTextError, match="no such key"):
        SAY("no such key")
    with pytest.raises(MissingTextError, match="width"):
        SAY("size value", drop="1 cm")
    with pytest.raises(MissingTextError):
        SAY.list("no such list")
    with pytest.raises(MissingTextError):
        replace(SAY, language="xx").knot("square_knot")


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_language_has_all_the_texts_of_english(language):
    other = sheet_words(language)
    assert set(other.texts) == set(SAY.texts)
    assert set(other.lists) == set(SAY.lists)


def test_an_unknown_language_is_refused_with_those_there_are():
    with pytest.raises(Refusal, match="use one of en"):
        sheet_words("xx")
