"""The table: every entry solved and written as data beside the knots, in one command."""

from __future__ import annotations

import json
import math
import subprocess
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

from knotplot.cord_use.solver.entries import entries
from knotplot.cord_use.solver.solve import Solved, solve

HERE = Path(__file__).parent
TABLE = HERE.parent.parent / "knots" / "solved.json"


def solved(name: str) -> tuple[str, dict[str, Any]]:
    """Solve one entry and return it as it stands in the table; numbers are in cord diameters."""
    entry = next(each for each in entries() if each.name == name)
    return name, {"about": entry.about, **_record(solve(entry.start()))}


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


def make(names: list[str], told: Callable[[str], None], processes: int = 2) -> None:
    """Solve the entries of those names (all, if none is given) and write them into the table.

    `told` hears of each entry as it is done.
    """
    known = [entry.name for entry in entries()]
    wanted = [name for name in known if not names or name in names]
    table: dict[str, Any] = json.loads(TABLE.read_text()) if TABLE.exists() else {}
    with ProcessPoolExecutor(processes) as pool:
        for name, record in pool.map(solved, wanted):
            table[name] = record
            told(f"{name} {record['excess']} {'' if record['converged'] else 'NOT CONVERGED'}")
            lines = [
                f"{json.dumps(key)}: {json.dumps(table[key])}" for key in known if key in table
            ]
            TABLE.write_text("{\n" + ",\n".join(lines) + "\n}\n")
