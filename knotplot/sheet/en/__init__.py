"""English: the words of the sheet's pages, a file a part. The instructions have their own.

Another language is one more package like this one, with the same keys. What is told of tools, of
measuring, care and safety is common practice of the trade.
"""

from __future__ import annotations

from types import MappingProxyType

from knotplot.sheet.en import (
    cutting,
    front,
    knot_sheet,
    making,
    materials,
    quote,
    sizing,
    support,
    techniques,
)

TEXTS = MappingProxyType(
    {
        **front.TEXTS,
        **materials.TEXTS,
        **cutting.TEXTS,
        **sizing.TEXTS,
        **making.TEXTS,
        **quote.TEXTS,
        **support.TEXTS,
        **knot_sheet.TEXTS,
        **techniques.TEXTS,
    }
)
LISTS = MappingProxyType({**sizing.LISTS, **making.LISTS})
PAIRS = MappingProxyType({**sizing.PAIRS, **making.PAIRS})
