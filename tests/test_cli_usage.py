"""Wrong usage is exit 2 and one line; help is good; what isn't built yet is refused."""

from __future__ import annotations

import pytest
from cli_sample import names

import knotplot

WRONG = [
    ([], "the following arguments are required: COMMAND"),
    (["mak"], "invalid choice: 'mak'"),
    (["make", "{file}"], "the following arguments are required: -o"),
    (["make", "-o", "{out}"], "the following arguments are required: FILE"),
    (["make", "{file}", "-o"], "expected one argument"),
    (["make", "{file}", "-o", ""], "name a place to write to"),
    (["make", "{file}", "{file}", "-o", "{out}"], "unrecognized arguments"),
    (["make", "{file}", "-o", "{out}", "--siz", "tall"], "unrecognized arguments: --siz"),
    (["make", "{file}", "-o", "{out}", "--kits", "0"], "'0' is not a whole number from 1 up"),
    (["make", "{file}", "-o", "{out}", "--kits", "-3"], "argument --kits"),
    (["make", "{file}", "-o", "{out}", "--kits", "1.5"], "'1.5' is not a whole number from 1 up"),
    (["make", "{file}", "-o", "{out}", "--size", "tal"], "no size 'tal'; did you mean 'tall'?"),
    (["make", "{file}", "-o", "{out}", "--set", "rows"], "--set rows: not a path and a value"),
    (["make", "{file}", "-o", "{out}", "--set", "=3"], "--set =3: not a path and a value"),
    (["make", "{file}", "-o", "{out}", "--paper", "a4"], "unrecognized arguments: --paper"),
    (["sheet", "{file}", "-o", "{out}"], "use a name that ends in .pdf"),
    (["sheet", "{file}", "-o", "{out}.pdf", "--paper", "a5"], "invalid choice: 'a5'"),
    (["draw", "{file}", "-o", "{out}.svg"], "the following arguments are required: --view"),
    (["draw", "{file}", "--view", "cord"], "the following arguments are required: -o"),
    (["draw", "{file}", "--view", "cord", "-o", "{out}.gif"], "use a name that ends in .svg or .p"),
    (["draw", "{file}", "--view", "side", "-o", "{out}.svg"], "no view 'side'; use chart, cord"),
    (["draw", "{file}", "--view", "knot:", "-o", "{out}.svg"], "no view 'knot:'"),
    (["draw", "{file}", "--view", "knot:bow", "-o", "{out}.svg"], "there is no such knot"),
    (["draw", "{file}", "--view", "knot:half_not", "-o", "{out}.svg"], "mean 'half_knot'?"),
    (["schema", "{file}"], "unrecognized arguments"),
    (["knots", "--set", "a=b"], "unrecognized arguments"),
    (["knots", "--paper", "a4"], "--paper: only a knot sheet has it; write --sheet X.pdf too"),
    (["knots", "--left-handed"], "--left-handed: only a knot sheet has it"),
    (["knots", "--sheet", "{out}.svg"], "use a name that ends in .pdf"),
    (["knots", "--sheet", "{out}.pdf", "--paper", "a5"], "invalid choice: 'a5'"),
    (["knots", "--sheet"], "expected one argument"),
    (["knots", "-o", "{out}.pdf"], "use a name that ends in .svg or .png"),
]


@pytest.mark.parametrize(("argv", "said"), WRONG, ids=lambda value: " ".join(value)[:60])
def test_wrong_usage_is_told_on_one_line(run, pattern, tmp_path, argv, said):
    before = names(tmp_path)
    argv = [word.format(file=pattern, out=tmp_path / "out") for word in argv]
    code, printed, errors = run(*argv)
    assert (code, printed, len(errors)) == (2, "", 1)
    assert said in errors[0]
    assert errors[0].startswith("knotplot")
    assert names(tmp_path) == before


def test_help_and_version_are_good(run):
    assert run("--version")[:2] == (0, f"knotplot {knotplot.__version__}\n")
    for command in ("make", "sheet", "draw", "figures", "words", "check", "schema", "knots"):
        assert command in run("--help")[1]
        assert run(command, "--help")[0] == 0


@pytest.mark.parametrize("option", ["--left-handed", "--large-print"])
def test_an_edition_that_is_not_built_yet_is_refused(run, pattern, tmp_path, option):
    code, _, errors = run("sheet", pattern, "-o", str(tmp_path / "x.pdf"), option)
    assert (code, errors) == (1, [f"{option}: not built yet; leave {option} out"])
    assert not (tmp_path / "x.pdf").exists()
