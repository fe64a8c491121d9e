"""Lists as long as a file can hold them: the work grows with their length, no faster."""

from __future__ import annotations

import time
from collections.abc import Callable
from contextlib import suppress

import pytest
from pattern_sample import SMALL, changed

from knotplot import build
from knotplot.curves.lower_edge import LowerEdge
from knotplot.errors import PatternError
from knotplot.pattern.load import loads
from knotplot.sections.base import work_in_turn
from knotplot.tying.gauge import Gauge
from knotplot.tying.job import Job
from knotplot.tying.rack import Rack

FREE = "\n  - {kind: free, length: 0.001 mm}"


def motif(lanes: int) -> str:
    taken = ", ".join(str(lane + 1) for lane in range(lanes))
    steps = f"[{{knot: {{kind: overhand, lanes: [{taken}]}}}}]"
    return SMALL + f"motifs: {{a: {{strands: 20000, steps: {steps}}}}}\n"


def columns(sections: int) -> str:
    inside = "{kind: free, length: 0.01 mm}"
    for _ in range(14):
        more = ", {kind: free, length: 0.01 mm}" * sections
        inside = f"{{kind: columns, parts: [{{strands: rest, sections: [{inside}{more}]}}]}}"
    return SMALL + f"  - {inside}\n"


def flat(sections: int) -> str:
    return changed("rows: 4}", "rows: 4}" + FREE * sections, SMALL)


def seconds(text: str) -> float:
    """Return the CPU time of reading and building a text, or of refusing it."""
    begin = time.process_time()
    with suppress(PatternError):
        build(loads(text))
    return time.process_time() - begin


@pytest.mark.parametrize(
    ("make", "n"), [(motif, 8_000), (columns, 40), (flat, 800)], ids=["lanes", "columns", "flat"]
)
def test_twice_as_long_takes_twice_the_time(make: Callable[[int], str], n: int) -> None:
    seconds(make(10))
    once, twice = (min(seconds(make(k)) for _ in range(2)) for k in (n, 2 * n))
    assert twice < 3.0 * once + 0.05


class Length(float):
    """A length that counts how often one is added to another."""

    added = 0

    def __radd__(self, other: float) -> Length:
        Length.added += 1
        return Length(float(other) + float(self))

    __add__ = __radd__


class Bare:
    """A section that keeps bare cord, and notes what is kept below it."""

    def __init__(self, notes: list[float]) -> None:
        self.notes = notes

    def bare(self, job: Job) -> float:
        return Length(1.0)

    def work(self, job: Job) -> None:
        self.notes.append(job.below)


def test_bare_cord_below_each_section_is_added_up_once() -> None:
    rack = Rack(Gauge(40.0, 4, 4.0))
    rack.hang("body", range(1, 5), (None,) * 5)
    job = Job(rack, 0, 4, (), LowerEdge(40.0, 100.0), 7.0, {}, {})
    notes: list[float] = []
    Length.added = 0
    work_in_turn([Bare(notes) for _ in range(500)], job, "sections")  # type: ignore[misc]
    assert notes == [7.0 + i for i in reversed(range(500))]
    assert Length.added <= 1_000


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SMALL + f"colours: {{order: ['a{' ' * 300_000}b*']}}\n", "not a run of one colour"),
        (motif(200_000), "too many; give 20000 at most"),
        (SMALL + "swatches:" + "\n  - {of: net, rows: 4, height: 7 cm}" * 5_000,
         "swatches: too many; give 200 at most"),
        (SMALL + "colours: {order: [red], palette: {"
         + ", ".join(f'c{i}: "#000000"' for i in range(20_000)) + "}}\n",
         "colours.palette: too many; give 1000 at most"),
        (flat(50_000), "sections: too many; give 50000 at most"),
        (flat(2_000) + "sizes:\n" + "".join(f"  s{i}: {{}}\n" for i in range(50)),
         "50 sizes of so long a pattern are too many to look over"),
    ],
    ids=["run", "lanes", "swatches", "inks", "sections", "sizes"],
)  # fmt: skip
def test_what_is_too_long_is_refused_at_once(text: str, said: str) -> None:
    begin = time.process_time()
    with pytest.raises(PatternError) as caught:
        loads(text)
    assert time.process_time() - begin < 15  # most of it is reading the YAML
    assert said in str(caught.value)
    assert len(str(caught.value)) < 1_000
