"""Half hitches about a leader: single, double, triple; along it, or the worker round each strand.

One description with a parameter, the turns. The leader runs straight; the knotting strand comes
from behind it, goes up before it, and leaves behind it between its own turns (a clove hitch, for
two turns: the two ends lie under the part that crosses behind).
"""

from __future__ import annotations

from knotplot.curves.space import Point3, SpaceCurve, line, mapped, smooth
from knotplot.knots.base import WHOLE, CordUse, Difficulty, Form, Knot, KnotWords, Manner, Stage
from knotplot.knots.shapes import led, moved, softened
from knotplot.knots.sizes import SOFTNESS
from knotplot.knots.solved import at_size, excess

ALONG = 2.5  # of the leader a double hitch takes when tied by hand (solved 2.91)
LEAST_ALONG = 2.0  # two turns that touch
_APART = 2.86  # from bar to bar of bars close below each other, solved (double_half_hitch/rows)
# From port to port of the knotting strand, across the leader. Nobody's measurement of a row of
# hitches was found, so that it is, like the height of all other knots, as much less than solved as
# cord gives: it decides how many bars fill a drop.
ACROSS = 2.5  # _APART · SOFTNESS
BEHIND = 0.35  # from the middle to where the ends pass behind the leader
LOOSE_PITCH = 3.0  # from turn to turn while it is tied
_LOOSE_BEHIND = {1: 1.3, 2: 0.5, 3: 1.5}  # as BEHIND, so that the ends show between the turns

_NAMES = {1: "half_hitch", 2: "double_half_hitch", 3: "triple_half_hitch"}
_WORDS = {1: "half hitch", 2: "double half hitch", 3: "triple half hitch"}


