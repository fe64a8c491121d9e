"""Drawings in real browsers: their letters, their dark scheme, their names, and their silence."""

from __future__ import annotations

import time
from collections import Counter
from pathlib import Path

import pytest
from browsers import Browser
from conftest import Site

import knotplot
from knotplot.drawing.shapes import Disc, Drawing, Fill, Mark, Style, Symbol
from knotplot.drawing.theme import INKS
from knotplot.output import Picture
from knotplot.renderers import svg

PATTERNS = Path(__file__).parents[2] / "patterns"
#: Those with a large chart are left to the eye: a browser takes seconds for it.
SHOWN = {
    "harbour-cafe-curtain": ("outline", "trim"),
    "alder-branch-hanging": ("chart", "outline", "knot:square_knot"),
}
#: From narrow to wide, with the package of Debian that has them.
FONTS = {
    "Liberation Serif": "fonts-liberation",
    "Liberation Sans": "fonts-liberation",
    "DejaVu Sans": "fonts-dejavu-core",
    "Liberation Mono": "fonts-liberation",
}
PAGE = "<!doctype html><meta charset=utf-8><title>Drawings</title><link rel=icon href='data:,'>"

#: Every text of every drawing: which drawing, its words, font size, whether it is turned, and how
#: far its box lies from the drawing's upper left corner; all but the words in font sizes.
MEASURE = """
[...document.querySelectorAll('svg')].flatMap((drawing, i) => {
  const whole = drawing.getBoundingClientRect();
  const px = whole.width / drawing.viewBox.baseVal.width;
  return [...drawing.querySelectorAll('text')].filter(text => text.textContent).map(text => {
    const box = text.getBoundingClientRect(), size = px * text.getAttribute('font-size');
    return [i, text.textContent, text.hasAttribute('transform'),
      (box.left - whole.left) / size, (box.top - whole.top) / size,
      (whole.right - box.right) / size, (whole.bottom - box.bottom) / size,
      box.width / size, box.height / size, size];
  });
})
"""
WAIT = "new Promise(done => setTimeout(() => done(0), 300))"
SET = "document.body.style.setProperty('--fallback', \"'{}'\")"


@pytest.fixture(scope="module")
def drawn(site: Site) -> dict[str, Picture]:
    """Return drawings by title; all of them stand in `all.html` of the site."""
    found = []
    for name, views in SHOWN.items():
        made = knotplot.build(knotplot.load(PATTERNS / f"{name}.yaml"))
        found += [made.draw(view) for view in views]
    style = "<style>svg{width:1200px;height:auto}.as svg{font-family:var(--fallback)}</style>"
    inside = "".join(f"<div>{each.svg()}</div>" for each in found)
    (site.folder / "all.html").write_text(f"{PAGE}{style}<body>{inside}", "utf-8")
    return {each.drawing.title: each for each in found}


@pytest.fixture
def page(site: Site, drawn: dict[str, Picture]) -> str:
    """Return the address of the page with all of `drawn`."""
    assert drawn
    return f"{site.address}/all.html"


# --- letters ---------------------------------------------------------------------------------


def test_letters_are_those_of_the_family_named_else_without_serifs(browser, page):
    browser.show(page)
    widths = browser.ask(
        """(() => {
          const text = document.querySelector('svg').appendChild(
            document.createElementNS('http://www.w3.org/2000/svg', 'text'));
          text.textContent = 'Square knots, row 17';
          const wide = family => {
            text.style.fontFamily = family;
            return text.getComputedTextLength();
          };
          return ['', "'Source Sans 3',sans-serif", 'serif'].map(wide);
        })()"""
    )
    assert widths[0] == widths[1]
    assert abs(widths[0] - widths[2]) > 0.01 * widths[0]


def texts(browser: Browser, font: str) -> list[list]:
    browser.ask(f"(document.body.className = 'as', {SET.format(font)}, 0)")
    return browser.ask(MEASURE)


def cut(found: list[list]) -> list[str]:
    """Return the texts that stand out of their drawing, by more than a hair along the line."""
    out = []
    for _, words, turned, left, top, right, bottom, _, _, size in found:
        along = (top, bottom) if turned else (left, right)
        across = (left, right) if turned else (top, bottom)
        # A font's box is higher than its letters are: a third of a size may stand out.
        if min(along) < -0.5 / size or min(across) < -0.35:
            out.append(words)
    return out


def overlapping(found: list[list]) -> list[tuple[str, str]]:
    """Return the pairs of texts of which letters lie on each other."""
    boxes = []
    for i, words, turned, left, top, _, _, wide, tall, size in found:
        x0, y0, x1, y1 = left, top, left + wide, top + tall
        if turned:
            x0, x1 = x0 + 0.25 * wide, x1 - 0.2 * wide
        else:
            y0, y1 = y0 + 0.25 * tall, y1 - 0.2 * tall
        boxes.append((i, words, *(value * size for value in (x0, y0, x1, y1)), size))
    return [
        (one[1], other[1])
        for k, one in enumerate(boxes)
        for other in boxes[k + 1 :]
        if one[0] == other[0]
        and min(one[4], other[4]) - max(one[2], other[2]) > 0.05 * one[6]
        and min(one[5], other[5]) - max(one[3], other[3]) > 0.05 * one[6]
    ]


