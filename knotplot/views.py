"""The views of a piece by name, and the options that each of them takes.

A view takes an option where its function has a parameter of that name.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from inspect import signature

from knotplot.discovery import Registry, hint
from knotplot.drawing.knot_view import knot_view
from knotplot.drawing.shapes import Drawing
from knotplot.errors import Refusal, UsageError, shown
from knotplot.geometry.layout import Layout

#: The views by name; a file of `drawing` names its own in `VIEW`, found when first asked.
VIEWS: Mapping[str, Callable[..., Drawing]] = Registry(
    "knotplot.drawing", lambda module: [module.VIEW] if hasattr(module, "VIEW") else []
)
KNOT_VIEW = "knot:"
#: The options of views as they are called in a message.
OPTIONS = {
    "rows": "choice of rows",
    "lanes": "choice of lanes",
    "text_mm": "size of text",
    "scale": "scale",
    "every_mm": "distance between marks",
    "language": "choice of language",
    "step": "steps",
    "left_handed": "left-handed edition",
}
_OF_KNOTS = ("step", "left_handed", "language")
_SPANS = ("rows", "lanes")
_MEASURES = ("text_mm", "scale", "every_mm")

Options = Mapping[str, object]


def options_of(view: str) -> tuple[str, ...]:
    """Return the names of the options that a view takes."""
    if view.startswith(KNOT_VIEW):
        return _OF_KNOTS
    return tuple(name for name in signature(VIEWS[view]).parameters if name in OPTIONS)


def check_view(view: str, options: Options) -> None:
    """Raise `UsageError` for a view that there is not, and for options that it doesn't take."""
    if view.startswith(KNOT_VIEW) and view != KNOT_VIEW:
        _check_options(view, options)
        knot_drawing(view.removeprefix(KNOT_VIEW), 4.0, options, KNOT_VIEW)
    elif view not in VIEWS:
        known = ", ".join(VIEWS)
        raise UsageError(f"there is no view {shown(view)}; use {known} or {KNOT_VIEW}NAME")
    else:
        _check_options(view, options)


def view_drawing(view: str, layout: Layout, options: Options, language: str) -> Drawing:
    """Return a view of a piece, in that language unless the options name another.

    Raises `UsageError` where `check_view` does, and for rows and lanes that the piece hasn't;
    `Refusal` for a piece of too many ties.
    """
    check_view(view, options)
    if "language" in options_of(view):
        options = {"language": language, **options}
    if view.startswith(KNOT_VIEW):
        diameter = layout.piece.gauge.diameter
        return knot_drawing(view.removeprefix(KNOT_VIEW), diameter, options, KNOT_VIEW)
    return VIEWS[view](layout, **options)


def knot_drawing(name: str, diameter: float, options: Options, before: str = "") -> Drawing:
    """Return how a knot is tied or a way of working is worked, in cord of that diameter (mm).

    The options are `step`, `left_handed` and `language`. Raises `UsageError` for an unknown name
    or step; `before` stands before the name in its message.
    """
    _check_options(KNOT_VIEW, options)
    step, language = options.get("step"), options.get("language", "en")
    if step is not None and (isinstance(step, bool) or not isinstance(step, int)):
        raise UsageError(f"step {shown(step)}: not the number of a step; use 1 or more")
    try:
        return knot_view(name, diameter, step, bool(options.get("left_handed")), str(language))
    except Refusal as refusal:
        raise UsageError(f"{before}{shown(name)}: {refusal}") from None


def _check_options(view: str, options: Options) -> None:
    takes = options_of(view)
    for name, value in options.items():
        if name not in OPTIONS:
            raise UsageError(f"no view has an option {shown(name)}; {hint(name, OPTIONS)}")
        if name not in takes:
            raise UsageError(f"view {view} has no {OPTIONS[name]}; {_remedy(name)}")
        if name in _SPANS:
            _check_span(name, value)
        elif name in _MEASURES:
            _check_measure(name, value)


def _remedy(option: str) -> str:
    have = [view for view in VIEWS if option in options_of(view)]
    return f"use {' or '.join(have)}" if have else f"only a knot's has: use {KNOT_VIEW}NAME"


def _check_span(name: str, value: object) -> None:
    ends = tuple(value) if isinstance(value, tuple | list) else ()
    if len(ends) != 2 or not all(type(end) is int for end in ends):
        raise UsageError(f"{name} is {shown(value)}: give the first and the last, as (3, 8)")


def _check_measure(name: str, value: object) -> None:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not 0.0 < float(str(value)) < math.inf:
        raise UsageError(f"{name} is {shown(value)}: use a number above 0")
