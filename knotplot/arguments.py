"""The values of options on the command line, read for argparse."""

from __future__ import annotations

import re
from argparse import ArgumentParser, ArgumentTypeError

from knotplot.errors import Refusal, shown

#: What a view takes, by the names that `draw` has in Python.
VIEW_OPTIONS = ("rows", "lanes", "text_mm", "scale", "every_mm", "step", "left_handed")
_SPAN = re.compile(r"([0-9]{1,9})(?:[-–]([0-9]{1,9}))?", re.ASCII)


def add_view(draw: ArgumentParser) -> None:
    """Add the view that is to be drawn, and what can be chosen of it."""
    draw.add_argument(
        "--view", required=True, metavar="VIEW",
        help="chart, repeat (one repeat of the chart), key (to the chart), cord, outline, trim, "
        "or knot:NAME, which needs no FILE",
    )  # fmt: skip
    draw.add_argument(
        "--rows", metavar="A-B", type=span, help="of chart and repeat: only these rows"
    )
    draw.add_argument("--lanes", metavar="A-B", type=span, help="of a chart: only these lanes")
    draw.add_argument(
        "--text", dest="text_mm", metavar="LENGTH", type=millimetres,
        help='the size of the text, as "3 mm"; of all but cord and knots',
    )  # fmt: skip
    draw.add_argument(
        "--scale", metavar="SCALE", type=scale, help="of cord: how large, as 1:4 or 0.25"
    )
    draw.add_argument(
        "--every", dest="every_mm", metavar="LENGTH", type=millimetres,
        help='of trim: how far apart the marks stand, as "10 cm"',
    )  # fmt: skip
    draw.add_argument(
        "--ids", metavar="NAME", default="",
        help="what every id in the SVG begins with, for a page of several",
    )  # fmt: skip
    draw.add_argument(
        "--step", metavar="K", type=step, help="of a knot: only the step of that number"
    )
    draw.add_argument(
        "--left-handed", action="store_true", help="of a knot: as the left hand ties it"
    )


def kits(text: str) -> int:
    """Return a whole number from 1 up."""
    if not (_short_number(text) and int(text)):
        raise ArgumentTypeError(f"{shown(text)} is not a whole number from 1 up")
    return int(text)


def step(text: str) -> int:
    """Return the number of a step."""
    if not _short_number(text):
        raise ArgumentTypeError(f"{shown(text)} is not the number of a step, from 1 up")
    return int(text)


def span(text: str) -> tuple[int, int]:
    """Return the first and the last of what `3-8` names, or twice the one that `3` names."""
    match = _SPAN.fullmatch(text)
    if match is None:
        raise ArgumentTypeError(f"{shown(text)} is no first and last; write them as 3-8")
    return int(match[1]), int(match[2] or match[1])


def millimetres(text: str) -> float:
    """Return a length with a unit, in mm."""
    from knotplot.units import parse_length

    try:
        return float(parse_length(text, example="mm"))
    except Refusal as refusal:
        raise ArgumentTypeError(f"{shown(text)}: {refusal}") from None


def scale(text: str) -> float:
    """Return how large something is drawn: a number above 0, or `1:4`."""
    match = re.fullmatch(r"(?:([0-9]{1,4}):)?([0-9]{1,4}(?:\.[0-9]{1,6})?)", text, re.ASCII)
    if match is None or not float(match[2]) or match[1] == "0":
        raise ArgumentTypeError(f"{shown(text)} is no scale; write 0.25 or 1:4")
    return float(match[1]) / float(match[2]) if match[1] else float(match[2])


def named(text: str) -> str:
    """Return a name that isn't empty."""
    if not text:
        raise ArgumentTypeError("an empty name; name a place to write to")
    return text


def _short_number(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 10
