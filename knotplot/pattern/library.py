"""Patterns to begin from: the shipped ones, and a small one with a comment at each key.

The shipped ones stand in the folder `patterns` of the repository; an installed package has them as
`knotplot/patterns`.
"""

from __future__ import annotations

from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

from knotplot.discovery import hint, read_data
from knotplot.errors import UsageError, shown

_ENDING = ".yaml"


def shipped() -> tuple[str, ...]:
    """Return the names of the patterns that come with knotplot, sorted."""
    home = _home()
    names = () if home is None else (entry.name for entry in home.iterdir())
    return tuple(sorted(name.removesuffix(_ENDING) for name in names if name.endswith(_ENDING)))


def starter(name: str | None = None) -> str:
    """Return the text of a pattern to begin from.

    `name` is that of a shipped one; without it, the pattern is small, with a comment at each key.
    Raises `UsageError` for a name that no shipped pattern has.
    """
    if name is None:
        return read_data("knotplot.pattern", f"starter{_ENDING}").decode()
    home, names = _home(), shipped()
    if home is None or name not in names:
        raise UsageError(f"no pattern {shown(name)} comes with knotplot; {hint(name, names)}")
    return (home / f"{name}{_ENDING}").read_text("utf-8")


def _home() -> Traversable | None:
    """Return the folder of the shipped patterns; None where they didn't come with the package."""
    installed = resources.files("knotplot") / "patterns"
    if installed.is_dir():
        return installed
    checkout = Path(__file__).parents[2]
    return checkout / "patterns" if (checkout / "pyproject.toml").is_file() else None
