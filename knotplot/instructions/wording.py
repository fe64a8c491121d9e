"""What a language says for one record: its text, apart from the label or number before it."""

from __future__ import annotations

from typing import NamedTuple


class Wording(NamedTuple):
    """A text, the `label` before it (with no colon), or its `number` (as 3, or 4–7)."""

    body: str
    label: str = ""
    number: str = ""
