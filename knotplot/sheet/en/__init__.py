"""English: the words of the sheet's pages, a file a part, found by what it holds.

Another language is one more package like this one, with the same keys. What is told of tools, of
measuring, care and safety is common practice of the trade.
"""

from __future__ import annotations

import sys
from types import MappingProxyType

from knotplot.discovery import collect, modules

_FILES = modules(sys.modules[__name__])
TEXTS = MappingProxyType(collect(_FILES, lambda file: getattr(file, "TEXTS", {}).items()))
LISTS = MappingProxyType(collect(_FILES, lambda file: getattr(file, "LISTS", {}).items()))
PAIRS = MappingProxyType(collect(_FILES, lambda file: getattr(file, "PAIRS", {}).items()))
