"""Texts by their key: what to do, hints, common faults."""

from __future__ import annotations

from knotplot.instructions.en import finishing, mounting, sections
from knotplot.instructions.en.names import fault_of
from knotplot.instructions.records import Note
from knotplot.tying.names import capital, counted
from knotplot.units import both

_NOUNS = {"back": "row", "cut": "cord", "cords": "cord", "after": "cord"}  # of values that count
# Of a mount or a section that has no words of its own.
_ANY_FAULT = "A slope: hold a ruler level along the first row, and along every few rows after it."
TEXTS = {
    "do": {**mounting.DO, **sections.DO, **finishing.DO},
    "hint": {**sections.HINTS, **finishing.HINTS},
    "fault": {**mounting.FAULTS, **sections.FAULTS, **finishing.FAULTS},
}
_LABELS = {"do": "", "hint": "Hint: ", "fault": "Common faults: "}


def note(record: Note) -> str:
    """Return a text, its values filled in; raise KeyError for one there is none of."""
    values = {name: _value(name, value) for name, value in record.values}
    texts = TEXTS[record.manner]
    if record.manner == "do" and record.key.startswith("mount_") and record.key not in texts:
        return mounting.mounted(dict(record.values), values)
    if record.manner == "fault" and record.key not in texts:
        return _LABELS["fault"] + _ANY_FAULT
    text = texts[record.key].format(**values)
    return _LABELS[record.manner] + capital(text)


def _value(name: str, value: float | int | str) -> str:
    if isinstance(value, str):
        if name == "knot":
            return fault_of(value)
        return mounting.support_name(value) if name == "support" else value
    if isinstance(value, float):
        return both(value)
    return counted(value, _NOUNS[name]) if name in _NOUNS else str(value)
