"""A quote: examples reckoned by hand and from books, and sums that are exact."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.api import WorkedPiece, build
from knotplot.errors import PatternError
from knotplot.materials.hours import hundredths
from knotplot.materials.quote import Line, Quote, reckon
from knotplot.pattern.load import loads
from knotplot.pattern.parts import Work

# 14 square knots, 8 lark's heads, 8 cords: 7 + 3.2 + 4 = 14.2 min = 0.24 h
PATTERN = """
knotplot: 1
size: {width: 16 cm, drop: 60 cm}
cord: {diameter: 4 mm, spool: 10 m, price_per_spool: 9.99 EUR}
strands: {count: 16}
mount: {kind: larks_head, rod: 12 mm}
sections:
  - {name: net, kind: square_knot_mesh, rows: 4}
  - {kind: fringe, length: 10 cm}
"""
WORK = "work: {rate: 22 EUR, overhead: 15 %, markup: 30 %, tax: 20 %}\n"
WRAPPED = PATTERN.replace(
    "cord: {", "cords:\n  wrap: {diameter: 2 mm}\n  main: {"
).replace("  - {kind: fringe", "  - {kind: tassel, wrap: 2 cm}\n  - {kind: fringe")  # fmt: skip


def built(text: str) -> WorkedPiece:
    return build(loads(text))


def work(rate: str = "20 EUR", **shares: str) -> Work:
    return Work.model_validate({"rate": rate, **shares})


def cord(amount: str) -> Line:
    return Line("cord", Decimal(amount), cord="main")


def amounts(made: Quote) -> dict[str, Decimal | None]:
    return {line.what: line.amount for line in made.lines}


# --- by hand, and from books ---------------------------------------------------------------------


def test_an_example_by_hand() -> None:
    # 33.00 + 12.25; 7.38 h × 22 = 162.36; together 207.61
    # 15 % = 31.1415; with it 238.75; 30 % = 71.625, half to even; net 310.37; 20 % = 62.074
    given_ = [cord("33.00"), Line("support", Decimal("12.25"))]
    made = reckon(
        work("22 EUR", overhead="15 %", markup="30 %", tax="20 %"), Decimal("7.38"), given_
    )
    assert amounts(made) == {
        "cord": Decimal("33.00"), "support": Decimal("12.25"), "labour": Decimal("162.36"),
        "overhead": Decimal("31.14"), "markup": Decimal("71.62"),
    }  # fmt: skip
    bases = [line.base for line in (*made.lines, made.tax) if line.base is not None]
    assert bases == [Decimal("207.61"), Decimal("238.75"), Decimal("310.37")]
    assert (made.net, made.tax.amount, made.total) == (
        Decimal("310.37"), Decimal("62.07"), Decimal("372.44"),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("materials", "hours", "rate", "overhead", "markup", "cost", "price"),
    [
        # ACCA F5 Performance Management, study text (Emile Woolf Publishing, 2010), chapter 4,
        # "Pricing decisions": variable costs 600 + 200, absorbed overheads 800 + 300, full cost
        # 1,900, mark-up 25 % of full cost: price 2,375, which is a margin of 20 % of the price.
        (["600", "200"], "0", "0 USD", "137.5 %", "25 %", "1900", "2375"),
        # tools4management.com, "Calculation, Advantages and Disadvantages of Cost Plus Pricing":
        # materials 10, labour 4.50, overhead 9.25, cost 23.75, markup 20 %: price 28.50.
        (["10"], "1", "4.50 USD", "1850/29 %", "20 %", "23.75", "28.50"),
        # buildwithdave.com, contractor's glossary, "Markup": materials 500, labour 800, cost
        # 1,300, markup 40 %: price 1,820.
        (["500"], "40", "20 USD", "0 %", "40 %", "1300", "1820"),
    ],
)
def test_examples_of_accountants(
    materials: list[str], hours: str, rate: str, overhead: str, markup: str, cost: str, price: str
) -> None:
    made = reckon(
        work(rate, overhead=overhead, markup=markup), Decimal(hours), [*map(cord, materials)]
    )
    assert made.lines[-1].base == Decimal(cost)
    assert made.net == made.total == Decimal(price)


def test_a_markup_is_no_margin() -> None:
    # ACCA F5, as above: 25 % on cost is 20 % of the price.
    made = reckon(work(markup="25 %"), Decimal(0), [cord("1900.00")])
    assert made.lines[-1].amount == made.net / 5


# --- sums ----------------------------------------------------------------------------------------

money = st.decimals(0, 10**9, places=2)
shares = st.decimals(0, 1000, places=2)
hours_ = st.decimals(0, 10**5, places=2)
quotes = st.builds(
    lambda rate, hours, given_, three: reckon(
        work(f"{rate} EUR", **dict(zip(("overhead", "markup", "tax"), three, strict=True))),
        hours, [cord(str(amount)) for amount in given_],
    ),
    money, hours_, st.lists(money, max_size=4), st.tuples(*[shares.map("{} %".format)] * 3),
)  # fmt: skip


@given(quotes)
def test_the_table_adds_up_as_printed(made: Quote) -> None:
    values = [Fraction(line.amount or 0) for line in made.lines]
    assert all(value == hundredths(value) for value in values)
    assert sum(values) == Fraction(made.net)
    assert made.tax.amount is not None
    assert made.net + made.tax.amount == made.total
    above = Fraction(0)
    for line in (*made.lines, made.tax):
        if line.share is not None:
            assert line.base == hundredths(above)
            assert line.amount == hundredths(line.share * above)
        above += Fraction(line.amount or 0)


@given(money, hours_, money, shares, shares, st.sampled_from(["overhead", "markup", "tax"]))
def test_the_total_rises_with_each_share(
    rate: Decimal, hours: Decimal, cost: Decimal, a: Decimal, b: Decimal, which: str
) -> None:
    less, more = sorted((a, b))

    def total(share: Decimal) -> Decimal:
        asked = {"overhead": "10 %", "markup": "10 %", "tax": "10 %"} | {which: f"{share} %"}
        return reckon(work(f"{rate} EUR", **asked), hours, [cord(str(cost))]).total

    assert total(less) <= total(more)
    # A cent or more of it is seen.
    if (more - less) / 100 * cost >= 1:
        assert total(less) < total(more)


@given(money, hours_, st.lists(money, max_size=4))
def test_without_shares_it_is_a_plain_sum(
    rate: Decimal, hours: Decimal, given_: list[Decimal]
) -> None:
    made = reckon(work(f"{rate} EUR"), hours, [cord(str(amount)) for amount in given_])
    plain = sum(map(Fraction, given_)) + Fraction(hundredths(Fraction(rate) * Fraction(hours)))
    assert Fraction(made.total) == Fraction(made.net) == plain
    assert {line.what for line in made.lines} <= {"cord", "labour"}
    assert made.tax.amount == 0


# --- of a pattern --------------------------------------------------------------------------------


def test_the_quote_of_a_pattern_by_hand() -> None:
    piece = built(PATTERN + "support: {material: pine, diameter: 12 mm, span: 20 cm, price: 4 EUR}"
                  "\n" + WORK)  # fmt: skip
    made = piece.quote()
    (buy,) = piece.bill.shopping
    assert buy.spools is not None
    spools = len(buy.spools.spools)
    assert amounts(made)["cord"] == Decimal("9.99") * spools  # whole spools
    assert amounts(made)["support"] == Decimal("4.00")
    assert amounts(made)["labour"] == Decimal("5.28")  # 0.24 h × 22
    cost = Decimal("9.99") * spools + 4 + Decimal("5.28")
    assert next(line.base for line in made.lines if line.base is not None) == cost
    # What is bought and not cut, at what it cost: 9.99 for 10 m.
    left = spools * 10 - buy.total / 1000
    assert made.left_over == hundredths(Fraction("0.999") * left)
    assert made.left_out == ()


def test_figures_tell_the_quote() -> None:
    piece = built(PATTERN + WORK)
    told, made = piece.figures()["quote"], piece.quote()
    assert list(told) == [
        "currency", "lines", "net", "tax_percent", "tax", "total", "left_out", "left_over",
    ]  # fmt: skip
    assert told["currency"] == "EUR"
    assert [line["what"] for line in told["lines"]] == ["cord", "labour", "overhead", "markup"]
    assert round(sum(line["amount"] for line in told["lines"]), 2) == told["net"]
    assert round(told["net"] + told["tax"], 2) == told["total"] == float(made.total)
    labour = told["lines"][1]
    assert (labour["count"], labour["price"]) == (piece.figures()["hours"], 22.0)
    assert (told["lines"][2]["percent"], told["tax_percent"]) == (15.0, 20.0)
    assert built(PATTERN).figures()["quote"] is None


@pytest.mark.parametrize(
    ("cord_said", "remedy"),
    [
        ("diameter: 2 mm", "its price isn't known; give cords.wrap.price_per_spool"),
        (
            "diameter: 2 mm, price_per_spool: 3 EUR",
            "what a spool of it holds isn't known; give cords.wrap.spool",
        ),
    ],
)
def test_a_cord_without_a_price_is_left_out_and_said(cord_said: str, remedy: str) -> None:
    piece = built(WRAPPED.replace("diameter: 2 mm", cord_said) + WORK)
    made = piece.quote()
    assert made.left_out == ("wrap",)
    assert [line.amount is None for line in made.lines] == [False, True, False, False, False]
    assert piece.figures()["quote"]["lines"][1]["amount"] is None
    said = f"quote: the wrap cord is left out of it, since {remedy}"
    assert said in piece.warnings
    assert said in piece.figures()["warnings"]
    quiet = built(WRAPPED).warnings
    assert not any("quote" in warning for warning in quiet)


def test_without_any_price_nothing_is_left_over() -> None:
    made = built(PATTERN.replace(", price_per_spool: 9.99 EUR", "") + WORK).quote()
    assert made.left_over is None
    assert made.left_out == ("main",)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            PATTERN + "work: {rate: 22 USD}\n",
            ":4: cord.price_per_spool: '9.99 EUR': another currency than the rate's (22 USD); "
            "give all prices in one currency",
        ),
        (
            PATTERN
            + "support: {material: pine, diameter: 12 mm, span: 20 cm, price: 4 CHF}\n"
            + WORK,
            ":10: support.price: '4 CHF': another currency than the rate's (22 EUR); "
            "give all prices in one currency",
        ),
        (
            WRAPPED.replace("diameter: 2 mm", "diameter: 2 mm, price_per_spool: 3 USD") + WORK,
            ":5: cords.wrap.price_per_spool: '3 USD': another currency",
        ),
    ],
)
def test_mixed_currencies_are_refused(text: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(text)
    assert said in str(caught.value)
    assert len(caught.value.faults) == 1


def test_currencies_may_differ_where_no_quote_is_made() -> None:
    loads(WRAPPED.replace("diameter: 2 mm", "diameter: 2 mm, price_per_spool: 3 USD"))


def test_a_quote_needs_a_rate() -> None:
    piece = built(PATTERN)
    for ask in (piece.quote, piece.quote_text, lambda: piece.sheet(quote=True)):
        with pytest.raises(PatternError) as caught:
            ask()
        assert "work: no hourly rate to quote by; give work: {rate: 22 EUR}" in str(caught.value)
    with pytest.raises(PatternError, match=r"work\.rate"):
        loads(PATTERN + "work: {overhead: 15 %}\n")
