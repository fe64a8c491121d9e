"""The table: every entry solved and written as data beside the knots, in one command."""

from __future__ import annotations

import json
import math
import subprocess
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np

from knotplot.cord_use.solver.centre_lines import DRAWN, centre_lines
from knotplot.cord_use.solver.entries import Entry, entries
from knotplot.cord_use.solver.own import alone
from knotplot.cord_use.solver.solve import FINER, TRIES, Solved, solve
from knotplot.knots import catalogue, knot
from knotplot.knots.usual import usual_manner

HERE = Path(__file__).parent
QUICK = (0.18, 0)  # edges in diameters, perturbed shapes: of a quick look
TABLE = HERE.parent.parent / "knots" / "solved.json"
SHAPES = TABLE.with_name("shapes.json")


def wanted(names: Sequence[str]) -> list[Entry]:
    """Return the entries of those names, or of the knots of those names; all, if none is given.

    A knot of the catalogue that has no entry is solved from its own form, in its usual manner, as
    the entry NAME/STRANDS, which `Knot.cord` looks up. Raises `Refusal` for any other name.
    """
    known = entries()
    found = [] if names else list(known)
    for name in names:
        mine = [each for each in known if each.name == name or each.name.startswith(f"{name}/")]
        found += mine or [_own(name)]
    return found


def _own(name: str) -> Entry:
    """Return the entry of a knot that has none, or one solved so before."""
    asked = knot(name.split("/")[0])
    manner = usual_manner(asked)
    alone(asked.name, manner)  # refused here, if it can't be solved so
    about = f"{asked.name} on {manner.strands} strands, from its own form"
    return Entry(f"{asked.name}/{manner.strands}", about, partial(alone, asked.name, manner))


def solved(
    name: str, finer: float = FINER, tries: int = TRIES
) -> tuple[str, dict[str, Any], dict[str, Any] | None]:
    """Solve one entry: its name, it as it stands in the table, and its shape if that is drawn.

    Numbers are in cord diameters.
    """
    (entry,) = (each for each in wanted([name]) if each.name == name)
    found = solve(entry.start(), finer, tries)
    shape = None
    if name in DRAWN:
        strands, off = centre_lines(found.tight.system)
        shape = {"off": float(f"{off:.2g}"), "strands": strands}
    return name, {"about": entry.about, **_record(found)}, shape


def _record(found: Solved) -> dict[str, Any]:
    measures = {
        "pitch": found.pitch,
        "turn_degrees": None if found.turn is None else math.degrees(found.turn),
        "spacing": found.spacing,
    }
    errors = {
        "spacing_error": found.spacing_error,
        "perturbed": found.perturbed,
        "overlap": found.overlap,
        "split": found.split,
    }
    return {
        "excess": {role: round(value, 4) for role, value in found.excess.items()},
        **{key: round(value, 4) for key, value in measures.items() if value is not None},
        "width": round(found.width, 3),
        "depth": round(found.depth, 3),
        **{key: float(f"{value:.2g}") for key, value in errors.items()},
        "converged": found.converged,
        "solver": commit(),
    }


def commit() -> str:
    """Return the last commit that changed the solver, or "" outside a repository."""
    ask = ["git", "log", "-1", "--format=%h", "--", str(HERE)]
    done = subprocess.run(ask, cwd=HERE, capture_output=True, text=True, check=False)
    return done.stdout.strip()


# Over which sizes a closed form is fitted, a + b·size^power, and to what: fillers, rod diameters.
FITS = (
    ("half_knot/*/row", "working", 1.0),
    ("half_knot/*/bundle", "working", 0.5),
    ("square_knot/*/row", "working", 1.0),
    ("square_knot/*/bundle", "working", 0.5),
    ("half_knot/*/row", "width", 1.0),
    ("half_knot/*/bundle", "width", 0.5),
    ("square_knot/*/row", "width", 1.0),
    ("square_knot/*/bundle", "width", 0.5),
    ("double_half_hitch/on *", "knotting", 1.0),
    ("larks_head/on *", "mount", 1.0),
    ("wrap/on *", "wrap", 1.0),
)


def fits(table: Mapping[str, Any]) -> dict[str, dict[str, float]]:
    """Return the closed forms by least squares, each with its largest residual in diameters."""
    made = {}
    for pattern, what, power in FITS:
        before, after = pattern.split("*")
        points = [
            (float(name[len(before) : len(name) - len(after)]), _value(entry, what))
            for name, entry in table.items()
            if name.startswith(before) and name.endswith(after)
        ]
        if len(points) < 2:
            continue
        sizes, values = np.array(points).T
        sides = np.column_stack([np.ones(len(sizes)), sizes**power])
        (a, b), *_ = np.linalg.lstsq(sides, values)
        off = float(np.abs(sides @ np.array([a, b]) - values).max())
        made[f"{pattern} {what}"] = {
            "a": round(float(a), 4), "b": round(float(b), 4), "power": power,
            "residual": float(f"{off:.2g}"),
        }  # fmt: skip
    return made


def _value(entry: Mapping[str, Any], what: str) -> float:
    return float(entry[what] if what in entry else entry["excess"][what])


def make(
    names: Sequence[str], told: Callable[[str], None], quick: bool = False, processes: int = 2
) -> None:
    """Solve the entries that are `wanted` and write them into the table.

    The shapes that are drawn are written beside it. `told` hears of each entry as it is done. A
    `quick` look is coarse, and isn't written.
    """
    asked = [entry.name for entry in wanted(names)]
    how = QUICK if quick else (FINER, TRIES)
    old: dict[str, Any] = json.loads(TABLE.read_text())["entries"] if TABLE.exists() else {}
    shapes: dict[str, Any] = json.loads(SHAPES.read_text()) if SHAPES.exists() else {}
    with ProcessPoolExecutor(processes) as pool:
        for done in as_completed([pool.submit(solved, name, *how) for name in asked]):
            name, record, shape = done.result()
            told(f"{name} {record['excess']} {_trust(record, quick)}")
            if not quick:
                old[name] = record
                TABLE.write_text(_text(_kept(old)))
                if shape is not None:
                    shapes[name] = shape
                    drawn = {key: shapes[key] for key in DRAWN if key in shapes}
                    SHAPES.write_text(f"{{\n{_lines(drawn)}\n}}\n")


def _kept(table: Mapping[str, Any]) -> dict[str, Any]:
    """Return the entries there are, in their order, then knots solved from their own form.

    What an entry is in words is what its code says now.
    """
    order = {entry.name: i for i, entry in enumerate(entries())}
    about = {entry.name: entry.about for entry in entries()}
    kept = [key for key in table if key in order or key.split("/")[0] in catalogue()]
    kept.sort(key=lambda key: (order.get(key, len(order)), key))
    return {key: {**table[key], "about": about.get(key, table[key]["about"])} for key in kept}


def _trust(record: Mapping[str, Any], quick: bool) -> str:
    if quick:
        return f"to about {record['spacing_error']} diameters"
    return "" if record["converged"] else "NOT CONVERGED"


def _text(table: Mapping[str, Any]) -> str:
    """Return the table as JSON, a line an entry, with its fits."""
    return f'{{"entries": {{\n{_lines(table)}\n}},\n"fits": {{\n{_lines(fits(table))}\n}}}}\n'


def _lines(records: Mapping[str, Any]) -> str:
    """Return records as the lines of a JSON object, one each."""
    return ",\n".join(f"{json.dumps(key)}: {json.dumps(records[key])}" for key in records)
