"""A piece of very many ties: its numbers, words and sheet, but no drawing tie by tie."""

from __future__ import annotations

import pytest
from cli_sample import names

from knotplot import PatternError, build, load
from knotplot.drawing import limits
from knotplot.sheet import chart_part, cover

SAID = "ties, and no more than 100 are drawn; draw its outline or print its sheet, or work fewer"


@pytest.fixture(autouse=True)
def few(monkeypatch):
    """Let 100 ties be many: the sample has some more."""
    for module in (limits, chart_part, cover):
        monkeypatch.setattr(module, "MOST_TIES", 100)


@pytest.mark.parametrize("view", ["chart", "cord"])
def test_it_is_not_drawn_tie_by_tie(pattern, view):
    piece = build(load(pattern))
    with pytest.raises(PatternError, match=SAID) as caught:
        piece.draw(view)
    assert caught.value.faults[0].origin == pattern


def test_make_refuses_it_in_one_line_and_writes_nothing(run, pattern, tmp_path):
    before = names(tmp_path)
    code, printed, errors = run("make", pattern, "-o", str(tmp_path / "out"))
    assert (code, printed, len(errors)) == (1, "", 1)
    assert SAID in errors[0]
    assert names(tmp_path) == before


def test_all_else_is_made_of_it(run, pattern, tmp_path):
    for view in ("outline", "trim"):
        place = str(tmp_path / f"{view}.svg")
        assert run("draw", pattern, "--view", view, "-o", place)[0] == 0
    for command in ("figures", "words", "check"):
        assert run(command, pattern)[0] == 0
    assert run("sheet", pattern, "-o", str(tmp_path / "sheet.pdf"))[0] == 0


def test_a_piece_of_as_many_is_drawn(pattern, monkeypatch):
    piece = build(load(pattern))
    monkeypatch.setattr(limits, "MOST_TIES", piece.layout.piece.tie_count)
    assert piece.draw("chart").svg().startswith("<svg ")
