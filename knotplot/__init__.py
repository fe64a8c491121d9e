"""knotplot: from a parametric macramé pattern to everything its maker needs."""

__version__ = "0.1.0"
