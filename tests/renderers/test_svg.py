"""The SVG read back: well-formed, valid, escaped, alone in its names, the same on every run."""

from __future__ import annotations

import math
import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import etree, html
from rendered_sample import DOT, KNOT, sample, shapes

from knotplot.drawing import theme
from knotplot.drawing.metrics import cleaned, width
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
from knotplot.errors import UsageError
from knotplot.renderers import svg

NS = {"s": "http://www.w3.org/2000/svg", "x": "http://www.w3.org/1999/xlink"}
HREF = "{http://www.w3.org/1999/xlink}href"
# Debian's w3c-sgml-lib: SVG 1.1 second edition, 16 August 2011
DTD = Path("/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd")
NASTY = "<script>alert('x')</script> & \"quoted\" ]]> --> \x00\x07\x1b\ud800 end"
SHOWN = "<script>alert('x')</script> & \"quoted\" ]]> -->  end"


def drawn(*items: Item) -> Drawing:
    return Drawing(100.0, 50.0, items, "A title", "A description")


def parsed(drawing: Drawing, ids: str = "") -> etree._Element:
    return etree.fromstring(svg.render(drawing, ids).encode())


def found(root: etree._Element, path: str) -> list[etree._Element]:
    return root.xpath(path, namespaces=NS)


def test_shell_says_what_it_is_and_how_large():
    root = parsed(sample("Café", "A net"))
    prefix = root.get("class")
    assert root.tag == f"{{{NS['s']}}}svg"
    assert (root.get("width"), root.get("height")) == ("120.00mm", "80.00mm")
    assert root.get("viewBox") == "0 0 120.00 80.00"
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == f"{prefix}-title"
    assert root.get("aria-describedby") == f"{prefix}-desc"
    assert root.get("{http://www.w3.org/XML/1998/namespace}lang") == "en"
    assert [(e.get("id"), e.text) for e in root[:2]] == [
        (f"{prefix}-title", "Café"),
        (f"{prefix}-desc", "A net"),
    ]


def test_valid_by_the_dtd_of_svg_1_1_but_for_its_accessible_names():
    if not DTD.exists():
        pytest.fail("the SVG 1.1 DTD is not here: apt-get install w3c-sgml-lib")
    dtd = etree.DTD(str(DTD))
    root = parsed(sample())
    for name in ("role", "aria-labelledby", "aria-describedby"):  # newer than SVG 1.1
        del root.attrib[name]
    assert dtd.validate(root), dtd.error_log.filter_from_errors()
    root[0].set("role", "img")
    assert not dtd.validate(root)


def test_strokes_of_one_style_are_one_path():
    style = Style("line", 0.5, dash=(2.0, 1.0), cap="round")
    curves = [(0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.006), (1.0, 1.0) + (2.0,) * 12]
    root = parsed(drawn(Stroke(style, curves, [(0.0, 0.0, -0.001, 5.0, 9.0, 9.0)])))
    curved, straight = found(root, "s:path")
    assert curved.get("d") == (
        "M0.00 1.00c2.00 2.00 4.00 4.00 6.00 6.01"
        "M1.00 1.00c1.00 1.00 1.00 1.00 1.00 1.00c0.00 0.00 0.00 0.00 0.00 0.00"
    )
    assert straight.get("d") == "M0.00 0.00L0.00 5.00L9.00 9.00"
    assert dict(curved.attrib) == {
        "class": f"{root.get('class')}-s-line",
        "fill": "none",
        "stroke": theme.INKS["line"].light,
        "stroke-width": "0.50",
        "stroke-linejoin": "round",
        "stroke-linecap": "round",
        "stroke-dasharray": "2.00 1.00",
        "d": curved.get("d"),
    }


def test_fills_are_painted_one_after_another_and_closed():
    outline = (0.0, 0.0, 1.0, 0.0, 2.0, 1.0, 0.0, 0.0)
    square = (0.0, 0.0, 4.0, 0.0, 4.0, 4.0, 0.0, 4.0)
    style = Style("ink", 0.2, fill="cord", opacity=0.4, join="miter")
    root = parsed(drawn(Fill(style, [outline], [square, square])))
    (group,) = found(root, "s:g")
    assert [path.get("d") for path in group] == [
        "M0.00 0.00C1.00 0.00 2.00 1.00 0.00 0.00Z",
        "M0.00 0.00L4.00 0.00L4.00 4.00L0.00 4.00Z",
        "M0.00 0.00L4.00 0.00L4.00 4.00L0.00 4.00Z",
    ]
    assert (group.get("fill"), group.get("stroke")) == ("#e9dfcd", "#231d18")
    assert (group.get("fill-opacity"), group.get("stroke-opacity")) == ("0.40", "0.40")
    assert group.get("stroke-linejoin") is None  # mitred is what SVG does unasked


