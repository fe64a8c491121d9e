"""Where the cord goes: shares add up to what is used and cut, and to what figures say."""

from __future__ import annotations

from pathlib import Path

import pytest
import strategies
from cords_sample import sennits
from hypothesis import given, settings

import knotplot
from knotplot.materials.bill import bill, laid
from knotplot.materials.cutting import group_lengths
from knotplot.materials.report import FLAT, report, shares
from knotplot.pattern.models import Pattern

PATTERNS = sorted((Path(knotplot.__file__).parent.parent / "patterns").glob("*.yaml"))


@settings(max_examples=40)
@given(strategies.patterns())
def test_shares_add_up_to_what_is_used_and_what_is_cut(pattern: Pattern) -> None:
    layout = laid(pattern, strategies.tied(pattern))
    made = bill(pattern, layout)
    for each, goes in zip(made.lengths, made.report, strict=True):
        assert goes.cord == each.cord.id
        assert goes.used == pytest.approx(each.used, abs=1e-6)
        assert goes.cut == pytest.approx(float(each.cut), abs=1e-6)
        assert min(goes.fold, goes.rounding) >= -1e-6
        for strand in goes.strands:
            assert min(strand.mount, strand.knots, strand.runs, strand.finish) >= -1e-6


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_figures_say_of_every_cord_where_it_goes(path: Path) -> None:
    made = knotplot.build(knotplot.load(path))
    for cord in made.figures()["cords"]:
        assert list(cord["use"]) == ["knots_mm", "runs_mm", "finish_mm"]
        # Three numbers rounded to 0.01 mm against one.
        assert sum(cord["use"].values()) == pytest.approx(cord["used_mm"], abs=0.021)


def test_the_mounting_is_told_apart() -> None:
    goes = sennits().bill.report
    # All cords hang by the same knot; each of its strands takes half.
    hung = {round(strand.mount, 6) for each in goes for strand in each.strands}
    assert len(hung) == 1
    assert hung.pop() > 20.0
    worker, filler = goes[0].strands
    assert worker.knots > 2.0 * filler.knots
    assert worker.finish == pytest.approx(filler.finish, rel=0.2)


def test_lines_of_the_cut_list_tell_the_mean_of_their_cords() -> None:
    made = sennits(fold="middle").bill
    found = shares(made.report, made.cutting)
    for line, each in zip(made.cutting, found, strict=True):
        assert each.total == pytest.approx(float(line.length))
    assert sum(
        each.knots * len(line.cords) for line, each in zip(made.cutting, found, strict=True)
    ) == pytest.approx(sum(strand.knots for goes in made.report for strand in goes.strands))


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_fewer_lengths_cost_what_cutting_in_so_many_does(path: Path) -> None:
    made = knotplot.build(knotplot.load(path, sets=["cut.groups=4", "cut.step=1 cm"]))
    step = made.pattern.cut.step
    assert made.bill.waste
    for each in made.bill.waste:
        alike = [(one.cord.role, one.cord.kind, one.cord.colour) for one in made.bill.lengths]
        cords = [one for one, of in zip(made.bill.lengths, alike, strict=True) if of == each[:3]]
        needs = [one.need for one in cords]
        for groups, total in enumerate(each.totals, start=1):
            assert total == sum(group_lengths(needs, step, groups))
        assert each.totals[-1] == sum(one.cut for one in cords)
        assert list(each.totals) == sorted(each.totals, reverse=True)


def test_a_flat_tenth_is_told_beside_the_allowance() -> None:
    made = sennits(fold="middle").bill
    assert made.flat.flat == pytest.approx(FLAT * sum(each.bare for each in made.lengths))
    assert made.flat.allowance == pytest.approx(sum(each.need - each.bare for each in made.lengths))
    assert made.flat.short == sum(each.need > 1.1 * each.bare for each in made.lengths)
    # 99 % with hands that differ by 8 % takes more than a tenth of what lies in knots.
    assert made.flat.short == len(made.lengths)
    assert sennits(fold="middle", confidence=0.3).bill.flat.short == 0


def test_a_report_is_made_of_any_lengths() -> None:
    made = sennits()
    assert report(made.layout, made.bill.lengths) == made.bill.report
