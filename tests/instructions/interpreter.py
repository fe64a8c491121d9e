"""A maker who has nothing but the printed words: reads them line by line and ties the piece.

It shares no code with the package: an own little grammar of the sentences (`grammar.py`), own lists
of strands for body and tails, and own rules for what each knot does to its strands (contract, 4).
`execute(lines)` returns the rows it tied, to be compared with the record.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from instructions.grammar import Actions, Again, Script, Span, Steps, Told, read

KNOTS = {
    "square knot": "square_knot",
    "half knot": "half_knot",
    "overhand knot": "overhand",
    "gathering knot": "gathering_knot",
    "lark's head": "larks_head",
    "reverse lark's head": "reverse_larks_head",
    "half hitch": "half_hitch",
    "double half hitch": "double_half_hitch",
    "triple half hitch": "triple_half_hitch",
    "vertical half hitch": "vertical_half_hitch",
    "vertical double half hitch": "vertical_double_half_hitch",
    "vertical triple half hitch": "vertical_triple_half_hitch",
    "crown knot": "crown_knot",
    "switched square knot": "switched_square_knot",
    "josephine knot": "josephine_knot",
    "berry knot": "berry_knot",
    "half hitch chain link": "half_hitch_chain",
    "vertical lark's head": "vertical_larks_head",
}
# Who works, of so many cords, and where each hangs afterwards: of knots that aren't flat.
ALL_WORK = ("crown_knot", "josephine_knot", "half_hitch_chain", "overhand")
MOVED = {"crown_knot": (2, 3, 0, 1), "switched_square_knot": (1, 0, 3, 2)}


class Tied(NamedTuple):
    """One tie as the words have it (a tie of the record without its x and y)."""

    knot: str
    facing: str | None
    lanes: tuple[int, ...]
    strands: tuple[int, ...]
    roles: tuple[str, ...]
    leader: int | str | None
    layers: tuple[str, ...]
    params: dict[str, str | float]
    step: int | None


class TiedRow(NamedTuple):
    """One row as the words have it."""

    number: int
    section: str
    layer: str
    ties: tuple[Tied, ...]
    order_after: tuple[int, ...]


def _roles(name: str, facing: str | None, cords: int, workers: int) -> tuple[str, ...]:
    """Return who works and who is a filler of a knot on so many cords."""
    if name in ALL_WORK:
        return ("working",) * cords
    if name == "switched_square_knot":
        return ("filler", "working", "working", "filler")
    if name == "vertical_larks_head":
        still = ("filler",) * (cords - 1)
        return ("working", *still) if facing == "left" else (*still, "working")
    still = ("filler",) * (cords - 2 * workers)
    return ("working",) * workers + still + ("working",) * workers


def execute(lines: Iterable[str]) -> list[TiedRow]:
    """Work a piece from its printed lines."""
    return Maker(read(lines)).work()


def knotted_ends(lines: Iterable[str]) -> set[int]:
    """Work a piece from its printed lines and return the strands that end in a knot.

    What is said of a fringe and what is said at the end must be the same ends.
    """
    maker = Maker(read(lines))
    maker.work()
    body, places = maker.hanging["body"], maker.script.ends
    found = set(body) if places is None else {body[place - 1] for place in places}
    assert found == maker.knotted
    return found


class Maker:
    """Ties what was read, strand by strand."""

    def __init__(self, script: Script) -> None:
        self.script = script
        count = script.count
        self.hanging = {
            "body": list(range(1, count + 1)),
            "tails": list(range(count + 1, 2 * count + 1)),
        }
        self.rows: list[TiedRow] = []
        self.ties: list[Tied] = []
        self.knotted: set[int] = set()  # strands of fringes in whose ends knots are tied
        self.used = {"L": 0, "W": 0}
        self.next = count + script.tails + 1  # the first strand of the next cord that is added

    def work(self) -> list[TiedRow]:
        """Work every section in its order and return the rows."""
        spans: dict[int, Span] = {}  # the rows of each section, the first after the last for none
        for number, section in self.script.sections.items():
            before = len(self.rows)
            if isinstance(section, Told):
                for row in self._section(section, 0):
                    assert row == len(self.rows)
            else:
                like = (spans[section.first][0], spans[section.last][1])
                for time in range(1, section.times + 1):
                    self._once_more(section, time, like)
            spans[number] = (before + 1, len(self.rows))
        return self.rows

    def _once_more(self, again: Again, time: int, like: Span) -> None:
        before = len(self.rows)
        for row in self._copy(again, time, 0):
            assert row
        if len(self.rows) > before:
            rows, said_like, cords = again.said[time - 1]
            assert (rows, said_like) == ((before + 1, len(self.rows)), like)
            lanes = [told.first for told in self._told(again)]
            assert cords is None or cords[0] == min(lanes) + time * again.shift

    def _told(self, section: Told | Again) -> Iterator[Told]:
        if isinstance(section, Told):
            yield section
            return
        for number in range(section.first, section.last + 1):
            yield from self._told(self.script.sections[number])

    def _copy(self, again: Again, time: int, shift: int) -> Iterator[int]:
        """Work the sections once more, and say each row."""
        for number in range(again.first, again.last + 1):
            section, by = self.script.sections[number], shift + time * again.shift
            if isinstance(section, Told):
                yield from self._section(section, by)
            else:
                for inner in range(1, section.times + 1):
                    yield from self._copy(section, inner, by)

    def _section(self, told: Told, shift: int) -> Iterator[int]:
        self.more = 0  # strands of this section by now, over those it began with
        if told.knotted:
            first, last = told.first + shift, told.last + shift
            self.knotted |= set(self.hanging[told.layer][first - 1 : last])
        for number in sorted(told.rows):
            self._row(told, shift, told.rows[number])
            yield number

    def _row(self, told: Told, shift: int, actions: Actions) -> None:
        self.ties = []
        at = told.first + shift
        before = len(self.hanging[told.layer])
        for action in actions:
            at = self._act(action, at, told.layer)
        self.more += len(self.hanging[told.layer]) - before
        assert at == told.last + shift + 1 + self.more, (told, actions)
        number = len(self.rows) + 1
        layer = "back" if number <= self.script.back else told.layer
        ties = tuple(
            tie._replace(layers=("back",)) if layer == "back" else tie for tie in self.ties
        )
        order = tuple(self.hanging[told.layer])
        self.rows.append(TiedRow(number, told.label, layer, ties, order))

    def _act(self, action: str, at: int, layer: str) -> int:
        """Do one action from cord `at` on; return the cord after it."""
        if m := re.fullmatch(r"leave (\d+) cords? hanging", action):
            return at + int(m[1])
        if re.fullmatch(r"leave .* of cord bare", action):
            return at
        if m := re.fullmatch(
            r"(.*) on the next (\d+) cords?(?:, of which (\d+) then hang)?", action
        ):
            before = len(self.hanging["body"])
            self._on(m[1], at, int(m[2]))
            after = int(m[2]) + len(self.hanging["body"]) - before
            assert after == int(m[3] or m[2])
            return at + after
        if m := re.fullmatch(
            r"(.*) facing (\w+) with the next \d+ tails over .* (\d+) c.*", action
        ):
            self._join(KNOTS[m[1].lower()], m[2], at, int(m[3]))
            return at + int(m[3])
        if m := re.fullmatch(r"(.*) with the next( folded)? cord", action):
            lanes = range(at, at + (2 if m[2] else 1))
            role = "mount" if m[2] else "knotting"
            self._tie(KNOTS[m[1].lower()], None, lanes, (role,) * len(lanes))
            return lanes[-1] + 1
        if m := re.fullmatch(
            r"(.*?) (?:each of )?the next(?: (\d+))? \w+ onto leader (L\d+)", action
        ):
            hitched = range(at, at + int(m[2] or 1))
            if self.ties == []:
                self._new("L")
            for lane in hitched:
                leader = f"L{self.used['L']}"
                self._tie(KNOTS[m[1].lower()], None, [lane], ("knotting",), leader, layer=layer)
            return hitched[-1] + 1
        if m := re.fullmatch(
            r"(.*) round the next (\d+) cords?, with wrapping cord (W\d+), .*", action
        ):
            self._new("W")
            lanes = range(at, at + int(m[2]))
            cord = {"cord": f"W{self.used['W']}"}
            self._tie(KNOTS[m[1].lower()], None, lanes, ("filler",) * len(lanes), params=cord)
            return lanes[-1] + 1
        raise AssertionError(f"can't read: {action}")

    def _new(self, sort: str) -> None:
        """Take a new leader (L) or wrapping cord (W): they are numbered as they come."""
        self.used[sort] += 1

    # --- knots -------------------------------------------------------------------------------

    def _on(self, what: str, at: int, cords: int) -> None:
        """Tie a knot, or work a motif, on the next cords."""
        if "motif “" in what:
            self._motif(self.script.figures[what], at, cords)
            return
        self._knot(what, range(at, at + cords), None)

    def _knot(
        self, said: str, lanes: Iterable[int], step: int | None, picot: float | None = None
    ) -> None:
        m = re.fullmatch(r"(.*?)(?: facing (\w+))?(?:, (2) working cords a side,)?", said)
        assert m
        lanes = list(lanes)
        name, workers = KNOTS[m[1].lower()], int(m[3] or 1)
        roles = _roles(name, m[2], len(lanes), workers)
        params = None if picot is None else {"picot_mm": picot}
        self._tie(name, m[2], lanes, roles, step=step, params=params)
        body = self.hanging["body"]
        hung = [body[lane - 1] for lane in lanes]
        if name == "half_knot":
            moved = hung[len(hung) - workers :] + hung[workers : len(hung) - workers]
            moved += hung[:workers]
        else:
            moved = [hung[k] for k in MOVED.get(name, range(len(hung)))]
        for lane, strand in zip(lanes, moved, strict=True):
            body[lane - 1] = strand

    def _join(self, name: str, facing: str, at: int, cords: int) -> None:
        lanes = tuple(range(at, at + cords))
        strands = tuple(
            self.hanging[layer][lane - 1] for layer in ("tails", "body") for lane in lanes
        )
        roles = ("working", *("filler",) * (cords - 2), "working", *("filler",) * cords)
        layers = ("tails", "body")
        self.ties.append(Tied(name, facing, lanes * 2, strands, roles, None, layers, {}, None))

    def _tie(
        self,
        name: str,
        facing: str | None,
        lanes: Iterable[int],
        roles: tuple[str, ...],
        leader: int | str | None = None,
        *,
        layer: str = "body",
        params: Mapping[str, str | float] | None = None,
        step: int | None = None,
    ) -> None:
        at = tuple(lanes)
        strands = tuple(self.hanging[layer][lane - 1] for lane in at)
        told = dict(params or {})
        tie = Tied(name, facing, at, strands, roles, leader, (layer,), told, step)
        self.ties.append(tie)

    # --- motifs ------------------------------------------------------------------------------

    def _motif(self, figure: Steps, at: int, cords: int) -> None:
        assert figure.cords == cords
        left = at - figure.place  # a place of the motif lies so many lanes further right
        for number, text in figure.steps:
            self._step(number, text[0].lower() + text[1:], left)

    def _step(self, number: int, text: str, left: int) -> None:
        if m := re.fullmatch(r"cross the cord in place (\d+) over the cord in place (\d+)", text):
            self._swap(left + int(m[1]), left + int(m[2]))
        elif re.fullmatch(r"leave .* of every cord bare before the next step", text):
            pass
        elif m := re.fullmatch(
            r"the cord in place (\d+) (leads|works) to the (\w+), to place (\d+): (.*)", text
        ):
            start, to = int(m[1]), int(m[4])
            assert m[3] == ("right" if to > start else "left")
            name = next(n for n in sorted(KNOTS, key=len, reverse=True) if n in m[5])
            times = re.search(r"work this (\d+) times in all", m[5])
            said = re.search(r"the (\d+) cords it passes", m[5])
            assert int(said[1] if said else 1) == abs(to - start)
            for _ in range(int(times[1]) if times else 1):
                self._bar(KNOTS[name], left + start, left + to, m[2] == "works", number)
        elif text.startswith("loop "):
            self._add(text, left, number)
        elif m := re.match(r"end the cords? in places? ([\d, and]+), ", text):
            gone = {left + int(place) - 1 for place in re.findall(r"\d+", m[1])}
            body = self.hanging["body"]
            body[:] = [strand for lane, strand in enumerate(body) if lane not in gone]
        elif m := re.fullmatch(r"(.*) on places (\d+)–(\d+)(.*)", text):
            picot = re.search(r"leave a picot of ([\d.]+) cm", m[4])
            lanes = range(left + int(m[2]), left + int(m[3]) + 1)
            self._knot(m[1], lanes, number, float(picot[1]) * 10.0 if picot else None)
        elif m := re.fullmatch(r"(.*) in place (\d+)", text):
            self._knot(m[1], [left + int(m[2])], number)
        else:
            raise AssertionError(f"can't read: {text}")

    def _add(self, text: str, left: int, step: int) -> None:
        """Loop new cords onto a strand, left to right; their ends hang in the places said."""
        m = re.fullmatch(
            r"loop (\w+) new cords?, .* by (?:a )?lark's heads? onto the cord in place (\d+)"
            r"(?:, .*)?: .* hang to the (\w+) of it, in places (\d+)–(\d+)(?:; .* in place (\d+))?",
            text,
        )
        assert m, text
        cords, place, first = 1 if m[1] == "a" else int(m[1]), int(m[2]), int(m[4])
        body = self.hanging["body"]
        leader = body[left + place - 1]
        new = range(self.next, self.next + 2 * cords)
        for strand in new[::2]:
            pair = (strand, strand + 1)
            self.ties.append(
                Tied("larks_head", None, (left + place,), pair, ("mount", "mount"), leader,
                     ("body",), {}, step)
            )  # fmt: skip
        self.next += 2 * cords
        body[left + first - 1 : left + first - 1] = new
        now = int(m[6]) if m[6] else place
        assert m[3] == ("left" if now > place else "right")
        assert int(m[5]) - first + 1 == 2 * cords
        assert body[left + now - 1] == leader

    def _bar(self, name: str, start: int, to: int, works: bool, step: int) -> None:
        """Hitch from lane to lane: the cord that travels leads; in vertical hitches it knots."""
        way = 1 if to > start else -1
        for lane in range(start, to, way):
            low = min(lane, lane + way)
            travels, passed = (self.hanging["body"][x - 1] for x in (lane, lane + way))
            leader = passed if works else travels
            first = "leader" if self.hanging["body"][low - 1] == leader else "knotting"
            roles = ("leader", "knotting") if first == "leader" else ("knotting", "leader")
            self._tie(name, None, (low, low + 1), roles, leader, step=step)
            self._swap(lane, lane + way)

    def _swap(self, a: int, b: int) -> None:
        body = self.hanging["body"]
        body[a - 1], body[b - 1] = body[b - 1], body[a - 1]
