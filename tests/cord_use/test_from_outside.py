"""What knots take and how wide they are, against what others measured, printed or go by.

Each compares like with like: cord used with cord used; where a source tells what to cut, knots must
take less, but not much less. No measured net was found: handbooks only tell what to cut for one.

One disagreement is known and no test: a teacher's single square knots in soft cotton of 1.5, 3 and
5 mm took 20, 16.7 and 12 diameters (to whole centimetres), a knot here 17: thick soft cord acts
thinner than it is called.
"""

from __future__ import annotations

import pytest

from knotplot.knots import form, knot
from knotplot.knots.base import Manner
from knotplot.knots.solved import excess, table

INCH = 25.4
FOOT = 12.0  # inches
YARD = 914.4
TWINE = 2.65  # mm, #48 cotton seine twine: from memory

BAR = Manner(4, "left")  # square knots on two cores
NET = "square_knot_net/2"


def per_height(name: str, manner: Manner, role: str = "working") -> float:
    """Return how much cord a strand takes for each length of a chain of such knots."""
    return knot(name).cord(manner).by_role[role] / form(name, manner).height


def all_four(manner: Manner) -> float:
    """Return what all strands of a bar of square knots take together for each length of it."""
    fillers = manner.strands - 2
    return 2.0 * per_height("square_knot", manner) + fillers * per_height(
        "square_knot", manner, "filler"
    )


def test_a_worker_of_a_paracord_bar_takes_what_a_maker_measured():
    """37 in of cord, 3 in left, 7 in of bar on two cores of 550 cord: 34/7, to 2 or 3 %.

    A paracord blog of December 2008, "Figuring out the length of paracord…". Another maker says
    "about four times" for a wrist strap (a blog of 2013); the two bracket what it takes here.
    """
    taken = per_height("square_knot", BAR)
    assert taken == pytest.approx(34.0 / 7.0, rel=0.05)
    assert 4.0 <= taken <= 4.9


def test_a_bar_of_paracord_takes_about_a_foot_an_inch():
    """1 ft of 550 cord an inch of bar, all four strands, ends included: a rule of the trade.

    Five craft pages have it.
    """
    assert 11.0 <= all_four(BAR) <= FOOT


def test_a_bar_on_four_cores_takes_less_than_one_pushed_tight():
    """16.5 in for an inch, cut, "as tight as I can": a maker in a forum of paracord."""
    assert 14.0 <= all_four(Manner(6, "left")) <= 16.5


def test_a_collar_of_seine_twine_comes_out_of_twelve_feet():
    """12 ft of #48 twine make a dog collar of square knots on two, 10 to 12 in long.

    B. Merry, Marlinspike Sailor's Arts and Crafts, 2013, p. 15; waste and hitches are in it.
    """
    assert all_four(BAR) * 10.0 <= 12.0 * FOOT < all_four(BAR) * 14.0


def test_a_spiral_takes_five_times_its_length():
    """60 in of a worker for 12 in of core, cut: a craft page's rule for half-knot spirals."""
    assert per_height("half_knot", BAR) == pytest.approx(5.0, rel=0.06)


@pytest.mark.parametrize(
    ("height", "cut"),
    [
        (40.0, 1000.0),  # "1 m for a wrap of 4 cm", instructions for a planter
        (1.5 * INCH, YARD),  # "1 yd for 1 1/2 in", instructions for another
    ],
)
def test_a_wrap_uses_most_of_what_planters_cut_for_it(height, cut):
    """Both are round 16 cords of 3 mm, and both are what to cut: ends stand out."""
    diameter = 3.0
    use = knot("gathering_knot").cord(Manner(16, reach=height / 2.0 / diameter)).by_role
    assert 0.7 <= use["wrap"] * diameter / cut <= 0.95


def test_a_chain_of_square_knots_is_twice_as_wide_as_thick():
    """1/4 by 1/8 in: V. McGaw, Construction Work for Rural and Elementary Schools, 1909."""
    tight = table()["square_knot/2/sennit"]
    assert tight["width"] / tight["depth"] == pytest.approx(2.0, rel=0.03)
    assert 2.0 * form("square_knot", BAR).half_width == pytest.approx(
        2.0 * tight["depth"], rel=0.03
    )


def test_a_collar_of_seine_twine_is_as_wide_as_a_handbook_says():
    """5/8 in, of #48 twine: B. Merry (as above), p. 15."""
    wide = 2.0 * form("square_knot", BAR).half_width * TWINE
    assert wide == pytest.approx(0.625 * INCH, rel=0.05)


# --- nets ------------------------------------------------------------------------------------


def in_a_net(manner: Manner) -> float:
    """Return the cord a strand of a dense net takes for each length of it.

    It works in one row, and is a filler in the next.
    """
    use = knot("square_knot").cord(manner).by_role
    height = form("square_knot", BAR).height * manner.tall
    return (use["working"] + use["filler"]) / (2.0 * height)


def solved_net(state: str) -> float:
    """Return the same of a net as solved."""
    entry = table()[f"{NET}/{state}"]
    return 1.0 + float(entry["excess"]["strand"]) / float(entry["pitch"])


def test_a_net_takes_what_its_knots_take():
    """So meshes need no numbers of their own: a net as solved is the table's knots side by side.

    Its excess is that of one knot in two rows; a row is as high as a knot of a stack, and knots of
    a row stand as far apart as one is wide.
    """
    alone, rows = table()["square_knot/2/sennit"], table()[f"{NET}/rows"]
    assert rows["excess"]["strand"] == pytest.approx(
        excess("square_knot/2/row", "working"), rel=0.02
    )
    assert rows["pitch"] / 2.0 == pytest.approx(alone["pitch"], rel=0.04)
    assert rows["spacing"] == pytest.approx(2.0 * form("square_knot", BAR).half_width, rel=0.04)
    solved = rows["excess"]["strand"] + rows["pitch"]
    knots = excess("square_knot/2/row", "working") + 2.0 * alone["pitch"]
    assert solved == pytest.approx(knots, rel=0.02)


def test_a_belt_takes_more_than_a_net_whose_rows_just_meet_and_less_than_one_pushed_up():
    """Cut 4 to 5 times the length a strand, for belts of alternating square knots in hard line.

    D. Pawson, Knot Craft, 2nd ed. 2009, p. 68. L. Philpott, The Ultimate Book of Decorative Knots,
    p. 20, cuts 3 to 4 times the length for macramé at large. Both are what to cut; rows that just
    meet use less, and rows pushed up as far as they go, with an eighth for ends and hand, come to
    what is cut for a belt.
    """
    assert 2.5 < in_a_net(BAR) < 3.0
    assert 3.5 < solved_net("pushed up") < 4.5
    assert 4.0 < 1.125 * solved_net("pushed up") < 5.0


def test_a_net_pushed_up_takes_what_it_is_said_to_at_that_height():
    """A lower knot may take more (`CordUse.at_height`); solved, a row pushed up takes that too."""
    pushed, rows = table()[f"{NET}/pushed up"], table()[f"{NET}/rows"]
    lower = pushed["pitch"] / rows["pitch"]
    assert lower < 0.7
    said = in_a_net(BAR._replace(tall=lower)) / in_a_net(BAR)
    assert said == pytest.approx(solved_net("pushed up") / solved_net("rows"), rel=0.1)
