from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pattern_sample import SMALL, WHOLE

from knotplot.errors import Refusal
from knotplot.pattern.load import loads
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count, rounded, strand_count
from knotplot.sections.base import Ask, meet, meet_all
from knotplot.sections.columns import at_least, nearest


def piece(
    mount: str = "{kind: open, tail: 5 cm}",
    sections: str = "- {kind: fringe, length: 9}",
    more: str = "strands: {count: 40}",
    width: str = "49 in",
    motifs: str = "",
) -> Pattern:
    return loads(
        f"knotplot: 1\nsize: {{width: {width}, drop: 90}}\ncord: {{diameter: 4 mm}}\n{more}\n"
        f"mount: {mount}\nsections:\n  {sections}\n{motifs}\n"
    )


SAMPLE = "swatch: {strands: 16, width: 4 in}"


def count_of(more: str, **parts: str) -> Count:
    return strand_count(piece(more=more, **parts))


# Common practice: a tension sample of four square knots on 16 cords that measures 4 in says 196
# cords for 49 in, before rounding to a multiple of 8; hung, a mesh widens, and 176 served there.
def test_the_tension_sample_of_common_practice() -> None:
    mesh8 = "- {kind: sennits, knot: square_knot, strands: 8, count: 3}"
    count = count_of(SAMPLE, sections=mesh8)
    assert count.estimate == 196
    assert (count.repeat, count.plus) == (8, 0)
    assert count.count == 200  # 24.5 repeats: a tie goes up
    assert count_of(SAMPLE + "\nstrands: {rounding: down}", sections=mesh8).count == 192
    assert count_of(SAMPLE + "\nstrands: {rounding: up}", sections=mesh8).count == 200
    served = Fraction(16 * 49, 176)  # what 16 strands must hang as, for 176 to fill 49 in
    hung = f"swatch: {{strands: 16, width: 4 in, hung_width: {served} in}}"
    assert count_of(hung, sections=mesh8).count == 176


def test_options_tell_width_and_gauge_exactly() -> None:
    count = count_of(SAMPLE, sections="- {kind: square_knot_mesh, rows: 3}")
    assert count.count == 196
    assert [option.count for option in count.options] == [192, 196, 200]
    widths = [option.width_mm for option in count.options]
    assert widths == [Fraction(254, 10) * inch for inch in (48, 49, 50)]
    assert [option.gauge_change for option in count.options] == [
        Fraction(1, 48),
        0,
        Fraction(-1, 50),
    ]


def test_without_a_swatch_the_count_is_required() -> None:
    count = count_of("strands: {count: 40}")
    assert (count.estimate, count.count, count.plus, count.repeat) == (None, 40, 0, 1)
    assert count.options[0].width_mm is None
    with pytest.raises(Refusal, match="no swatch and no count"):
        count_of("")
    with pytest.raises(Refusal, match="doesn't say its strands"):
        count_of("swatch: {rows: 3, cord_used: 4}")


@pytest.mark.parametrize(
    ("mount", "ask"),
    [
        ("{kind: larks_head, rod: 1 cm}", (0, 2)),
        ("{kind: reverse_larks_head, rod: 1 cm}", (0, 2)),
        ("{kind: ring, diameter: 9 cm}", (0, 2)),
        ("{kind: rod_pocket, rod: 1 cm, rows: 6, tail: 20 cm}", (0, 4)),
        ("{kind: hitched, rod: 1 cm, tail: 5 cm}", (0, 1)),
        ("{kind: open, tail: 5 cm}", (0, 1)),
    ],
)
def test_what_mounts_ask(mount: str, ask: tuple[int, int]) -> None:
    count = count_of("strands: {count: 40}", mount=mount)
    assert (count.plus, count.repeat) == ask


LEAF = "motifs: {leaf: {strands: 12, steps: [hitch: {lead: 1, to: 12}]}}"


@pytest.mark.parametrize(
    ("sections", "plus", "repeat", "least"),
    [
        ("- {kind: square_knot_mesh, rows: 2}", 0, 4, 4),
        ("- {kind: motif_band, motif: leaf, rows: 1}", 0, 12, 12),
        ("- {kind: motif_band, motif: diamond, rows: 1}", 0, 8, 8),
        ("- {kind: sennits, knot: overhand, strands: 5, count: 1}", 0, 5, 5),
        ("- {kind: hitch_line}", 0, 1, 1),
        ("- {kind: gather, wrap: 3}", 0, 1, 1),
        # twice 6 fixed, and a rest of mesh in two equal copies: 12 + 8k, never 12
        (
            "- {kind: columns, parts: [{strands: 6, repeat: 2, sections: [{kind: free, length: 3}]}"
            ", {strands: rest, repeat: 2, sections: [{kind: square_knot_mesh, rows: 2}]}]}",
            4, 8, 20,
        ),
        # a rest that asks for nothing is still not empty
        (
            "- {kind: columns, parts: [{strands: 6, sections: [{kind: free, length: 3}]},"
            " {strands: rest, sections: [{kind: free, length: 3}]}]}",
            0, 1, 7,
        ),
        # no rest: a multiple of the sum
        (
            "- {kind: columns, parts: [{strands: 6, sections: [{kind: free, length: 3}]},"
            " {strands: 4, repeat: 2, sections: [{kind: square_knot_mesh, rows: 2}]}]}",
            0, 14, 14,
        ),
        # inside a repeat every section asks; columns nest
        (
            "- {kind: repeat, times: 2, sections: [{kind: square_knot_mesh, rows: 2},"
            " {kind: sennits, knot: overhand, strands: 6, count: 1}]}",
            0, 12, 12,
        ),
        (
            "- {kind: columns, parts: [{strands: 3, sections: [{kind: free, length: 3}]},"
            " {strands: rest, sections: [{kind: columns, parts: [{strands: 2, sections:"
            " [{kind: free, length: 1}]}, {strands: rest, sections: [{kind: square_knot_mesh,"
            " rows: 2}]}]}]}]}",
            1, 4, 9,
        ),
    ],
)  # fmt: skip
def test_what_sections_ask(sections: str, plus: int, repeat: int, least: int) -> None:
    given = f"strands: {{count: {least}}}"
    count = count_of(given, sections=sections, motifs=LEAF)
    assert (count.plus, count.repeat, count.count) == (plus, repeat, least)
    assert [option.count for option in count.options] == [least, least + repeat]
    if least > 1:
        with pytest.raises(Refusal, match=f"use {least}$"):
            count_of(f"strands: {{count: {least - 1}}}", sections=sections, motifs=LEAF)
    tiny = "swatch: {strands: 1, width: 49 in}"
    assert count_of(tiny, sections=sections, motifs=LEAF).count == least


