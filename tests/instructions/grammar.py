"""The sentences of the printed words, read by a grammar of their own: what a maker has in hand.

It shares no code with the package. `read(lines)` returns a `Script`, which `interpreter.py` works;
`colours(lines)` the colour of each cord that is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

KINDS = {
    "Alternating square knots": "square_knot_mesh",
    "Horizontal row of double half hitches": "hitch_line",
    "Motifs": "motif_band",
    "Sennits": "sennits",
    "Gathering knot": "gather",
    "Tassel": "tassel",
    "Bare cords": "free",
    "Fringe": "fringe",
}

Actions = tuple[str, ...]
Span = tuple[int, int]


@dataclass
class Told:
    """A section as told: its label, layer, cords, and each row's actions by row number.

    `knotted` says of a fringe that a knot is tied in each of its ends.
    """

    label: str
    layer: str = "body"
    first: int = 1
    last: int = 1
    rows: dict[int, Actions] = field(default_factory=dict)
    knotted: bool = False


@dataclass
class Again:
    """Sections worked again: which, how often, how far to the right; and what is said of each time.

    `said` has its rows, the rows they are like, and its cords where these are others.
    """

    first: int
    last: int
    times: int
    shift: int
    said: list[tuple[Span, Span, Span | None]] = field(default_factory=list)


@dataclass
class Steps:
    """A motif, or a part of it: the place of its first cord, its steps by number."""

    place: int
    cords: int
    steps: list[tuple[int, str]] = field(default_factory=list)


@dataclass
class Script:
    """All that was read; `ends` are the places, from 1, of the ends to knot, None for every end.

    `cut` tells that the words have something cut; knots in ends come before that.
    """

    count: int = 0
    tails: int = 0
    back: int = 0
    sections: dict[int, Told | Again] = field(default_factory=dict)
    figures: dict[str, Steps] = field(default_factory=dict)
    ends: tuple[int, ...] | None = ()
    cut: bool = False


def read(lines: Iterable[str]) -> Script:
    """Read the lines; those that only explain are passed over."""
    script = Script()
    now = Told("")
    again: Again | None = None
    figure = Steps(1, 0)
    for line in lines:
        if m := re.match(
            r"(?:\d+ cords? folded(?: in half)? hangs? as )?(\d+) cords?.* side by", line
        ):
            script.count = int(m[1])
        elif m := re.fullmatch(r"(\d+)\. Mounting: (.*)", line):
            script.tails = script.count if m[2] == "rod pocket" else 0
            now = script.sections[int(m[1])] = Told("mount", "body", 1, script.count)
        elif m := re.fullmatch(r"(\d+)\. Work sections? ([\d–]+) again, (.*)", line):
            again = script.sections[int(m[1])] = _again(m[2], m[3])
        elif m := re.fullmatch(
            r"Rows? ([\d–]+): as rows? ([\d–]+)(?:, over cords ([\d–]+))?\.", line
        ):
            if again is not None:
                again.said.append((_span(m[1]), _span(m[2]), m[3] and _span(m[3])))
            else:
                now.rows[int(m[1])] = now.rows[int(m[2])]
        elif m := re.fullmatch(r"(\d+)\. (.+?)(?: “(.*)”)?, over (?:all )?(\w+) ([\d–]+)", line):
            layer = "tails" if m[4] in ("tail", "tails") else "body"
            now = Told(KINDS[m[2]] if m[3] is None else m[3], layer, *_span(m[5]))
            script.sections[int(m[1])], again = now, None
        elif m := re.fullmatch(r"Rows ([\d, …]+): as row (\d+)\.", line):
            now.rows |= dict.fromkeys(_listed(m[1]), now.rows[int(m[2])])
        elif m := re.fullmatch(r"Rows? ([\d–]+)(?:, each)?: .*\.", line):
            actions = tuple(_unstarred(line.split(": ", 1)[1][:-1]))
            first, last = _span(m[1])
            now.rows |= dict.fromkeys(range(first, last + 1), actions)
        elif m := re.fullmatch(r"(.*), worked on (\d+) cords?:", line):
            label = m[1][0].lower() + m[1][1:]
            part = re.search(r"\(places (\d+)–\d+\)", re.sub(r"“[^”]*”", "", label))
            figure = script.figures[label] = Steps(int(part[1]) if part else 1, int(m[2]))
        elif m := re.fullmatch(r"\(([\d–]+)\) Work steps? ([\d–]+) again, (.*), and .*", line):
            _repeat_steps(figure, _span(m[1]), _span(m[2]), _times(m[3]))
        elif m := re.fullmatch(r"\((\d+)\) (.*)\.", line):
            figure.steps.append((int(m[1]), m[2]))
        elif m := re.match(r"The first (\d+) rows? of the band", line):
            script.back = int(m[1])
        elif line.startswith("An overhand knot is tied in each end of this fringe"):
            now.knotted = True
        elif m := re.match(
            r"Tie an overhand knot in (?:every end|each of the ends ([\d–, ]+), counted .*) with "
            r"its lower edge (?:at the line|level with the string), then cut (?:all|their) tails ",
            line,
        ):
            assert not script.cut, "an end is cut before its knot is tied"
            script.ends = m[1] and tuple(_places(m[1]))
        elif re.match(r"Trim (every cord|all other cords) ", line):
            script.cut = True
    return script


def colours(lines: Iterable[str]) -> dict[str, str]:
    """Return the colour of each cord by its id, as the words tell it; of those they tell."""
    found: dict[str, str] = {}
    for line in lines:
        if m := re.fullmatch(
            r"Colours of the (\d+) (?:folded )?cords? from the left"
            r"(?: to the (middle|middle one))?: ([^.]*)\.(?: From .*)?",
            line,
        ):
            hung = [colour for run in _unstarred(m[3]) for colour in _run(run)]
            if m[2]:
                hung += hung[::-1][1 if m[2] == "middle one" else 0 :]
            assert len(hung) == int(m[1])
            found |= {f"M{i}": colour for i, colour in enumerate(hung, 1)}
        elif m := re.fullmatch(r"Colours of the other cords: (.*)\.", line):
            for told in m[1].split("; "):
                ids = re.match(r"(?:(?:, )?[MLW]\d+(?:–[MLW]\d+)?)+", told)
                assert ids, told
                found |= dict.fromkeys(_ids(ids[0]), told[ids.end() + 1 :])
    return found


def _run(text: str) -> Iterator[str]:
    """Yield the colours of `6 natural, 2 rust` one by one."""
    for run in text.removeprefix("then ").split(", "):
        count, _, colour = run.partition(" ")
        yield from [colour] * int(count)


def _ids(text: str) -> Iterator[str]:
    for span in text.split(", "):
        first, _, last = span.partition("–")
        for number in range(int(first[1:]), int((last or first)[1:]) + 1):
            yield f"{first[0]}{number}"


def _places(text: str) -> Iterator[int]:
    for span in text.split(", "):
        first, last = _span(span)
        yield from range(first, last + 1)


def _span(text: str) -> tuple[int, int]:
    first, _, last = text.partition("–")
    return int(first), int(last or first)


def _times(text: str) -> int:
    found = re.match(r"(once|\d+) more", text)
    assert found, text
    return 1 if found[1] == "once" else int(found[1])


def _listed(text: str) -> list[int]:
    """Read `3, 5, 7` or `3, 5, 7, … 39`."""
    shown = [int(number) for number in re.findall(r"\d+", text)]
    if "…" not in text:
        return shown
    return list(range(shown[0], shown[-1] + 1, shown[1] - shown[0]))


def _again(which: str, rest: str) -> Again:
    shift = re.search(r"(\d+) cords? further to the right", rest)
    return Again(*_span(which), _times(rest), int(shift[1]) if shift else 0)


def _repeat_steps(figure: Steps, said: tuple[int, int], which: tuple[int, int], times: int) -> None:
    like = [step for step in figure.steps if which[0] <= step[0] <= which[1]]
    by = said[0] - like[0][0]
    for time in range(1, times + 1):
        figure.steps += [(number + time * by, text) for number, text in like]
    assert figure.steps[-1][0] == said[1]


def _unstarred(text: str) -> Iterator[str]:
    """Yield a row's actions, those between a star and `repeat from *` as often as said."""
    starred: list[str] = []
    inside = False
    for action in re.split(r"; (?![^“]*”)", text):
        if action.startswith("repeat from * "):
            for _ in range(_times(action.removeprefix("repeat from * "))):
                yield from starred
            inside = False
            continue
        if action.startswith("* "):
            inside, starred = True, []
        action = action.removeprefix("* ")
        if inside:
            starred.append(action)
        yield action
