"""What a cord's construction shows: grooves at even distances, within the cord, over joints."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knotplot.curves.bezier import curve_length
from knotplot.curves.space import split
from knotplot.drawing.stroke import cord, surface
from knotplot.drawing.texture import TEXTURES, grooves
from knotplot.drawing.theme import contrast, cord_inks

numbers = st.floats(-60.0, 60.0).map(lambda value: round(value, 2))


def straight(x0: float, y0: float, x1: float, y1: float) -> tuple[float, ...]:
    dx, dy = (x1 - x0) / 3.0, (y1 - y0) / 3.0
    return (x0, y0, x0 + dx, y0 + dy, x1 - dx, y1 - dy, x1, y1)


@pytest.mark.parametrize("construction", sorted(TEXTURES))
@given(x=numbers, y=numbers, diameter=st.floats(1.0, 12.0), start=st.floats(0.0, 200.0))
def test_grooves_lie_within_a_straight_cord(
    construction: str, x: float, y: float, diameter: float, start: float
) -> None:
    length = math.hypot(x, y)
    for x0, y0, x1, y1 in grooves(straight(0, 0, x, y), diameter, TEXTURES[construction], start):
        for px, py in ((x0, y0), (x1, y1)):
            along, aside = (px * x + py * y) / length, (px * y - py * x) / length
            assert -1e-6 <= along <= length + 1e-6
            assert abs(aside) <= 0.45 * diameter


@pytest.mark.parametrize("construction", sorted(TEXTURES))
def test_grooves_repeat_every_cell(construction: str) -> None:
    texture = TEXTURES[construction]
    found = grooves(straight(0, 0, 0, 40 * texture.cell), 1.0, texture)
    whole = len(texture.grooves) * 40
    assert whole <= len(found) <= whole + 4 * len(texture.grooves)  # cut ones at both ends


@pytest.mark.parametrize("construction", sorted(TEXTURES))
def test_a_cord_in_two_parts_has_the_grooves_of_the_whole(construction: str) -> None:
    curve = (0.0, 0.0, 0.0, 8.0, 9.0, 10.0, 9.0, 22.0)
    space = tuple(v for k in range(0, 8, 2) for v in (curve[k], curve[k + 1], 0.0))
    parts = [
        tuple(v for i, v in enumerate(split(space, *ends)) if i % 3 != 2)
        for ends in ((0.0, 0.5), (0.5, 1.0))
    ]
    texture = TEXTURES[construction]
    whole = grooves(curve, 2.0, texture)
    both = grooves(parts[0], 2.0, texture)
    both += grooves(parts[1], 2.0, texture, curve_length(parts[0]))

    def drawn(lines: list[tuple[float, ...]]) -> float:
        return sum(math.dist(line[:2], line[2:]) for line in lines)

    # Those over the joint are two parts there; chords are measured a little differently.
    assert drawn(both) == pytest.approx(drawn(whole), rel=0.02)


def test_a_bend_keeps_the_grooves_on_the_cord() -> None:
    bend = (0.0, 0.0, 0.0, 5.0, 6.0, 5.0, 6.0, 0.0)
    for x0, y0, x1, y1 in grooves(bend, 1.0, TEXTURES["twisted"]):
        assert min(x0, x1) >= -0.5
        assert max(x0, x1) <= 6.5
        assert max(y0, y1) <= 3.75 + 0.5


def test_thin_cord_shows_no_texture() -> None:
    plain, twisted = surface(), surface("twisted")
    curve = straight(0, 0, 0, 20)
    assert not any(stroke.lines for stroke in cord(curve, 2.0, plain))
    assert any(stroke.lines for stroke in cord(curve, 2.0, twisted))


@given(st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06x}"))
def test_dyed_cord_keeps_its_colour_and_shows_an_outline(colour: str) -> None:
    inks = cord_inks(colour)
    assert inks.body == colour
    # WCAG 2.2 asks 3:1 of graphics; a cord beside its like is told by more than its outline.
    assert contrast(inks.edge, inks.body) >= 1.8