def test_a_given_count_that_doesnt_do_names_the_two_nearest() -> None:
    with pytest.raises(Refusal) as caught:
        count_of("strands: {count: 42}", sections="- {kind: square_knot_mesh, rows: 3}")
    assert "use 40 or 44" in caught.value.fault.remedy
    assert caught.value.fault.path == ("strands", "count")


def test_two_that_disagree_are_named() -> None:
    sections = (
        "- {name: field, kind: square_knot_mesh, rows: 2}\n"
        "  - {name: side by side, kind: columns, parts: [{strands: 6, sections: [{kind: free,"
        " length: 3}]}, {strands: rest, sections: [{kind: square_knot_mesh, rows: 2}]}]}"
    )
    with pytest.raises(Refusal) as caught:
        count_of("strands: {count: 40}", sections=sections)
    fault = caught.value.fault
    assert fault.problem == (
        "side by side needs a multiple of 4 plus 2 strands, "
        "but field needs a multiple of 4: no count is both"
    )
    assert fault.path == ("sections", 1)


def test_the_estimate_counts_by_the_hung_width() -> None:
    # contract: size.width × swatch strands ÷ (hung_width, else width)
    count = strand_count(loads(WHOLE.replace("{strands: 8, sections", "{strands: 4, sections")))
    assert count.estimate == Fraction(920 * 20, 140)
    assert (count.count, count.repeat) == (132, 12)


def test_more_strands_than_can_be_worked_are_refused() -> None:
    with pytest.raises(Refusal, match="more than 20000"):
        count_of("swatch: {strands: 100, width: 1 mm}", width="900 m")


# Sun Zi's problem (Sunzi Suanjing, 3rd to 5th century): 2 mod 3, 3 mod 5, 2 mod 7 is 23 mod 105.
def test_sun_zis_problem() -> None:
    together = meet_all(Ask(p, m, 1, (), "") for p, m in [(2, 3), (3, 5), (2, 7)])
    assert together[:2] == (23, 105)


asks = st.integers(1, 24).flatmap(lambda m: st.tuples(st.integers(0, m - 1), st.just(m)))


@given(asks, asks)
def test_meeting_is_what_trying_all_counts_gives(a: tuple[int, int], b: tuple[int, int]) -> None:
    both = [n for n in range(1200) if n % a[1] == a[0] and n % b[1] == b[0]]
    met = meet(a, b)
    if met is None:
        assert not both
    else:
        assert both == list(range(met[0], 1200, met[1]))


@given(st.lists(asks, max_size=5))
def test_a_disagreement_names_two_that_disagree(some: list[tuple[int, int]]) -> None:
    met = meet_all(Ask(p, m, 1, (), str(i)) for i, (p, m) in enumerate(some))
    if isinstance(met, Ask):
        assert all(met.plus % m == p and met.repeat % m == 0 for p, m in some)
    else:
        assert meet(met[0][:2], met[1][:2]) is None


@given(asks, st.integers(1, 60), st.fractions(0, 200), st.sampled_from(["nearest", "up", "down"]))
def test_rounding_is_what_trying_all_counts_gives(
    ask: tuple[int, int], least: int, estimate: Fraction, rounding: str
) -> None:
    plus, repeat = ask
    allowed = [n for n in range(1, 400) if n % repeat == plus and n >= least]
    if rounding == "nearest":
        wanted = min(allowed, key=lambda n: (abs(n - estimate), -n))
    elif rounding == "up":
        wanted = min(n for n in allowed if n >= estimate)
    else:
        wanted = max((n for n in allowed if n <= estimate), default=allowed[0])
    assert rounded(estimate, Ask(plus, repeat, least, (), ""), rounding) == wanted


@given(asks, st.integers(1, 60), st.integers(1, 300))
def test_the_nearest_counts_are_the_nearest(ask: tuple[int, int], least: int, count: int) -> None:
    plus, repeat = ask
    allowed = [n for n in range(1, 900) if n % repeat == plus and n >= least]
    assert at_least(plus, repeat, least) == allowed[0]
    above = min(n for n in allowed if n >= count)
    below = [n for n in allowed if n < above]
    assert nearest(count, plus, repeat, least) == (
        f"{below[-1]} or {above}" if below else f"{above}"
    )


def test_the_small_sample() -> None:
    assert strand_count(loads(SMALL)).count == 16