def test_no_text_is_cut_or_lies_on_another_in_any_font(browser, page):
    browser.show(page)
    for font in FONTS:
        found = texts(browser, font)
        assert len(found) > 100
        assert cut(found) == [], font
        assert overlapping(found) == [], font
    browser.ask("document.querySelectorAll('text').forEach(e => e.removeAttribute('textLength'))")
    wide = {}
    for font in FONTS:
        found = texts(browser, font)
        wide[font] = round(sum(each[7] for each in found), 1)
    assert cut(found), "letters half as wide again are cut where their length is not given"
    assert overlapping(found)
    missing = {FONTS[font] for font in FONTS if list(wide.values()).count(wide[font]) > 1}
    assert not missing, f"not all fonts are here: apt-get install {' '.join(sorted(missing))}"
    assert list(wide) == sorted(wide, key=wide.__getitem__)


# --- the dark scheme -------------------------------------------------------------------------


def shown(browser: Browser, site: Site, body: str, scheme: str) -> Counter:
    """Return how many pixels of each colour a page shows whose one element is in a scheme.

    The scheme is set once the page stands: a frame that Firefox opens may else keep that of the
    frame before it.
    """
    (site.folder / "scheme.html").write_text(
        f"{PAGE}<style>body{{margin:0;background:#808080}}</style><body>{body}", "utf-8"
    )
    browser.show(f"{site.address}/scheme.html")
    browser.ask(f"(document.body.firstElementChild.style.colorScheme = '{scheme}', 0)")
    paper = getattr(INKS["paper"], scheme)
    end = time.monotonic() + 10
    while True:
        found = browser.look().getcolors(1 << 24)
        pixels = Counter({f"#{r:02x}{g:02x}{b:02x}": n for n, (r, g, b) in found})
        if pixels[paper] or time.monotonic() > end:
            return pixels
        browser.ask(WAIT)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_chart_is_all_in_one_scheme_its_marks_too(browser, site, drawn, scheme):
    chart = next(each for title, each in drawn.items() if "Knotting chart" in title)
    (site.folder / "chart.svg").write_text(chart.svg(), "utf-8")
    pixels = shown(browser, site, "<img src=chart.svg style='width:1280px'>", scheme)
    other = "dark" if scheme == "light" else "light"
    for name in ("paper", "ink", "ground"):
        assert pixels[getattr(INKS[name], scheme)] > 50, name
        assert pixels[getattr(INKS[name], other)] < 5, name


KNOT = Symbol("knot", (Disc(Style(fill="ink"), [(0.0, 0.0)], 4.0),))
SPOT = Drawing(
    40.0, 20.0,
    (Mark(KNOT, ((10.0, 10.0),)), Fill(Style(fill="accent"), polygons=((25.0, 5.0, 35.0, 5.0,
     35.0, 15.0, 25.0, 15.0),))),
    "Spots", "A disc in a symbol and a square out of it.",
)  # fmt: skip


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_page_may_set_the_inks_of_a_drawing_that_has_ids(browser, site, scheme):
    (site.folder / "framed.html").write_text(
        f"{PAGE}<style>:root{{--pond-ink:#123456;--pond-accent:#345612}}</style>"
        f"<body>{svg.render(SPOT, 'pond')}",
        "utf-8",
    )
    browser.prefer(scheme)
    try:
        pixels = shown(browser, site, "<iframe src=framed.html></iframe>", scheme)
    finally:
        browser.prefer("light")
    assert pixels["#123456"] > 300  # in the symbol
    assert pixels["#345612"] > 300
    assert pixels[getattr(INKS["paper"], scheme)] > 300
    for name in ("ink", "accent"):
        assert pixels[INKS[name].light] + pixels[INKS[name].dark] == 0


# --- names and silence -----------------------------------------------------------------------


def test_a_drawing_is_an_image_named_after_its_piece(browser, drawn, page):
    browser.show(page)
    assert len(drawn) == sum(map(len, SHOWN.values()))
    assert sum("Harbour café curtain" in title for title in drawn) == 2
    # A name comes from title and desc alone; Firefox asks every element there is for its own.
    browser.ask("document.querySelectorAll('svg > :not(title,desc)').forEach(e => e.remove())")
    for title in drawn:
        assert browser.images(title) == 1, title


def test_no_drawing_says_or_fetches_anything(browser, page):
    browser.show(page)
    browser.ask(WAIT)
    assert browser.said == []
    assert browser.fetched == [page]
    browser.ask("(console.log('heard'), fetch(location.href + '?more').then(() => 0))")
    for _ in range(100):  # a fetch is told of by another process, which may be late
        if len(browser.fetched) > 1:
            break
        browser.ask(WAIT)
    assert browser.said == ["heard"]
    assert browser.fetched == [page, f"{page}?more"]
