"""An SVG as PNG, through resvg (the optional extra `png`)."""

from __future__ import annotations

from contextlib import ExitStack
from importlib import resources

from knotplot.errors import UsageError

_MM_AN_INCH = 25.4


def render(svg_text: str, px_per_mm: float = 4.0) -> bytes:
    """Return the SVG as a PNG on white paper, in its light colours and the shipped fonts.

    Raises UsageError where the extra is not installed or `px_per_mm` is not above 0.
    """
    try:
        import resvg_py
    except ImportError as fault:
        raise UsageError('PNG needs one more package: pip install "knotplot[png]"') from fault
    if not 0 < px_per_mm <= 100:
        raise UsageError(f"px_per_mm is {px_per_mm}: use a number above 0, at most 100")
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
