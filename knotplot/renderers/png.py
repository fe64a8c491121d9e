"""An SVG as PNG, through resvg (the optional extra `png`)."""

from __future__ import annotations

import math
import re
from contextlib import ExitStack
from importlib import resources

from knotplot.errors import UsageError

#: Pixels of a picture at the most, 8,000 × 8,000: resvg takes up to 16 bytes of memory for each
#: (measured), and where memory ends it ends the whole process.
MOST_PIXELS = 64_000_000
#: Pixels a millimetre of a picture that is small enough.
USUAL = 4.0
FINEST = 100.0

_MM_AN_INCH = 25.4
_SIDES = tuple(re.compile(rf'\b{side}="([0-9.]+)mm"') for side in ("width", "height"))


def usual_resolution(svg_text: str) -> float:
    """Return in how many px/mm an SVG is drawn unless asked: 4, or as many as its size allows."""
    return min(USUAL, _most(*_size(svg_text)))


def render(svg_text: str, px_per_mm: float | None = None) -> bytes:
    """Return the SVG as a PNG on white paper, in its light colours and the shipped fonts.

    Without `px_per_mm` it has its usual resolution. Raises UsageError where the extra is not
    installed, where `px_per_mm` is not above 0, and where it makes more pixels than `MOST_PIXELS`.
    """
    if px_per_mm is None:
        px_per_mm = usual_resolution(svg_text)
    _check(px_per_mm, *_size(svg_text))
    try:
        import resvg_py
    except ImportError as fault:
        raise UsageError('PNG needs one more package: pip install "knotplot[png]"') from fault
    with ExitStack() as unpacked:  # where the package is in a zip; else its own files
        fonts = [
            str(unpacked.enter_context(resources.as_file(file)))
            for file in (resources.files("knotplot.renderers") / "fonts").iterdir()
            if file.name.endswith(".ttf")
        ]
        # resvg refuses sizes in millimetres unless it gets the number of dots in an inch
        return bytes(
            resvg_py.svg_to_bytes(
                svg_string=svg_text,
                dpi=px_per_mm * _MM_AN_INCH,
                background="#ffffff",
                skip_system_fonts=True,
                font_files=sorted(fonts),
                font_family="Source Sans 3",
                sans_serif_family="Source Sans 3",
            )
        )


def _size(svg_text: str) -> tuple[float, float]:
    """Return the width and height of an SVG in mm."""
    found = [side.search(svg_text) for side in _SIDES]
    width, height = (math.nan if each is None else float(each[1]) for each in found)
    if not (width > 0 and height > 0):
        raise ValueError("the SVG has no width and height in mm")
    return width, height


def _most(width: float, height: float) -> float:
    """Return the most px/mm that a picture of that size in mm may have, rounded down."""
    most = math.sqrt(MOST_PIXELS / width / height)
    step = 10.0 ** (math.floor(math.log10(most)) - 3)
    return math.floor(most / step) * step


def _check(px_per_mm: float, width: float, height: float) -> None:
    if not 0 < px_per_mm <= FINEST:
        raise UsageError(f"px_per_mm is {px_per_mm}: use a number above 0, at most {FINEST:g}")
    most = _most(width, height)
    if px_per_mm > most and px_per_mm**2 * width * height > MOST_PIXELS:
        across, down = (math.ceil(side * px_per_mm) for side in (width, height))
        raise UsageError(
            f"px_per_mm is {px_per_mm}: that makes {across:,} × {down:,} pixels, and a picture has "
            f"{MOST_PIXELS:,} at most; use {most:.4g} or less"
        )
