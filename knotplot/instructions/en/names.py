"""Names and numbers: knots, motifs, cords, spans."""

from __future__ import annotations

from knotplot.instructions.records import FigureName
from knotplot.kinds import mount_kind
from knotplot.knots import knot
from knotplot.tying.names import counted

LANGUAGE = "en"


def one_knot(name: str) -> str:
    """Return what a knot is called."""
    return knot(name).words[LANGUAGE].one


def many_knots(name: str) -> str:
    """Return what several of a knot are called."""
    return knot(name).words[LANGUAGE].many


def fault_of(name: str) -> str:
    """Return what goes wrong with a knot, and how it is seen."""
    return knot(name).words[LANGUAGE].fault


def facing_knot(name: str, facing: str | None, workers: int) -> str:
    """Return a knot's name with the side it faces, and its working cords where there are more."""
    text = name if facing is None else f"{name} facing {facing}"
    return f"{text}, 2 working cords a side," if workers == 2 else text


def quoted(name: str) -> str:
    """Quote a maker's own name; quotes within it become single ones, line breaks spaces."""
    return "“" + " ".join(name.split()).replace("“", "‘").replace("”", "’") + "”"


def support_name(mount: str) -> str:
    """Return what depths are measured from in a piece of that mount."""
    return mount_kind(mount).words[LANGUAGE].support


def figure(name: FigureName) -> str:
    """Return what a motif, or a part of it, is called."""
    text = f"motif {quoted(name.motif)}"
    if name.cords < name.of:
        part = "half" if 2 * name.cords == name.of else "part"
        side = "right" if name.last == name.of else "left"
        text = f"the {side} {part} of {text} (places {name.first}–{name.last})"
    return text if name.top is None else f"the top of {text} (to step {name.top})"


def count_cords(count: int) -> str:
    """Return how many cords, as `1 cord`."""
    return counted(count, "cord")


def from_to(span: tuple[int, int]) -> str:
    """Return a span of numbers, as `3–5`."""
    return f"{span[0]}–{span[1]}"


def numbered(noun: str, span: tuple[int, int]) -> str:
    """Return things with their numbers, as `row 3` or `rows 3–5`."""
    return f"{noun} {span[0]}" if span[0] == span[1] else f"{noun}s {from_to(span)}"


def times_more(times: int) -> str:
    """Return how often something is done again."""
    return "once more" if times == 1 else f"{times} more times"
