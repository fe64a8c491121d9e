"""What the table has: every knot solved, by name, each as a start shape made from its own curve."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from knotplot.cord_use.solver.flat import flat, loose_sennit, ring, sennit
from knotplot.cord_use.solver.net import net
from knotplot.cord_use.solver.own import alone
from knotplot.cord_use.solver.round import (
    TURNS,
    berry_tight,
    capsized,
    chain,
    coil,
    crowns,
    hitch,
    larks_head,
)
from knotplot.cord_use.solver.solve import Start
from knotplot.cord_use.solver.starts import bundle, row
from knotplot.knots.base import Manner


@dataclass(frozen=True)
class Entry:
    """A table entry: its `name`, what it is in words, and how its start shape is made."""

    name: str
    about: str
    start: Callable[[], Start]


def entries() -> tuple[Entry, ...]:
    """Return every entry of the table."""
    return (*_flat(), *_sennits(), *_nets(), *_hitches(), *_mounts(), *_others())


# --- square and half knots -------------------------------------------------------------------


def _flat() -> Iterator[Entry]:
    for knot in ("half_knot", "square_knot"):
        words = knot.replace("_", " ")
        for count in range(1, 9):
            for way, places in (("row", row(count)), ("bundle", bundle(count))):
                if way == "bundle" and count < 3:
                    continue
                about = f"{words} on {count} taut fillers in a {way}"
                manner = Manner(count + 2, "left")
                yield Entry(
                    f"{knot}/{count}/{way}", about, partial(flat, knot, manner, tuple(places))
                )
    for count in (1, 2, 3, 4):
        yield Entry(
            f"square_knot/{count}/free", f"square knot on {count} free fillers",
            partial(flat, "square_knot", Manner(count + 2, "left"), tuple(row(count)), free=True),
        )  # fmt: skip
    # On no filler it has two states; both are there, neither is shipped as the one number.
    yield Entry(
        "square_knot/0/reef", "square knot on no filler, lying flat as a reef knot",
        partial(flat, "square_knot", Manner(3, "left"), ()),
    )  # fmt: skip
    yield Entry(
        "square_knot/0/capsized", "square knot on no filler, capsized: a lark's head on a strand",
        capsized,
    )  # fmt: skip


# --- stacks of them --------------------------------------------------------------------------


def _sennits() -> Iterator[Entry]:
    for count in (1, 2, 3, 4, 6, 8):
        manner, places = Manner(count + 2, "left"), tuple(row(count))
        # On many fillers nothing keeps the knots from riding up as they are pulled.
        state = ", in the state of knots pushed up" if count > 4 else ""
        yield Entry(
            f"square_knot/{count}/sennit",
            f"square knots one below another on {count} taut fillers in a row{state}",
            partial(sennit, "square_knot", manner, places),
        )  # fmt: skip
    for count in (2, 4):
        manner, places = Manner(count + 2, "left"), tuple(row(count))
        yield Entry(
            f"square_knot/{count}/pushed up",
            f"square knots on {count} taut fillers in a row, pushed up over each other's shoulders",
            partial(loose_sennit, "square_knot", manner, places),
        )  # fmt: skip
    yield Entry(
        "half_knot/1/spiral", "half knots of one hand one below another on a taut filler",
        partial(loose_sennit, "half_knot", Manner(3, "left"), tuple(row(1)), turning=True),
    )  # fmt: skip
    for count in (2, 3, 4):
        yield Entry(
            f"half_knot/{count}/spiral",
            f"half knots of one hand one below another on {count} free fillers that turn along, "
            "closer and more twisted than hands make them",
            partial(
                loose_sennit, "half_knot", Manner(count + 2, "left"), tuple(ring(count)),
                turning=True, free=True,
            ),
        )  # fmt: skip


# --- nets ------------------------------------------------------------------------------------


def _nets() -> Iterator[Entry]:
    """Yield the net of knots on two fillers: two rows a period, its excess that of both."""
    about = "alternating rows of square knots on 2 fillers, each strand through one knot of both"
    yield Entry("square_knot_net/2/rows", f"{about}, closed up until knots meet", net)
    yield Entry(
        "square_knot_net/2/pushed up", f"{about}, pushed up into each other's gaps",
        partial(net, pushed=True),
    )  # fmt: skip


# --- hitches ---------------------------------------------------------------------------------


def _hitches() -> Iterator[Entry]:
    for turns, knot in TURNS.items():
        words = knot.replace("_", " ")
        yield Entry(f"{knot}/alone", f"{words} on a taut leader", partial(hitch, turns))
        yield Entry(
            f"{knot}/bar", f"{words}es side by side on a taut leader",
            partial(hitch, turns, beside=True),
        )  # fmt: skip
    for sense, angle in (("falling", 45.0), ("rising", -45.0)):
        yield Entry(
            f"double_half_hitch/45 {sense}",
            f"double half hitches side by side on a taut leader at 45°, {sense} from the first "
            "turn to the last",
            partial(hitch, 2, angle=angle, beside=True),
        )
    for size in (0.5, 2.0, 4.0, 8.0, 16.0):
        yield Entry(
            f"double_half_hitch/on {size:g}",
            f"double half hitch on a leader or rod {size:g} diameters thick",
            partial(hitch, 2, size=size),
        )
    yield Entry(
        "double_half_hitch/free", "double half hitch on a leader that is pulled as hard as it",
        partial(hitch, 2, free=True),
    )  # fmt: skip
    yield Entry(  # for pictures: there strands come and go in the plane of the piece
        "double_half_hitch/bar held",
        "double half hitches side by side on a taut leader, their ends held in its plane",
        partial(hitch, 2, beside=True, held=True),
    )
    yield Entry(
        "double_half_hitch/rows", "bars of double half hitches close below each other",
        partial(hitch, 2, beside=True, rows=True),
    )  # fmt: skip


# --- mounts ----------------------------------------------------------------------------------


def _mounts() -> Iterator[Entry]:
    for size in (0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 20.0):
        yield Entry(
            f"larks_head/on {size:g}", f"lark's head on a rod {size:g} diameters thick",
            partial(larks_head, "larks_head", size),
        )  # fmt: skip
    yield Entry(
        "reverse_larks_head/on 4", "reverse lark's head on a rod 4 diameters thick",
        partial(larks_head, "reverse_larks_head", 4.0),
    )  # fmt: skip


# --- the rest --------------------------------------------------------------------------------


def _others() -> Iterator[Entry]:
    yield Entry(
        "overhand/1", "overhand knot of one strand",
        partial(alone, "overhand", Manner(1)),
    )  # fmt: skip
    for size in (1.0, 2.0, 4.0, 8.0):
        yield Entry(
            f"wrap/on {size:g}", f"one turn of a wrap on a core {size:g} diameters thick",
            partial(coil, size),
        )  # fmt: skip
    yield Entry(
        "larks_head_chain/1", "vertical lark's heads one below another on a taut leader", chain
    )
    yield Entry(
        "josephine/1", "Josephine knot of two strands, pulled tight",
        partial(alone, "josephine_knot", Manner(2, "left")),
    )  # fmt: skip
    left, right = Manner(4, "left"), Manner(4, "right")
    yield Entry(
        "crown_knot/4/round", "crown knots of one hand one below another, two of them",
        partial(crowns, (left, left)),
    )  # fmt: skip
    yield Entry(
        "crown_knot/4/square", "crown knots of both hands in turn one below another, two of them",
        partial(crowns, (left, right)),
    )  # fmt: skip
    yield Entry(
        "berry/3", "berry of three square knots on two fillers, closed by a fourth",
        partial(berry_tight, 3),
    )  # fmt: skip
