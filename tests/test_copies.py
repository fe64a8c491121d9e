"""Copies of what is public: pickled (for other processes) and copied deeply, they are the same."""

from __future__ import annotations

import copy
import inspect
import pickle
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import pytest
from cli_sample import GOOD

import knotplot
from knotplot.pattern.tree import UNREAD
from knotplot.units import WrittenFloat, WrittenInt

ROOT = Path(__file__).resolve().parents[1]
# Numbers as a maker writes them, which remember how.
WRITTEN = GOOD.replace("width: 19.2 cm", "width: 19.20") + "version: 1.10\n"

COPIES: dict[str, Callable[[object], object]] = {
    **{
        f"pickle {protocol}": lambda thing, p=protocol: pickle.loads(pickle.dumps(thing, p))
        for protocol in range(2, pickle.HIGHEST_PROTOCOL + 1)
    },
    "deepcopy": copy.deepcopy,
    "copy": copy.copy,
}


def raised(call: Callable[[], object]) -> knotplot.KnotplotError:
    with pytest.raises(knotplot.KnotplotError) as caught:
        call()
    return caught.value


def refusal() -> knotplot.Refusal:
    return knotplot.Refusal("too few", "use 2 or more", ("rows",), 1).under(("sections", 0))


def fault() -> knotplot.Fault:
    return knotplot.Fault(("sections", 0, "rows"), "too few", "use 2", "1", "mat.yaml", 3)


# Every public class, and what is made of it.
THINGS: dict[str, Callable[[], object]] = {
    "Fault": fault,
    "Figures": lambda: knotplot.build(knotplot.loads(WRITTEN)).figures(),
    "KnotplotError": lambda: knotplot.KnotplotError("wrong"),
    "OutputError": lambda: knotplot.OutputError("x.pdf: it may not be written"),
    "Pattern": lambda: knotplot.loads(WRITTEN, "tall", ["sections.net.rows=+6"]),
    "PatternError": lambda: raised(lambda: knotplot.loads("knotplot: 1\nsize: 3\nrows: 2\n")),
    "Refusal": refusal,
    "Document": lambda: knotplot.build(knotplot.loads(WRITTEN)).sheet(),
    "Picture": lambda: knotplot.build(knotplot.loads(WRITTEN)).draw("outline"),
    "WorkedPiece": lambda: knotplot.build(knotplot.loads(WRITTEN, "tall")),
    "UsageError": lambda: raised(lambda: knotplot.loads(WRITTEN, "none")),
}


def told(thing: object) -> object:
    """Return what must come back of a thing."""
    if isinstance(thing, Exception):
        faults = getattr(thing, "faults", None), getattr(thing, "fault", None)
        return type(thing), str(thing), repr(thing), faults
    if isinstance(thing, knotplot.WorkedPiece):
        return thing.pattern, thing.figures(rows=True), thing.draw("chart").svg(), thing.words()
    if isinstance(thing, knotplot.Pattern):
        return thing, thing.source, thing.source.locate(("sections", 0, "rows"))
    return thing


def test_every_public_class_is_here():
    public = {name for name in knotplot.__all__ if inspect.isclass(getattr(knotplot, name))}
    assert set(THINGS) == public


@pytest.mark.parametrize("how", COPIES)
@pytest.mark.parametrize("name", THINGS)
def test_a_copy_is_the_same(name, how):
    thing = THINGS[name]()
    assert told(COPIES[how](thing)) == told(thing)


@pytest.mark.parametrize("how", COPIES)
@pytest.mark.parametrize("thing", [WrittenFloat(20.5, "20.50"), WrittenInt(5, "+5")])
def test_a_written_number_keeps_how_it_was_written(how, thing):
    made = COPIES[how](thing)
    assert (type(made), made, made.text) == (type(thing), thing, thing.text)
    assert COPIES[how](UNREAD) is UNREAD


@pytest.mark.parametrize("file", sorted(ROOT.glob("patterns/*.yaml")), ids=lambda file: file.stem)
def test_every_shipped_pattern_and_its_piece_can_be_sent(file):
    pattern = knotplot.load(file)
    piece = knotplot.build(pattern)
    sent, made = pickle.loads(pickle.dumps((pattern, piece)))
    assert sent == pattern
    assert made.figures(rows=True) == piece.figures(rows=True)


def test_another_process_gives_pieces_and_errors_back():
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        pattern = pool.submit(knotplot.loads, WRITTEN).result()
        piece = pool.submit(knotplot.build, pattern).result()
        failed = pool.submit(knotplot.loads, "knotplot: 1\nsize: 3\n").exception()
    assert piece.figures() == knotplot.build(knotplot.loads(WRITTEN)).figures()
    assert isinstance(failed, knotplot.PatternError)
    assert str(failed) == str(raised(lambda: knotplot.loads("knotplot: 1\nsize: 3\n")))
