"""The PNG, and one scene seen through SVG and through PDF."""

from __future__ import annotations

import io
import math
import sys
from dataclasses import replace

import pypdfium2
import pytest
from PIL import Image, ImageChops
from rendered_sample import sample, shapes, words

from knotplot.drawing.shapes import Disc, Drawing, Style
from knotplot.errors import UsageError
from knotplot.renderers import pdf, png, svg

SCALE = 8.0


def seen_in_svg(drawing: Drawing) -> Image.Image:
    return Image.open(io.BytesIO(png.render(svg.render(drawing), SCALE))).convert("RGB")


def seen_in_pdf(drawing: Drawing) -> Image.Image:
    page = pypdfium2.PdfDocument(pdf.render([drawing], "T"))[0]
    # a hair less, or the last bit of the page's width would make one pixel more and stretch all
    return page.render(scale=SCALE * 25.4 / 72 * 0.99999).to_pil().convert("RGB")


def share_off(one: Image.Image, other: Image.Image, level: int) -> float:
    """Return the share of pixels that differ by more than `level` of 255 in some channel."""
    assert one.size == other.size
    off = ImageChops.difference(one, other)
    worst = ImageChops.lighter(ImageChops.lighter(*off.split()[:2]), off.split()[2])
    return sum(worst.histogram()[level + 1 :]) / (one.width * one.height)


def same_shapes(one: Image.Image, other: Image.Image) -> bool:
    """Say whether two rasterisers, which soften edges differently, were shown the same."""
    return share_off(one, other, 64) < 0.0003 and share_off(one, other, 8) < 0.005


def test_size_and_paper():
    image = seen_in_svg(
        Drawing(20.0, 10.0, [Disc(Style(fill="accent"), [(5.0, 5.0)], 2.0)], "", "")
    )
    assert image.size == (160, 80)
    assert image.getpixel((40, 40)) == (0x00, 0x72, 0xB2)
    assert image.getpixel((120, 40)) == (255, 255, 255)


def test_svg_and_pdf_show_the_same_shapes():
    drawing = Drawing(120.0, 80.0, shapes(), "", "")
    assert same_shapes(seen_in_svg(drawing), seen_in_pdf(drawing))


@pytest.mark.parametrize("left_out", range(len(shapes())))
def test_a_shape_left_out_would_be_noticed(left_out):
    drawing = Drawing(120.0, 80.0, shapes(), "", "")
    fewer = replace(drawing, items=[s for i, s in enumerate(shapes()) if i != left_out])
    assert not same_shapes(seen_in_svg(drawing), seen_in_pdf(fewer))


def test_svg_and_pdf_show_the_same_text():
    drawing = Drawing(120.0, 80.0, words(), "", "")
    # SVG readers kern, the PDF does not: letters differ by a few hundredths of their size
    assert share_off(seen_in_svg(drawing), seen_in_pdf(drawing), 64) < 0.003
    blank = Drawing(120.0, 80.0, [], "", "")
    assert share_off(seen_in_svg(drawing), seen_in_pdf(blank), 64) > 0.01


def test_the_extra_that_is_missing_is_named(monkeypatch):
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    with pytest.raises(UsageError, match=r'pip install "knotplot\[png\]"'):
        png.render(svg.render(sample()))


def blank(width: float, height: float) -> str:
    return svg.render(Drawing(width, height, [], "", ""))


@pytest.mark.parametrize(
    ("size", "resolution"),
    [((2000.0, 2000.0), 4.0), ((2000.1, 2000.1), 3.999), ((8000.0, 8000.0), 1.0),
     ((1e6, 1e6), 0.008), ((1e6, 250.0), 0.5059)],
)  # fmt: skip
def test_a_large_picture_has_fewer_pixels_a_millimetre(size, resolution):
    assert png.usual_resolution(blank(*size)) == pytest.approx(resolution, rel=1e-9)
    assert math.prod(size) * resolution**2 <= png.MOST_PIXELS


def test_a_picture_of_any_size_is_made(monkeypatch):
    monkeypatch.setattr(png, "MOST_PIXELS", 10_000)
    made = png.render(blank(1000.0, 400.0))
    assert Image.open(io.BytesIO(made)).size == (158, 63)  # 0.1581 a millimetre
    assert made == png.render(blank(1000.0, 400.0))


def test_a_resolution_that_takes_too_many_pixels_is_refused_before_it_is_drawn(monkeypatch):
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    with pytest.raises(UsageError, match=r"120,000 × 120,000 pixels.* use 2.666 or less"):
        png.render(blank(3000.0, 3000.0), 40.0)


@pytest.mark.parametrize("scale", [0.0, -1.0, float("nan"), float("inf"), 1e6])
def test_scales_that_make_no_picture_are_refused(scale):
    with pytest.raises(UsageError, match="px_per_mm"):
        png.render(svg.render(sample()), scale)
