"""knotplot: from a parametric macramé pattern to everything its maker needs.

One way, no stage looks back:

    pattern -> tying -> Piece -> geometry -> Layout -+-> materials ------+
                                                     +-> instructions ---+-> sheet -> renderers
                                                     +-> drawing views --+

    import knotplot
    piece = knotplot.build(knotplot.load("curtain.yaml", size="tall"))
    piece.figures()["strands"]["count"]
    piece.draw("chart").save("chart.svg")
    piece.sheet().pdf("sheet.pdf")

Millimetres inside everywhere; x runs right from the left edge, y down from the top of the support.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from knotplot.api import WorkedPiece, build, knot, knot_list, knot_sheet, technique
    from knotplot.errors import (
        Fault,
        KnotplotError,
        OutputError,
        PatternError,
        Refusal,
        UsageError,
    )
    from knotplot.figure_types import Figures, figures_schema
    from knotplot.output import Document, Picture
    from knotplot.pattern.library import shipped, starter
    from knotplot.pattern.load import load, loads
    from knotplot.pattern.models import Pattern
    from knotplot.pattern.schema import json_schema

__version__ = "0.1.0"

__all__ = [
    "Document",
    "Fault",
    "Figures",
    "KnotplotError",
    "OutputError",
    "Pattern",
    "PatternError",
    "Picture",
    "Refusal",
    "UsageError",
    "WorkedPiece",
    "build",
    "figures_schema",
    "json_schema",
    "knot",
    "knot_list",
    "knot_sheet",
    "load",
    "loads",
    "shipped",
    "starter",
    "technique",
]

# Where each name is found: loaded on first use, so that `import knotplot` costs next to nothing.
_HOMES = {
    **dict.fromkeys(
        ("WorkedPiece", "build", "knot", "knot_list", "knot_sheet", "technique"), "knotplot.api"
    ),
    **dict.fromkeys(("Figures", "figures_schema"), "knotplot.figure_types"),
    **dict.fromkeys(("Document", "Picture"), "knotplot.output"),
    **dict.fromkeys(("load", "loads"), "knotplot.pattern.load"),
    **dict.fromkeys(("shipped", "starter"), "knotplot.pattern.library"),
    "Pattern": "knotplot.pattern.models",
    "json_schema": "knotplot.pattern.schema",
}


def __getattr__(name: str) -> object:
    """Return a public name from its home, and keep it."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    import importlib

    thing = getattr(importlib.import_module(_HOMES.get(name, "knotplot.errors")), name)
    globals()[name] = thing
    return thing


def __dir__() -> list[str]:
    """Return the public names, whether they are loaded yet or not."""
    return __all__
