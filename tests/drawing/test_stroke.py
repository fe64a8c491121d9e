"""Cord as it is painted, at its ends."""

from __future__ import annotations

import math

import pytest

from knotplot.drawing.stroke import cord, surface

DIAMETER = 4.0
LOOK = surface("twisted")


def straight(angle: float, parts: int, idle: bool) -> tuple[float, ...]:
    """Return a straight curve of 20 mm in cubics; an idle one begins with one without length."""
    dx, dy = math.cos(angle), math.sin(angle)
    ends = [20.0 * i / (3 * parts) for i in range(3 * parts + 1)]
    far = [0.0, 0.0, 0.0, *ends] if idle else ends
    return tuple(value for along in far for value in (along * dx, along * dy))


# What is lit lies aside of the middle, in the same direction everywhere: along an upright cord that
# is upwards too, and a light line stood out above every cut and every joint.
@pytest.mark.parametrize("angle", [0.0, 0.6, 1.5708, 2.5, 3.7, 4.7124, 5.9])
@pytest.mark.parametrize(("parts", "idle"), [(1, False), (1, True), (60, False), (60, True)])
def test_nothing_lit_stands_out_beyond_a_cut(angle: float, parts: int, idle: bool) -> None:
    curve = straight(angle, parts, idle)
    for stroke in cord(curve, DIAMETER, LOOK):
        for painted in stroke.curves:
            along = [
                painted[i] * math.cos(angle) + painted[i + 1] * math.sin(angle)
                for i in range(0, len(painted), 2)
            ]
            assert along[0] == pytest.approx(0.0, abs=1e-6)
            assert along[-1] == pytest.approx(20.0, abs=1e-6)
            assert -1e-6 < min(along) <= max(along) < 20.0 + 1e-6
            aside = painted[-2] * math.sin(angle) - painted[-1] * math.cos(angle)
            assert abs(aside) < 0.2 * DIAMETER


def test_a_cord_without_length_is_painted_where_it_is() -> None:
    for stroke in cord((3.0, 4.0) * 4, DIAMETER, LOOK):
        assert all(math.hypot(c[0] - 3.0, c[1] - 4.0) < DIAMETER for c in stroke.curves)
