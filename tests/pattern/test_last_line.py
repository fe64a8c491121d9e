"""A text that ends too soon is told at its last line, never at one behind it."""

from __future__ import annotations

import pytest

from knotplot.errors import PatternError
from knotplot.pattern.load import loads


@pytest.mark.parametrize("end", ["", "\n", "\n\n  \n"])
@pytest.mark.parametrize("text", ["knotplot: 1\nsize: {width: 1", "knotplot: 1\ntitle: 'a"])
def test_what_ends_too_soon_is_told_at_the_last_line(text: str, end: str) -> None:
    with pytest.raises(PatternError) as caught:
        loads(text + end)
    assert [fault.line for fault in caught.value.faults] == [2]