def test_symbols_are_defined_once_and_used_at_each_place():
    root = parsed(drawn(Mark(KNOT, [(1.0, 2.0), (3.0, -0.004)]), Mark(DOT, [(5.0, 6.0)])))
    prefix = root.get("class")
    assert [g.get("id") for g in found(root, "s:defs/s:g")] == [f"{prefix}-dot", f"{prefix}-knot"]
    uses = [(u.get(HREF), u.get("x"), u.get("y")) for u in found(root, "s:use")]
    assert uses == [
        (f"#{prefix}-knot", "1.00", "2.00"),
        (f"#{prefix}-knot", "3.00", "0.00"),
        (f"#{prefix}-dot", "5.00", "6.00"),
    ]


def test_text_stands_where_it_was_put():
    root = parsed(drawn(Text(1.0, 2.0, "row 7", 3.5, "end", "bold", "quiet", 90.0)))
    (text,) = found(root, "s:text")
    assert text.text == "row 7"
    assert {k: v for k, v in text.attrib.items() if k not in ("class", "fill")} == {
        "x": "1.00",
        "y": "2.00",
        "font-size": "3.50",
        "text-anchor": "end",
        "font-weight": "700",
        "transform": "rotate(90.00 1.00 2.00)",
        "textLength": f"{width('row 7', 3.5, 'bold'):.2f}",
        "lengthAdjust": "spacingAndGlyphs",
    }


@pytest.mark.parametrize(
    ("words", "held"),
    [("ab", True), ("A & <b>", True), ("7", True), ("", False), ("結び目", False)],
)
def test_text_keeps_the_width_it_has_in_the_shipped_font_where_that_has_its_letters(words, held):
    (text,) = found(parsed(drawn(Text(0.0, 0.0, words, 4.0))), "s:text")
    assert text.get("textLength") == (f"{width(words, 4.0):.2f}" if held else None)


def test_the_family_is_written_as_css_reads_it():
    family = parsed(sample()).get("font-family")
    # CSS Fonts 4, 2.1: a family is a string, or a run of identifiers; none begins with a digit
    name = r"(\"[^\"]+\"|'[^']+'|-?[A-Za-z_][\w-]*( -?[A-Za-z_][\w-]*)*)"
    assert re.fullmatch(f"{name}(, ?{name})*", family)
    assert [each.strip(" '\"") for each in family.split(",")] == ["Source Sans 3", "sans-serif"]


def test_groups_move_scale_clip_and_are_named():
    inner = Disc(Style(fill="ink"), [(1.0, 1.0)], 0.5)
    root = parsed(drawn(Group([inner], 10.0, -5.0, 0.5, (0.0, 0.0, 4.0, 3.0), "a <part>")))
    (group,) = found(root, "s:g")
    title, clip, disc = group
    assert group.get("transform") == "translate(10.00,-5.00) scale(0.50000)"
    assert group.get("clip-path") == f"url(#{clip.get('id')})"
    assert title.text == "a <part>"
    assert dict(clip[0].attrib) == {"x": "0.00", "y": "0.00", "width": "4.00", "height": "3.00"}
    assert dict(disc[0].attrib) == {"cx": "1.00", "cy": "1.00", "r": "0.50"}


def test_links_lead_to_anchors_of_the_drawing_and_to_the_web():
    root = parsed(
        drawn(
            Group([Anchor("row-1", 5.0)]),
            Link((0.0, 0.0, 9.0, 3.0), "#row-1"),
            Link((0.0, 0.0, 9.0, 3.0), "#on-another-page"),
            Link((0.0, 0.0, 9.0, 3.0), 'https://example.org/?a="1"&b'),
        )
    )
    (anchor,) = found(root, "s:g/s:g[@id]")
    assert [a.get(HREF) for a in found(root, "s:a")] == [
        f"#{anchor.get('id')}",
        'https://example.org/?a="1"&b',
    ]


