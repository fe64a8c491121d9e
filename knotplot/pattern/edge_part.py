"""The line that a piece is trimmed along, as a pattern says it."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise
from typing import Annotated

from pydantic import model_validator

from knotplot.curves.edge_profiles import PROFILES
from knotplot.discovery import hint
from knotplot.errors import Refusal
from knotplot.fields import Count, SignedLength, Spec, Written, wrong

MOST_SCALLOPS = 1000


def _share(value: object) -> float:
    number = -1.0
    if isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value) if abs(value) < 2 else -1.0
    if not 0.0 <= number <= 1.0:
        raise Refusal("not a number from 0 to 1", "write a number from 0 to 1")
    return number


Share = Annotated[float, Written(_share, None, {"type": "number", "minimum": 0, "maximum": 1})]


def _profile(value: object) -> str:
    if not isinstance(value, str) or value not in PROFILES:
        problem = "unknown word" if isinstance(value, str) else "not one of the choices"
        raise Refusal(problem, hint(value, PROFILES))
    return value


Profile = Annotated[str, Written(_profile, None, {"type": "string", "enum": list(PROFILES)})]


class LowerEdge(Spec):
    """The line that the piece is trimmed along.

    Example: `{profile: parabola, rise: 9 cm}`.
    """

    profile: Profile = "straight"
    """The shape of the line; with `straight`, or without a rise, it is level.
    Example: `parabola`.
    """
    rise: SignedLength = Fraction(0)
    """How far the line rises from the lowest to the highest place: above 0 an arch, highest in the
    middle; below 0 a point, lowest in the middle.
    Example: `9 cm`, `-30 cm`.
    """
    count: Count | None = None
    """How many scallops stand side by side; only with `profile: scallops`, which needs it.
    Example: `5`.
    """
    at: tuple[tuple[Share, Share], ...] | None = None
    """The places that a line of your own goes through; only with `profile: points`, which needs it.
    Each is [x, f]: x from 0 at the left side to 1 at the right, f from 0 at the lowest to 1 at the
    highest; both ends of each are reached.
    Example: `[[0, 0], [0.5, 1], [1, 0]]`.
    """

    @model_validator(mode="after")
    def _check(self) -> LowerEdge:
        for profile, key, example in (
            ("scallops", "count", "count: 5"),
            ("points", "at", "at: [[0, 0], [0.5, 1], [1, 0]]"),
        ):
            mine = getattr(self, key) is not None
            if self.profile == profile and not mine:
                other = {"count": "at", "at": "count"}[key]
                extra = getattr(self, other) is not None
                problem = f"{profile} without '{key}'" + f", but with '{other}'" * extra
                raise wrong(problem, f"give '{example}'" + f" and leave '{other}' out" * extra)
            if mine and self.profile != profile and self.profile not in ("scallops", "points"):
                remedy = f"leave '{key}' out, or use 'profile: {profile}'"
                raise wrong(f"'{key}' with profile {self.profile}", remedy)
        if self.count is not None and self.at is not None:
            other = "at" if self.profile == "scallops" else "count"
            raise wrong(f"'{other}' with profile {self.profile}", f"leave '{other}' out")
        if self.count is not None and self.count > MOST_SCALLOPS:
            raise wrong(f"{self.count} scallops", f"use {MOST_SCALLOPS} at most")
        if self.at is not None:
            self._check_points(self.at)
        return self

    @staticmethod
    def _check_points(at: tuple[tuple[float, float], ...]) -> None:
        xs, fs = [x for x, _ in at], [f for _, f in at]
        if len(at) < 2 or (xs[0], xs[-1]) != (0.0, 1.0):
            raise wrong("points that don't reach both ends", "begin 'at' with x 0, end with x 1")
        if any(not b > a for a, b in pairwise(xs)):
            raise wrong("x doesn't rise from point to point", "put the points in order of x")
        if (min(fs), max(fs)) != (0.0, 1.0):
            raise wrong("points that don't reach f 0 and f 1", "let f run from 0 to 1")

    @property
    def straight(self) -> bool:
        """Tell whether it is a straight edge: no profile, or no rise."""
        return self.profile == "straight" or self.rise == 0


def rise_fault(edge: LowerEdge, width: Fraction, drop: Fraction) -> tuple[str, str] | None:
    """Return (problem, remedy) where the rise doesn't suit a piece so wide and deep (mm)."""
    rise = abs(edge.rise)
    if edge.straight:
        return None
    if rise >= drop:
        remedy = f"give a rise of less than {_cm(drop, 0)}, or a drop of more than {_cm(rise, 1)}"
        return ("a rise as tall as the drop", remedy)
    if edge.profile == "arc" and rise > width / 2:
        remedy = f"use a rise of {_cm(width / 2, 0)} at most, or 'profile: parabola'"
        return ("a rise over half the width, more than an arc has", remedy)
    return None


def _cm(mm: Fraction, up: int) -> str:
    """Write a length as a limit in cm, to a tenth of a millimetre; rounded up or down."""
    tenths = math.ceil(mm * 10) if up else math.floor(mm * 10)
    return f"{tenths / 100:.10g} cm"
