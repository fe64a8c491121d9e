"""English: a sentence for every notice, a function a key; a file a theme.

Another language is one more package like this one, with the same public names and keys. Sentences
begin with a small letter and end without a full stop: what prints them adds both.
"""

from __future__ import annotations

from collections.abc import Mapping

from knotplot.notice import Notice
from knotplot.notices.en import colours, cords, cutting, sections, support, swatches, widths
from knotplot.notices.en.terms import FILE, TRADE, Sentence, Terms

__all__ = ["FILE", "SENTENCES", "TRADE", "say"]

#: The function that says a notice, by its key: it takes the terms, then the notice's values.
SENTENCES: Mapping[str, Sentence] = {
    sentence.__name__: sentence
    for sentence in (
        *swatches.SENTENCES, *sections.SENTENCES, *colours.SENTENCES, *cords.SENTENCES,
        *cutting.SENTENCES, *widths.SENTENCES, *support.SENTENCES,
    )
}  # fmt: skip


def say(notice: Notice, terms: Terms) -> str:
    """Return the sentence for a notice in those terms; raise KeyError where there is none."""
    return SENTENCES[notice.key](terms, **notice.values)
