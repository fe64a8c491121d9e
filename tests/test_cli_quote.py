"""`knotplot quote FILE` and `sheet --quote`: what they print, and answer to a bad file."""

from __future__ import annotations

from pathlib import Path

import pytest
from cli_sample import GOOD, changed
from pypdf import PdfReader

import knotplot

SHARES = "overhead: 15 %, markup: 30 %, tax: 20 %"
WORK = f"work: {{rate: 22 EUR, {SHARES}, minutes: {{square_knot: 0.4}}}}\n"


@pytest.fixture
def file(tmp_path: Path) -> str:
    place = tmp_path / "mat.yaml"
    place.write_text(GOOD + WORK)
    return str(place)


def column(text: str, first: str, last: str) -> list[str]:
    """Return the last word of every line between the one that begins so and the one after."""
    lines = [line for line in text.splitlines() if set(line) != {"-"}]
    a, b = (next(i for i, line in enumerate(lines) if line.startswith(x)) for x in (first, last))
    return [line.split()[-1] for line in lines[a + 1 : b + 1]]


def test_the_quote_is_a_table_that_adds_up(run, file):
    code, said, _ = run("quote", file)
    assert code == 0
    piece = knotplot.build(knotplot.load(file))
    assert said == piece.quote_text()
    *hours, all_hours = (round(100 * float(word)) for word in column(said, "Knot ", "in all"))
    assert sum(hours) == all_hours == round(100 * piece.figures()["hours"])
    *lines, net, tax, total = (
        round(100 * float(word.replace(",", ""))) for word in column(said, "For ", "Total")
    )
    assert sum(lines) == net
    assert net + tax == total == round(100 * piece.figures()["quote"]["total"])
    assert "your own figure" in said


def test_the_columns_are_aligned(run, file):
    said = run("quote", file)[1].splitlines()
    rules = [i for i, line in enumerate(said) if line and set(line) == {"-"}]
    assert len(rules) == 4
    for first, last in (rules[:2], rules[2:]):
        widths = {len(line) for line in said[first - 1 : last + 2]}
        assert widths == {len(said[first])}


def test_the_common_options_are_laid_over(run, file):
    plain = run("quote", file)[1]
    tall = run("quote", file, "--size", "tall")[1]
    assert column(tall, "Knot ", "in all")[-1] > column(plain, "Knot ", "in all")[-1]
    free = run("quote", file, "--set", "work.rate=0 EUR", "--set", "work.tax=null")[1]
    assert float(column(free, "For ", "Total")[1]) == 0.0
    assert "Tax" not in free
    assert run("quote", file, "--kits", "1")[1] == plain


def test_without_work_one_line_says_what_would_do(run, tmp_path):
    place = tmp_path / "mat.yaml"
    # A swatch that is warned of: the refusal stands alone all the same.
    place.write_text(changed("hung_height: 6 cm}", "hung_height: 6 cm, minutes: 3}"))
    expected = [f"{place}:1: work: no hourly rate to quote by; give work: {{rate: 22 EUR}}"]
    assert run("quote", str(place)) == (1, "", expected)
    sheet = tmp_path / "x.pdf"
    assert run("sheet", str(place), "--quote", "-o", str(sheet)) == (1, "", expected)
    assert not sheet.exists()


@pytest.mark.parametrize(
    ("work", "said"),
    [
        ("work: {rate: 22 USD}", ": cord.price_per_spool: '18.50 EUR': another currency than the"),
        ("work: {rate: 22}", ": work.rate: 22: not an amount of money; write an amount and a curr"),
        ("work: {rate: 22 EUR, tax: 20}", ": work.tax: 20: not a percentage; write it with its s"),
        ("work: {rate: 22 EUR, minutes: {knot: 1}}", ": work.minutes.knot: 'knot': no knot is c"),
        ("work: {rate: 22 EUR, profit: 9 %}", ": work.profit: unknown key; use one of rate, "),
    ],
)
def test_a_bad_work_is_one_line_of_place_value_and_remedy(run, tmp_path, work, said):
    place = tmp_path / "mat.yaml"
    place.write_text(GOOD + work + "\n")
    code, out, errors = run("quote", str(place))
    assert (code, out, len(errors)) == (1, "", 1)
    assert said in errors[0]
    assert "; " in errors[0]


def test_wrong_usage(run, file):
    assert run("quote")[0] == 2
    assert run("quote", file, "--tax", "3")[0] == 2


def test_the_sheet_has_the_quote_as_its_last_page_on_request(run, file, tmp_path):
    plain, asked = tmp_path / "a.pdf", tmp_path / "b.pdf"
    assert run("sheet", file, "-o", str(plain))[0] == 0
    assert run("sheet", file, "--quote", "-o", str(asked))[0] == 0
    pages = PdfReader(asked).pages
    assert len(pages) == len(PdfReader(plain).pages) + 1
    assert "Total in EUR" in pages[-1].extract_text()
    assert "Total in EUR" not in "".join(page.extract_text() for page in PdfReader(plain).pages)


def test_make_never_prints_the_quote(run, file, tmp_path):
    assert run("make", file, "-o", str(tmp_path / "out"))[0] == 0
    text = "".join(p.extract_text() for p in PdfReader(tmp_path / "out" / "sheet.pdf").pages)
    assert "Total in EUR" not in text
