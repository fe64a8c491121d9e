"""Widths against the fonts themselves (fontTools) and against reportlab's own measure."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from knotplot.drawing import metrics

PACKAGE = Path(metrics.__file__).parents[1]
FONTS = {
    "regular": PACKAGE / "renderers/fonts/SourceSans3-Regular.ttf",
    "bold": PACKAGE / "renderers/fonts/SourceSans3-Bold.ttf",
    "italic": PACKAGE / "renderers/fonts/SourceSans3-It.ttf",
}
ADVANCES = PACKAGE / "drawing/advances.json"
# The signs a sheet prints (trade measures, arrows, tick box); ∅ is drawn, no font here has it.
SIGNS = "×½¼¾″′→←↑↓°±–—…“”‘’☐✓≈•ﬁ§©€£"


def advances_of_the_fonts() -> dict[str, object]:
    data: dict[str, object] = {}
    for weight, path in FONTS.items():
        font = TTFont(path)
        table = font.getBestCmap()
        characters = "".join(map(chr, sorted(table)))
        assert data.setdefault("characters", characters) == characters
        assert data.setdefault("units", font["head"].unitsPerEm) == font["head"].unitsPerEm
        data[weight] = [font["hmtx"][table[ord(c)]][0] for c in characters]
    return data


def test_shipped_advances_are_those_of_the_fonts():
    assert json.loads(ADVANCES.read_text("utf-8")) == advances_of_the_fonts()


@pytest.mark.parametrize("weight", FONTS)
def test_width_is_what_reportlab_measures(weight):
    from reportlab.pdfbase.ttfonts import TTFont as PdfFont

    font = PdfFont("measured", str(FONTS[weight]))
    for text in ("36½″ × 92 cm → row 7", "Größe, café, Šňůra, Őszi", "¼ ¾ ☐ ✓ – — “ ”", "WAVE fi"):
        assert metrics.width(text, 7.5, weight) == pytest.approx(font.stringWidth(text, 7.5))


def test_width_scales_with_size_and_is_zero_for_nothing():
    assert metrics.width("", 5) == 0
    assert metrics.width("knot", 8) == pytest.approx(2 * metrics.width("knot", 4))
    assert metrics.width("knot", 8, "bold") > metrics.width("knot", 8)


def test_signs_of_the_sheet_are_covered():
    assert [sign for sign in SIGNS if not metrics.covers(sign)] == []
    assert not metrics.covers("∅")


def test_what_the_fonts_have_not_is_measured_and_printed_as_a_question_mark():
    assert metrics.width("結", 5) == metrics.width("?", 5)
    assert metrics.printable("結び knot 🧶") == "?? knot ?"
    assert metrics.printable("a\u200d\u202e\u00adb\x00\x1b\ud800") == "ab"
    assert metrics.width("a\u200d\u202eb", 5) == metrics.width("ab", 5)


def test_cleaned_keeps_letters_and_drops_what_no_xml_may_hold():
    assert metrics.cleaned("a\tb\r\nc\x00\x0b\x1bd\ud800\ufffe e\u00a0f結") == "a b c d e\u00a0f結"


@given(st.text(max_size=60))
def test_printable_text_is_covered_and_keeps_its_width(text):
    shown = metrics.printable(text)
    assert metrics.covers(shown)
    assert metrics.width(shown, 5) == pytest.approx(metrics.width(metrics.cleaned(text), 5))


@given(
    st.lists(st.text("abcdefghijWm½", min_size=1, max_size=25), max_size=12),
    st.floats(4, 60),
    st.sampled_from(list(FONTS)),
)
def test_wrapping_loses_no_letter_and_keeps_to_the_width(words, width_mm, weight):
    lines = metrics.wrap(" ".join(words), width_mm, 4.0, weight)
    assert "".join(lines).replace(" ", "") == "".join(words)
    assert "" not in lines
    for line in lines:
        assert len(line) == 1 or metrics.width(line, 4.0, weight) <= width_mm + 1e-9


@given(st.lists(st.text("abcdefghij", min_size=1, max_size=8), min_size=1, max_size=12))
def test_wrapping_breaks_only_at_spaces_where_words_fit(words):
    lines = metrics.wrap("  ".join(words), 40.0, 4.0)
    assert " ".join(lines).split() == words


def test_a_line_takes_every_word_that_fits():
    two = metrics.width("square knots", 4.0)
    assert metrics.wrap("square knots", two, 4.0) == ["square knots"]
    assert metrics.wrap("square knots", two - 0.01, 4.0) == ["square", "knots"]
    assert metrics.wrap(" \n ", 40.0, 4.0) == []


if __name__ == "__main__":
    made = json.dumps(advances_of_the_fonts(), ensure_ascii=False, separators=(",", ":"))
    ADVANCES.write_text(made + "\n", "utf-8")


def test_no_line_parts_a_number_from_its_fraction_or_unit() -> None:
    text = "leave 12 cm (4 3/4 in) of it"
    for wide in range(20, 60):
        lines = metrics.wrap(text, float(wide), 4.0)
        assert " ".join(lines) == text
        assert not any(line.endswith(("12", "4", "3/4")) for line in lines)
