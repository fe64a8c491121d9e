"""What a diagram tells of its knot or link: invariants, by a library and by exact arithmetic.

Signature and Alexander polynomial come from spherogram's Seifert matrix V, in the convention in
which the right-handed trefoil has signature -2. Matching is necessary, not sufficient; two answers
are proofs: `is_unknot` and `is_trefoil` (knot Floer homology tells these from all other knots,
Ozsvath and Szabo 2004, Ghiggini 2008), and `is_unlink` (a free group, by Dehn's lemma).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from diagrams import Code, Diagram, Loop, diagrams
from snappy import Link  # spherogram's, with exteriors
from spherogram.links.seifert import seifert_matrix

PRIME = 2**61 - 1


class Identity(NamedTuple):
    """What the invariants say.

    `linking` lists the linking numbers of pairs of loops, sorted; `alexander` the coefficients of
    det(V - t Vᵀ) from the lowest power, up to units (empty for 0).
    """

    loops: int
    linking: tuple[int, ...]
    determinant: int
    signature: int
    alexander: tuple[int, ...]


def identity(loops: Sequence[Loop]) -> Identity:
    """Return the invariants of closed polylines, seen from two generic directions that agree."""
    first, second = (_measured(diagram) for diagram in diagrams(loops))
    assert first == second, "two directions disagree: the curves run into each other"
    return first


def linking(loops: Sequence[Loop]) -> tuple[tuple[int, ...], ...]:
    """Return the linking number of every two loops."""
    first, second = diagrams(loops)
    assert first.linking == second.linking
    return first.linking


def of_code(code: Code) -> Identity:
    """Return the invariants of a knot from its planar diagram."""
    return _measured(Diagram(code, 1, ((0,),), 0))


def is_unknot(loop: Loop) -> bool:
    """Return whether a loop is no knot: its genus is 0."""
    return _floer(diagrams([loop])[0])[0] == 0


def is_trefoil(loop: Loop) -> bool:
    """Return whether a loop is a trefoil, of either hand: genus 1, rank 3, fibred."""
    return _floer(diagrams([loop])[0]) == (1, 3, True)


def is_unlink(loops: Sequence[Loop]) -> bool:
    """Return whether loops are unknots apart from one another: the group of the rest is free."""
    seen = diagrams(loops)[0]
    if not seen.code:
        return True
    link = Link([list(crossing) for crossing in seen.code])
    rest = link.exterior()
    for _ in range(10):  # a presentation that isn't shortest says nothing: try another
        group = rest.fundamental_group()
        if not group.relators():
            return bool(group.num_generators() == seen.loops - seen.free)
        rest.randomize()
    return False


@cache
def _floer(seen: Diagram) -> tuple[int, int, bool]:
    """Return genus, total rank and fibredness of a knot."""
    assert seen.loops == 1
    link = Link([list(crossing) for crossing in seen.code])
    link.simplify("basic")
    if not link.crossings:
        return (0, 1, True)
    floer = link.knot_floer_homology()
    return (floer["seifert_genus"], floer["total_rank"], floer["fibered"])


@cache
def _measured(seen: Diagram) -> Identity:
    pairs = sorted(seen.linking[i][j] for i in range(seen.loops) for j in range(i))
    link = Link([list(crossing) for crossing in seen.code])
    link.simplify("basic")  # first and second Reidemeister moves
    forms = [seifert_matrix(piece) for piece in link.split_link_diagram()] if link.crossings else []
    squares = [signs([[v[i][j] + v[j][i] for j in range(len(v))] for i in range(len(v))])
               for v in forms]  # fmt: skip
    # spherogram's matrix has the other sign: positive squares for positive crossings.
    signature = sum(minus - plus for plus, minus in squares)
    apart = len(forms) + seen.free + link.unlinked_unknot_components
    if apart > 1:  # a surface of one piece, by tubes, has a form with determinant 0
        return Identity(seen.loops, tuple(pairs), 0, signature, ())
    if not forms:
        return Identity(1, (), 1, 0, (1,))
    powers = alexander(forms[0])
    determinant = abs(sum(c * (-1) ** k for k, c in enumerate(powers)))
    return Identity(seen.loops, tuple(pairs), determinant, signature, powers)


def signs(matrix: Sequence[Sequence[int]]) -> tuple[int, int]:
    """Return how many squares of either sign the symmetric form has (Sylvester's law), exactly."""
    m = [[Fraction(value) for value in row] for row in matrix]
    plus = minus = 0
    while m:
        n = len(m)
        k = next((i for i in range(n) if m[i][i]), None)
        if k is None:
            pair = next(((i, j) for i in range(n) for j in range(i) if m[i][j]), None)
            if pair is None:
                break
            k, j = pair
            m[k] = [a + b for a, b in zip(m[k], m[j], strict=True)]
            for row in m:
                row[k] += row[j]
        pivot = m[k]
        plus, minus = (plus + 1, minus) if pivot[k] > 0 else (plus, minus + 1)
        rest = [i for i in range(n) if i != k]
        m = [[m[i][j] - m[i][k] * pivot[j] / pivot[k] if m[i][k] else m[i][j] for j in rest]
             for i in rest]  # fmt: skip
    return plus, minus


def determinant_mod(matrix: Sequence[Sequence[int]]) -> int:
    """Return the determinant, which must lie below 10^18, by elimination modulo a prime."""
    m = [[value % PRIME for value in row] for row in matrix]
    det = 1
    for k in range(len(m)):
        at = next((i for i in range(k, len(m)) if m[i][k]), None)
        if at is None:
            return 0
        if at != k:
            m[k], m[at], det = m[at], m[k], -det
        det = det * m[k][k] % PRIME
        inverse = pow(m[k][k], -1, PRIME)
        for row in m[k + 1 :]:
            if row[k]:
                by = row[k] * inverse % PRIME
                for j in range(k, len(m)):
                    row[j] = (row[j] - by * m[k][j]) % PRIME
    return det - PRIME if det > PRIME // 2 else det


def alexander(v: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """Return det(V - t Vᵀ) from its lowest power, the first coefficient positive."""
    n = len(v)
    values = [
        determinant_mod([[v[i][j] - t * v[j][i] for j in range(n)] for i in range(n)])
        for t in range(n + 1)
    ]
    powers = _interpolated(values)
    while powers and not powers[-1]:
        powers.pop()
    while powers and not powers[0]:
        powers.pop(0)
    return tuple(-c for c in powers) if powers and powers[0] < 0 else tuple(powers)


def _interpolated(values: Sequence[int]) -> list[int]:
    """Return the coefficients of the polynomial with those values at 0, 1, 2, … (Newton)."""
    n = len(values)
    steps = list(values)
    for k in range(1, n):
        for i in range(n - 1, k - 1, -1):
            steps[i] = (steps[i] - steps[i - 1]) * pow(k, -1, PRIME) % PRIME
    powers = [0] * n
    for k in range(n - 1, -1, -1):
        powers = [
            ((powers[i - 1] if i else 0) - k * powers[i] + (steps[k] if i == 0 else 0)) % PRIME
            for i in range(n)
        ]
    return [c - PRIME if c > PRIME // 2 else c for c in powers]
