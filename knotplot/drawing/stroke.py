"""Cord as it is painted: a shadow, an outline, its turned-away side, its lit side, its grooves.

Light comes from the upper left, as in the engraved plates of old: what is lit lies a little that
way from a cord's middle, and its shadow falls a little the other way.
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import chain
from typing import NamedTuple

from knotplot.curves.bezier import straight
from knotplot.drawing.shapes import Curve, Stroke, Style
from knotplot.drawing.texture import TEXTURES, Texture, grooves
from knotplot.drawing.theme import CORD, CordInks, cord_inks

EDGE = 0.08  # outline, diameters
OVERLAP = 0.06  # how far the inner strokes run on over a joint, diameters, so that no seam shows
LIT = ((-0.065, -0.085), 0.56)  # the lit side: where it lies from the middle, and how wide
GLINT = ((-0.115, -0.15), 0.2)
SHADOW = ((0.05, 0.09), 1.24, 0.2)  # the same of the shadow, and how dark it is


class Surface(NamedTuple):
    """How a cord looks: its inks, and the texture of its construction (None: too small to see)."""

    inks: CordInks = CORD
    texture: Texture | None = None


PLAIN = Surface()


@lru_cache(maxsize=256)
def surface(construction: str | None = None, colour: str | None = None) -> Surface:
    """Return how a cord of that construction and colour (`#rrggbb`) looks."""
    inks = CORD if colour is None else cord_inks(colour)
    return Surface(inks, None if construction is None else TEXTURES[construction])


def cord(
    curve: Curve, diameter: float, look: Surface = PLAIN, start: float = 0.0,
    shadow: bool = False, joined: tuple[bool, bool] = (False, False),
) -> tuple[Stroke, ...]:  # fmt: skip
    """Return strokes that paint a cord of `diameter` (mm) along `curve`.

    `start` tells how far along its strand the curve begins (mm), `shadow` that it lies on others,
    `joined` at which of its ends the strand goes on in another part of the same cord.
    """
    inks, over = look.inks, OVERLAP * diameter
    longer = stretched(curve, over * joined[0], over * joined[1])
    strokes = [
        Stroke(Style(inks.edge, diameter), (curve,)),
        Stroke(Style(inks.shade, diameter * (1.0 - 2.0 * EDGE)), (longer,)),
        _beside(longer, inks.body, LIT, diameter),
    ]
    if shadow:
        by, wide, dark = SHADOW
        cast = Style(inks.edge, wide * diameter, opacity=dark)
        strokes.insert(0, Stroke(cast, (_moved(curve, by, diameter),)))
    if look.texture is not None:  # near enough to see how the cord is made
        strokes.append(_beside(longer, inks.glint, GLINT, diameter))
        lines = grooves(longer, diameter, look.texture, start - over * joined[0])
        strokes.append(Stroke(Style(inks.groove, look.texture.pen * diameter), lines=lines))
    return tuple(strokes)


def _beside(
    curve: Curve, ink: str, place: tuple[tuple[float, float], float], diameter: float
) -> Stroke:
    by, wide = place
    moved = list(_moved(curve, by, diameter))
    for order in (range(0, len(curve), 2), range(len(curve) - 2, -1, -2)):
        _kept_within(moved, curve, order)
    return Stroke(Style(ink, wide * diameter), (tuple(moved),))


def _kept_within(moved: list[float], curve: Curve, order: range) -> None:
    """Let a moved curve's end, the first in `order`, lie sideways of where it was.

    Nothing then stands out beyond where the cord is cut or goes on, nor do points near that end.
    """
    x, y = curve[order[0]], curve[order[0] + 1]
    away = [math.hypot(curve[k] - x, curve[k + 1] - y) for k in order]
    inner = next((i for i, far in enumerate(away) if far > 1e-6), None)
    if inner is None:
        return
    tx, ty = (v / away[inner] for v in (curve[order[inner]] - x, curve[order[inner] + 1] - y))
    near = 2.0 * math.hypot(moved[order[0]] - x, moved[order[0] + 1] - y)
    for i, k in enumerate(order):
        if away[i] > near:
            return
        within = (moved[k] - x) * tx + (moved[k + 1] - y) * ty
        if i < inner or within < 0.0:
            moved[k] -= within * tx
            moved[k + 1] -= within * ty


def _moved(curve: Curve, by: tuple[float, float], diameter: float) -> Curve:
    dx, dy = by[0] * diameter, by[1] * diameter
    xs, ys = [x + dx for x in curve[::2]], [y + dy for y in curve[1::2]]
    return tuple(chain.from_iterable(zip(xs, ys, strict=True)))


def stretched(curve: Curve, start: float, end: float) -> Curve:
    """Return `curve` run on straight by `start` and `end` (mm) beyond its two ends."""
    x0, y0, x1, y1 = curve[:4]
    before = _on(x1, y1, x0, y0, start)
    x2, y2, x3, y3 = curve[-4:]
    after = _on(x2, y2, x3, y3, end)
    first = (*before, *straight(*before, x0, y0)[2:]) if start else (x0, y0)
    return (*first, *curve[2:], *(straight(x3, y3, *after)[2:] if end else ()))


def _on(x0: float, y0: float, x1: float, y1: float, by: float) -> tuple[float, float]:
    size = math.hypot(x1 - x0, y1 - y0)
    if size < 1e-9:
        return x1, y1
    return x1 + (x1 - x0) * by / size, y1 + (y1 - y0) * by / size
