"""How a picture, a document and a piece are shown in a notebook: a few facts, and what fits."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Sequence
from html import escape

#: Bytes of an SVG up to which a notebook gets it as it is; beyond, it slows the page down.
MOST_SVG = 300_000
#: The longer side of a PNG for the screen, in pixels.
SCREEN = 1600
#: The width of a page that is shown, in pixels.
PAGE = 420


def fits(svg: str) -> bool:
    """Tell whether an SVG is small enough to stand in a notebook."""
    return len(svg.encode()) <= MOST_SVG


def screen_resolution(size: tuple[float, float]) -> float:
    """Return the pixels a millimetre at which a picture of that size (mm) fills a screen."""
    return SCREEN / max(size)


def image_html(data: bytes, kind: str, title: str) -> str:
    """Return an image as HTML that holds all of it; `kind` is `svg+xml` or `png`."""
    held = b64encode(data).decode()
    told = escape(title)
    return f'<img src="data:image/{kind};base64,{held}" alt="{told}" width="{PAGE}">'


def facts_html(
    title: str, facts: Iterable[str], warnings: Sequence[str] = (), shown: str = ""
) -> str:
    """Return a title, facts and warnings as HTML, escaped, with what is `shown` below, as it is."""
    lines = [f"<strong>{escape(title)}</strong>", *map(escape, facts)]
    parts = [f"<p>{'<br>'.join(lines)}</p>"]
    if warnings:
        items = "".join(f"<li>{escape(text)}</li>" for text in warnings)
        parts.append(f"<p>Before you cut:</p><ul>{items}</ul>")
    return f"<div>{''.join(parts)}{shown}</div>"
