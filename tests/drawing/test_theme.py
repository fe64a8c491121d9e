"""Contrasts of the inks, by WCAG 2.2, against ratios computed elsewhere."""

from __future__ import annotations

import pytest

from knotplot.drawing import theme


@pytest.mark.parametrize(
    ("colour", "ratio"),
    [  # CHECK_VALUES 6, computed there from WCAG 2.2's definition
        ("#000000", 21.0),
        ("#767676", 4.542),
        ("#777777", 4.478),
        ("#0072B2", 5.185),
        ("#D55E00", 3.867),
        ("#009E73", 3.421),
        ("#CC79A7", 3.061),
        ("#56B4E9", 2.307),
        ("#E69F00", 2.252),
        ("#F0E442", 1.322),
    ],
)
def test_contrast_on_white(colour, ratio):
    assert theme.contrast(colour, "#FFFFFF") == pytest.approx(ratio, abs=0.0006)
    assert theme.contrast("#ffffff", colour) == theme.contrast(colour, "#ffffff")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "tint"])
def test_text_inks_can_be_read(ground, scheme):
    under = getattr(theme.ink(ground), scheme)
    for name in theme.TEXT_INKS:
        assert theme.contrast(getattr(theme.ink(name), scheme), under) >= 4.5, name
    for name in ("line", "accent", "accent2", "accent3"):  # graphics: WCAG 2.2, 1.4.11
        assert theme.contrast(getattr(theme.ink(name), scheme), under) >= 3.0, name


def test_cord_is_parted_from_paper_and_cord_in_both_schemes():
    paper, cord, edge = map(theme.ink, ("paper", "cord", "cord-edge"))
    assert theme.contrast(edge.light, paper.light) >= 3
    assert theme.contrast(cord.dark, paper.dark) >= 3
    assert theme.contrast(edge.light, cord.light) >= 3
    assert theme.contrast(edge.dark, cord.dark) >= 3


def test_meaning_is_told_in_the_colours_of_okabe_and_ito():
    lights = [theme.ink(name).light for name in ("accent", "accent2", "accent3")]
    assert lights == ["#0072b2", "#d55e00", "#009e73"]  # jfly.uni-koeln.de/color, 2002


@pytest.mark.parametrize("name", ["puce", "", "#12345", "#12345g", "red", "#1234567"])
def test_other_names_are_refused(name):
    with pytest.raises(ValueError, match="no ink is called"):
        theme.ink(name)
