"""The PDF read back by pypdf: text, fonts, outline, links, metadata; operators by their letters."""

from __future__ import annotations

import io
import math
import os

import pypdf
import pytest
from pypdf.generic import IndirectObject
from rendered_sample import DOT, KNOT, sample, shapes

from knotplot.drawing.metrics import width
from knotplot.drawing.shapes import (
    Anchor,
    Disc,
    Drawing,
    Fill,
    Group,
    Item,
    Link,
    Mark,
    Stroke,
    Style,
    Symbol,
    Text,
)
from knotplot.renderers import pdf

POINT = 72 / 25.4


def page(*items: Item) -> Drawing:
    return Drawing(100.0, 50.0, items, "A page", "")


def read(*pages: Drawing, **about: str) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf.render(pages, **{"title": "T", **about})))


def operators(*items: Item) -> list[str]:
    content = read(page(*items)).pages[0].get_contents()
    assert content is not None
    return content.get_data().decode("ascii").splitlines()


def test_pages_have_the_size_of_their_drawings():
    a4 = Drawing(210.0, 297.0, [], "", "")
    letter = Drawing(215.9, 279.4, [], "", "")
    sizes = [tuple(map(float, p.mediabox[2:])) for p in read(a4, letter).pages]
    # ISO 216 in points; 8½ × 11 in of 72 points
    assert sizes == [pytest.approx((595.276, 841.890), abs=1e-3), pytest.approx((612.0, 792.0))]


def test_what_the_document_says_of_itself():
    reader = read(
        sample(),
        title="Café <net> 結",
        author="A & B",
        subject="sheet",
        keywords="net, lace",
        language="de",
    )
    assert reader.metadata is not None
    about = {key: str(value) for key, value in reader.metadata.items()}
    assert about["/Title"] == "Café <net> 結"
    assert (about["/Author"], about["/Subject"]) == ("A & B", "sheet")
    assert about["/Keywords"] == "net, lace"
    assert about["/Creator"].startswith("knotplot")
    assert about["/CreationDate"].startswith("D:20000101")
    root = reader.trailer["/Root"]
    assert (root["/Lang"], root["/ViewerPreferences"]["/DisplayDocTitle"]) == ("de", True)


def fonts(reader: pypdf.PdfReader) -> dict[str, bool]:
    """Return every font of the file, and whether it is embedded."""
    found = {}
    for number in range(1, len(reader.xref[0]) + 1):
        thing = reader.get_object(IndirectObject(number, 0, reader))
        if isinstance(thing, dict) and thing.get("/Type") == "/Font":
            descriptor = thing.get("/FontDescriptor", {})
            found[str(thing["/BaseFont"])] = "/FontFile2" in descriptor
    return found


@pytest.mark.parametrize("items", [[], shapes(), list(sample().items)])
def test_all_fonts_are_embedded_subsets_of_the_shipped_ones(items):
    found = fonts(read(page(*items)))
    assert all(found.values())
    assert all("+SourceSans3-" in name for name in found)
    assert b"Helvetica" not in pdf.render([page(*items)], "T")


def test_text_is_found_again_with_a_mark_for_what_the_fonts_have_not():
    reader = read(
        page(Text(5.0, 9.0, "Café 36½″ × 92 (a\\b) → ☐", 4.0), Text(5.0, 20.0, "結 a", 4.0))
    )
    assert reader.pages[0].extract_text().split("\n") == ["Café 36½″ × 92 (a\\b) → ☐", "? a"]


