"""A start shape for any knot, from its own form: strands that bend are pulled, others are taut."""

from __future__ import annotations

import numpy as np

from knotplot.cord_use.solver.rope import Floats, Rod, Strand, System
from knotplot.cord_use.solver.solve import Start
from knotplot.cord_use.solver.starts import loosening, polyline, with_tails
from knotplot.errors import Refusal
from knotplot.knots import knot
from knotplot.knots.base import Manner

LEVEL = 1e-6  # in diameters: what keeps nearer to a line than this is straight


def alone(name: str, manner: Manner) -> Start:
    """Return a knot between straight ends, as its form has it.

    Strands that run straight through (fillers, a leader) are taken to be taut: rods. All others
    are pulled alike, their ends held above and below, free to move to the sides. Raises `Refusal`
    for a knot that can't be solved so: one with a wrap or on a rod, whose ends aren't led up and
    down, and one in which nothing bends.
    """
    made = knot(name).form(manner)
    if made.wrap is not None or made.rod is not None:
        problem = f"{name} has a wrap or hangs on a rod: its ends aren't led up and down"
        raise Refusal(problem, "give it an entry of its own in entries.py", value=name)
    curves = [*zip(knot(name).roles(manner), made.paths, strict=True)]
    if made.leader is not None:
        curves.append(("leader", made.leader))
    lines = [(role, polyline(curve)) for role, curve in curves]
    bent = [(role, line) for role, line in lines if not _straight(line)]
    if not bent:
        raise Refusal(f"no strand of {name} bends", "there is nothing to solve", value=name)
    scale = loosening([line for _, line in lines])
    rods = tuple(_rod(line * scale) for _, line in lines if _straight(line))
    pulled, half = with_tails([line * scale for _, line in bent])
    strands = (Strand(role, line) for (role, _), line in zip(bent, pulled, strict=True))
    return Start(System(tuple(strands), rods), 2.0 * half)


def _straight(line: Floats) -> bool:
    """Tell whether a line runs straight."""
    way = line[-1] - line[0]
    along = np.outer((line - line[0]) @ way, way) / (way @ way)
    return bool(np.abs(line - line[0] - along).max() < LEVEL)


def _rod(line: Floats) -> Rod:
    """Return a taut strand as a rod of a cord's thickness."""
    way = line[-1] - line[0]
    (x, y, z), (a, b, c) = line.mean(axis=0), way / np.linalg.norm(way)
    return Rod((float(x), float(y), float(z)), (float(a), float(b), float(c)), 0.5)
