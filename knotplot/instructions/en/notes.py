"""Texts by their key: what to do, hints, common faults."""

from __future__ import annotations

from knotplot.instructions.en import finishing, mounting, sections
from knotplot.instructions.en.names import LANGUAGE, fault_of, support_name
from knotplot.instructions.records import Note
from knotplot.instructions.wording import Wording
from knotplot.kinds import kind_words
from knotplot.tying.names import capital, counted
from knotplot.units import both

_NOUNS = {"back": "row", "cut": "cord", "cords": "cord", "after": "cord"}  # of values that count
TEXTS = {
    "do": {**mounting.DO, **sections.DO, **finishing.DO},
    "hint": {**sections.HINTS, **finishing.HINTS},
    "fault": finishing.FAULTS,
}
_LABELS = {"do": "", "hint": "Hint", "fault": "Common faults"}


def note(record: Note) -> Wording:
    """Return a text, its values filled in; raise KeyError for one there is none of."""
    text = _of_kind(record) if record.kind else TEXTS[record.manner][record.key]
    values = {name: _value(name, value) for name, value in record.values}
    return Wording(capital(text.format(**values)), _LABELS[record.manner])


def _of_kind(record: Note) -> str:
    words = kind_words(record.kind, LANGUAGE)
    if record.key == "fault_uneven":
        return getattr(words, "fault_uneven", "") or words.fault
    text: str = getattr(words, record.key)
    return text


def _value(name: str, value: float | int | str) -> str:
    if isinstance(value, str):
        if name == "knot":
            return fault_of(value)
        return support_name(value) if name == "support" else value
    if isinstance(value, float):
        return both(value)
    return counted(value, _NOUNS[name]) if name in _NOUNS else str(value)