@pytest.mark.parametrize(("anchor", "share"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_text_is_set_from_its_anchor(anchor, share):
    (line,) = [o for o in operators(Text(50.0, 20.0, "row 7", 4.0, anchor)) if "Tj" in o]
    x = 50 - share * width("row 7", 4.0)
    assert line == f"BT 1 0 0 -1 {x:.2f} 20.00 Tm /F1+0 4.00 Tf (row 7) Tj ET"


def test_turned_text_runs_down_the_page_at_90_degrees():
    (line,) = [o for o in operators(Text(50.0, 20.0, "row", 4.0, "end", turn=90.0)) if "Tj" in o]
    y = 20 - width("row", 4.0)
    assert line.startswith(f"BT 0.00000 1.00000 1.00000 -0.00000 50.00 {y:.2f} Tm")


def test_a_run_of_one_style_sets_the_state_once():
    style = Style("line", 0.5, dash=(2.0, 1.0), cap="round", join="miter")
    stroke = Stroke(style, [(0.0, 0.0, 1.0, 1.0, 2.0, 2.0, 3.0, -0.001)])
    lines = operators(stroke, Stroke(style, lines=[(0.0, 0.0, 5.0, 5.0, 6.0, 0.0)]))
    drawn = lines[lines.index("0.5412 0.4980 0.4471 RG 0.50 w 1 J 0 j 4 M [2.00 1.00] 0 d") :]
    assert [line for line in drawn[1:] if line.strip()] == [
        "0.00 0.00 m",
        "1.00 1.00 2.00 2.00 3.00 0.00 c",
        "S",
        "0.00 0.00 m",
        "5.00 5.00 l",
        "6.00 0.00 l",
        "S",
    ]


def test_fills_are_closed_painted_and_stroked_as_their_style_says():
    square = (0.0, 0.0, 1.0, 0.0, 1.0, 1.0)
    for style, end in (
        (Style(fill="cord"), "f"),
        (Style("ink", fill="cord"), "b"),
        (Style("ink"), "h S"),
    ):
        lines = operators(Fill(style, polygons=[square, square]))
        assert lines.count(end) == 2
    assert "m" not in " ".join(operators(Fill(Style(), polygons=[square]))).replace("cm", "")


def test_y_is_turned_up_once_for_the_whole_page():
    first = operators(Disc(Style(fill="ink"), [(5.0, 5.0)], 1.0))[0]
    assert first == f"{POINT:.6f} 0 0 {-POINT:.6f} 0 {50 * POINT:.4f} cm"


def test_a_symbol_is_one_form_on_all_pages_and_two_of_one_name_are_kept_apart():
    other = Symbol("dot", (Disc(Style(fill="ink"), [(0.0, 0.0)], 2.0),))
    pages = [page(Mark(KNOT, [(1.0, 2.0), (3.0, 4.0)])), page(Mark(DOT, [(5.0, 6.0)]))]
    reader = read(*pages, page(Mark(other, [(5.0, 6.0)])))
    used = [sorted(p["/Resources"]["/XObject"]) for p in reader.pages]
    assert [len(names) for names in used] == [1, 1, 1]
    assert used[1] != used[2]
    knot = reader.pages[0]["/Resources"]["/XObject"][used[0][0]]
    assert sorted(knot["/Resources"]["/XObject"]) == used[1]  # a symbol within a symbol
    assert [float(n) for n in knot["/BBox"]] == [-3.2, -2.2, 3.2, 2.2]
    content = reader.pages[0].get_contents()
    assert f"q 1 0 0 1 3.00 4.00 cm {used[0][0]} Do Q".encode() in content.get_data()


def test_opacity_is_a_state_of_pages_and_symbols():
    pale = Symbol("pale", (Fill(Style(fill="ink", opacity=0.25), polygons=[(0.0,) * 6]),))
    reader = read(
        page(Mark(pale, [(1.0, 1.0)]), Stroke(Style("ink", opacity=0.5), lines=[(0.0,) * 4]))
    )
    resources = reader.pages[0]["/Resources"]
    (form,) = resources["/XObject"].values()
    assert float(resources["/ExtGState"]["/a50"]["/CA"]) == 0.5
    assert float(form.get_object()["/Resources"]["/ExtGState"]["/a25"]["/ca"]) == 0.25


def test_groups_move_scale_clip_and_give_the_state_back():
    inner = Stroke(Style("ink", 0.3), lines=[(0.0, 0.0, 1.0, 1.0)])
    lines = operators(
        inner, Group([inner], 10.0, 5.0, 0.5, (0.0, 1.0, 2.0, 3.0), "row\n(7) é"), inner
    )
    start = lines.index("% row (7) ")
    assert lines[start + 1 : start + 4] == [
        "q",
        "0.50000 0 0 0.50000 10.00 5.00 cm",
        "0.00 1.00 2.00 3.00 re W n",
    ]
    assert len([line for line in lines if " RG " in line]) == 1
    assert lines.count("q") == lines.count("Q")


def test_outline_follows_the_titled_anchors():
    reader = read(
        page(Anchor("a", 10.0, "First"), Anchor("quiet", 5.0)),
        page(
            Group([Anchor("b", 5.0, "Deep", level=2)], dy=10.0, scale=2.0), Anchor("c", 0.0, "Next")
        ),
    )
    first, (deep,), after = reader.outline
    assert [entry.title for entry in (first, deep, after)] == ["First", "Deep", "Next"]
    assert [reader.get_destination_page_number(e) for e in (first, deep, after)] == [0, 1, 1]
    assert float(deep.top) == pytest.approx((50 - 20) * POINT, abs=1e-3)


def test_links_cross_pages_and_lead_out():
    reader = read(
        page(
            Link((10.0, 10.0, 30.0, 5.0), "#far"),
            Group([Link((5.0, 5.0, 10.0, 3.0), "https://example.org/?a=(1)&b")], 60.0, 10.0, 2.0),
        ),
        page(Anchor("far", 20.0)),
    )
    within, out = [note.get_object() for note in reader.pages[0]["/Annots"]]
    assert [float(v) / POINT for v in within["/Rect"]] == pytest.approx([10, 35, 40, 40], abs=1e-3)
    assert [float(v) / POINT for v in out["/Rect"]] == pytest.approx([70, 24, 90, 30], abs=1e-3)
    assert out["/A"]["/URI"] == "https://example.org/?a=(1)&b"
    target = within["/Dest"] if "/Dest" in within else within["/A"]["/D"]
    assert target[0].get_object() == reader.pages[1].get_object()


@pytest.mark.parametrize(
    ("pages", "message"),
    [
        ([], "a page"),
        ([page(Link((0.0, 0.0, 1.0, 1.0), "#nowhere"))], "no anchor"),
        ([page(Anchor("a", 0.0)), page(Anchor("a", 0.0))], "two anchors"),
        ([page(Link((0.0, 0.0, 1.0, 1.0), "javascript:alert(1)"))], "can't lead"),
        ([page(Mark(Symbol("dot", ()), [(0.0, 0.0)]), Mark(DOT, [(0.0, 0.0)]))], "two symbols"),
        ([page(Stroke(Style("puce"), lines=[(0.0,) * 4]))], "no ink"),
        ([page(Stroke(Style("ink"), lines=[(0.0, 0.0, 1.0)]))], "3 numbers"),
        ([page(Stroke(Style("ink"), lines=[(0.0, 0.0, 1.0, math.nan)]))], "not finite"),
        ([page(Stroke(Style("ink", math.inf), lines=[(0.0,) * 4]))], "not finite"),
        ([page(Disc(Style(fill="ink"), [(math.nan, 0.0)], 1.0))], "not finite"),
        ([page(Mark(DOT, [(math.inf, 0.0)]))], "not finite"),
        ([page(Text(0.0, math.nan, "a", 3.0))], "not finite"),
        ([page(Text(0.0, 0.0, "a", math.inf))], "not finite"),
        ([page(Group([], dx=math.nan))], "not finite"),
        ([page(Group([], scale=math.inf))], "not finite"),
        ([page(Link((0.0, math.nan, 1.0, 1.0), "https://example.org"))], "not finite"),
        ([page(Anchor("a", math.nan))], "not finite"),
        ([Drawing(math.nan, 5.0, [], "", "")], "not finite"),
    ],
)
def test_what_cannot_be_printed_is_refused(pages, message):
    with pytest.raises(ValueError, match=message):
        pdf.render(pages, "T")


def test_odd_text_of_any_kind_is_printed_somehow():
    odd = "a\x00\x07\ud800\u202eb\U0001f9f6)(\\"
    reader = read(
        page(Text(1.0, 9.0, odd, 4.0), Text(1.0, 20.0, "", 4.0), Anchor("a", 0.0, odd)), title=odd
    )
    assert reader.pages[0].extract_text().strip() == "ab?)(\\"
    assert reader.metadata is not None
    assert "\x00" not in str(reader.metadata.title)


def test_streams_are_deflated_and_nothing_else():
    made = pdf.render([sample()], "T")
    assert b"ASCII85" not in made
    assert b"FlateDecode" in made
    assert made == pdf.render([sample()], "T")


@pytest.mark.parametrize("date", ["0", "1700000000", "abc", "9" * 30, ""])
def test_the_environment_gives_no_date(monkeypatch, date):
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    plain = pdf.render([page(*shapes())], "T")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", date)
    assert pdf.render([page(*shapes())], "T") == plain
    assert os.environ["SOURCE_DATE_EPOCH"] == date