@pytest.mark.parametrize("target", ["javascript:alert(1)", "http://a", "file:///x", "", "https:/x"])
def test_links_elsewhere_are_refused(target):
    with pytest.raises(ValueError, match="can't lead to"):
        svg.render(drawn(Link((0.0, 0.0, 1.0, 1.0), target)))


def test_markup_and_control_characters_are_text_everywhere():
    drawing = Drawing(
        10.0,
        10.0,
        [Text(0.0, 0.0, NASTY, 3.0), Group([Text(1.0, 1.0, "&amp;", 3.0)], label=NASTY)],
        NASTY,
        NASTY,
        NASTY,
    )
    root = parsed(drawing)
    assert [e.text for e in found(root, "s:text | s:title | s:desc | s:g/s:title")] == [
        SHOWN,
        SHOWN,
        SHOWN,
        SHOWN,
    ]
    assert found(root, "s:g/s:text")[0].text == "&amp;"
    assert found(root, "//s:script") == []


@settings(max_examples=50)
@given(st.text(), st.text(st.characters(exclude_categories=())))
def test_any_text_is_well_formed_and_read_back(title, words):
    root = parsed(Drawing(9.0, 9.0, [Text(0.0, 0.0, words, 3.0)], title, ""))
    assert (found(root, "s:text")[0].text or "") == cleaned(words)
    assert (root[0].text or "") == cleaned(title)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize(
    "item",
    [
        lambda v: Stroke(Style("ink"), lines=[(0.0, 0.0, 1.0, v)]),
        lambda v: Stroke(Style("ink"), curves=[(v,) + (0.0,) * 7]),
        lambda v: Stroke(Style("ink", v), lines=[(0.0, 0.0, 1.0, 1.0)]),
        lambda v: Stroke(Style("ink", dash=(v, 1.0)), lines=[(0.0, 0.0, 1.0, 1.0)]),
        lambda v: Fill(Style(fill="ink"), polygons=[(0.0, 0.0, v, 1.0)]),
        lambda v: Fill(Style(fill="ink", opacity=-v), polygons=[(0.0, 0.0, 1.0, 1.0)]),
        lambda v: Disc(Style(fill="ink"), [(v, 0.0)], 1.0),
        lambda v: Disc(Style(fill="ink"), [(0.0, 0.0)], v),
        lambda v: Mark(DOT, [(0.0, 0.0), (0.0, v)]),
        lambda v: Text(v, 0.0, "a", 3.0),
        lambda v: Text(0.0, 0.0, "a", v),
        lambda v: Text(0.0, 0.0, "a", 3.0, turn=v),
        lambda v: Group([], dx=v),
        lambda v: Group([], scale=v),
        lambda v: Group([], clip=(0.0, v, 1.0, 1.0)),
        lambda v: Link((0.0, 0.0, v, 1.0), "https://example.org"),
        lambda v: Anchor("a", v),
    ],
)
def test_numbers_that_are_not_finite_are_refused(item, bad):
    with pytest.raises(ValueError, match="not finite"):
        svg.render(drawn(item(bad)))


@pytest.mark.parametrize("size", [(math.nan, 5.0), (5.0, math.inf)])
def test_sizes_that_are_not_finite_are_refused(size):
    with pytest.raises(ValueError, match="not finite"):
        svg.render(Drawing(*size, [], "", ""))


@pytest.mark.parametrize(
    ("item", "message"),
    [
        (Stroke(Style("puce"), lines=[(0.0, 0.0, 1.0, 1.0)]), "no ink is called 'puce'"),
        (Text(0.0, 0.0, "a", 3.0, ink='"><x'), "no ink"),
        (Stroke(Style("ink"), lines=[(0.0, 0.0, 1.0)]), "3 numbers"),
        (Stroke(Style("ink"), curves=[(0.0, 0.0, 1.0, 1.0)]), "4 numbers"),
        (Stroke(Style("ink"), lines=[(0.0, 0.0)]), "2 numbers"),
        (Mark(Symbol('a"b', ()), [(0.0, 0.0)]), "can't be called"),
        (Anchor("a b", 0.0), "can't be called"),
        (Group([Mark(Symbol("dot", ()), []), Mark(DOT, [])]), "two symbols"),
    ],
)
def test_what_cannot_be_drawn_is_refused(item, message):
    with pytest.raises(ValueError, match=message):
        svg.render(drawn(item))