class Hitch(Knot):
    """Half hitches of one strand about another, or about a separate leader."""

    least = 1
    most = 2

    def __init__(self, turns: int, vertical: bool) -> None:
        self.turns = turns
        self.vertical = vertical
        self._solved = _NAMES[turns]
        self.name = ("vertical_" if vertical else "") + _NAMES[turns]
        self.minutes = 0.15 * turns
        self.difficulty = Difficulty.EASY if turns == 1 else Difficulty.SOME
        one = ("vertical " if vertical else "") + _WORDS[turns]
        self.words = {"en": KnotWords(one, one + "es", _FAULT)}

    def roles(self, manner: Manner) -> tuple[str, ...]:
        """Return each strand's role, left to right."""
        if manner.leader == -1:
            return ("knotting",)
        return ("leader", "knotting") if manner.leader == 0 else ("knotting", "leader")

    def form(self, manner: Manner) -> Form:
        """Return the curves of its strands."""
        return self._made(manner, self._frame(manner, loose=False))

    def tight_form(self, manner: Manner) -> Form:
        """Return how it looks pulled tight: double ones on a cord, as solved in a bar."""
        leader, knotter = self._frame(manner, loose=False)
        if self.turns == 2 and manner.rod == 1.0:
            (body,) = softened(f"{self._solved}/bar held")
            knotter = led(moved(body, _drawn_in), knotter)
        return self._made(manner, (leader, knotter))

    def _made(self, manner: Manner, frame: tuple[SpaceCurve, SpaceCurve]) -> Form:
        """Return the form that has leader and knotting strand so, the leader along x."""
        # A leader on the right leads to the left; a vertical hitch's worker goes right of it.
        sign = -1.0 if (manner.leader == 1) != self.vertical else 1.0
        cos, sin = manner.cos, manner.sin

        def place(x: float, y: float, z: float) -> Point3:
            """Put the frame's x along the leader, mirrored for one that leads to the left."""
            return (sign * (cos * x - sin * y), sin * x + cos * y, z)

        def upright(x: float, y: float, z: float) -> Point3:
            """Turn the frame so that the leader hangs and the worker passes to its side."""
            return (sign * y, x, z)

        move = upright if self.vertical else place
        lead, knot = (mapped(curve, move) for curve in frame)
        across = _across(manner.rod)
        height = 2.0 * manner.reach if self.vertical else across * cos + 2.0 * manner.reach * sin
        half_width = 0.5 + max(manner.reach * cos, 0.5 * ACROSS)
        if manner.leader == -1:
            if manner.rod == 1.0:
                return Form((knot,), height, half_width, leader=lead)
            return Form((knot,), height, half_width, rod=lead)
        if self.vertical:
            # The worker is the strand that moves: it knots, and the one it passes is the leader.
            paths = (knot, lead) if manner.leader == 1 else (lead, knot)
            return Form(paths, height, half_width)
        return Form((lead, knot) if manner.leader == 0 else (knot, lead), height, half_width)

    def _frame(self, manner: Manner, loose: bool) -> tuple[SpaceCurve, SpaceCurve]:
        """Return leader and knotting strand with the leader along x."""
        pitch, behind, lean, reach, wide = 1.02, BEHIND, 0.1, manner.reach, girth(manner.rod)
        bulge, edge = 0.82 * wide, 0.5 * _across(manner.rod)
        if loose:
            pitch, behind, lean = LOOSE_PITCH, _LOOSE_BEHIND[self.turns], 0.25
            bulge, edge, reach = wide + 0.7, wide + 2.0, reach + LOOSE_PITCH
        bars = [(i - (self.turns - 1) / 2.0) * pitch for i in range(self.turns)]
        points: list[Point3] = [(0.0, -edge, 0.0), (-behind, 0.0, -wide)]
        for i, x in enumerate(bars):
            points += [(x - lean, bulge, 0.0), (x, 0.0, wide), (x + lean, -bulge, 0.0)]
            if i + 1 < self.turns:
                points.append((x + 0.49 * pitch, 0.0, -1.9 * wide))
        points += [(behind, 0.0, -wide), (0.0, edge, 0.0)]
        down = (0.0, 1.0, 0.0)
        return line((-reach, 0.0, 0.0), (reach, 0.0, 0.0)), smooth(points, down, down)

    def stages(self, manner: Manner) -> tuple[Stage, ...]:
        """Return the stages in which it is tied: the leader laid, a stage a turn, pulled tight."""
        roles = self.roles(manner)
        knotter = roles.index("knotting")
        rod = manner.leader == -1 and manner.rod != 1.0
        leader = roles.index("leader") if "leader" in roles else len(roles)
        held = () if rod else (leader,)
        ahead = -1.0 if (manner.leader == 1) != self.vertical else 1.0

        def laid(far: float) -> tuple[float, ...]:
            return tuple(far if i == knotter else WHOLE for i in range(len(roles)))

        if self.vertical:
            first = Stage((knotter,), laid(1.4), ((ahead, 0.25),), (leader,))
        elif rod:
            first = Stage((knotter,), laid(1.2), ((0.0, 1.0),))
        else:
            first = Stage((leader,), laid(1.2), ((ahead * manner.cos, manner.sin),))
        out = (ahead, 0.25) if self.vertical else (0.25 * ahead, 1.0)
        far = [*(5.5 + 4 * i for i in range(self.turns - 1)), WHOLE]
        turns = [Stage((knotter,), laid(each), (out,), held) for each in far]
        tight = Stage((knotter,), (), (out,), held, tight=True)
        return (first, *turns, tight)

    def shape(self, manner: Manner, stage: int) -> Form:
        """Return its curves as they lie after a stage."""
        if drawn := self.drawn_up(manner, stage):
            return drawn
        return self._made(
            manner._replace(reach=manner.reach + LOOSE_PITCH), self._frame(manner, loose=True)
        )

    def cord(self, manner: Manner) -> CordUse:
        """Return the knotting strand round a taut leader, and the leader from port to port."""
        # A bar lies in the hollows of the next; on a rod there is none, and a cord on both sides.
        solved = _APART * manner.cos if manner.rod == 1.0 else manner.rod + 2.0
        usual = _across(manner.rod)
        way = {"knotting": usual * manner.tall, "leader": 2.0 * manner.reach}
        return CordUse(way, {"knotting": self._excess(manner) + solved - usual})

    def _excess(self, manner: Manner) -> float:
        """Return the solved excess; on rods and slopes double hitches were, others go like them."""
        if manner.rod == 1.0:
            level = excess(f"{self._solved}/bar", "knotting")
            falling = excess("double_half_hitch/45 falling", "knotting")
            lean = falling - excess("double_half_hitch/bar", "knotting")
            return level + self.turns * manner.sin**2 * lean  # twice sin² is 1 at 45°
        thick = at_size("double_half_hitch/on *", "knotting", manner.rod)
        wider = thick - excess("double_half_hitch/alone", "knotting")
        return excess(f"{self._solved}/alone", "knotting") + 0.5 * self.turns * wider


def _drawn_in(at: Point3) -> Point3:
    """Return where a joint of a solved double hitch is drawn: behind, nearer to its middle.

    There its turns run on just behind themselves; so they don't look out beside their own fronts.
    """
    x, y, z = at
    return (x * (1.0 - 0.22 * min(max((-0.3 - z) / 0.8, 0.0), 1.0)), y, z)


def _across(rod: float) -> float:
    """Return how high a level hitch is on a leader (1) or a rod of that diameter, tied by hand.

    A rod doesn't give, but the cord above and below it does.
    """
    return ACROSS if rod == 1.0 else rod + 2.0 * SOFTNESS


def girth(rod: float) -> float:
    """Return how much wider a turn is round a rod of that diameter than round an equal cord."""
    return (rod + 1.0) / 2.0


_FAULT = (
    "If a bar of hitches leans or gapes, the leader was not held straight, or a turn is missing."
)

KNOTS = tuple(Hitch(turns, vertical) for vertical in (False, True) for turns in (1, 2, 3))