def test_a_symbol_made_twice_alike_is_one_symbol():
    again = replace(DOT)
    root = parsed(drawn(Mark(DOT, [(0.0, 0.0)]), Mark(again, [(1.0, 1.0)])))
    assert len(found(root, "s:defs/s:g")) == 1
    assert len(found(root, "s:use")) == 2


def test_opacity_keeps_a_stroke_whole_and_else_long_ones_are_cut():
    lines = [(0.0, 0.0, 1.0, float(i)) for i in range(1200)]
    assert len(found(parsed(drawn(Stroke(Style("ink"), lines=lines))), "s:path")) == 3
    assert len(found(parsed(drawn(Stroke(Style("ink", opacity=0.5), lines=lines))), "s:path")) == 1


def test_inks_are_literal_and_themed_by_properties_where_these_are_known():
    root = parsed(drawn(Fill(Style("line", fill="tint"), polygons=[(0.0, 0.0, 1.0, 1.0)])), "net")
    (style,) = found(root, "s:defs/s:style")
    outer, dark = style.text.split("@media screen and (prefers-color-scheme:dark)")
    assert outer.startswith("@supports (fill:var(--a)){")
    for name, what in (("line", "stroke"), ("tint", "fill"), ("paper", "fill")):
        light, night = theme.INKS[name]
        rule = f".net-{what[0]}-{name}{{{what}:var(--net-{name},"
        assert f"{rule}{light})}}" in outer
        assert f"{rule}{night})}}" in dark
    assert "net-s-tint" not in style.text  # nothing is stroked in it
    assert "accent" not in style.text
    assert style.text.count("{") == style.text.count("}")
    assert [(e.get("fill"), e.get("class")) for e in found(root, "s:rect | s:g")] == [
        ("#ffffff", "net-f-paper"),
        (theme.INKS["tint"].light, "net-f-tint net-s-line"),
    ]


def test_a_colour_of_the_makers_own_is_the_same_in_both_schemes():
    root = parsed(drawn(Stroke(Style("#A4502F"), lines=[(0.0, 0.0, 1.0, 1.0)])))
    (path,) = found(root, "s:path")
    assert (path.get("stroke"), path.get("class")) == ("#a4502f", None)


def names_of(text: str) -> dict[str, set[str]]:
    root = etree.fromstring(text.encode())
    (style,) = root.iter("{*}style")
    classes = {c for e in root.iter("{*}*") for c in e.get("class", "").split()}
    return {
        "ids": {e.get("id") for e in root.iter("{*}*") if e.get("id")},
        "classes": classes | set(re.findall(r"\.([a-z][\w-]*)", style.text)),
        "properties": set(re.findall(r"--[\w-]+", style.text)) - {"--a"},  # only asked
        "targets": set(re.findall(r'(?:url\(#|href="#)([\w.-]+)', text)),
    }


def test_several_drawings_in_one_page_share_no_name():
    texts = [
        svg.render(sample()),
        svg.render(sample(desc="another")),
        svg.render(replace(sample(), items=shapes())),
        svg.render(sample(), ids="twice"),
    ]
    page = html.document_fromstring(f"<!doctype html><body>{''.join(texts)}</body>")
    ids = page.xpath("//@id")
    assert len(ids) == len(set(ids))
    names = [names_of(text) for text in texts]
    for kind in ("ids", "classes", "properties"):
        together = [name for each in names for name in each[kind]]
        assert len(together) == len(set(together)), kind
    for each in names:
        assert each["targets"] <= each["ids"]
        assert len(each["targets"]) >= 3


def test_ids_are_checked():
    with pytest.raises(UsageError, match="ids can't begin"):
        svg.render(sample(), ids='a"b')


def test_same_bytes_on_every_run_and_hash_seed():
    script = """
from hashlib import sha256
import rendered_sample as r
from knotplot.renderers import pdf, svg
pages = [r.sample(), r.Drawing(50.0, 50.0, r.shapes(), "", "")]
print(sha256(svg.render(pages[0]).encode()).hexdigest(), sha256(pdf.render(pages, "T")).hexdigest())
"""
    here = Path(__file__).parent
    outputs = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={
                **os.environ,
                "PYTHONPATH": os.pathsep.join([str(here), str(here.parents[1])]),
                "PYTHONHASHSEED": seed,
                "TZ": zone,
            },
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed, zone in (("0", "UTC"), ("1", "Asia/Tokyo"), ("77", "UTC"))
    }
    assert len(outputs) == 1
    assert svg.render(sample()) == svg.render(sample())
